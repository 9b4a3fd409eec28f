/*
 * Shaping a piece evenly over its rows, `per` stitches at a time. With every row to choose from, n rows shared
 * over k shapings make intervals of q and q + 1 rows, the last shaping on the last row. The shorter come first, as at
 * an armhole or a raglan; for a crown, which is drawn up faster towards its top, the longer come first.
 *
 * With `every` 2 rows are counted in pairs, a right-side row and the wrong-side row after it, and the shaping
 * falls on the first of its pair, so never on a wrong-side row. 100 rows are 50 pairs; 14 shapings take every
 * 3rd pair 6 times and every 4th 8 times, on the first row of each: rows 5, 11, 17 … 35, 43 … 99.
 */

import type { Plan, PlanSpec, Problem } from '../formula/index.ts';
import { present, readCounts, readNumber, refused, sharedOut } from './count.ts';
import { type Interval, inOneLine, intervalsAfter, type Run, shapingsIn, stepsAlong } from './intervals.ts';
import { countAt, finished, stitchesWorked, total } from './plan.ts';
import { problem } from './problem.ts';
import { sts } from './words.ts';

interface Shaping {
  readonly from: number;
  readonly to: number;
  readonly over: number;
  readonly per: number;
  readonly every: number;
  /** 1 for the longer intervals first. */
  readonly slow_first?: number | undefined;
}

/** How many shapings come nearest to the end wanted (the fewer on a tie), and which way. */
function aimed({ from, to, per }: Shaping): { readonly shapings: number; readonly way: 1 | -1 } {
  const difference = Math.abs(to - from);
  const way = to < from ? -1 : 1;
  const fewer = Math.floor(difference / per);
  const rest = difference - fewer * per;
  const shapings = rest * 2 > per && from + way * (fewer + 1) * per >= 1 ? fewer + 1 : fewer;
  return { shapings, way };
}

/** Even intervals over whole groups of `every` of the rows; `change` stitches each. */
function evenly(
  { over, every, slow_first }: Shaping,
  shapings: number,
  change: number,
): Pick<Run, 'intervals' | 'tail'> {
  if (shapings === 0) return { intervals: [], tail: over };
  const groups = Math.floor(over / every);
  const { small, smalls, larges } = sharedOut(groups, shapings);
  // Some are always short: shared out evenly, only what is over makes long ones.
  const short: Interval = { rows: small * every, times: smalls, change };
  const long: Interval = { rows: (small + 1) * every, times: larges, change };
  const [early, late] = slow_first === 1 && larges > 0 ? [long, short] : [short, long];
  const first: Interval = { rows: early.rows - every + 1, times: 1, change };
  const intervals: Interval[] = [first, { ...early, times: early.times - 1 }, late];
  return { intervals, tail: over - (groups * every - every + 1) };
}

const REMAINDER = 'not a whole number of shapings of';

/** What is left when the difference is not whole shapings, and the ways out. */
function leftOver(shaping: Shaping, end: number): string[] {
  const { from, to, per } = shaping;
  const difference = Math.abs(to - from);
  const fewer = Math.floor(difference / per);
  const left = difference - fewer * per;
  if (left === 0) return [];
  const way = to < from ? -1 : 1;
  const [short, past] = [from + way * fewer * per, from + way * (fewer + 1) * per];
  const ends = past >= 1 ? `${short} or ${past}` : `${short}`;
  const starts = [from + way * left, from - way * (per - left)].filter((n) => n >= 1).join(' or ');
  const beyond =
    past >= 1 ? `, ${fewer + 1} ${fewer === 0 ? 'passes' : 'pass'} by ${per - left} (${sts(past)})` : '';
  const single = left === 1 ? 'one single' : `${left} single`;
  const change = way > 0 ? 'increase' : 'decrease';
  return [
    `${sts(difference)} ${difference === 1 ? 'is' : 'are'} ${REMAINDER} ${per}: ${fewer} ${fewer === 1 ? 'leaves' : 'leave'} ${left} (${sts(short)})${beyond}.`,
    `Ways out: begin with ${starts}, end with ${ends}, or work ${single} ${change}${left === 1 ? '' : 's'}. This plan ends with ${end}.`,
  ];
}

