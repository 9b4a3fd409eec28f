/*
 * Spreading increases or decreases evenly along one row. `n` stitches shared over `k` changes leave gaps that
 * differ by at most one. In the round every gap is whole. Worked flat, one gap is cut in two and put at the
 * edges, so that no change stands at the edge; where it can be, the one cut is even, so that both edges match.
 * An increase (m1) takes no stitch of its own; a decrease (k2tog) eats two.
 *
 * 14 more in 124: 124 = 2 × 8 + 12 × 9. Round: (k8, m1) 2 times, (k9, m1) 12 times. Flat: one of the 8s is
 * cut into 4 and 4: k4, (m1, k9) 12 times, m1, k8, m1, k4.
 */

import type { Plan, PlanSpec, PlanStep, Problem } from '../formula/index.ts';
import { MOST, readCounts, refused, sharedOut } from './count.ts';
import { finished, total } from './plan.ts';
import { problem } from './problem.ts';
import { sts, times } from './words.ts';

/** Plain stitches and the change that comes before or after them, so many times. */
interface Group {
  readonly plain: number;
  readonly times: number;
  readonly change: -1 | 0 | 1;
  readonly changeFirst: boolean;
}

/** The words of a right-side or a wrong-side row. */
export interface Stitchery {
  readonly plain: string;
  readonly make: string;
  readonly together: string;
}
export const KNITTED: Stitchery = { plain: 'k', make: 'm1', together: 'k2tog' };
export const PURLED: Stitchery = { plain: 'p', make: 'm1p', together: 'p2tog' };

const width = (group: Group): number => group.plain + (group.change < 0 ? 2 : 0);

/** "(k9, m1) 12 times": a group as a pattern prints it. */
export function inWords(group: Group, stitchery: Stitchery): string {
  const plain = group.plain > 0 ? [`${stitchery.plain}${group.plain}`] : [];
  const made = group.change > 0 ? stitchery.make : stitchery.together;
  const change = group.change === 0 ? [] : [made];
  const worked = (group.changeFirst ? [...change, ...plain] : [...plain, ...change]).join(', ');
  if (group.times === 1) return worked;
  return worked.includes(',') ? `(${worked}) ${times(group.times)}` : `${worked} ${times(group.times)}`;
}

function roundGroups(changes: number, over: number): Group[] {
  const change = changes > 0 ? 1 : -1;
  const { small, smalls, larges } = sharedOut(change > 0 ? over : over + 2 * changes, Math.abs(changes));
  return [
    { plain: small, times: smalls, change, changeFirst: false },
    { plain: small + 1, times: larges, change, changeFirst: false },
  ];
}

function flatGroups(changes: number, over: number): Group[] {
  const change = changes > 0 ? 1 : -1;
  const { small, smalls, larges } = sharedOut(change > 0 ? over : over + 2 * changes, Math.abs(changes));
  const cutLarge = small % 2 === 1 && larges > 0;
  const cut = cutLarge ? small + 1 : small;
  const edge = Math.floor(cut / 2);
  return [
    { plain: edge, times: 1, change: 0, changeFirst: true },
    { plain: small + 1, times: cutLarge ? larges - 1 : larges, change, changeFirst: true },
    { plain: small, times: cutLarge ? smalls : smalls - 1, change, changeFirst: true },
    { plain: cut - edge, times: 1, change, changeFirst: true },
  ];
}

/** The groups of a spread along one round, or flat: half a gap at each edge. The changes must fit. */
export function groupsOf(changes: number, over: number, flat: boolean): Group[] {
  if (changes === 0) return [{ plain: over, times: 1, change: 0, changeFirst: false }];
  const groups = flat ? flatGroups(changes, over) : roundGroups(changes, over);
  return merged(groups.filter((group) => group.times > 0 && (group.plain > 0 || group.change !== 0)));
}

/** Neighbours that are alike, as one group. */
function merged(groups: readonly Group[]): Group[] {
  const kept: Group[] = [];
  for (const group of groups) {
    const last = kept.at(-1);
    const alike = last?.plain === group.plain && last.change === group.change;
    if (last && alike) kept[kept.length - 1] = { ...last, times: last.times + group.times };
    else kept.push(group);
  }
  return kept;
}

/** Why so many changes do not fit on so many stitches (flat: no increase beyond the last stitch). */
function crowded(changes: number, over: number, flat: boolean): Problem | undefined {
  const most = flat ? over - 1 : over;
  if (changes > most) return problem('plan-too-many-increases', { changes, over, most });
  const fewest = Math.floor(over / 2);
  if (-changes > fewest) return problem('plan-too-many-decreases', { changes: -changes, over, most: fewest });
  return undefined;
}

