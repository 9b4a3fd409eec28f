/* Where, in the progress of a notebook, what is knitted of a column stands. */

import type { Knitted, Progress } from './document.ts';
import { own } from './record.ts';

/** What has been knitted of a column; with none, what is of whichever is chosen. */
export function knittedOf(progress: Progress | undefined, column: string | undefined): Knitted | undefined {
  return progress && partOf(progress, column, true);
}

/** Whether progress is kept for each column. */
export const isByColumn = (progress: Progress | undefined): boolean =>
  (progress?.of ?? progress?.others) !== undefined;

/** Where what is knitted of a column stands; whether what is of no column is of this one is to be said. */
export function partOf(
  progress: Progress,
  column: string | undefined,
  isItsOwn: boolean,
): Knitted | undefined {
  if (column === undefined) return progress;
  const { of = isItsOwn ? column : undefined, others } = progress;
  return own(others, column) ?? (of === column ? progress : undefined);
}
