/*
 * What a change being tried does, in one line: first what it decides otherwise (sizes, yes or no), then the counts she
 * would knit and the lengths she would get, which are those that the steps and the drawings tell; where they tell none,
 * the counts at the end of the sheet.
 */

import { isDecided, spacedName } from '../formula/index.ts';
import { LENGTH, printed } from '../quantity/index.ts';
import type { Frozen, Value } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { columnFor, comparing, printAt, sameValue, unechoed } from './show.ts';
import { cellsNamed, isCalledFor } from './step-text.ts';
import { stepValues } from './step-values.ts';
import { unmovedOf } from './unmoved.ts';

interface Moved {
  readonly id: string;
  readonly old: Value;
  readonly now: Value;
  readonly weight: number;
}

/** The cells that the steps which apply and the drawings tell. */
export function toldCells(live: Live): ReadonlySet<string> {
  const { steps, drawings } = live.notebook;
  const values = stepValues(live, undefined);
  const names = [
    ...steps.filter((step) => isCalledFor(values, step) !== false).flatMap((step) => cellsNamed(step.text)),
    ...drawings.flatMap((drawing) => Object.values(drawing.binds)),
  ];
  return new Set(names.flatMap((name) => live.sheet.idOf(name) ?? []));
}

/** What matters first has the least weight. */
const WEIGHT = {
  label: 0,
  trouble: 1,
  truth: 2,
  kind: 3,
  count: 4,
  length: 5,
  last: 6,
  other: 7,
  never: 9,
} as const;

function weightOf(live: Live, id: string, old: Value, now: Value, toldNow: ReadonlySet<string>): number {
  if (old.kind === 'label' || now.kind === 'label') return isChoice(live, id) ? WEIGHT.label : WEIGHT.never;
  if (old.kind !== now.kind) return now.kind === 'problem' ? WEIGHT.trouble : WEIGHT.kind;
  // One that says nothing only serves other cells.
  if (now.kind === 'truth') return live.cell(id)?.says ? WEIGHT.truth : WEIGHT.never;
  if (now.kind !== 'quantity') return WEIGHT.never;
  if (!isDecided(now.type)) return isLength(now) && toldNow.has(id) ? WEIGHT.length : WEIGHT.never;
  if (toldNow.has(id)) return WEIGHT.count;
  return live.sheet.usedBy(id).length === 0 ? WEIGHT.last : WEIGHT.other;
}

/** Whether a label decides something: the size, or what other cells go by; not one that only words a step. */
function isChoice(live: Live, id: string): boolean {
  return (
    live.sheet.followed === id || live.sheet.usedBy(id).length > 0 || live.sheet.tree(id)?.kind === 'call'
  );
}

const isLength = ({ type }: Value & { kind: 'quantity' }): boolean => type.dimension === LENGTH;

/** A value as it is told, with its unit. */
export function textOf(live: Live, id: string, column: number, value: Value): string {
  if (value.kind === 'empty') return 'nothing';
  if (value.kind === 'waiting') return 'not known';
  return value.kind === 'problem' ? 'a problem' : printed(printAt(live, id, column, value));
}

function told(live: Live, { id, old, now }: Moved, column: number): string {
  const name = spacedName(live.sheet.nameOf(id));
  if (now.kind === 'quantity' && old.kind === 'quantity' && isDecided(now.type)) {
    const by = now.value - old.value;
    const count = unechoed(name, printAt(live, id, column, { ...now, value: Math.abs(by) }));
    return `${name}: ${printed(count)} ${comparing(by, now)}`;
  }
  return `${name}: ${textOf(live, id, column, old)} → ${textOf(live, id, column, now)}`;
}

/** So much is told in one line. */
export const MOST_TOLD = 4;

/**
 * The outcome of a trial in one line; "" where nothing that matters moved. Looked at is what may have moved, `ids`, in
 * any order and without what is tried itself: what never moved costs nothing.
 */
export function outcomeOf(live: Live, base: Frozen, ids: Iterable<string>): string {
  const moved: Moved[] = [];
  const toldNow = toldCells(live);
  const chosen = columnFor(live, undefined);
  for (const id of ids) {
    if (!live.sheet.has(id)) continue;
    const { typed, each } = live.sheet.info(id);
    if (typed) continue;
    const now = live.sheet.value(id, each ? chosen : 0);
    const old = base.value(id, each ? chosen : 0);
    if (!old || sameValue(old, now)) continue;
    const weight = weightOf(live, id, old, now, toldNow);
    if (weight !== WEIGHT.never) moved.push({ id, old, now, weight });
  }
  const columnOf = (id: string) => (live.sheet.info(id).each ? chosen : 0);
  // A value that prints alike has not moved to anybody's eyes.
  const isSeen = ({ id, old, now }: Moved) =>
    textOf(live, id, columnOf(id), old) !== textOf(live, id, columnOf(id), now);
  const outcome = chosenOf(moved, unmovedOf(live.notebook).places, isSeen)
    .map((m) => told(live, m, columnOf(m.id)))
    .join('; ');
  return outcome || stays(live);
}

/** What would be otherwise but is on the needles: "cast on: 96 sts, on the needles, not 88". */
function stays(live: Live): string {
  return [...live.pins.keys()]
    .filter((id) => live.sheet.has(id))
    .flatMap((id) => {
      const column = live.sheet.info(id).each ? columnFor(live, undefined) : 0;
      const [now, free] = [live.sheet.value(id, column), live.sheet.unpinned(id, column)];
      if (!live.sheet.isPinned(id, column) || sameValue(now, free)) return [];
      const name = spacedName(live.sheet.nameOf(id));
      const print = (value: Value) => printed(printAt(live, id, column, value));
      return [`${name} stays ${print(now)}, which are on the needles, not ${print(free)}`];
    })
    .slice(0, MOST_TOLD)
    .join('; ');
}

type IsSeen = (moved: Moved) => boolean;

/** What is told of all that moved: the weightiest, and among them a length she would get, where one moved. */
function chosenOf(
  moved: readonly Moved[],
  places: ReadonlyMap<string, number>,
  isSeen: IsSeen,
): readonly Moved[] {
  const first = weightiest(moved, WEIGHT.length, places, isSeen);
  const isTold = first.some(({ weight }) => weight === WEIGHT.count || weight === WEIGHT.length);
  return isTold ? first : weightiest(moved, WEIGHT.other, places, isSeen);
}

function weightiest(
  moved: readonly Moved[],
  most: number,
  places: ReadonlyMap<string, number>,
  isSeen: IsSeen,
): readonly Moved[] {
  const first: Moved[] = [];
  let length: Moved | undefined;
  const isBefore = (a: Moved, b: Moved) =>
    a.weight < b.weight || (a.weight === b.weight && (places.get(a.id) ?? 0) < (places.get(b.id) ?? 0));
  // Hundreds may have moved, and a few are told: they are picked, not sorted, and only those are printed.
  for (const one of moved) {
    if (one.weight > most) continue;
    const isLength = one.weight === WEIGHT.length && (!length || isBefore(one, length));
    const at = first.findIndex((other) => isBefore(one, other));
    const isFirst = at >= 0 || first.length < MOST_TOLD;
    if (!(isLength || isFirst) || !isSeen(one)) continue;
    if (isLength) length = one;
    if (isFirst) first.splice(at < 0 ? first.length : at, 0, one);
    if (first.length > MOST_TOLD) first.pop();
  }
  return length && !first.includes(length) ? [...first.slice(0, MOST_TOLD - 1), length] : first;
}