/** Changes spread over stitches worked flat, in words; undefined where they do not fit. */
export function spreadInWords(changes: number, over: number, stitchery: Stitchery): string | undefined {
  if (over < 1 || crowded(changes, over, true)) return undefined;
  return groupsOf(changes, over, true)
    .map((group) => inWords(group, stitchery))
    .join(', ');
}

function stepsOf(groups: readonly Group[], over: number): PlanStep[] {
  let last = 0;
  let after = over;
  return groups.map((group) => {
    const first = last + 1;
    last += width(group) * group.times;
    after += group.change * group.times;
    const does = group.change > 0 ? 'increase' : group.change < 0 ? 'decrease' : 'knit';
    const says = inWords(group, KNITTED);
    return { stitches: [first, last] as const, times: group.times, do: does, says, after };
  });
}

/** "4 + 108 + 8 + 4 = 124": the stitches of each group, which must come to all of them. */
function sum(groups: readonly Group[], over: number): string {
  const [only, second] = groups;
  if (!only || only.times * width(only) === over) {
    return only && only.times > 1 && !second ? ` (${only.times} × ${width(only)} = ${over} before)` : '';
  }
  return ` (${groups.map((group) => group.times * width(group)).join(' + ')} = ${over} before)`;
}

function spread(kind: string, changes: number, over: number): Plan | Problem {
  const flat = kind === 'spread_flat';
  const problem = crowded(changes, over, flat);
  if (problem) return problem;
  const groups = groupsOf(changes, over, flat);
  const steps = stepsOf(groups, over);
  const after = over + changes;
  const text = `${steps.map((step) => step.says).join(', ')}; ${sts(after)}${sum(groups, over)}`;
  const totals = {
    start: over,
    stitches_after: after,
    rows: 1,
    after_row: 0,
    shapings: Math.abs(changes),
    stitches_worked: after,
  };
  return { kind, args: { changes, over }, steps, text, remarks: [], totals };
}

function work(kind: string, changes: number | undefined, over: number | undefined): Plan | Problem {
  const read = readCounts({ changes: [changes, -MOST], over: [over, 1] });
  return refused(read) ? read : spread(kind, read.changes, read.over);
}

/** The same row again for the stitches there are; once it is worked, a second row puts right what is off. */
function resume(plan: Plan, row: number, count: number): Plan | Problem {
  const read = readCounts({ row: [row, 0], count: [count, 1] });
  if (refused(read)) return read;
  const aim = total(plan, 'stitches_after');
  if (read.row > 0 && read.count === aim) return finished(plan, read.row, read.count);
  const rest = spread(plan.kind, aim - read.count, read.count);
  if (refused(rest)) return rest;
  const noun = plan.kind === 'spread_flat' ? 'row' : 'rnd';
  const remarks = read.row > 0 ? [`Work this in the next plain ${noun}.`] : [];
  return { ...rest, args: plan.args, remarks, totals: { ...rest.totals, after_row: read.row } };
}

const parameters = [
  {
    name: 'changes',
    accepts: 'plain',
    help: 'how many stitches more; below 0 for fewer',
  },
  { name: 'over', accepts: 'stitches', help: 'how many stitches there are before' },
] as const;

/** Changes spread evenly over one round. */
export const spreadRound: PlanSpec = {
  kind: 'plan',
  name: 'spread_round',
  help: 'increases (or, below 0, decreases) spread evenly over one round',
  parameters,
  gives: 'plan',
  examples: [
    {
      text: 'spread_round(14, 124 st)',
      gives: '(k8, m1) 2 times, (k9, m1) 12 times; 138 sts (16 + 108 = 124 before)',
    },
    { text: 'spread_round(-48, 96 st)', gives: 'k2tog 48 times; 48 sts (48 × 2 = 96 before)' },
  ],
  source: 'A. Budd, handout on shaping evenly, 2010, after C. Brunette, Sweater 101, 1991',
  says: ([changes, over]) => `${changes} spread evenly over a round of ${over}`,
  work: (changes, over) => work('spread_round', changes, over),
  resume,
};

/** Changes spread evenly over one row, about half a gap at each edge. */
export const spreadFlat: PlanSpec = {
  kind: 'plan',
  name: 'spread_flat',
  help: 'increases (or, below 0, decreases) spread evenly over one row, half a gap at each edge',
  parameters,
  gives: 'plan',
  examples: [
    {
      text: 'spread_flat(14, 124 st)',
      gives: 'k4, (m1, k9) 12 times, m1, k8, m1, k4; 138 sts (4 + 108 + 8 + 4 = 124 before)',
    },
    {
      text: 'spread_flat(-2, 347 st)',
      gives: 'k86, k2tog, k171, k2tog, k86; 345 sts (86 + 173 + 88 = 347 before)',
    },
  ],
  source: 'common practice',
  says: ([changes, over]) => `${changes} spread evenly over a row of ${over}`,
  work: (changes, over) => work('spread_flat', changes, over),
  resume,
};
