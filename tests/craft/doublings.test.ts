// Half circles and circles that double: the counts printed, and the rest of the plan from any row.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countAt, doublings, rowsOf } from '../../src/craft/index.ts';
import type { Plan, Problem } from '../../src/formula/index.ts';

function planned(given: Plan | Problem): Plan {
  if ('code' in given) throw new Error(given.code);
  return given;
}

/** The rows on which something is done, with the count after each. */
const events = (plan: Plan) =>
  [...rowsOf(plan)].filter((row) => row.do !== 'plain').map(({ row, after }) => [row, after]);

describe('printed counts', () => {
  // Source: E. Zimmermann, Knitter’s Almanac, 1974: 9, 18, 36 … 576 with 3, 6, 12, 24, 48 rounds between.
  test('the circle by doubling', () => {
    const plan = planned(doublings.work(9, 0, 196, 1, 3, 6, 12, 24, 48, 96));
    expect(events(plan)).toEqual([
      [2, 18],
      [6, 36],
      [13, 72],
      [26, 144],
      [51, 288],
      [100, 576],
    ]);
    expect(plan.totals['stitches_worked']).toBe(74_853);
  });

  // Source: exact arithmetic by hand, common practice in method.
  test('a half circle stops in the middle of a band', () => {
    const plan = planned(doublings.work(7, 6, 76, 0, 3, 5, 11, 23, 47, 95));
    expect(events(plan).map(([row]) => row)).toEqual([1, 5, 11, 23, 47]);
    expect(plan.totals).toMatchObject({ start: 13, stitches_after: 230, rows: 76, stitches_worked: 10_760 });
  });
});

describe('from where she is', () => {
  const plan = planned(doublings.work(7, 6, 76, 0, 3, 5, 11, 23, 47));

  test('on plan the rest is the plan’s own rows', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 75 }), (row) => {
        const rest = planned(doublings.resume(plan, row, countAt(plan, row)));
        expect([...rowsOf(rest)].map(({ row: at, after }) => [at, after])).toEqual(
          [...rowsOf(plan)].slice(row).map(({ row: at, after }) => [at, after]),
        );
      }),
    );
  });

  test('a stitch short is put right in the next row, or along with a doubling', () => {
    expect(events(planned(doublings.resume(plan, 30, 117)))).toEqual([
      [31, 118],
      [47, 230],
    ]);
    expect(events(planned(doublings.resume(plan, 22, 61)))).toEqual([
      [23, 118],
      [47, 230],
    ]);
  });

  test('after the last row there is no row left to put it right', () => {
    expect(doublings.resume(plan, 76, 229)).toMatchObject({ code: 'plan-no-rows-left' });
    expect(planned(doublings.resume(plan, 76, 230)).steps).toEqual([]);
  });
});
