/*
 * The functions every notebook has: counting, plain arithmetic, dates, and the functions over the columns. What
 * four operations can say is a cell, so nothing else stands here.
 */

import { multipleOf, nearMultiple, same, snapped, wholeDown, wholeNear, wholeUp } from '../quantity/index.ts';
import { MINUTES_A_DAY } from './compile.ts';
import { problem } from './problem.ts';
import type { FunctionSpec, NumberSpec, Parameter, Run, RunSpec } from './spec.ts';
import { dayNumber } from './token.ts';

const COMMON = 'common practice';

const count = (help: string): Parameter => ({ name: 'x', accepts: 'count', help });

function counting(
  name: string,
  help: string,
  way: string,
  work: (x: number) => number,
  examples: NumberSpec['examples'],
): NumberSpec {
  return {
    kind: 'number',
    name,
    help,
    parameters: [count('stitches, rows, skeins or a plain number')],
    gives: 'first',
    decided: true,
    holds: 'count',
    examples,
    source: COMMON,
    says: ([x = '']) => `${x}, ${way}`,
    work,
  };
}

function multiples(
  name: string,
  help: string,
  way: string,
  round: (x: number) => number,
  examples: NumberSpec['examples'],
): NumberSpec {
  return {
    kind: 'number',
    name,
    help,
    parameters: [
      count('what is to be a multiple'),
      { name: 'n', accepts: 'plain', help: 'of how many: the stitches of one repeat' },
      {
        name: 'plus',
        accepts: 'plain',
        help: 'stitches over, beside the repeats (0 if left out)',
        optional: true,
      },
    ],
    gives: 'first',
    decided: true,
    holds: 'count',
    examples,
    source: COMMON,
    says: ([x = '', n = '', plus]) => `${x}, ${way} multiple of ${n}${plus ? `, plus ${plus}` : ''}`,
    work: (x = 0, n = 1, plus = 0) => multipleOf(round, x, n, plus),
    fails: (_x, n = 1) => (n > 0 ? undefined : problem('multiple-of-nothing', { n })),
  };
}

const COUNTS: readonly FunctionSpec[] = [
  {
    ...counting('whole', 'The nearest whole count; halves go up.', 'to the nearest whole', wholeNear, [
      { text: 'whole(198.9 st)', gives: '199 st' },
      { text: 'whole(2.5 st)', gives: '3 st' },
      { text: 'whole(-2.5 st)', gives: '-2 st' },
    ]),
    inline: 'whole',
  },
  counting('whole_up', 'The whole count at or above.', 'up to a whole', wholeUp, [
    { text: 'whole_up(4.2 skeins)', gives: '5 skeins' },
    { text: 'whole_up(243.0000000001 st)', gives: '243 st' },
  ]),
  counting('whole_down', 'The whole count at or below.', 'down to a whole', wholeDown, [
    { text: 'whole_down(19.9 rows)', gives: '19 rows' },
  ]),
  {
    ...multiples(
      'multiple',
      'The nearest multiple of n, plus a few; halves go up.',
      'to the nearest',
      wholeNear,
      [
        { text: 'multiple(198.9 st, 8)', gives: '200 st' },
        { text: 'multiple(230 st, 12, 1)', gives: '229 st' },
      ],
    ),
    inline: 'multiple',
  },
  multiples('multiple_up', 'The multiple of n, plus a few, at or above.', 'up to a', wholeUp, [
    { text: 'multiple_up(193 st, 8)', gives: '200 st' },
  ]),
  multiples('multiple_down', 'The multiple of n, plus a few, at or below.', 'down to a', wholeDown, [
    { text: 'multiple_down(199 st, 8)', gives: '192 st' },
  ]),
];

const pair = (help: string): readonly Parameter[] => [
  { name: 'a', accepts: 'quantity', help },
  { name: 'b', accepts: 'same', help: 'another of the same kind' },
  { name: 'c', accepts: 'same', help: 'and another', optional: true },
  { name: 'd', accepts: 'same', help: 'and another', optional: true },
];

