/*
 * A toe: four stitches fewer a decrease round (one at each end of the sole and of the instep), the first on
 * round 1. The next comes four, three or two rounds later while more stitches remain than the limit given for
 * each, then on every round. The toe of 1896 goes from 56 to 16 on rounds 1, 5, 9, 13, 16 and 19, then every
 * round: four apart while more than 40 remain, three apart while more than 32.
 */

import type { Plan, PlanSpec, Problem } from '../formula/index.ts';
import { present, readCounts, readNumber, refused, sharedOut } from './count.ts';
import { type Interval, inOneLine, intervalsAfter, type Run, shapingsIn, stepsAlong } from './intervals.ts';
import { countAt, finished, stitchesWorked, total } from './plan.ts';
import { problem } from './problem.ts';
import { rnds, sts } from './words.ts';

/** Stitches a decrease round takes away. */
const PER_ROUND = 4;

interface Toe {
  readonly from: number;
  readonly to: number;
  readonly seconds_until: number;
  readonly thirds_until?: number;
  readonly fourths_until?: number;
}

/** Decrease rounds by how far apart they come: first while more than one limit remains, then the next. */
function intervalsOf(toe: Toe): Interval[] {
  const limits = [
    [toe.fourths_until, 4],
    [toe.thirds_until, 3],
    [toe.seconds_until, 2],
    [toe.to, 1],
  ] as const;
  const intervals: Interval[] = [{ rows: 1, times: 1, change: -PER_ROUND }];
  let left = toe.from - PER_ROUND;
  for (const [limit = left, apart] of limits) {
    const times = Math.ceil((left - Math.min(left, Math.max(limit, toe.to))) / PER_ROUND);
    intervals.push({ rows: apart, times, change: -PER_ROUND });
    left -= times * PER_ROUND;
  }
  return intervals;
}

function laidOut(
  toe: Toe,
  run: Pick<Run, 'start' | 'count' | 'intervals' | 'tail'>,
  remarks: readonly string[],
): Plan {
  const steps = stepsAlong({ ...run, noun: 'rnd', firstNamed: true, rightSide: false });
  const end = steps.at(-1)?.after ?? run.count;
  const rounds = (steps.at(-1)?.rows?.[1] ?? run.start) - run.start;
  const text = `${inOneLine(steps)}: ${sts(end)} left after ${rnds(rounds)}`;
  const totals = {
    start: run.count,
    after_row: run.start,
    stitches_after: end,
    rows: rounds,
    shapings: shapingsIn(run.intervals),
  };
  const plan = { kind: 'toe', args: present({ ...toe }), steps, text, remarks, totals };
  return { ...plan, totals: { ...totals, stitches_worked: stitchesWorked(plan) } };
}

function readLimits(given: Readonly<Record<string, number | undefined>>): Record<string, number> | Problem {
  const limits: Record<string, number> = {};
  for (const [name, value] of Object.entries(given)) {
    if (value === undefined && name !== 'seconds_until') continue;
    const limit = readNumber(name, [value, 0]);
    if (typeof limit !== 'number') return limit;
    limits[name] = limit;
  }
  return limits;
}

function readToe([from, to, ...until]: readonly (number | undefined)[]): Toe | Problem {
  const read = readCounts({ from: [from, 5], to: [to, 1] });
  if (refused(read)) return read;
  const [seconds_until, thirds_until, fourths_until] = until;
  const limits = readLimits({ seconds_until, thirds_until, fourths_until });
  if (refused(limits)) return limits as Problem;
  return { ...read, ...limits } as Toe;
}

/** The toe must end by whole decrease rounds; else the nearest ends are named. */
function unreachable({ from, to }: Toe): Problem | undefined {
  if (to >= from) return problem('plan-toe-grows', { from, to });
  const rounds = Math.floor((from - to) / PER_ROUND);
  if (rounds * PER_ROUND === from - to) return undefined;
  const ends = [from - rounds * PER_ROUND, from - (rounds + 1) * PER_ROUND].filter((n) => n > 0 && n < from);
  return problem('plan-toe-end', { from, to, ends: ends.map(String) });
}

function unequalHalves({ from }: Toe): string[] {
  if (from % 2 === 0) return [];
  return [`${sts(from)} do not halve into sole and instep: work one single decrease first, to ${from - 1}.`];
}

function begin(toe: Toe): Plan | Problem {
  const run = { start: 0, count: toe.from, intervals: intervalsOf(toe), tail: 0 };
  return unreachable(toe) ?? laidOut(toe, run, unequalHalves(toe));
}

