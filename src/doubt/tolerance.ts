/*
 * How far off can it be? Every typed value with a tolerance (18 ± 0.5 st / 4 in) is put at both its ends, with
 * everything decided held: a count that is cast on stays cast on, so a misread gauge changes the inches.
 *
 * The words: an *effect* is what one uncertain value does to the number looked at. Effects are put together in two
 * ways: the *root-sum-square*, as errors that do not know of each other add up, and the *worst case*, everything off at
 * once in the worst directions. The worst case is looked for at every corner, up to six uncertain values. It is called
 * "about" when it is not sure to lie at a corner: beyond six, or where it depends on the values which way is taken
 * (`abs`, `min`, a test …) or an effect turns round between its ends. Then it is looked for inside as well.
 *
 * Worked example: 200 st / (18 ± 0.5 st / 4 in) is 44.44 in; 43.24 in at 18.5, 45.71 in at 17.5.
 */

import type { Replaced, Sheet } from '../sheet/index.ts';
import { Bounds } from './bounds.ts';
import { keyOf, type Lane, lanesTo, numbersAt } from './lanes.ts';
import { between, type Range } from './range.ts';

/** A typed lane that can be off, in base units. */
export interface Uncertain extends Lane {
  readonly value: number;
  readonly off: number;
}

/** What one uncertain value does to the number looked at. */
export interface Effect extends Uncertain {
  /** The number at the uncertain value less its tolerance, and at it plus its tolerance; NaN where there is none. */
  readonly atLess: number;
  readonly atMore: number;
  /** Half of how far the number moves from end to end. */
  readonly half: number;
  /** It does nothing to the number. */
  readonly nothing: boolean;
}

/** How far off a number can be, in base units. */
export interface Doubt {
  readonly value: number;
  /** What each uncertain value does that feeds it, the largest first; also those whose effect a decision takes away. */
  readonly effects: readonly Effect[];
  readonly rootSumSquare: number;
  /** The worst case, both ways. */
  readonly least: number;
  readonly most: number;
  /** Whether the worst case is not sure to lie within these. */
  readonly about: boolean;
  /** Whether it depends on the uncertain values which way is taken on the way. */
  readonly branches: boolean;
}

/** So many uncertain values at most are put at all their ends together. */
export const MOST_CORNERS = 6;

/** The typed lanes with a tolerance. */
export function uncertainLanes(sheet: Sheet, lanes: readonly Lane[]): readonly Uncertain[] {
  return lanes.flatMap(({ id, column }) => {
    if (!sheet.info(id).typed || sheet.isPinned(id, column)) return [];
    const off = sheet.tolerance(id, column);
    const value = sheet.value(id, column);
    return off > 0 && value.kind === 'quantity' ? [{ id, column, value: value.value, off }] : [];
  });
}

/** How far off a lane with a number can be. One sweep of 2k + 1 variants, one of 2^k, and where it branches a search. */
export function doubtOf(sheet: Sheet, lane: Lane): Doubt {
  const feeding = uncertainLanes(sheet, lanesTo(sheet, lane, false));
  const reaching = uncertainLanes(sheet, lanesTo(sheet, lane, true));
  const effects = effectsOf(sheet, lane, feeding, reaching);
  const [value = Number.NaN] = numbersAt(sheet, lane, [], true);
  const rootSumSquare = Math.sqrt(effects.reduce((sum, { half }) => sum + half * half, 0));
  return { value, effects, rootSumSquare, ...worstOf(sheet, lane, reaching, effects, value) };
}

function effectsOf(
  sheet: Sheet,
  lane: Lane,
  feeding: readonly Uncertain[],
  reaching: readonly Uncertain[],
): readonly Effect[] {
  const at = (one: Uncertain, side: number): readonly Replaced[] => [
    { ...one, value: one.value + side * one.off },
  ];
  const points = feeding.flatMap((one) => [at(one, -1), at(one, 1)]);
  const [now, ...ends] = numbersAt(sheet, lane, points, true);
  const reaches = new Set(reaching.map(({ id, column }) => keyOf(id, column)));
  const effects = feeding.map((one, k): Effect => {
    const [atLess = Number.NaN, atMore = Number.NaN] = ends.slice(2 * k, 2 * k + 2);
    const half = Math.abs(atMore - atLess) / 2;
    const stays = atLess === atMore && atMore === now;
    const nothing = stays || !reaches.has(keyOf(one.id, one.column));
    return { ...one, atLess, atMore, half: nothing || Number.isNaN(half) ? 0 : half, nothing };
  });
  return effects.sort((a, b) => reachOf(b) - reachOf(a));
}

const reachOf = ({ half, atLess, atMore, nothing }: Effect) =>
  nothing ? -1 : Number.isNaN(atLess) || Number.isNaN(atMore) ? Number.POSITIVE_INFINITY : half;

type Worst = Pick<Doubt, 'least' | 'most' | 'about' | 'branches'>;