const PLAIN: readonly FunctionSpec[] = [
  {
    kind: 'number',
    name: 'min',
    help: 'The smallest of two to four values.',
    parameters: pair('a number'),
    gives: 'first',
    examples: [{ text: 'min(3 in, 5 cm)', gives: '5 cm' }],
    source: COMMON,
    says: (words) => `the smallest of ${words.join(', ')}`,
    work: (a = 0, b = a, c = a, d = a) => Math.min(a, b, c, d),
    inline: 'min',
  },
  {
    kind: 'number',
    name: 'max',
    help: 'The largest of two to four values.',
    parameters: pair('a number'),
    gives: 'first',
    examples: [{ text: 'max(3 in, 5 cm)', gives: '3 in' }],
    source: COMMON,
    says: (words) => `the largest of ${words.join(', ')}`,
    work: (a = 0, b = a, c = a, d = a) => Math.max(a, b, c, d),
    inline: 'max',
  },
  {
    kind: 'number',
    name: 'abs',
    help: 'The size of a number, without its sign.',
    parameters: [{ name: 'x', accepts: 'quantity', help: 'a number' }],
    gives: 'first',
    examples: [{ text: 'abs(-2 in)', gives: '2 in' }],
    source: COMMON,
    says: ([x = '']) => `${x}, without its sign`,
    work: (x = 0) => Math.abs(x),
  },
  {
    kind: 'number',
    name: 'sqrt',
    help: 'The square root.',
    parameters: [{ name: 'x', accepts: 'quantity', help: 'a number that is not below nothing' }],
    gives: 'root',
    examples: [{ text: 'sqrt(9 in * 4 in)', gives: '6 in' }],
    source: COMMON,
    says: ([x = '']) => `the square root of ${x}`,
    work: (x = 0) => (x < 0 ? Number.NaN : Math.sqrt(x)),
    fails: () => problem('root-of-negative'),
  },
  {
    kind: 'number',
    name: 'to_nearest',
    help: 'The nearest multiple of a step, for lengths and weights.',
    parameters: [
      { name: 'x', accepts: 'quantity', help: 'a length, a weight …' },
      { name: 'step', accepts: 'same', help: 'the step, above nothing' },
    ],
    gives: 'first',
    decided: false,
    holds: 'length',
    examples: [{ text: 'to_nearest(10.1 in, 1/4 in)', gives: '10 in' }],
    source: COMMON,
    says: ([x = '', step = '']) => `${x}, to the nearest ${step}`,
    work: (x = 0, step = 1) => nearMultiple(x, step),
    fails: () => problem('step-of-nothing'),
  },
  {
    kind: 'given',
    name: 'given',
    help: 'Whether a cell holds anything.',
    parameters: [{ name: 'cell', accepts: 'anything', help: 'the name of a cell' }],
    gives: 'truth',
    examples: [{ text: 'given(wrist)', given: { wrist: '' }, gives: 'no' }],
    source: COMMON,
    says: ([x = '']) => `${x} is given`,
  },
];

const wholeDay = (day: number): number => day * MINUTES_A_DAY;

const DATES: readonly FunctionSpec[] = [
  {
    kind: 'number',
    name: 'date',
    help: 'A day of the calendar.',
    parameters: [
      { name: 'year', accepts: 'number', help: 'in four figures' },
      { name: 'month', accepts: 'number', help: '1 to 12' },
      { name: 'day', accepts: 'number', help: '1 to 31' },
    ],
    gives: 'date',
    examples: [{ text: 'date(2026, 12, 24) - date(2026, 12, 10)', gives: '14 days' }],
    source: 'the Gregorian calendar',
    says: ([y = '', m = '', d = '']) => `${y}-${m.padStart(2, '0')}-${d.padStart(2, '0')}`,
    work: (y = 0, m = 0, d = 0) => wholeDay(dayNumber(snapped(y), snapped(m), snapped(d))),
    fails: (y = 0, m = 0, d = 0) => problem('no-such-day', { text: `${y}-${m}-${d}` }),
  },
  {
    kind: 'today',
    name: 'today',
    help: 'The day it is.',
    parameters: [],
    gives: 'date',
    examples: [{ text: 'today() - today()', gives: '0 days' }],
    source: COMMON,
    says: () => 'today',
  },
];

const each = (name: string, help: string, accepts: Parameter['accepts'] = 'quantity'): Parameter => ({
  name,
  accepts,
  help,
  each: true,
});