/** Decrease rounds over the rounds left, the wider apart first; every round when there are too few. */
function evenly(decreases: number, rounds: number): Interval[] {
  if (decreases === 0) return [];
  const { small, smalls, larges } = sharedOut(Math.max(rounds, decreases), decreases);
  return [
    { rows: small + 1, times: larges, change: -PER_ROUND },
    { rows: small, times: smalls, change: -PER_ROUND },
  ];
}

/** Stitches to take away (or, below 0, to add) so that whole decrease rounds remain. */
function oddStitches(count: number, to: number): number {
  const odd = (count - to) % PER_ROUND;
  return odd === 3 ? -1 : odd;
}

/** The rest, spread anew over the rounds left; a toe with too few rounds left is finished in more. */
function anew(toe: Toe, row: number, count: number, rounds: number): Plan | Problem {
  if (count < toe.to) return problem('plan-toe-short', { count, to: toe.to });
  const odd = oddStitches(count, toe.to);
  const decreases = (count - odd - toe.to) / PER_ROUND;
  const mend: Interval[] = odd === 0 ? [] : [{ rows: 1, times: 1, change: -odd, mend: true }];
  const left = rounds - row - mend.length;
  const longer = decreases - left;
  const remarks = longer > 0 ? [`This takes ${rnds(longer)} more than planned.`] : [];
  const intervals = [...mend, ...evenly(decreases, left)];
  return laidOut(
    toe,
    { start: row, count, intervals, tail: decreases === 0 ? Math.max(0, left) : 0 },
    remarks,
  );
}

function resume(plan: Plan, row: number, count: number): Plan | Problem {
  const toe = readToe(
    ['from', 'to', 'seconds_until', 'thirds_until', 'fourths_until'].map((name) => plan.args[name]),
  );
  if (refused(toe)) return toe;
  const read = readCounts({ row: [row, 0], count: [count, 1] });
  if (refused(read)) return read;
  const rounds = total(plan, 'after_row') + total(plan, 'rows');
  const planned = countAt(plan, read.row);
  if (read.count === toe.to) return finished(plan, read.row, read.count);
  const knows = read.row >= total(plan, 'after_row');
  if (!knows || planned !== read.count) return anew(toe, read.row, read.count, rounds);
  const rest = intervalsAfter(plan, read.row, PER_ROUND);
  return laidOut(toe, { start: read.row, count: read.count, ...rest }, read.row === 0 ? plan.remarks : []);
}

/** The toe of a sock. */
export const toe: PlanSpec = {
  kind: 'plan',
  name: 'toe',
  help: 'the toe of a sock: four stitches fewer a decrease round, wider apart first',
  parameters: [
    { name: 'from', accepts: 'stitches', help: 'stitches of the foot' },
    { name: 'to', accepts: 'stitches', help: 'stitches left to graft, in all' },
    { name: 'seconds_until', accepts: 'stitches', help: 'every 2nd round while more than this many remain' },
    {
      name: 'thirds_until',
      accepts: 'stitches',
      help: 'before that, every 3rd round while more than this many remain',
      optional: true,
    },
    {
      name: 'fourths_until',
      accepts: 'stitches',
      help: 'first of all, every 4th round while more than this many remain',
      optional: true,
    },
  ],
  gives: 'plan',
  examples: [
    {
      text: 'toe(60 st, 8 st, 32 st, 44 st)',
      gives:
        'decrease on rnd 1, then every 3rd rnd 3 times, then every 2nd rnd 3 times, ' +
        'then every rnd 6 times: 8 sts left after 22 rnds',
    },
    {
      text: 'toe(56 st, 16 st, 32 st, 32 st, 40 st)',
      gives:
        'decrease on rnd 1, then every 4th rnd 3 times, then every 3rd rnd 2 times, ' +
        'then every rnd 4 times: 16 sts left after 23 rnds',
    },
  ],
  source: 'Handbook of Wool Knitting and Crochet, 1918; H. P. Ryder, Knickerbocker Stockings, 1896',
  says: ([from, to, seconds, thirds, fourths]) =>
    [
      `a toe from ${from} to ${to}`,
      fourths && `every 4th round while more than ${fourths} remain`,
      thirds && `every 3rd while more than ${thirds} remain`,
      `every 2nd while more than ${seconds} remain`,
    ]
      .filter(Boolean)
      .join(', '),
  work: (...args) => {
    const read = readToe(args);
    return refused(read) ? read : begin(read);
  },
  resume,
};
