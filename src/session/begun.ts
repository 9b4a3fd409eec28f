/* How far a step is knitted, as the progress of a notebook keeps it, for each column where the steps hang on the column. */

import { isByColumn, type Knitted, knittedOf, own } from '../notebook/index.ts';
import type { StepValues } from './step-values.ts';

/** Where progress keeps that a plan was worked out again: after which row, and with how many stitches. */
export const atKey = (step: string): string => `${step}.at`;
export const countKey = (step: string): string => `${step}.count`;

/** Where it keeps how often all rows of a step were done before it was begun again, as for a second sleeve. */
export const timesKey = (step: string): string => `${step}.times`;

/** How often all rows of a step were done before. */
export const timesDone = (progress: Knitted | undefined, step: string): number =>
  own(progress?.rows, timesKey(step)) ?? 0;

/** Rows of a step that are done. */
export function rowsDone(progress: Knitted | undefined, step: string): number {
  return progress && Object.hasOwn(progress.rows, step) ? (progress.rows[step] ?? 0) : 0;
}

/** Whether the plan of a step was worked out again from a count that was another. */
export const isWorkedAgain = (progress: Knitted | undefined, step: string): boolean =>
  own(progress?.rows ?? {}, atKey(step)) !== undefined;

/** Whether a step is ticked, or rows of it are done: then its counts are on the needles. */
export function isBegun(progress: Knitted | undefined, step: string): boolean {
  const again = isWorkedAgain(progress, step) || timesDone(progress, step) > 0;
  return again || own(progress?.ticked ?? {}, step) !== undefined || rowsDone(progress, step) > 0;
}

/** The column whose progress the steps are told with ("" while none is chosen); undefined where there is one for all. */
export const columnTold = ({ live, column }: StepValues): string | undefined =>
  isByColumn(live.notebook.progress) ? (live.columns[column] ?? '') : undefined;

/** What has been knitted of what the steps are told for. */
export const knittedNow = (values: StepValues): Knitted | undefined =>
  knittedOf(values.live.notebook.progress, columnTold(values));