function present(run: Run): number[] {
  return Array.from({ length: run.columns }, (_, c) => c).filter((c) => !Number.isNaN(run.value(0, c)));
}

/** The best column by a measure, the first on a tie; −1 where every column is empty. */
function best(run: Run, better: (a: number, b: number) => boolean, measure: (c: number) => number): number {
  let at = -1;
  for (const c of present(run))
    if (at < 0 || (better(measure(c), measure(at)) && !same(measure(c), measure(at)))) at = c;
  return at;
}

const less = (a: number, b: number) => a < b;
const miss = (run: Run) => (c: number) => Math.abs(run.value(0, c) - run.single(0));

/** The columns that lie as near to the target as the nearest one does: more than one is a tie. */
export function nearestColumns(run: Run): readonly number[] {
  const first = best(run, less, miss(run));
  return first < 0 ? [] : present(run).filter((c) => same(miss(run)(c), miss(run)(first)));
}

function totalOf(run: Run, upTo: number): number {
  const columns = present(run).filter((c) => c <= upTo);
  return columns.length === 0 ? Number.NaN : columns.reduce((sum, c) => sum + run.value(0, c), 0);
}

/** Whether column `c` comes no later than column `at` by the values of argument `k`; of equals the first comes first. */
function comesBy(run: Run, k: number, c: number, at: number): boolean {
  const [its, own] = [run.value(k, c), run.value(k, at)];
  return same(its, own) ? c <= at : its < own;
}

function totalUntil(run: Run, at: number): number {
  if (Number.isNaN(run.value(0, at)) || Number.isNaN(run.value(1, at))) return Number.NaN;
  return present(run)
    .filter((c) => comesBy(run, 1, c, at))
    .reduce((sum, c) => sum + run.value(0, c), 0);
}

function rankOf(run: Run, at: number): number {
  if (Number.isNaN(run.value(0, at))) return Number.NaN;
  return present(run).filter((c) => comesBy(run, 0, c, at)).length;
}

/** Least squares: how much y moves for one of x. */
function slopeOf(run: Run): number {
  const columns = present(run).filter((c) => !Number.isNaN(run.value(1, c)));
  const mean = (k: number) => columns.reduce((sum, c) => sum + run.value(k, c), 0) / columns.length;
  const [y, x] = [mean(0), mean(1)];
  const spread = columns.reduce((sum, c) => sum + (run.value(1, c) - x) ** 2, 0);
  const along = columns.reduce((sum, c) => sum + (run.value(1, c) - x) * (run.value(0, c) - y), 0);
  return columns.length < 2 || spread <= 1e-18 * Math.max(1, x * x) ? Number.NaN : along / spread;
}

const SIZES = { chest: '36 (40, 44) in' };

function overAll(
  name: string,
  help: string,
  words: string,
  work: (run: Run) => number,
  example: RunSpec['examples'][number],
  decided?: boolean,
): RunSpec {
  const base = {
    kind: 'run' as const,
    name,
    help,
    parameters: [each('x', 'a value for each column')],
    gives: 'first' as const,
    examples: [example],
    source: COMMON,
    says: ([x = '']: readonly string[]) => `${words} ${x}`,
    work,
  };
  return decided === undefined ? base : { ...base, decided };
}

const valueAt = (run: Run, c: number): number => (c < 0 ? Number.NaN : run.value(0, c));

