/*
 * An edging knitted on to live stitches. A repeat of R rows ends R / 2 times at the live edge, and each time it
 * takes one live stitch in: that is a join. Live stitches seldom come to whole repeats. With a few too many, as
 * many joins take two ("take 2"); with a few too few, as many take none ("no join"). These mends are spread
 * over the joins, half a gap at each end: mend i of s among T joins stands at floor((2i − 1) T / 2s) + 1.
 *
 * 347 live at 5 joins a repeat: 69 repeats are 345 joins, 2 too few, so joins 87 and 259 take 2.
 *
 * Rows and repeats are counted from the first of the edging, also where a plan begins in the middle of it: with joins
 * and repeats done before. Joins are counted from where the plan begins.
 *
 * At a corner extra joins go into one stitch. Where the corners are only the knitter knows, so extra joins are
 * counted with the stitches they wait on: `after` says how many joins' worth is left. The stitches on the needle are
 * fewer by the extra joins still to come (`on-needle.ts`): 403 live and 8 extra joins are 411, and after 205
 * joins 206 are left to do, with 198 stitches on the needle before the corners, 206 when they are passed.
 */

import type { Plan, PlanSpec, PlanStep, Problem } from '../formula/index.ts';
import { MOST, present, readCounts, refused } from './count.ts';
import { rangeOf } from './on-needle.ts';
import { countAt, finished, total } from './plan.ts';
import { problem } from './problem.ts';
import { KNITTED, spreadInWords } from './spread.ts';
import { joinsInWords, listed, repeatsInWords, rows, sts } from './words.ts';

/** The most mends a plan may have; beyond that another number of repeats is meant. */
const MOST_MENDS = 2_000;
/** How many mends the text names; the steps have them all. */
const NAMED = 12;

interface Edging {
  readonly live: number;
  readonly joins: number;
  /** 0: the number that comes nearest. */
  readonly repeats: number;
  /** Extra joins into corner stitches, all corners together. */
  readonly corner: number;
  /** In which join of the repeat mends are worked; 0: wherever they fall. */
  readonly mend_at: number;
  /** Joins of the repeat in hand that were done before the plan begins. */
  readonly done: number;
  /** Whole repeats that were done before it begins. */
  readonly repeats_done: number;
}

/** An edge as it stands on the needle. */
interface Edge {
  readonly live: number;
  readonly corner: number;
  /** Rows and joins of the edging that are done, in this plan or before it. */
  readonly row: number;
  readonly joinsDone: number;
}

/** So many joins from here, which end whole repeats; `surplus` live stitches too many (below 0, too few). */
interface Fit {
  readonly total: number;
  /** Whole repeats still to begin. */
  readonly repeats: number;
  readonly surplus: number;
}

/** Joins that were done before a plan begins. */
const joinsBefore = ({ repeats_done, joins, done }: Edging): number => repeats_done * joins + done;

/** Joins that are left of a repeat already begun. */
const leftOfRepeat = ({ joinsDone }: Edge, joins: number): number => (joins - (joinsDone % joins)) % joins;

function fitOf(edge: Edge, joins: number, repeats: number): Fit {
  const total = leftOfRepeat(edge, joins) + repeats * joins;
  return { total, repeats, surplus: edge.live + edge.corner - total };
}

/** Whether the surplus can be taken in pairs, and there is at least one join for what is there. */
const works = (edge: Edge, fit: Fit): boolean => fit.surplus * 2 <= edge.live && fit.surplus <= fit.total;

/** The whole repeats that come nearest, the fewer on a tie, but enough for what is left. */
function nearestFit(edge: Edge, joins: number): Fit {
  const wanted = edge.live + edge.corner - leftOfRepeat(edge, joins);
  const below = Math.max(0, Math.floor(wanted / joins));
  const above = (wanted - below * joins) * 2 > joins;
  const begun = edge.row % 2 === 1 && leftOfRepeat(edge, joins) === 0;
  const least = begun ? 1 : 0;
  let fit = fitOf(edge, joins, Math.max(least, above ? below + 1 : below));
  if (!works(edge, fit)) fit = fitOf(edge, joins, fit.repeats + 1);
  return fit;
}

