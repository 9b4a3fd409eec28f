/* Reading a number off a plan. A plan that has no such number (repeats of a toe) gives NaN. */

import type { Gives, ReadingSpec } from '../formula/index.ts';
import { total } from './plan.ts';

interface Reading {
  readonly name: string;
  readonly of: string;
  readonly help: string;
  readonly gives: Gives;
  readonly examples: readonly (readonly [text: string, gives: string])[];
}

function reading({ name, of, help, gives, examples }: Reading): ReadingSpec {
  return {
    kind: 'reading',
    name,
    help,
    parameters: [{ name: 'plan', accepts: 'plan', help: 'a plan, as shape or toe make it' }],
    gives,
    examples: examples.map(([text, value]) => ({ text, gives: value })),
    source: 'common practice',
    decided: true,
    says: ([plan]) => `${help} of ${plan}`,
    work: (plan) => total(plan, of),
  };
}

/** The functions that read a number off a plan. */
export const readings: readonly ReadingSpec[] = [
  reading({
    name: 'stitches_after',
    of: 'stitches_after',
    help: 'stitches left at the end',
    gives: 'stitches',
    examples: [
      ['stitches_after(heel_turn(28 st, 16))', '16 st'],
      ['stitches_after(spread_round(14, 124 st))', '138 st'],
    ],
  }),
  reading({
    name: 'rows_of',
    of: 'rows',
    help: 'rows or rounds',
    gives: 'rows',
    examples: [
      ['rows_of(toe(68 st, 20 st, 34 st))', '20 row'],
      ['rows_of(join(347 st, 5))', '690 row'],
    ],
  }),
  reading({
    name: 'shapings_of',
    of: 'shapings',
    help: 'rows with shaping',
    gives: 'number',
    examples: [
      ['shapings_of(toe(60 st, 8 st, 32 st, 44 st))', '13'],
      ['shapings_of(shape(43 st, 71 st, 107 row, 2, 1))', '14'],
    ],
  }),
  reading({
    name: 'repeats_of',
    of: 'repeats',
    help: 'whole repeats',
    gives: 'number',
    examples: [
      ['repeats_of(join(347 st, 5))', '69'],
      ['repeats_of(join(576 st, 6))', '96'],
    ],
  }),
  reading({
    name: 'double_joins_of',
    of: 'double_joins',
    help: 'joins that take two live stitches',
    gives: 'number',
    examples: [
      ['double_joins_of(join(347 st, 5))', '2'],
      ['double_joins_of(join(347 st, 5, 70))', '0'],
    ],
  }),
  reading({
    name: 'idle_joins_of',
    of: 'idle_joins',
    help: 'joins that take no live stitch',
    gives: 'number',
    examples: [
      ['idle_joins_of(join(347 st, 5, 70))', '3'],
      ['idle_joins_of(join(347 st, 5))', '0'],
    ],
  }),
  reading({
    name: 'stitches_worked',
    of: 'stitches_worked',
    help: 'stitches worked in all its rows',
    gives: 'stitches',
    examples: [
      ['stitches_worked(toe(68 st, 20 st, 34 st))', '904 st'],
      ['stitches_worked(heel_turn(34 st, 19))', '203 st'],
    ],
  }),
];
