import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countAt, nextShaping, rowsOf, shape } from '../../src/craft/index.ts';
import type { Plan } from '../../src/formula/index.ts';
import rates from '../data/rates.json';
import { planned, sentence } from './knit.ts';

const events = (plan: Plan) => [...rowsOf(plan)].filter((row) => row.do !== 'plain');
const rowsShaped = (plan: Plan) => events(plan).map((row) => row.row);

describe('published shapings', () => {
  test.each(rates)('$source', ({ args, text }) => {
    const plan = planned(shape.work(...args));
    expect(plan.text).toBe(text);
    expect(plan.totals['stitches_after']).toBe(args[1]);
    expect(plan.remarks).toEqual([]);
  });

  test('top-down triangle: 207 after 100 rows; its yarn by rows (H. Chayes, Shawl Geometry, 2013; arithmetic)', () => {
    const all = [...rowsOf(planned(shape.work(7, 207, 100, 4, 2)))];
    expect(all[0]?.after).toBe(11);
    const worked = (rows: number) => all.slice(0, rows).reduce((sum, row) => sum + row.after, 0);
    const share = [20, 40, 50, 60, 70, 80, 90].map((rows) => ((100 * worked(rows)) / worked(100)).toFixed(2));
    expect(share).toEqual(['5.32', '17.98', '27.06', '37.98', '50.73', '65.32', '81.74']);
  });
});

describe('a sleeve of 43 to 71 (common practice, by exact arithmetic)', () => {
  test('in the round, all rows used', () => {
    expect(planned(shape.work(43, 71, 107, 2, 1)).text).toBe(
      'every 7th row 5 times, then every 8th row 9 times',
    );
  });
  test('in the round, 7 rows kept plain', () => {
    expect(planned(shape.work(43, 71, 100, 2, 1)).text).toBe(
      'every 7th row 12 times, then every 8th row 2 times',
    );
  });
  test('flat: on right-side rows, 5, 11, 17 … 99', () => {
    const plan = planned(shape.work(43, 71, 100, 2, 2));
    expect(rowsShaped(plan)).toEqual([5, 11, 17, 23, 29, 35, 43, 51, 59, 67, 75, 83, 91, 99]);
    expect(plan.text).toBe(
      '4 rows plain, then increase on row 5 (RS), then every 6th row 5 times, then every 8th row 8 times, then 1 row plain',
    );
    expect(plan.steps.map((step) => step.after)).toEqual([43, 45, 55, 71, 71]);
  });
  test('to 72: what is left, and the ways out', () => {
    const plan = planned(shape.work(43, 72, 107, 2, 1));
    expect(plan.totals['stitches_after']).toBe(71);
    expect(plan.remarks).toEqual([
      '29 sts are not a whole number of shapings of 2: 14 leave 1 (71 sts), 15 pass by 1 (73 sts).',
      'Ways out: begin with 44 or 42, end with 71 or 73, or work one single increase. This plan ends with 71.',
    ]);
  });
  test('a single stitch over is said in the singular', () => {
    expect(planned(shape.work(40, 41, 20, 2, 1)).remarks[0]).toBe(
      '1 st is not a whole number of shapings of 2: 0 leave 1 (40 sts), 1 passes by 1 (42 sts).',
    );
  });
  test('the counter knows the next shaping', () => {
    const plan = planned(shape.work(43, 71, 100, 2, 2));
    expect(nextShaping(plan, 0)).toMatchObject({ row: 5, do: 'increase', says: 'increase 2 sts', after: 45 });
    expect(nextShaping(plan, 5)?.row).toBe(11);
    expect(nextShaping(plan, 37)?.row).toBe(43);
    expect(nextShaping(plan, 98)?.row).toBe(99);
    expect(nextShaping(plan, 99)).toBeUndefined();
  });
});