/** Where mends stand among the joins from here, counted from 1. */
function placesOf(fit: Fit, edge: Edge, edging: Edging): readonly number[] {
  const mends = Math.abs(fit.surplus);
  const place = (i: number, of: number) => Math.floor(((2 * i - 1) * of) / (2 * mends));
  const all = Array.from({ length: mends }, (_, i) => i + 1);
  if (edging.mend_at === 0) return all.map((i) => place(i, fit.total) + 1);
  const first = firstMendPlace(edge, edging);
  const chances = first > fit.total ? 0 : Math.floor((fit.total - first) / edging.joins) + 1;
  if (chances < mends) return all.map((i) => place(i, fit.total) + 1);
  return all.map((i) => first + place(i, chances) * edging.joins);
}

/** The next join from here that has the number in the repeat in which mends are worked. */
function firstMendPlace({ joinsDone }: Edge, { mend_at, joins }: Edging): number {
  const ahead = mend_at - (joinsDone % joins);
  return ahead > 0 ? ahead : ahead + joins;
}

/** "repeat 18, join 2": a join from here, as the edging counts it. */
function inRepeat(place: number, { joinsDone }: Edge, joins: number): string {
  const before = joinsDone + place - 1;
  return `repeat ${Math.floor(before / joins) + 1}, join ${(before % joins) + 1}`;
}

/** The steps: plain joins in runs, each mend on its own. A join comes on every second row. */
function stepsOf(fit: Fit, places: readonly number[], edge: Edge, joins: number): PlanStep[] {
  const steps: PlanStep[] = [];
  const rowOf = (place: number) => (Math.floor(edge.row / 2) + place) * 2;
  let [place, after] = [0, edge.live + edge.corner];
  const add = (upTo: number, does: string, each: number, says: string) => {
    const from = place === 0 ? edge.row + 1 : rowOf(place) + 1;
    after -= (upTo - place) * each;
    const step = { rows: [from, rowOf(upTo)] as const, times: upTo - place, do: does, says, after };
    const left = rangeOf(after, edge.corner, upTo);
    steps.push(left[0] < left[1] ? { ...step, left } : step);
    place = upTo;
  };
  const run = (upTo: number) => {
    const uneven = place === 0 && edge.row % 2 === 1 && upTo > 1;
    if (uneven) add(1, 'join', 1, joinRun(1));
    if (upTo > place) add(upTo, 'join', 1, joinRun(upTo - place));
  };
  const [does, each, words] =
    fit.surplus > 0 ? (['take2', 2, 'take 2'] as const) : (['nojoin', 0, 'no join'] as const);
  for (const mend of places) {
    run(mend - 1);
    add(mend, does, each, `${words} at join ${mend} (${inRepeat(mend, edge, joins)})`);
  }
  run(fit.total);
  return steps;
}

const joinRun = (n: number): string => (n === 1 ? 'join 1 st' : `join 1 st ${n} times`);

function repeatsText(fit: Fit, edge: Edge, joins: number): string {
  const left = leftOfRepeat(edge, joins);
  const whole = repeatsInWords(fit.repeats);
  if (left === 0) return whole;
  const rest = `${joinsInWords(left)} to end this repeat`;
  return fit.repeats > 0 ? `${rest}, then ${whole}` : rest;
}

function mendsText(fit: Fit, places: readonly number[], edge: Edge, joins: number): string {
  if (places.length === 0) return '1 live st at every join';
  const named = places.slice(0, NAMED).map((place) => `${place} (${inRepeat(place, edge, joins)})`);
  const more = places.length - named.length;
  const items = more > 0 ? [...named, `${more} more`] : named;
  const here = edge.joinsDone > 0 ? ', joins counted from here, repeats from the first' : '';
  return `${fit.surplus > 0 ? 'take 2' : 'no join'} at join${items.length > 1 ? 's' : ''} ${listed(items)}${here}`;
}

