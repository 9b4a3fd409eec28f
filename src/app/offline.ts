/** Keeps the app on the device, so that it opens without a network, and says when a newer version has arrived. */

/**
 * Registers the service worker, once the page has loaded. `onNewVersion` is called when a newer version lies
 * ready; it is handed a function that changes over to it and reloads the page.
 * Does nothing where there are no service workers or the page was opened from a file. Never throws.
 */
export function keepForOffline(onNewVersion: (changeOver: () => void) => void): void {
  if (!('serviceWorker' in navigator) || location.protocol === 'file:') return;
  const begin = () => {
    navigator.serviceWorker.register('./sw.js').then(
      (registration: ServiceWorkerRegistration | undefined) => {
        if (registration) watch(registration, onNewVersion); // Blocked workers resolve to nothing.
      },
      () => undefined, // Without it the app works as before, only not offline.
    );
  };
  if (document.readyState === 'complete') begin();
  else addEventListener('load', begin, { once: true });
}

function watch(
  registration: ServiceWorkerRegistration,
  onNewVersion: (changeOver: () => void) => void,
): void {
  const tell = (worker: ServiceWorker) => onNewVersion(() => changeOver(worker));
  if (registration.waiting && navigator.serviceWorker.controller) tell(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const worker = registration.installing;
    worker?.addEventListener('statechange', () => {
      // With no controller this is the first visit, and nothing is being replaced.
      if (worker.state === 'installed' && navigator.serviceWorker.controller) tell(worker);
    });
  });
}

function changeOver(worker: ServiceWorker): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  worker.postMessage('change over');
}