// Source: common practice: a crown is drawn up slowly at first and faster towards its top, an armhole the other way round.
describe('which of two rates comes first', () => {
  test('of a crown the slower: 96 to 8 in 26 rounds, by hand 4 × 3 + 7 × 2', () => {
    const crown = planned(shape.work(96, 8, 26, 8, 1, 1));
    expect(crown.text).toBe('every 3rd row 4 times, then every 2nd row 7 times');
    expect(rowsShaped(crown)).toEqual([3, 6, 9, 12, 14, 16, 18, 20, 22, 24, 26]);
  });
  test('else the faster, and a plan without two rates is the same', () => {
    for (const fast of [0, undefined])
      expect(planned(shape.work(96, 8, 26, 8, 1, fast)).text).toBe(
        'every 2nd row 7 times, then every 3rd row 4 times',
      );
    expect(planned(shape.work(96, 8, 22, 8, 1, 1)).text).toBe('every 2nd row 11 times');
  });
  test('on right-side rows: 50 pairs, by hand 8 of 4 and 6 of 3', () => {
    const rows = rowsShaped(planned(shape.work(43, 71, 100, 2, 2, 1)));
    expect(rows).toEqual([7, 15, 23, 31, 39, 47, 55, 63, 69, 75, 81, 87, 93, 99]);
  });
  test('worked out again in the middle, the rest has the slower first, too', () => {
    const crown = planned(shape.work(96, 8, 26, 8, 1, 1));
    // On the plan: 3 of the 4 slow ones are done after round 9.
    expect(planned(shape.resume(crown, 9, 72)).text).toBe(
      '2 rows plain, then decrease on row 12, then every 2nd row 7 times',
    );
    // One forgotten: 17 rounds over 9 shapings, by hand 8 of 2 and one more round for one of them.
    expect(planned(shape.resume(crown, 9, 80)).text).toBe(
      '1 row plain, then decrease on row 11, then every 2nd row 7 times, then every row once',
    );
  });
});

describe('when it does not fit', () => {
  test('more shapings than rows', () => {
    expect(sentence(shape.work(43, 71, 20, 2, 2))).toBe(
      '14 shapings need 28 rows and there are 20: give it 28 rows, shape 3 sts at a time, stop at 63 sts or shape on any row.',
    );
    expect(sentence(shape.work(30, 20, 1, 1, 2))).toMatch(
      /^10 shapings need 20 rows and there is 1: give it 20 rows/,
    );
  });
  test('no rows left is one sentence that says what to do', () => {
    expect(sentence(shape.work(43, 71, -203, 2, 1))).toBe(
      'The rows left for this shaping come to −203: make the piece longer, or work fewer rows plain.',
    );
    expect(sentence(shape.work(43, 71, 0, 2, 2))).toContain('come to 0: make the piece longer');
    expect(sentence(shape.work(43, 71, 40.5, 2, 1))).toBe(
      'The number of rows for the shaping comes to 40.5, which cannot be knit: make it whole, with whole(…) or multiple(…).',
    );
  });
  test('counts that cannot be', () => {
    expect(sentence(shape.work(0, 20, 10, 1, 1))).toBe(
      'The count it begins with is 0 and must be at least 1: check what it comes from.',
    );
    expect(sentence(shape.work(10, 20, 40, 0, 1))).toBe(
      'The number of stitches a shaping is 0 and must be at least 1: check what it comes from.',
    );
    expect(sentence(shape.work(10, 20, 40, 1, 3))).toMatch(/choose 1 or 2/);
    expect(sentence(shape.work(10.5, 20, 40, 1, 1))).toMatch(/cannot be knit/);
  });
  test('nothing to shape is plain rows', () => {
    expect(planned(shape.work(60, 60, 40, 2, 2)).text).toBe('40 rows plain');
  });
  test('one row asked to do too much is said', () => {
    expect(planned(shape.work(1, 21, 10, 20, 1)).remarks).toEqual([
      'The first increase adds 20 to 1 st; no one row can do that.',
    ]);
    expect(planned(shape.work(10, 1, 10, 9, 1)).remarks[0]).toMatch(/takes 9 of 10 sts/);
    // A thumb gore begins so: make one, knit one, make one (common practice).
    expect(planned(shape.work(1, 15, 21, 2, 1)).remarks).toEqual([]);
  });
});

const shapings = fc.record({
  from: fc.integer({ min: 4, max: 200 }),
  times: fc.integer({ min: -40, max: 40 }),
  per: fc.integer({ min: 1, max: 4 }),
  every: fc.constantFrom(1, 2),
  spare: fc.integer({ min: 0, max: 200 }),
  slow: fc.constantFrom(undefined, 0, 1),
});
type Case = Readonly<{
  from: number;
  times: number;
  per: number;
  every: number;
  spare: number;
  slow: number | undefined;
}>;

function layCase({ from, times, per, every, spare, slow }: Case): { plan: Plan; over: number; to: number } {
  const to = Math.max(from + times * per, from - per * Math.floor((from - 1) / per));
  const over = Math.max(1, every * Math.abs(Math.round((to - from) / per)) + spare);
  return { plan: planned(shape.work(from, to, over, per, every, slow)), over, to };
}

