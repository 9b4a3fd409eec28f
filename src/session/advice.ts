/*
 * Advice: what is said before the knitting begins, as that a count of one's own would fit better. It stands with the
 * steps and is none of them: it has no number and no box, nothing of it is on the needles, and once a step is begun it
 * is no longer said.
 */

import type { Notebook, Step } from '../notebook/index.ts';
import { isBegun } from './begun.ts';

/** Whether a step is advice. */
export const isAdvice = ({ kind }: Step): boolean => kind === 'advice';

/** Whether a step of a notebook is begun. */
export function isKnitting({ steps, progress }: Notebook): boolean {
  return steps.some((step) => !isAdvice(step) && isBegun(progress, step.id));
}