/** "343 + 2 × 2 = 347", "350 − 3 = 347": the joins come to the live stitches. */
function sumText(fit: Fit, edge: Edge): string {
  const mends = Math.abs(fit.surplus);
  const corners = edge.corner > 0 ? ` − ${edge.corner} at corners` : '';
  if (fit.surplus > 0) return `${fit.total - mends}${corners} + 2 × ${mends} = ${sts(edge.live)}`;
  const joined = `${fit.total}${mends > 0 ? ` − ${mends}` : ''}${corners}`;
  return joined === `${edge.live}` ? sts(edge.live) : `${joined} = ${sts(edge.live)}`;
}

function cornerRemark({ corner }: Edge): string[] {
  if (corner === 0) return [];
  return [
    `At the corners join twice into one stitch, ${corner} extra ${corner === 1 ? 'join' : 'joins'} in all. ` +
      'Of two counts left, the first is with no extra join done, and each that is done leaves 1 st more.',
  ];
}

/** How the last row of the body could be changed so that no mend is needed. */
function cleanRemarks(edge: Edge, joins: number): string[] {
  const over = (edge.live + edge.corner) % joins;
  if (over === 0) return [];
  const one = (change: number) => {
    const live = edge.live + change;
    const where = spreadInWords(change, edge.live, KNITTED);
    if (live < 2 || where === undefined) return [];
    const verb = change < 0 ? 'lose' : 'gain';
    return [
      `Comes out even with ${sts(live)}: ${verb} ${Math.abs(change)} in the last row of the body (${where}).`,
    ];
  };
  return [...one(-over), ...one(joins - over)];
}

/** Said when so little is left that another repeat would mostly join nothing. */
function shortEndRemark(fit: Fit, edge: Edge, joins: number): string[] {
  if (edge.row === 0 || -fit.surplus * 2 < joins || edge.live === 0) return [];
  const there = edge.live === 1 ? 'the 1 st left' : `the ${edge.live} sts left`;
  return [`Or end with the repeat in hand, and take ${there} into the graft or the bind-off.`];
}

function mendRemarks(fit: Fit, places: readonly number[], edge: Edge, edging: Edging): string[] {
  if (edging.mend_at === 0 || places.length === 0) return [];
  const kept = places.every((place) => (edge.joinsDone + place - 1) % edging.joins === edging.mend_at - 1);
  if (kept) return [];
  return [`${Math.abs(fit.surplus)} mends are more than one a repeat, so they fall in other joins too.`];
}

function laidOut(
  edging: Edging,
  edge: Edge,
  fit: Fit,
  places: readonly number[],
  beforehand: readonly string[] = [],
): Plan {
  const { joins } = edging;
  const steps = stepsOf(fit, places, edge, joins);
  const count = 2 * fit.total - (edge.row % 2);
  const sentence = `${mendsText(fit, places, edge, joins)}; ${sumText(fit, edge)}`;
  const text = `${repeatsText(fit, edge, joins)}, ${rows(count)}: ${sentence}`;
  const totals = {
    start: edge.live + edge.corner,
    after_row: edge.row,
    stitches_after: 0,
    rows: count,
    repeats: fit.repeats,
    joins: fit.total,
    double_joins: Math.max(0, fit.surplus),
    idle_joins: Math.max(0, -fit.surplus),
    live: edge.live,
    corner: edge.corner,
  };
  const short = shortEndRemark(fit, edge, joins);
  const remarks = [...short, ...mendRemarks(fit, places, edge, edging), ...cornerRemark(edge)];
  const plan = { kind: 'join', args: argsOf(edging), steps, text, remarks, totals };
  return beforehand.length > 0 ? { ...plan, beforehand } : plan;
}

