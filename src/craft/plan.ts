/*
 * Reading a plan. Every plan is a short list of steps, run-length: "every 6th row 5 times" is one step over
 * thirty rows. Within a step the rows fall into `times` equal stretches, and what the step does happens on the
 * last row of each stretch; the other rows are plain. That one rule holds for all kinds, so that a counter or
 * a drawing needs to know nothing about heels or edgings. No plan has more than 10 000 steps.
 *
 * What `do` may be: "plain" (rows with nothing to do), "knit" (stitches with nothing to do), "increase",
 * "decrease", "turn" (a row of a heel turn), "join" (one live stitch), "take2", "nojoin".
 *
 * Every plan's totals hold `start` (stitches before it), `stitches_after`, `rows`, and `after_row`: the rows
 * already done when it begins, 0 for a whole plan. Row numbers go on from there. A plan that was worked out
 * again keeps the arguments of the first, so it can be worked out again once more.
 */

import type { Plan, PlanStep } from '../formula/index.ts';
import { sts } from './words.ts';

/** One row or round of a plan. */
export interface PlanRow {
  /** Its number, counted from 1. */
  readonly row: number;
  readonly do: string;
  /** What to do in it, in a few words. */
  readonly says: string;
  /** How many stitches there are after it. */
  readonly after: number;
}

/** A total of a plan by name; NaN where this kind of plan has no such total. */
export function total(plan: Plan, name: string): number {
  return plan.totals[name] ?? Number.NaN;
}

/** How often something happens in a step, over how many rows each time, and what it changes. */
export interface Stretch {
  readonly first: number;
  readonly rows: number;
  readonly times: number;
  readonly before: number;
  /** Stitches gained (or, below 0, lost) each time. */
  readonly change: number;
  readonly step: PlanStep;
}

/** The steps of a plan over rows, with the stitches before each; steps without rows are passed over. */
export function* stretchesOf(plan: Plan): Iterable<Stretch> {
  let before = total(plan, 'start');
  for (const step of plan.steps) {
    if (!step.rows) continue;
    const [first, last] = step.rows;
    const length = last - first + 1;
    const change = (step.after - before) / step.times;
    yield { first, rows: length / step.times, times: step.times, before, change, step };
    before = step.after;
  }
}

const QUIET = new Set(['plain', 'knit', 'join']);

function rowInWords(plan: Plan, { step, change }: Stretch): string {
  if (step.do === 'increase' || step.do === 'decrease') return `${step.do} ${sts(Math.abs(change))}`;
  if (step.do === 'join') return 'join';
  if (step.do === 'take2') return 'take 2';
  if (step.do === 'nojoin') return 'no join';
  return step.do === 'plain' ? plainInWords(plan) : step.says;
}

const plainInWords = (plan: Plan): string => (plan.kind === 'join' ? 'edging' : 'plain');

/** The last row of a stretch, the `n`th time (from 0): the one on which something happens. */
function eventRow(plan: Plan, stretch: Stretch, n: number): PlanRow {
  const { first, rows, before, change, step } = stretch;
  const row = first + rows * (n + 1) - 1;
  return { row, do: step.do, says: rowInWords(plan, stretch), after: before + change * (n + 1) };
}

/** Every row of a plan in turn, one at a time as it is asked for; a plan along one row is that row. */
export function* rowsOf(plan: Plan): Iterable<PlanRow> {
  if (plan.steps.length > 0 && !plan.steps.some((step) => step.rows)) {
    const change = total(plan, 'stitches_after') - total(plan, 'start');
    const does = change > 0 ? 'increase' : change < 0 ? 'decrease' : 'knit';
    yield { row: 1, do: does, says: plan.text, after: total(plan, 'stitches_after') };
  }
  for (const stretch of stretchesOf(plan)) {
    for (let n = 0; n < stretch.times; n++) {
      const event = eventRow(plan, stretch, n);
      const after = stretch.before + stretch.change * n;
      for (let row = event.row - stretch.rows + 1; row < event.row; row++)
        yield { row, do: 'plain', says: plainInWords(plan), after };
      yield event;
    }
  }
}

/** The next row after `row` on which there is something to do; undefined when there is none. */
export function nextShaping(plan: Plan, row: number): PlanRow | undefined {
  for (const stretch of stretchesOf(plan)) {
    const last = stretch.first + stretch.rows * stretch.times - 1;
    if (last <= row || QUIET.has(stretch.step.do)) continue;
    const done = Math.max(0, Math.floor((row - stretch.first + 1) / stretch.rows));
    return eventRow(plan, stretch, done);
  }
  return undefined;
}

/** How many stitches the plan has after `row` (0: before it starts). */
export function countAt(plan: Plan, row: number): number {
  let count = total(plan, 'start');
  for (const { first, rows, times, before, change } of stretchesOf(plan)) {
    if (row < first) break;
    const done = Math.min(times, Math.floor((row - first + 1) / rows));
    count = before + change * done;
  }
  return count;
}

/** Stitches worked over all rows of the plan, each row counted with what it leaves. */
export function stitchesWorked(plan: Plan): number {
  let sum = 0;
  for (const { rows, times, before, change } of stretchesOf(plan))
    sum += rows * (times * before + (change * times * (times - 1)) / 2) + change * times;
  return sum;
}

/** What is left of a plan when nothing is left of it: no steps, and a text that says so. */
export function finished(plan: Plan, row: number, count: number): Plan {
  const left: Record<string, number> = { start: count, stitches_after: count, live: count, after_row: row };
  const totals = Object.fromEntries(Object.keys(plan.totals).map((name) => [name, left[name] ?? 0]));
  const text = `nothing left to do: ${sts(count)}`;
  return { kind: plan.kind, args: plan.args, steps: [], text, remarks: [], totals };
}
