/*
 * What is on the needle while an edging goes round corners. Its plan counts the extra joins with the stitches they wait
 * on; each that is still to come is no stitch on the needle, and where the corners are only the knitter knows.
 */

import type { Plan } from '../formula/index.ts';
import { countAt } from './plan.ts';

/** The fewest and the most stitches there may be. */
export type Range = readonly [fewest: number, most: number];

/** Of `after` stitches and extra joins, with `corner` extra joins in all and so many joins done. */
export const rangeOf = (after: number, corner: number, joins: number): Range => [
  Math.max(0, after - corner),
  Math.min(after, after - corner + joins),
];

/** What may be on the needle after `row` of a plan; the two differ only for an edging that goes round corners. */
export function onNeedle(plan: Plan, row: number): Range {
  const after = countAt(plan, row);
  const { corner = 0, after_row = 0 } = plan.totals;
  if (corner === 0) return [after, after];
  return rangeOf(after, corner, Math.floor(row / 2) - Math.floor(after_row / 2));
}
