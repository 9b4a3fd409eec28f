/*
 * Before casting on: which decisions (a size, a count, a yes or no) would fall otherwise if an uncertain value lay
 * elsewhere within its tolerance. Here nothing is held: the sheet is worked out anew at points along each uncertain
 * value, and where a decision changes between two points the place is narrowed down.
 */

import { type Explored, explore, type Replaced, type Sheet } from '../sheet/index.ts';
import type { Lane } from './lanes.ts';
import type { Uncertain } from './tolerance.ts';

/** From where on, going away from what is typed, a decision falls otherwise. */
export interface Otherwise {
  readonly by: Uncertain;
  /** Whether more or less than what is typed. */
  readonly side: 'more' | 'less';
  /** The value of the uncertain one at which the decision changes, in base units: at least that, or at most. */
  readonly from: number;
  /** What it is decided then. */
  readonly value: number;
}

/** A decision that would fall otherwise within the doubt. Labels, truths and counts alike are numbers here. */
export interface Decision extends Lane {
  readonly now: number;
  /** The first change along each uncertain value, each way, where there is one. */
  readonly otherwise: readonly Otherwise[];
  /** Everything it can come to at those points, itself among them, smallest first; NaN (no value) last. */
  readonly values: readonly number[];
  /** Whether it changes only when several are off at once. */
  readonly together: boolean;
}

const POINTS = 12;
const NARROWINGS = 3;
const MOST_TOGETHER = 5;

/** The decisions among these lanes that the uncertain values can change. A few sweeps over the whole sheet. */
export function decisionsOf(
  sheet: Sheet,
  lanes: readonly Lane[],
  uncertain: readonly Uncertain[],
): readonly Decision[] {
  if (uncertain.length === 0 || lanes.length === 0) return [];
  const [only] = lanes;
  const toward = lanes.length === 1 ? only?.id : undefined;
  const rays = uncertain.flatMap((by) => (['less', 'more'] as const).map((side) => ({ by, side })));
  const along = explore(
    sheet,
    rays.flatMap(({ by, side }) => steps(by, side, 0, 1, POINTS)),
    false,
    toward,
  );
  const corners = explore(sheet, cornersOf(uncertain.slice(0, MOST_TOGETHER)), false, toward);
  const found = lanes.flatMap((lane): Found[] => {
    const now = along.number(lane.id, lane.column, 0);
    const changes = rays.flatMap((ray, r) => firstChange(along, lane, ray, r * POINTS, now));
    const values = distinct([...numbers(along, lane), ...numbers(corners, lane)]);
    return values.length > 1 ? [{ lane, now, changes, values }] : [];
  });
  narrow(sheet, found, toward);
  return found.map(({ lane, now, changes, values }) => ({
    ...lane,
    now,
    values,
    otherwise: changes.map(({ by, side, to, value }) => ({ by, side, from: pointAt(by, side, to), value })),
    together: changes.length === 0,
  }));
}

interface Ray {
  readonly by: Uncertain;
  readonly side: 'more' | 'less';
}

/** A change found on a ray: not yet at `from`, but at `to`; both in tolerances from what is typed. */
interface Change extends Ray {
  from: number;
  to: number;
  value: number;
}

interface Found {
  readonly lane: Lane;
  readonly now: number;
  readonly changes: readonly Change[];
  readonly values: readonly number[];
}

function pointAt(by: Uncertain, side: 'more' | 'less', at: number): number {
  return by.value + (side === 'more' ? at : -at) * by.off;
}

/** So many points from after `from` up to `to` itself. */
function steps(
  by: Uncertain,
  side: 'more' | 'less',
  from: number,
  to: number,
  count: number,
): readonly (readonly Replaced[])[] {
  return Array.from({ length: count }, (_, i) => [
    { ...by, value: pointAt(by, side, from + ((to - from) * (i + 1)) / count) },
  ]);
}

const isSameNumber = (a: number, b: number) => a === b || (Number.isNaN(a) && Number.isNaN(b));

function firstChange(along: Explored, lane: Lane, ray: Ray, before: number, now: number): Change[] {
  for (let i = 0; i < POINTS; i += 1) {
    const value = along.number(lane.id, lane.column, before + i + 1);
    if (!isSameNumber(value, now)) return [{ ...ray, from: i / POINTS, to: (i + 1) / POINTS, value }];
  }
  return [];
}

/** Narrows all changes down at once, a sweep for each time they are narrowed. */
function narrow(sheet: Sheet, found: readonly Found[], toward: string | undefined): void {
  const open = found.flatMap(({ lane, now, changes }) => changes.map((change) => ({ lane, now, change })));
  for (let time = 0; time < NARROWINGS && open.length > 0; time += 1) {
    const explored = explore(
      sheet,
      open.flatMap(({ change: { by, side, from, to } }) => steps(by, side, from, to, POINTS)),
      false,
      toward,
    );
    open.forEach(({ lane, now, change }, k) => {
      const [at] = firstChange(explored, lane, change, k * POINTS, now);
      if (!at) return;
      const width = change.to - change.from;
      change.to = change.from + width * at.to;
      change.from += width * at.from;
      change.value = at.value;
    });
  }
}

function cornersOf(uncertain: readonly Uncertain[]): readonly (readonly Replaced[])[] {
  return Array.from({ length: 2 ** uncertain.length }, (_, corner) =>
    uncertain.map((one, k) => ({ ...one, value: one.value + ((corner >> k) & 1 ? one.off : -one.off) })),
  );
}

function numbers(explored: Explored, { id, column }: Lane): readonly number[] {
  return Array.from({ length: explored.variants }, (_, v) => explored.number(id, column, v));
}

function distinct(all: readonly number[]): readonly number[] {
  const there = [...new Set(all.filter((one) => !Number.isNaN(one)))].sort((a, b) => a - b);
  return all.some(Number.isNaN) ? [...there, Number.NaN] : there;
}
