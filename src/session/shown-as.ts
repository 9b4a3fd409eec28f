/*
 * The unit a cell asks to be shown in. It may be so only for a yes: "rnd when worked_in_the_round" shows rounds where
 * that cell says yes, in its column, and rows elsewhere, typed or worked out. A plan that asks for rounds, or
 * was given its rows in rounds, is told in rounds.
 */

import { readUnit, type Shown } from '../quantity/index.ts';
import type { Live } from './live.ts';

const WHEN = /^(.*?)\s+when\s+(\S+)$/u;

/** The name of the cell that must say yes for a cell to be shown as it asks; undefined where it always is. */
export function shownWhen(shown: string | undefined): string | undefined {
  return shown === undefined ? undefined : WHEN.exec(shown.trim())?.[2];
}

/** The same text with the cell it waits for under another name. */
export function shownRenamed(shown: string, old: string, renamed: string): string {
  return shownWhen(shown) === old ? shown.replace(/\S+\s*$/u, renamed) : shown;
}

/** The unit a cell asks for in a column; undefined where it asks for none, or not there. */
export function shownAs(live: Live, id: string, column: number): Shown | undefined {
  const shown = live.cell(id)?.shown;
  if (shown === undefined) return undefined;
  const [, unit = shown, name] = WHEN.exec(shown.trim()) ?? [];
  if (name === undefined || saysYes(live, name, column)) return readUnit(unit);
  return unit === 'rnd' ? readUnit('row') : undefined;
}

/** Whether a cell says yes in a column. */
function saysYes(live: Live, name: string, column: number): boolean {
  const id = live.sheet.idOf(name);
  if (id === undefined) return false;
  const value = live.sheet.value(id, live.sheet.info(id).each ? column : 0);
  return value.kind === 'truth' && value.truth;
}

/** Whether the rows of a cell's plan are told as rounds: as it asks, or as they were given to it. */
export function isInRounds(live: Live, id: string, column: number): boolean {
  return (shownAs(live, id, column) ?? live.sheet.info(id).type.shown)?.label === 'rnd';
}