function worstOf(
  sheet: Sheet,
  lane: Lane,
  reaching: readonly Uncertain[],
  effects: readonly Effect[],
  value: number,
): Worst {
  if (reaching.length === 0 || Number.isNaN(value))
    return { least: value, most: value, about: false, branches: false };
  const byReach = effects
    .map(({ id, column }) => keyOf(id, column))
    .flatMap((key) => reaching.filter((one) => keyOf(one.id, one.column) === key));
  const { branches } = new Bounds(sheet, lane, reaching, true).of(boxOf(reaching));
  const cornered = byReach.slice(0, MOST_CORNERS);
  const corners = endsOf(sheet, lane, cornerPoints(cornered));
  const about =
    branches || byReach.length > MOST_CORNERS || turnsRound(sheet, lane, reaching) || corners.lacks;
  const found = about ? searched(sheet, lane, byReach, corners) : corners;
  return { least: Math.min(value, found.least), most: Math.max(value, found.most), about, branches };
}

/** The ranges of uncertain values, by lane. */
export function boxOf(uncertain: readonly Uncertain[]): ReadonlyMap<string, Range> {
  return new Map(
    uncertain.map(({ id, column, value, off }) => [keyOf(id, column), between(value - off, value + off)]),
  );
}

/** Every corner of the box of some uncertain values. */
function cornerPoints(uncertain: readonly Uncertain[]): readonly (readonly Replaced[])[] {
  return Array.from({ length: 2 ** uncertain.length }, (_, corner) =>
    uncertain.map((one, k) => ({ ...one, value: one.value + ((corner >> k) & 1 ? one.off : -one.off) })),
  );
}

interface Ends {
  readonly least: number;
  readonly most: number;
  /** At some point there is no value. */
  readonly lacks: boolean;
}

function endsOf(sheet: Sheet, lane: Lane, points: readonly (readonly Replaced[])[]): Ends {
  const numbers = numbersAt(sheet, lane, points, true);
  const there = numbers.filter((number) => !Number.isNaN(number));
  return { least: Math.min(...there), most: Math.max(...there), lacks: there.length < numbers.length };
}

/** Whether some uncertain value, on its own, moves the number both up and down between its ends. */
function turnsRound(sheet: Sheet, lane: Lane, uncertain: readonly Uncertain[]): boolean {
  const along = [-1, -0.5, 0.5, 1];
  const points = uncertain.flatMap((one) => along.map((at) => [{ ...one, value: one.value + at * one.off }]));
  const numbers = numbersAt(sheet, lane, points, true);
  return uncertain.some((_, k) => {
    const [a, b, c, d] = numbers.slice(1 + k * 4, 5 + k * 4) as [number, number, number, number];
    const moves = [b - a, (numbers[0] ?? 0) - b, c - (numbers[0] ?? 0), d - c];
    const slack = 1e-12 * Math.max(...numbers.map(Math.abs));
    return moves.some((move) => move > slack) && moves.some((move) => move < -slack);
  });
}

/** Points along one uncertain value, in a search. */
const ALONG = 24;
/** Times that a search goes through all of them. */
const ROUNDS = 4;

/** Looks for the least and the most inside the box too: from the best point known along one value after another. */
function searched(sheet: Sheet, lane: Lane, uncertain: readonly Uncertain[], corners: Ends): Ends {
  const least = bestAlong(sheet, lane, uncertain, 1);
  const most = -bestAlong(sheet, lane, uncertain, -1);
  return {
    least: Math.min(corners.least, least),
    most: Math.max(corners.most, most),
    lacks: corners.lacks,
  };
}

/** The least of `sign` times the number that is found by going along one value after another, ever more finely. */
function bestAlong(sheet: Sheet, lane: Lane, uncertain: readonly Uncertain[], sign: 1 | -1): number {
  let best = Number.POSITIVE_INFINITY;
  for (const start of startsFor(uncertain)) {
    let at: readonly Replaced[] = start;
    let width = 1;
    for (let round = 0; round < ROUNDS; round += 1) {
      for (let k = 0; k < uncertain.length; k += 1) {
        const points = pointsAlong(uncertain, at, k, width);
        const numbers = numbersAt(sheet, lane, points, true).slice(1);
        const scores = numbers.map((number) =>
          Number.isNaN(number) ? Number.POSITIVE_INFINITY : sign * number,
        );
        const least = Math.min(...scores);
        if (least > best) continue;
        best = least;
        at = points[scores.indexOf(least)] ?? at;
      }
      width /= ALONG / 4;
    }
  }
  return best;
}

/** Where a search begins: in the middle, and everything at its less or its more. */
function startsFor(uncertain: readonly Uncertain[]): readonly (readonly Replaced[])[] {
  return [0, -1, 1].map((side) => uncertain.map((one) => ({ ...one, value: one.value + side * one.off })));
}

function pointsAlong(
  uncertain: readonly Uncertain[],
  at: readonly Replaced[],
  k: number,
  width: number,
): readonly (readonly Replaced[])[] {
  const one = uncertain[k] as Uncertain;
  const middle = at[k]?.value ?? one.value;
  return Array.from({ length: ALONG + 1 }, (_, i) => {
    const wished = middle + one.off * width * ((2 * i) / ALONG - 1);
    const value = Math.min(one.value + one.off, Math.max(one.value - one.off, wished));
    return at.map((lane, j) => (j === k ? { ...lane, value } : lane));
  });
}
