/*
 * Which notebook the page shows stands in the address after `#n=`, so that each tab has its own and the browser's
 * back button goes from notebook to notebook. The last one is remembered for the next visit.
 */

const LAST = 'ellwand last notebook';

/** The id in the address, or the one looked at last. */
export function idInAddress(): string | undefined {
  return /^#n=([A-Za-z0-9_-]+)$/.exec(location.hash)?.[1];
}

/** The notebook looked at last on this device. */
export function lastId(): string | undefined {
  try {
    return localStorage.getItem(LAST) ?? undefined;
  } catch {
    return undefined;
  }
}

/** Puts a notebook into the address; `replace` where there is nothing to go back to. */
export function putInAddress(id: string, replace: boolean): void {
  if (idInAddress() === id) return;
  if (replace) history.replaceState(null, '', `#n=${id}`);
  else history.pushState(null, '', `#n=${id}`);
  try {
    localStorage.setItem(LAST, id);
  } catch {
    // Without it the first notebook of the list opens next time.
  }
}
