/*
 * What was typed as the count on the needles of a step and not gone on with yet. It is kept in this browser until it is
 * rubbed out or gone on with, and stands there when the notebook is opened again.
 */

import { forget, recall, remember } from '../remembered.ts';

const keyOf = (notebook: string, step: string): string => `ellwand.count ${notebook} ${step}`;

/** What was typed at a step; "" where nothing was. */
export const typedCount = (notebook: string, step: string): string => recall(keyOf(notebook, step)) ?? '';

/** Keeps what is typed at a step; "" forgets it. */
export function keepTypedCount(notebook: string, step: string, text: string): void {
  if (text.trim() === '') forget(keyOf(notebook, step));
  else remember(keyOf(notebook, step), text);
}
