/* Whether a phone was left at what there is to knit: it opens there again. A browser that keeps nothing opens at the sheet. */

const KEY = 'ellwand.knitting';

/** Whether this notebook was left at its steps. */
export function wasKnitting(notebook: string): boolean {
  try {
    return localStorage.getItem(KEY) === notebook;
  } catch {
    return false;
  }
}

/** Keeps that it is left at its steps, or at something else. */
export function keepKnitting(notebook: string, isThere: boolean): void {
  try {
    if (isThere) localStorage.setItem(KEY, notebook);
    else if (wasKnitting(notebook)) localStorage.removeItem(KEY);
  } catch {
    // Forgotten, then.
  }
}
