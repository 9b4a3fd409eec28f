/*
 * A value taken along into another notebook: as a text to type there, in the unit it is shown in, with how far off it can
 * be. "21.5 ± 0.25 st / 10 cm".
 */

import { doubtOf, laneOf } from '../doubt/index.ts';
import type { Live } from './live.ts';
import { unitAt } from './show.ts';
import { textAt, typedText } from './typed-text.ts';

/** The text of a cell's value in your size; undefined where there is no number, or no such cell. */
export function carriedText(live: Live, name: string): string | undefined {
  const { sheet } = live;
  const id = sheet.idOf(name);
  if (id === undefined) return undefined;
  const lane = laneOf(sheet, id, Math.max(0, sheet.chosenColumn));
  const value = sheet.value(id, lane.column);
  const { typed, each } = sheet.info(id);
  const column = each ? (live.columns[lane.column] ?? null) : null;
  if (typed) return value.kind === 'empty' ? '' : textAt(live, { cell: id, column });
  if (value.kind !== 'quantity') return undefined;
  const shown = unitAt(live, id, lane.column, value);
  const at = (size: number) => Number((size / shown.factor).toFixed(2)) * shown.factor;
  const { rootSumSquare } = doubtOf(sheet, lane);
  return typedText(at(value.value), at(rootSumSquare), shown);
}