/** Arguments as they were given: a 0 that means "left out" is left out. */
function argsOf({ live, joins, ...rest }: Edging): Record<string, number> {
  const given = Object.entries(rest).filter(([, value]) => value > 0);
  return { live, joins, ...present(Object.fromEntries(given)) };
}

function tooManyMends(edge: Edge, fit: Fit, joins: number): Problem | undefined {
  const mends = Math.abs(fit.surplus);
  if (mends <= MOST_MENDS && fit.total <= 2 * MOST) return undefined;
  const near = nearestFit(edge, joins).repeats;
  return problem('plan-too-many-mends', { mends, repeats: fit.repeats, near });
}

function chosenFit(edging: Edging, edge: Edge): Fit | Problem {
  const { joins, repeats, live } = edging;
  if (repeats === 0) {
    const fit = nearestFit(edge, joins);
    const half = edge.joinsDone === 0 && (live + edge.corner) * 2 <= joins;
    return half ? problem('plan-half-repeat', { live, joins }) : (tooManyMends(edge, fit, joins) ?? fit);
  }
  const fit = fitOf(edge, joins, repeats);
  if (works(edge, fit)) return tooManyMends(edge, fit, joins) ?? fit;
  const needed = live + edge.corner - Math.floor(live / 2) - leftOfRepeat(edge, joins);
  return problem('plan-too-few-repeats', {
    repeats,
    live,
    joins,
    least: Math.max(1, Math.ceil(needed / joins)),
  });
}

function readEdging(args: readonly (number | undefined)[]): Edging | Problem {
  const [live, joins, repeats, corner, mend_at, done, repeats_done] = args;
  const read = readCounts({
    live: [live, 1],
    joins: [joins, 1],
    repeats: [repeats ?? 0, 0],
    corner: [corner ?? 0, 0],
    mend_at: [mend_at ?? 0, 0],
    done: [done ?? 0, 0],
    repeats_done: [repeats_done ?? 0, 0],
  });
  if (refused(read)) return read;
  if (read.mend_at > read.joins) return problem('plan-mend-at', { mend_at: read.mend_at, joins: read.joins });
  if (read.done >= read.joins) return problem('plan-joins-done', { done: read.done, joins: read.joins });
  const before = joinsBefore(read);
  if (before > MOST) return problem('plan-too-large', { name: 'repeats_done', value: before, most: MOST });
  return read.live === 1 && before === 0 ? problem('plan-one-live') : read;
}

function begin(edging: Edging): Plan | Problem {
  const joinsDone = joinsBefore(edging);
  const edge = { live: edging.live, corner: edging.corner, row: 2 * joinsDone, joinsDone };
  const fit = chosenFit(edging, edge);
  if (refused(fit)) return fit;
  const clean = edging.repeats === 0 && joinsDone === 0 ? cleanRemarks(edge, edging.joins) : [];
  return laidOut(edging, edge, fit, placesOf(fit, edge, edging), clean);
}

/**
 * Extra joins at corners that are still to come, taking the joins done so far to have gone by the plan: each
 * that took no stitch and was not planned so was a corner's.
 */
function cornerLeft(plan: Plan, row: number, live: number): number {
  const before = total(plan, 'start') - countAt(plan, row);
  const taken = total(plan, 'live') - live;
  const atCorners = Math.min(Math.max(0, before - taken), total(plan, 'corner'));
  return total(plan, 'corner') - atCorners;
}

/** Mends of a plan that are still to come, as joins counted from `row`. */
function mendsAfter(plan: Plan, row: number): number[] {
  return plan.steps.flatMap(({ do: does, rows: span }) => {
    const ahead = span && does !== 'join' && span[1] > row;
    return ahead ? [span[1] / 2 - Math.floor(row / 2)] : [];
  });
}

/** The number of repeats that was asked for, kept to where it still can be; else what comes nearest. */
function fitFromHere(edging: Edging, edge: Edge): Fit {
  const { joins, repeats } = edging;
  const begun = Math.ceil((edge.joinsDone - joinsBefore(edging)) / joins);
  const asked = fitOf(edge, joins, Math.max(0, repeats - begun));
  const kept = repeats > 0 && asked.total > 0 && edging.done === 0 && works(edge, asked);
  return kept ? asked : nearestFit(edge, joins);
}

