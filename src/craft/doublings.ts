/*
 * Growing by doubling: every stitch between the edges becomes two, then come plain rows, about twice as many as after the
 * doubling before. A half circle of 7 with 3 edge stitches on each side doubles on rows 1, 5, 11, 23 and 47: 13, 20, 34,
 * 62, 118 and 230 stitches. The plan ends with the last row asked for, whichever band that falls in.
 */

import type { Plan, PlanSpec, PlanStep, Problem } from '../formula/index.ts';
import { present, readCounts, readNumber, refused } from './count.ts';
import { finished, stitchesWorked } from './plan.ts';
import { problem } from './problem.ts';
import { listed, rows as rowsInWords, sts } from './words.ts';

interface Doublings {
  readonly from: number;
  readonly edges: number;
  readonly over: number;
  readonly before: number;
  /** Plain rows after each doubling, in order. */
  readonly plain: readonly number[];
}

const AFTER = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'] as const;

/** A row on which the count changes, and what it is then. */
interface Event {
  readonly row: number;
  readonly after: number;
  /** True where it is no doubling but puts the count right. */
  readonly mend: boolean;
}

/** The rows of the doublings up to the last row asked for. */
function doublingsOf({ from, edges, over, before, plain }: Doublings): readonly Event[] {
  let row = before + 1;
  return plain.flatMap((after, i) => {
    const event = { row, after: from * 2 ** (i + 1) + edges, mend: false };
    row += after + 1;
    return event.row <= over ? [event] : [];
  });
}

const plainStep = (first: number, last: number, after: number): PlanStep => ({
  rows: [first, last],
  times: 1,
  do: 'plain',
  says: `${rowsInWords(last - first + 1)} plain`,
  after,
});

function eventStep({ row, after, mend }: Event, count: number): PlanStep {
  const does = after > count ? 'increase' : 'decrease';
  const why = mend ? 'to put the count right' : 'every stitch between the edges twice';
  const says = `${does} ${sts(Math.abs(after - count))} on row ${row}, ${why}`;
  return { rows: [row, row], times: 1, do: does, says, after };
}

function laidOut(doublings: Doublings, start: number, count: number, events: readonly Event[]): Plan {
  const steps: PlanStep[] = [];
  let [row, now] = [start, count];
  for (const event of events) {
    if (event.row > row + 1) steps.push(plainStep(row + 1, event.row - 1, now));
    steps.push(eventStep(event, now));
    [row, now] = [event.row, event.after];
  }
  if (row < doublings.over) steps.push(plainStep(row + 1, doublings.over, now));
  const { plain, ...others } = doublings;
  const args = present({ ...others, ...Object.fromEntries(plain.map((rows, i) => [AFTER[i], rows])) });
  const totals = {
    start: count,
    after_row: start,
    stitches_after: now,
    rows: doublings.over - start,
    shapings: events.length,
  };
  const plan = { kind: 'doublings', args, steps, text: inShort(doublings, events, now), remarks: [], totals };
  return { ...plan, totals: { ...totals, stitches_worked: stitchesWorked(plan) } };
}

/** "double on rows 1, 5 and 11: 62 sts after row 20". */
function inShort({ over }: Doublings, events: readonly Event[], end: number): string {
  const rows = events.map(({ row }) => `${row}`);
  const count = `${sts(end)} after row ${over}`;
  if (rows.length === 0) return `no doubling: ${count}`;
  return `double on row${rows.length === 1 ? '' : 's'} ${listed(rows)}: ${count}`;
}

function readDoublings(args: readonly (number | undefined)[]): Doublings | Problem {
  const [from, edges, over, before, ...after] = args;
  const rows = readNumber('rows', [over, Number.NEGATIVE_INFINITY]);
  if (typeof rows === 'number' && rows < 1) return problem('plan-no-rows', { value: rows });
  const read = readCounts({ from: [from, 1], edges: [edges, 0], over: [over, 1], before: [before, 0] });
  if (refused(read)) return read;
  const given = AFTER.filter((_, i) => i === 0 || after[i] !== undefined);
  const plain = readCounts(
    Object.fromEntries(given.map((name) => [name, [after[AFTER.indexOf(name)], 0] as const])),
  );
  if (refused(plain)) return plain;
  return { ...read, plain: given.map((name) => (plain as Record<string, number>)[name] ?? 0) };
}

/** The count after a row, by the plan. */
function plannedAfter(doublings: Doublings, row: number): number {
  const done = doublingsOf(doublings).filter((event) => event.row <= row);
  return done.at(-1)?.after ?? doublings.from + doublings.edges;
}

/** The rest from where she is: what is off is put right in the next row, in a doubling along with it. */
function resume(plan: Plan, row: number, count: number): Plan | Problem {
  const names = ['from', 'edges', 'over', 'before', ...AFTER];
  const doublings = readDoublings(names.map((name) => plan.args[name]));
  if (refused(doublings)) return doublings;
  const read = readCounts({ row: [row, 0, doublings.over], count: [count, 1] });
  if (refused(read)) return read;
  if (read.row === doublings.over) {
    const end = plannedAfter(doublings, doublings.over);
    if (read.count === end) return finished(plan, read.row, read.count);
    return problem('plan-no-rows-left', { row: read.row, count: read.count, to: end });
  }
  const next = plannedAfter(doublings, read.row + 1);
  const later = doublingsOf(doublings).filter((event) => event.row > read.row);
  const isDoubling = later[0]?.row === read.row + 1;
  if (next === read.count)
    return laidOut(doublings, read.row, read.count, isDoubling ? later.slice(1) : later);
  const mend = { row: read.row + 1, after: next, mend: true };
  return laidOut(doublings, read.row, read.count, isDoubling ? later : [mend, ...later]);
}

const plainAfter = (name: string, optional: boolean) => ({
  name,
  accepts: 'rows' as const,
  help: `plain rows after the ${name} doubling`,
  ...(optional ? { optional } : {}),
});

/** Doublings with more and more plain rows between them: half circles and circles. */
export const doublings: PlanSpec = {
  kind: 'plan',
  name: 'doublings',
  help: 'a half circle or circle that doubles its stitches, band by band',
  parameters: [
    { name: 'from', accepts: 'stitches', help: 'stitches that double, without the edges' },
    { name: 'edges', accepts: 'stitches', help: 'edge stitches in all, which do not double' },
    { name: 'over', accepts: 'rows', help: 'rows up to the last one' },
    { name: 'before', accepts: 'rows', help: 'plain rows before the first doubling' },
    ...AFTER.map((name, i) => plainAfter(name, i > 0)),
  ],
  gives: 'plan',
  examples: [
    {
      text: 'doublings(7 st, 6 st, 76 row, 0 row, 3 row, 5 row, 11 row, 23 row, 47 row, 95 row)',
      gives: 'double on rows 1, 5, 11, 23 and 47: 230 sts after row 76',
    },
    {
      text: 'doublings(9 st, 0 st, 50 row, 1 row, 3 row, 6 row, 12 row, 24 row)',
      gives: 'double on rows 2, 6, 13 and 26: 144 sts after row 50',
    },
  ],
  source: 'E. Zimmermann, Knitter’s Almanac, 1974: the circle by doubling; odd plain rows: common practice',
  says: ([from, edges, over]) => `doublings of ${from} between ${edges} of edge, to row ${over}`,
  work: (...args) => {
    const read = readDoublings(args);
    if (refused(read)) return read;
    return laidOut(read, 0, read.from + read.edges, doublingsOf(read));
  },
  resume,
};
