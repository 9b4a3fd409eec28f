/* How far a step is knitted, as the progress of a notebook keeps it. */

import { own, type Progress } from '../notebook/index.ts';

/** Where progress keeps that a plan was worked out again: after which row, and with how many stitches. */
export const atKey = (step: string): string => `${step}.at`;
export const countKey = (step: string): string => `${step}.count`;

/** Rows of a step that are done. */
export function rowsDone(progress: Progress | undefined, step: string): number {
  return progress && Object.hasOwn(progress.rows, step) ? (progress.rows[step] ?? 0) : 0;
}

/** Whether the plan of a step was worked out again from a count that was another. */
export const isWorkedAgain = (progress: Progress | undefined, step: string): boolean =>
  own(progress?.rows ?? {}, atKey(step)) !== undefined;

/** Whether a step is ticked, or rows of it are done: then its counts are on the needles. */
export function isBegun(progress: Progress | undefined, step: string): boolean {
  const again = isWorkedAgain(progress, step);
  return again || own(progress?.ticked ?? {}, step) !== undefined || rowsDone(progress, step) > 0;
}
