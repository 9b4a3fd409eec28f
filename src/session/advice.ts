/*
 * Advice: what is said before the knitting begins, as that a count of one's own would fit better. It stands with the
 * steps and is none of them: it has no number and no box, nothing of it is on the needles, and once a step is begun it
 * is no longer said.
 */

import type { Step } from '../notebook/index.ts';

/** Whether a step is advice. */
export const isAdvice = ({ kind }: Step): boolean => kind === 'advice';