/** Said when one row is asked to do more than its stitches allow: an increase beside each and at both ends (m1, k1, m1). */
function tooMuchInOneRow({ from, per }: Shaping, end: number, shapings: number): string[] {
  if (shapings === 0) return [];
  if (end > from && per > from + 1)
    return [`The first increase adds ${per} to ${sts(from)}; no one row can do that.`];
  const before = end + per;
  if (end < from && before < 1.5 * per)
    return [`The last decrease takes ${per} of ${sts(before)}; no one row can do that, so end with more.`];
  return [];
}

function tooMany(shaping: Shaping, shapings: number): Problem {
  const { from, to, over, per, every } = shaping;
  const slots = Math.floor(over / every);
  const reaches = from + (to < from ? -1 : 1) * per * slots;
  const perNeeded = slots > 0 ? Math.ceil(Math.abs(to - from) / slots) : 0;
  return problem('plan-too-many-shapings', {
    shapings,
    rows: over,
    needs: shapings * every,
    every,
    per: perNeeded,
    reaches,
  });
}

function laidOut(shaping: Shaping, run: Run, remarks: readonly string[]): Plan {
  const steps = stepsAlong(run);
  const end = steps.at(-1)?.after ?? run.count;
  const last = steps.at(-1)?.rows?.[1] ?? run.start;
  const totals = {
    start: run.count,
    after_row: run.start,
    stitches_after: end,
    rows: last - run.start,
    shapings: shapingsIn(run.intervals),
  };
  const plan = {
    kind: 'shape',
    args: present({ ...shaping }),
    steps,
    text: inOneLine(steps),
    remarks,
    totals,
  };
  return { ...plan, totals: { ...totals, stitches_worked: stitchesWorked(plan) } };
}

function begin(shaping: Shaping): Plan | Problem {
  const { from, over, per, every } = shaping;
  const { shapings, way } = aimed(shaping);
  if (shapings > Math.floor(over / every)) return tooMany(shaping, shapings);
  const end = from + way * shapings * per;
  const remarks = [...leftOver(shaping, end), ...tooMuchInOneRow(shaping, end, shapings)];
  return laidOut(shaping, { ...runOf(shaping, 0, from), ...evenly(shaping, shapings, way * per) }, remarks);
}

const runOf = ({ every }: Shaping, start: number, count: number): Omit<Run, 'intervals' | 'tail'> => ({
  start,
  count,
  noun: 'row',
  firstNamed: every > 1 || start > 0,
  rightSide: every > 1,
});

function readShaping(args: readonly (number | undefined)[]): Shaping | Problem {
  const [from, to, over, per, every, slow_first] = args;
  const rows = readNumber('rows', [over, Number.NEGATIVE_INFINITY]);
  if (typeof rows === 'number' && rows < 1) return problem('plan-no-rows', { value: rows });
  const read = readCounts({
    from: [from, 1],
    to: [to, 1],
    rows: [over, 1],
    per: [per, 1],
    every: [every, 1],
  });
  if (refused(read)) return read;
  const { rows: whole, ...others } = read;
  return read.every <= 2
    ? { ...others, over: whole, slow_first }
    : problem('plan-every', { every: read.every });
}

/** Shapings from here to the end, and the stitches to put right before them; they never take the last stitch. */
function aimedFrom(shaping: Shaping): {
  readonly shapings: number;
  readonly way: 1 | -1;
  readonly odd: number;
} {
  const { from, to, per } = shaping;
  const { shapings, way } = aimed(shaping);
  const odd = to - from - way * shapings * per;
  return from + odd >= 1 ? { shapings, way, odd } : { shapings: shapings - 1, way, odd: odd + way * per };
}

/**
 * The rest, spread anew over the rows left so that it ends with the stitches the plan ends with. Stitches that
 * do not make a whole shaping are put right first, in the next row where shaping may fall.
 */