function resume(plan: Plan, row: number, count: number): Plan | Problem {
  const edging = readEdging(
    ['live', 'joins', 'repeats', 'corner', 'mend_at', 'done', 'repeats_done'].map((name) => plan.args[name]),
  );
  if (refused(edging)) return edging;
  const read = readCounts({ row: [row, 0, 4 * MOST], count: [count, 0] });
  if (refused(read)) return read;
  const end = total(plan, 'after_row') + total(plan, 'rows');
  const corner = cornerLeft(plan, read.row, read.count);
  const joinsDone = Math.floor(read.row / 2);
  const edge = { live: read.count, corner, row: read.row, joinsDone };
  const planned = countAt(plan, read.row) === edge.live + corner && read.row >= total(plan, 'after_row');
  if (planned && read.row < end) {
    const places = mendsAfter(plan, read.row);
    const joinsLeft = (end - read.row + (read.row % 2)) / 2;
    const whole = Math.floor(joinsLeft / edging.joins);
    const fit = { total: joinsLeft, repeats: whole, surplus: edge.live + corner - joinsLeft };
    return laidOut(edging, edge, fit, places);
  }
  const fit = fitFromHere(edging, edge);
  if (fit.total === 0) return finished(plan, read.row, read.count);
  return tooManyMends(edge, fit, edging.joins) ?? laidOut(edging, edge, fit, placesOf(fit, edge, edging));
}

/** An edging knitted on to live stitches. */
export const join: PlanSpec = {
  kind: 'plan',
  name: 'join',
  help: 'an edging knitted on to live stitches, in whole repeats that end on the last stitch',
  parameters: [
    { name: 'live', accepts: 'stitches', help: 'live stitches waiting' },
    { name: 'joins', accepts: 'plain', help: 'joins a repeat: half its rows' },
    {
      name: 'repeats',
      accepts: 'number',
      help: 'how many repeats; 0 or left out: what comes nearest',
      optional: true,
    },
    {
      name: 'corner',
      accepts: 'plain',
      help: 'extra joins into corner stitches, all corners together',
      optional: true,
    },
    {
      name: 'mend_at',
      accepts: 'plain',
      help: 'the join of the repeat in which to take 2 or none: its plainest row; 0: wherever it falls',
      optional: true,
    },
    {
      name: 'done',
      accepts: 'plain',
      help: 'joins of the repeat in hand that are already done',
      optional: true,
    },
    {
      name: 'repeats_done',
      accepts: 'plain',
      help: 'whole repeats that are already done: rows and repeats are counted on from them',
      optional: true,
    },
  ],
  gives: 'plan',
  examples: [
    {
      text: 'join(347 st, 5)',
      gives:
        '69 repeats, 690 rows: take 2 at joins 87 (repeat 18, join 2) and 259 (repeat 52, join 4); ' +
        '343 + 2 × 2 = 347 sts',
    },
    {
      text: 'join(347 st, 5, 70)',
      gives:
        '70 repeats, 700 rows: no join at joins 59 (repeat 12, join 4), 176 (repeat 36, join 1) and ' +
        '292 (repeat 59, join 2); 350 − 3 = 347 sts',
    },
    { text: 'join(210 st, 7)', gives: '30 repeats, 420 rows: 1 live st at every join; 210 sts' },
  ],
  source: 'common practice',
  says: ([live, joins, repeats, corner]) =>
    `${live} taken in by an edging of ${joins} joins a repeat${repeats ? `, ${repeats} repeats` : ''}` +
    `${corner ? `, ${corner} extra at corners` : ''}`,
  work: (...args) => {
    const edging = readEdging(args);
    return refused(edging) ? edging : begin(edging);
  },
  resume,
};