const RUNS: readonly FunctionSpec[] = [
  overAll('total', 'All the columns added together.', 'the total of', (run) => totalOf(run, run.columns), {
    text: 'total(chest)',
    given: SIZES,
    gives: '120 in',
  }),
  {
    kind: 'run',
    givesEach: true,
    name: 'total_up_to',
    help: 'For each column: it and all before it added together.',
    parameters: [each('x', 'a value for each column')],
    gives: 'first',
    examples: [{ text: 'at(total_up_to(chest), "2")', given: SIZES, gives: '76 in' }],
    source: COMMON,
    says: ([x = '']) => `the total of ${x} so far`,
    work: (run, at) => totalOf(run, at),
  },
  {
    kind: 'run',
    givesEach: true,
    name: 'total_until',
    help: 'For each column: it and all that come no later by another value, added together.',
    parameters: [
      each('x', 'what is added up'),
      each('when', 'what puts the columns in order: a date, a length …', 'anything'),
    ],
    gives: 'first',
    examples: [{ text: 'at(total_until(chest, -chest), "2")', given: SIZES, gives: '84 in' }],
    source: COMMON,
    says: ([x = '', when = '']) => `the total of ${x} up to its own ${when}`,
    work: totalUntil,
  },
  {
    kind: 'run',
    givesEach: true,
    name: 'rank',
    help: 'Which place each column takes from the smallest or earliest, counted from 1.',
    parameters: [each('x', 'what puts the columns in order: a date, a length …', 'anything')],
    gives: 'number',
    decided: true,
    examples: [{ text: 'at(rank(-chest), "3")', given: SIZES, gives: '1' }],
    source: COMMON,
    says: ([x = '']) => `its place by ${x}`,
    work: rankOf,
  },
  overAll(
    'average',
    'The average of the columns.',
    'the average of',
    (run) => totalOf(run, run.columns) / present(run).length,
    { text: 'average(chest)', given: SIZES, gives: '40 in' },
    false,
  ),
  overAll(
    'smallest',
    'The smallest of the columns.',
    'the smallest',
    (run) =>
      valueAt(
        run,
        best(run, less, (c) => run.value(0, c)),
      ),
    {
      text: 'smallest(chest)',
      given: SIZES,
      gives: '36 in',
    },
  ),
  overAll(
    'largest',
    'The largest of the columns.',
    'the largest',
    (run) =>
      valueAt(
        run,
        best(
          run,
          (a, b) => a > b,
          (c) => run.value(0, c),
        ),
      ),
    {
      text: 'largest(chest)',
      given: SIZES,
      gives: '44 in',
    },
  ),
  {
    kind: 'run',
    name: 'nearest',
    help: 'The column whose value lies nearest to a target; the first on a tie.',
    parameters: [
      each('x', 'a value for each column'),
      { name: 'target', accepts: 'same', help: 'what it is to be near' },
    ],
    gives: 'label',
    examples: [{ text: 'nearest(chest, 41 in)', given: SIZES, gives: '"2"' }],
    source: COMMON,
    says: ([x = '', target = '']) => `the column whose ${x} is nearest to ${target}`,
    work: (run) => {
      const [first] = nearestColumns(run);
      return first === undefined ? Number.NaN : run.labelOf(first);
    },
  },
  {
    kind: 'run',
    name: 'at',
    help: 'The value in one column.',
    parameters: [
      each('x', 'a value for each column', 'anything'),
      { name: 'column', accepts: 'label', help: 'the label of a column' },
    ],
    gives: 'first',
    examples: [{ text: 'at(chest, "3")', given: SIZES, gives: '44 in' }],
    source: COMMON,
    says: ([x = '', column = '']) => `${x} of ${column}`,
    only: (run) => run.columnOf(run.single(0)),
    work: (run) => valueAt(run, run.columnOf(run.single(0))),
    fails: (run) => (run.columnOf(run.single(0)) < 0 ? problem('no-such-column', {}) : undefined),
  },
  {
    kind: 'run',
    followsChosen: true,
    name: 'chosen',
    help: 'The value in the chosen column.',
    parameters: [each('x', 'a value for each column', 'anything')],
    gives: 'first',
    examples: [{ text: 'chosen(chest)', given: SIZES, gives: '36 in' }],
    source: COMMON,
    says: ([x = '']) => `your ${x}`,
    only: (run) => run.chosen,
    work: (run) => (Number.isNaN(run.chosen) ? Number.NaN : valueAt(run, run.chosen)),
  },
  {
    kind: 'run',
    name: 'slope',
    help: 'How much y changes for one of x, by least squares over the columns.',
    parameters: [each('y', 'what changes'), each('x', 'what it changes with')],
    gives: 'ratio',
    examples: [{ text: 'slope(2 * chest, chest)', given: SIZES, gives: '2' }],
    source: 'ordinary least squares (any statistics handbook)',
    says: ([y = '', x = '']) => `the change of ${y} for one of ${x}`,
    work: slopeOf,
    fails: () => problem('slope-needs-two'),
  },
];

/** The functions of the language that know nothing of plans. */
export const standard: readonly FunctionSpec[] = [...COUNTS, ...PLAIN, ...DATES, ...RUNS];