describe('laws', () => {
  test('rows and stitches add up, intervals differ by at most one step, nothing on a wrong-side row', () => {
    fc.assert(
      fc.property(shapings, (given) => {
        const { plan, over, to } = layCase(given);
        const all = [...rowsOf(plan)];
        expect(all.map((row) => row.row)).toEqual(Array.from({ length: over }, (_, i) => i + 1));
        expect(all.at(-1)?.after).toBe(to);
        const shaped = rowsShaped(plan);
        expect(shaped.length).toBe(Math.abs(to - given.from) / given.per);
        const lead = given.every - 1;
        const intervals = shaped.map((row, i) => row - (shaped[i - 1] ?? -lead));
        if (intervals.length > 0)
          expect(Math.max(...intervals) - Math.min(...intervals)).toBeLessThanOrEqual(given.every);
        if (given.every === 2) expect(shaped.every((row) => row % 2 === 1)).toBe(true);
        else if (shaped.length > 0) expect(shaped.at(-1)).toBe(over);
        expect(plan.totals['stitches_worked']).toBe(all.reduce((sum, row) => sum + row.after, 0));
      }),
    );
  });

  test('counter and count agree with the rows', () => {
    fc.assert(
      fc.property(shapings, fc.nat(), (given, seed) => {
        const { plan, over } = layCase(given);
        const row = seed % (over + 1);
        const all = [...rowsOf(plan)];
        expect(countAt(plan, row)).toBe(row === 0 ? given.from : all[row - 1]?.after);
        expect(nextShaping(plan, row)).toEqual(all.find((one) => one.row > row && one.do !== 'plain'));
      }),
    );
  });

  test('on the plan, the rest is the rest', () => {
    fc.assert(
      fc.property(shapings, fc.nat(), (given, seed) => {
        const { plan, over } = layCase(given);
        const row = seed % (over + 1);
        const rest = planned(shape.resume(plan, row, countAt(plan, row)));
        expect([...rowsOf(rest)]).toEqual([...rowsOf(plan)].slice(row));
        const later = row + (seed % (over - row + 1));
        expect([...rowsOf(planned(shape.resume(rest, later, countAt(plan, later))))]).toEqual(
          [...rowsOf(plan)].slice(later),
        );
      }),
    );
  });

  test('off the plan, the rest still lands, on the rows left, never on a wrong-side row', () => {
    let landed = 0;
    fc.assert(
      fc.property(shapings, fc.nat(), fc.integer({ min: -7, max: 7 }), (given, seed, off) => {
        const { plan, over, to } = layCase(given);
        const row = seed % over;
        const count = Math.max(1, countAt(plan, row) + off);
        const rest = shape.resume(plan, row, count);
        if ('code' in rest) {
          expect(['plan-too-many-shapings', 'plan-no-rows-left']).toContain(rest.code);
          const needed = Math.ceil(Math.abs(to - count) / given.per) + 1;
          expect(needed * given.every + 1).toBeGreaterThan(over - row);
          return;
        }
        landed++;
        const all = [...rowsOf(rest)];
        expect(all.map((one) => one.row)).toEqual(Array.from({ length: over - row }, (_, i) => row + i + 1));
        expect(all.at(-1)?.after).toBe(to);
        expect(all.every((one) => one.after >= 1)).toBe(true);
        if (given.every === 2) expect(rowsShaped(rest).every((one) => one % 2 === 1)).toBe(true);
      }),
      { numRuns: 500 },
    );
    expect(landed).toBeGreaterThan(250);
  });
});

describe('in mid-repeat', () => {
  const plan = planned(shape.work(43, 71, 100, 2, 2));
  test('one shaping forgotten: 30 pairs over 9 shapings, six of 3 pairs and three of 4', () => {
    expect(planned(shape.resume(plan, 40, 53)).text).toBe(
      '4 rows plain, then increase on row 45 (RS), then every 6th row 5 times, ' +
        'then every 8th row 3 times, then 1 row plain',
    );
  });
  test('a single stitch off is put right first, on a right-side row', () => {
    expect(planned(shape.resume(plan, 36, 52)).text).toBe(
      'increase 1 st on row 37 (RS) to put the count right, then 5 rows plain, then increase on row 43 (RS), ' +
        'then every 6th row 4 times, then every 8th row 4 times, then 1 row plain',
    );
  });
  test('worked out again a row later, the stitch to put right is still ahead', () => {
    const first = planned(shape.resume(plan, 41, 54));
    const again = planned(shape.resume(first, 42, 54));
    expect(again.text).toMatch(/^increase 1 st on row 43 \(RS\) to put the count right, then 5 rows plain/);
    expect(again.totals['shapings']).toBe(first.totals['shapings']);
  });
  test('nothing left, or nothing to be done any more', () => {
    expect(planned(shape.resume(plan, 100, 71)).text).toBe('nothing left to do: 71 sts');
    expect(sentence(shape.resume(plan, 100, 69))).toMatch(/no row left to come from 69 sts to 71/);
  });
});
