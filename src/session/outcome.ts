/*
 * What a change being tried does, in one line: first what it decides otherwise (sizes, yes or no), then the counts
 * and lengths at the end of the sheet, nearest to what a knitter acts on.
 */

import { isDecided, spacedName } from '../formula/index.ts';
import { printed } from '../quantity/index.ts';
import type { Frozen, Value } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { columnFor, printAt, sameValue } from './show.ts';

interface Moved {
  readonly id: string;
  readonly old: Value;
  readonly now: Value;
  readonly weight: number;
}

function weightOf(live: Live, id: string, old: Value, now: Value): number {
  if (old.kind === 'label' || now.kind === 'label') return 0;
  if (old.kind !== now.kind) return now.kind === 'problem' ? 1 : 3;
  if (now.kind === 'truth') return 2;
  if (now.kind !== 'quantity' || !isDecided(now.type)) return 9;
  return live.sheet.usedBy(id).length === 0 ? 4 : 5;
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
    const count = printed(printAt(live, moved.id, column, { ...moved.now, value: Math.abs(by) }));
    return `${name}: ${count} ${by > 0 ? 'more' : 'less'}`;
  }
  return `${name}: ${text(moved.old)} → ${text(moved.now)}`;
}

/** The outcome of a trial in one line; "" where nothing that matters moved. */
export function outcomeOf(live: Live, base: Frozen, skip: ReadonlySet<string>): string {
  const moved: Moved[] = [];
  for (const id of live.sheet.cells) {
    const info = live.sheet.info(id);
    if (skip.has(id) || info.typed) continue;
    const column = info.each ? columnFor(live, undefined) : 0;
    const now = live.sheet.value(id, column);
    const old = base.value(id, column);
    if (old && !sameValue(old, now)) moved.push({ id, old, now, weight: weightOf(live, id, old, now) });
  }
  const best = moved.filter((m) => m.weight < 9).sort((a, b) => a.weight - b.weight);
  return best
    .slice(0, 4)
    .map((m) => told(live, m, live.sheet.info(m.id).each ? columnFor(live, undefined) : 0))
    .join('; ');
}
