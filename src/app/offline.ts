/** Keeps the app on the device, so that it opens without a network, and says when a newer version has arrived. */

/** What is told about versions. */
export interface Versions {
  /** A newer version lies ready; `changeOver` changes to it and reloads the page. */
  ready(changeOver: () => void): void;
  /** Another tab changed over to a newer version; this one should be loaded again before long. */
  changed(reload: () => void): void;
}

/**
 * Registers the service worker, once the page has loaded. Does nothing where there are no service workers or the
 * page was opened from a file. Never throws.
 */
export function keepForOffline(versions: Versions): void {
  if (!('serviceWorker' in navigator) || location.protocol === 'file:') return;
  const begin = () => {
    navigator.serviceWorker.register('./sw.js').then(
      (registration: ServiceWorkerRegistration | undefined) => {
        if (!registration) return; // Blocked workers resolve to nothing.
        watch(registration, versions);
        if (!savesData()) setTimeout(() => registration.active?.postMessage('keep the rest'), SETTLED);
      },
      () => undefined, // Without it the app works as before, only not offline.
    );
  };
  if (document.readyState === 'complete') begin();
  else addEventListener('load', begin, { once: true });
}

/** Milliseconds after which a page has settled, and what is large and seldom wanted may be fetched. */
const SETTLED = 20_000;

/** Whether the browser was asked to fetch no more than is needed. */
function savesData(): boolean {
  const { connection } = navigator as { readonly connection?: { readonly saveData?: boolean } };
  return connection?.saveData === true;
}

function watch(registration: ServiceWorkerRegistration, versions: Versions): void {
  const reload = () => location.reload();
  let isOurs = false;
  const tell = (worker: ServiceWorker) =>
    versions.ready(() => {
      isOurs = true;
      worker.postMessage('change over');
    });
  // With no controller this is the first visit, and nothing is being replaced.
  const isFirst = navigator.serviceWorker.controller === null;
  let hadFirst = !isFirst;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (isOurs) reload();
    else if (hadFirst) versions.changed(reload);
    hadFirst = true;
  });
  if (registration.waiting && !isFirst) tell(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const worker = registration.installing;
    worker?.addEventListener('statechange', () => {
      if (worker.state === 'installed' && navigator.serviceWorker.controller) tell(worker);
    });
  });
}
