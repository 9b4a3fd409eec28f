/*
 * What steps are filled from. While a change is tried, steps keep to the notebook as it stands, so values come from
 * where they were frozen, and so does the chosen column, which may follow a cell.
 */

import type { Frozen, Value } from '../sheet/index.ts';
import type { Live } from './live.ts';

/** Where a step's values come from. */
export interface StepValues {
  readonly live: Live;
  /** Index of the chosen column; −1 where none is chosen. */
  readonly column: number;
  value(id: string, column: number): Value;
}

/** The same values, with another column for the chosen one. */
export const inColumn = ({ live, value }: StepValues, column: number): StepValues => ({
  live,
  value,
  column,
});

/** The column that is chosen when the cell it follows, if it follows one, holds what `value` says. */
function columnBy(live: Live, value: (id: string, column: number) => Value): number {
  const { chosen } = live.notebook;
  if (chosen === undefined || !('follow' in chosen)) return live.sheet.chosenColumn;
  const id = live.sheet.followed;
  const followed = id === undefined ? undefined : value(id, 0);
  if (followed?.kind !== 'label') return -1;
  const label = followed.text.toLowerCase();
  return live.sheet.columnLabels.findIndex((one) => one.toLowerCase() === label);
}

/** The values of now, or those that were frozen before a change was tried. */
export function stepValues(live: Live, frozen: Frozen | undefined): StepValues {
  if (!frozen)
    return { live, column: live.sheet.chosenColumn, value: (id, column) => live.sheet.value(id, column) };
  const value = (id: string, column: number) => frozen.value(id, column) ?? live.sheet.value(id, column);
  return { live, value, column: columnBy(live, value) };
}
