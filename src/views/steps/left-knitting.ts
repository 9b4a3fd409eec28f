/* Whether a phone was left at what there is to knit: it opens there again. A browser that keeps nothing opens at the sheet. */

import { forget, recall, remember } from '../remembered.ts';

const KEY = 'ellwand.knitting';

/** Whether this notebook was left at its steps. */
export const wasKnitting = (notebook: string): boolean => recall(KEY) === notebook;

/** Keeps that it is left at its steps, or at something else. */
export function keepKnitting(notebook: string, isThere: boolean): void {
  if (isThere) remember(KEY, notebook);
  else if (wasKnitting(notebook)) forget(KEY);
}
