/*
 * Outcomes side by side: the same cells in two or more sheets (a notebook as it stands and with this or that tried), each
 * in its own chosen column, and where they differ.
 */

import { same } from '../quantity/index.ts';
import type { Sheet, Value } from '../sheet/index.ts';
import { type Lane, laneOf } from './lanes.ts';

/** One cell in every sheet. */
export interface Outcome {
  readonly id: string;
  /** Where it is read in each sheet, and what it holds there; undefined where a sheet has no such cell. */
  readonly lanes: readonly (Lane | undefined)[];
  readonly values: readonly (Value | undefined)[];
  /** For each sheet whether its value is another than the first sheet's. */
  readonly differs: readonly boolean[];
}

/** What some cells come to in each sheet. Linear in cells × sheets. */
export function outcomesIn(sheets: readonly Sheet[], ids: readonly string[]): readonly Outcome[] {
  return ids.map((id) => {
    const lanes = sheets.map((sheet) =>
      sheet.has(id) ? laneOf(sheet, id, Math.max(0, sheet.chosenColumn)) : undefined,
    );
    const values = lanes.map((lane, s) => (lane ? sheets[s]?.value(id, lane.column) : undefined));
    return { id, lanes, values, differs: values.map((value) => !isSame(value, values[0])) };
  });
}

/** Whether two values are the same to a knitter; numbers as near as the language tells them apart. */
function isSame(a: Value | undefined, b: Value | undefined): boolean {
  if (a?.kind === 'quantity' && b?.kind === 'quantity')
    return a.type.dimension === b.type.dimension && same(a.value, b.value);
  if (a?.kind === 'plan' && b?.kind === 'plan') return a.plan.text === b.plan.text;
  return JSON.stringify(a) === JSON.stringify(b);
}
