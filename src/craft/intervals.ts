/*
 * Shapings along rows or rounds, as a run of intervals: so many rows, the shaping on the last of them, so many
 * times. Sleeves and toes are both such runs; here they become printed steps, and here the rest of a run is
 * taken from a plan when some of its rows are done, in the middle of an interval too.
 */

import type { Plan, PlanStep } from '../formula/index.ts';
import { stretchesOf } from './plan.ts';
import { everyNth, sts, times } from './words.ts';

/** The shaping falls on the last of `rows` rows, `times` times over, and changes the count by `change`. */
export interface Interval {
  readonly rows: number;
  readonly times: number;
  readonly change: number;
  /** True for a stitch put right in passing, outside the plan's own rate. */
  readonly mend?: boolean;
}

/** A run of intervals from where the work stands. */
export interface Run {
  /** Rows done before it. */
  readonly start: number;
  /** Stitches before it. */
  readonly count: number;
  readonly intervals: readonly Interval[];
  /** Plain rows after the last shaping. */
  readonly tail: number;
  readonly noun: 'row' | 'rnd';
  /** Whether the first shaping is named by its row, with the plain rows before it. */
  readonly firstNamed: boolean;
  /** Whether every shaping falls on a right-side row, and says so. */
  readonly rightSide: boolean;
}

/** Neighbours that are alike as one; those that never happen left out. */
export function tidied(intervals: readonly Interval[]): Interval[] {
  const kept: Interval[] = [];
  for (const next of intervals) {
    const last = kept.at(-1);
    if (next.times === 0) continue;
    const alike = last?.rows === next.rows && last.change === next.change && !last.mend && !next.mend;
    if (last && alike) kept[kept.length - 1] = { ...last, times: last.times + next.times };
    else kept.push(next);
  }
  return kept;
}

/** Intervals with those apart that are to be named by their row: the first, a mend, and the one after it. */
function parted(run: Run): (Interval & { readonly named: boolean })[] {
  let named = run.firstNamed;
  return tidied(run.intervals).flatMap((interval) => {
    const apart = named || interval.mend === true;
    named = interval.mend === true;
    if (!apart) return [{ ...interval, named: false }];
    const rest = { ...interval, times: interval.times - 1, named: false };
    return [{ ...interval, times: 1, named: true }, ...(rest.times > 0 ? [rest] : [])];
  });
}

const plainStep = (first: number, rows: number, noun: string, after: number): PlanStep => ({
  rows: [first, first + rows - 1],
  times: 1,
  do: 'plain',
  says: `${rows} ${noun}${rows === 1 ? '' : 's'} plain`,
  after,
});

/** The steps of a run, each with its rows, its words and the count after it. */
export function stepsAlong(run: Run): PlanStep[] {
  const steps: PlanStep[] = [];
  let { start: row, count } = run;
  for (const { rows, times: often, change, named, mend } of parted(run)) {
    const does = change > 0 ? 'increase' : 'decrease';
    if (named && rows > 1) steps.push(plainStep(row + 1, rows - 1, run.noun, count));
    const first = named ? row + rows : row + 1;
    row += rows * often;
    count += change * often;
    const what = mend ? `${does} ${sts(Math.abs(change))}` : does;
    const on = `${what} on ${run.noun} ${row}${run.rightSide ? ' (RS)' : ''}${mend ? ' to put the count right' : ''}`;
    const says = named ? on : `${everyNth(rows, run.noun)} ${times(often)}`;
    steps.push({ rows: [first, row], times: often, do: does, says, after: count });
  }
  if (run.tail > 0) steps.push(plainStep(row + 1, run.tail, run.noun, count));
  return steps;
}

/** The steps as one sentence. */
export function inOneLine(steps: readonly PlanStep[]): string {
  return steps.map((step) => step.says).join(', then ');
}

/** How many shapings the intervals hold, mends apart. */
export function shapingsIn(intervals: readonly Interval[]): number {
  return intervals.reduce((sum, interval) => sum + (interval.mend ? 0 : interval.times), 0);
}

/** What a plan has still to do after `row`: its intervals from there and the plain rows at its end. */
export function intervalsAfter(plan: Plan, row: number, per: number): Pick<Run, 'intervals' | 'tail'> {
  const intervals: Interval[] = [];
  let waiting = 0;
  for (const { first, rows, times: often, change, step } of stretchesOf(plan)) {
    const left = first + rows * often - Math.max(first, row + 1);
    if (left <= 0) continue;
    if (step.do === 'plain') {
      waiting += left;
      continue;
    }
    const mend = Math.abs(change) !== per;
    const ahead = Math.ceil(left / rows);
    const nearest = left - (ahead - 1) * rows + waiting;
    waiting = 0;
    const one = { rows: nearest, times: 1, change };
    intervals.push(mend ? { ...one, mend } : one, { rows, times: ahead - 1, change });
  }
  return { intervals: tidied(intervals), tail: waiting };
}
