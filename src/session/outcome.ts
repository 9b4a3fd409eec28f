/*
 * What a change being tried does, in one line: first what it decides otherwise (sizes, yes or no), then the counts she
 * would knit, which are those that the steps and the drawings tell; where they tell none, the counts at the end of the
 * sheet.
 */

import { isDecided, spacedName } from '../formula/index.ts';
import { allCells } from '../notebook/index.ts';
import { printed } from '../quantity/index.ts';
import type { Frozen, Value } from '../sheet/index.ts';
import { appliesNow, cellsNamed } from './fill-step.ts';
import type { Live } from './live.ts';
import { columnFor, comparing, printAt, sameValue, unechoed } from './show.ts';
import { stepValues } from './step-values.ts';

interface Moved {
  readonly id: string;
  readonly old: Value;
  readonly now: Value;
  readonly weight: number;
}

/** The cells that the steps which apply and the drawings tell. */
function toldCells(live: Live): ReadonlySet<string> {
  const { steps, drawings } = live.notebook;
  const values = stepValues(live, undefined);
  const names = [
    ...steps.filter((step) => appliesNow(values, step) !== false).flatMap((step) => cellsNamed(step.text)),
    ...drawings.flatMap((drawing) => Object.values(drawing.binds)),
  ];
  return new Set(names.flatMap((name) => live.sheet.idOf(name) ?? []));
}

function weightOf(live: Live, id: string, old: Value, now: Value, toldNow: ReadonlySet<string>): number {
  if (old.kind === 'label' || now.kind === 'label') return 0;
  if (old.kind !== now.kind) return now.kind === 'problem' ? 1 : 3;
  if (now.kind === 'truth') return live.cell(id)?.says ? 2 : 9; // One that says nothing only serves other cells.
  if (now.kind !== 'quantity' || !isDecided(now.type)) return 9;
  if (toldNow.has(id)) return 4;
  return live.sheet.usedBy(id).length === 0 ? 5 : 6;
}

function told(live: Live, moved: Moved, column: number): string {
  const name = spacedName(live.sheet.nameOf(moved.id));
  const text = (value: Value) =>
    value.kind === 'empty'
      ? 'nothing'
      : value.kind === 'waiting'
        ? 'not known'
        : value.kind === 'problem'
          ? 'a problem'
          : printed(printAt(live, moved.id, column, value));
  if (moved.now.kind === 'quantity' && moved.old.kind === 'quantity' && isDecided(moved.now.type)) {
    const by = moved.now.value - moved.old.value;
    const count = unechoed(name, printAt(live, moved.id, column, { ...moved.now, value: Math.abs(by) }));
    return `${name}: ${printed(count)} ${comparing(by, moved.now)}`;
  }
  return `${name}: ${text(moved.old)} → ${text(moved.now)}`;
}

/** The outcome of a trial in one line; "" where nothing that matters moved. */
export function outcomeOf(live: Live, base: Frozen, skip: ReadonlySet<string>): string {
  const moved: Moved[] = [];
  const toldNow = toldCells(live);
  for (const { id } of allCells(live.notebook)) {
    const info = live.sheet.info(id);
    if (skip.has(id) || info.typed) continue;
    const column = info.each ? columnFor(live, undefined) : 0;
    const now = live.sheet.value(id, column);
    const old = base.value(id, column);
    if (old && !sameValue(old, now))
      moved.push({ id, old, now, weight: weightOf(live, id, old, now, toldNow) });
  }
  const counts = moved.some(({ weight }) => weight === 4) ? 4 : 8;
  const best = moved.filter(({ weight }) => weight <= counts).sort((a, b) => a.weight - b.weight);
  return best
    .slice(0, 4)
    .map((m) => told(live, m, live.sheet.info(m.id).each ? columnFor(live, undefined) : 0))
    .join('; ');
}