function anew(shaping: Shaping, row: number, count: number, end: number): Plan | Problem {
  const { over, per, every } = shaping;
  const { shapings, way, odd } = aimedFrom({ ...shaping, from: count, to: end });
  const wait = (every - (row % every)) % every;
  const used = odd === 0 ? wait : wait + every;
  const rest = { ...shaping, from: count + odd, to: end, over: over - row - used };
  if (odd !== 0 && over - row <= wait) return problem('plan-no-rows-left', { row, count, to: end });
  if (shapings > Math.floor(Math.max(0, rest.over) / every))
    return tooMany({ ...rest, over: over - row }, shapings);
  const even = evenly({ ...rest, over: Math.max(0, rest.over) }, shapings, way * per);
  const mend: Interval[] = odd === 0 ? [] : [{ rows: wait + 1, times: 1, change: odd, mend: true }];
  const lead = odd === 0 ? wait : every - 1;
  const [first, ...others] = even.intervals;
  const intervals = first ? [...mend, { ...first, rows: first.rows + lead }, ...others] : mend;
  const tail = first ? even.tail : even.tail + lead + Math.min(0, rest.over);
  return laidOut(shaping, { ...runOf(shaping, row, count), intervals, tail }, past(shaping, count, end));
}

function past({ from, to }: Shaping, count: number, end: number): string[] {
  const beyond = to === from ? count !== end : to > from ? count > end : count < end;
  return beyond
    ? [`There are ${sts(count)} already and the plan ends with ${end}: this brings them back.`]
    : [];
}

function resume(plan: Plan, row: number, count: number): Plan | Problem {
  const shaping = readShaping(
    ['from', 'to', 'over', 'per', 'every', 'slow_first'].map((name) => plan.args[name]),
  );
  if (refused(shaping)) return shaping;
  const read = readCounts({ row: [row, 0, shaping.over], count: [count, 1] });
  if (refused(read)) return read;
  const end = total(plan, 'stitches_after');
  if (read.row === shaping.over) {
    if (read.count === end) return finished(plan, read.row, read.count);
    return problem('plan-no-rows-left', { row: read.row, count: read.count, to: end });
  }
  const knows = read.row >= total(plan, 'after_row');
  if (!knows || countAt(plan, read.row) !== read.count) return anew(shaping, read.row, read.count, end);
  const rest = intervalsAfter(plan, read.row, shaping.per);
  const remarks = read.row === 0 ? plan.remarks : [];
  return laidOut(shaping, { ...runOf(shaping, read.row, read.count), ...rest }, remarks);
}

/** Increases or decreases spread evenly over rows. */
export const shape: PlanSpec = {
  kind: 'plan',
  name: 'shape',
  help: 'shaping spread evenly over rows: from so many stitches to so many',
  parameters: [
    { name: 'from', accepts: 'stitches', help: 'stitches before' },
    { name: 'to', accepts: 'stitches', help: 'stitches after' },
    { name: 'over', accepts: 'rows', help: 'rows to do it in' },
    { name: 'per', accepts: 'plain', help: 'stitches a shaping: 2 for one at each edge' },
    { name: 'every', accepts: 'plain', help: '1 for any row, 2 for right-side rows only' },
    {
      name: 'slow_first',
      accepts: 'truth',
      help: 'yes: where two rates are needed the slower comes first, as in a crown; else the faster, as at an armhole',
      optional: true,
    },
  ],
  gives: 'plan',
  examples: [
    {
      text: 'shape(43 st, 71 st, 107 row, 2, 1)',
      gives: 'every 7th row 5 times, then every 8th row 9 times',
    },
    {
      text: 'shape(43 st, 71 st, 100 row, 2, 2)',
      gives:
        '4 rows plain, then increase on row 5 (RS), then every 6th row 5 times, ' +
        'then every 8th row 8 times, then 1 row plain',
    },
    { text: 'shape(100 st, 76 st, 96 row, 2, 1)', gives: 'every 8th row 12 times' },
    {
      text: 'shape(96 st, 8 st, 26 row, 8, 1, yes)',
      gives: 'every 3rd row 4 times, then every 2nd row 7 times',
    },
  ],
  source: 'A. Budd, handout on shaping evenly, 2010, after S. Paden, Knitwear Design Workshop, 2010',
  says: ([from, to, over, per, every, slow]) =>
    `from ${from} to ${to} over ${over}, ${per} at a time, ${every === '2' ? 'on right-side rows' : 'on any row'}${slow === 'yes' ? ', the slower rate first' : ''}`,
  work: (...args) => {
    const shaping = readShaping(args);
    return refused(shaping) ? shaping : begin(shaping);
  },
  resume,
};
