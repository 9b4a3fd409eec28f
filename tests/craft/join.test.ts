import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countAt, join, nextShaping, onNeedle, rowsOf } from '../../src/craft/index.ts';
import type { Plan } from '../../src/formula/index.ts';
import edgings from '../data/edgings.json';
import { planned, sentence } from './knit.ts';

const MENDS = new Set(['take2', 'nojoin']);

/** Joins that take two or none, counted from where the plan begins. */
function mends(plan: Plan): number[] {
  const before = Math.floor((plan.totals['after_row'] ?? 0) / 2);
  return [...rowsOf(plan)].filter((row) => MENDS.has(row.do)).map((row) => row.row / 2 - before);
}

describe('published edgings', () => {
  test.each(edgings)('$source', ({ live, rows, repeats, all_rows, double, idle }) => {
    expect(planned(join.work(live, rows / 2)).totals).toMatchObject({
      repeats,
      rows: all_rows,
      double_joins: double,
      idle_joins: idle,
    });
  });
  test('four plain garter rows take in 2 stitches (after B. Walker, A Second Treasury)', () => {
    expect(planned(join.work(2, 2)).totals).toMatchObject({
      rows: 4,
      repeats: 1,
      double_joins: 0,
      idle_joins: 0,
    });
  });
});

describe('347 live at 5 joins a repeat (common practice, by exact arithmetic)', () => {
  const plan = planned(join.work(347, 5));
  test('two joins take 2, 86, 171 and 86 others around them', () => {
    expect(mends(plan)).toEqual([87, 259]);
    expect(plan.text).toBe(
      '69 repeats, 690 rows: take 2 at joins 87 (repeat 18, join 2) and 259 (repeat 52, join 4); ' +
        '343 + 2 × 2 = 347 sts',
    );
    expect(plan.steps.map((step) => [step.do, step.times])).toEqual([
      ['join', 86],
      ['take2', 1],
      ['join', 171],
      ['take2', 1],
      ['join', 86],
    ]);
  });
  test('the clean ways: lose 2, gain 3, and where', () => {
    expect(plan.remarks).toEqual([]);
    expect(plan.beforehand).toEqual([
      'Comes out even with 345 sts: lose 2 in the last row of the body (k86, k2tog, k171, k2tog, k86).',
      'Comes out even with 350 sts: gain 3 in the last row of the body (k58, m1, k116, m1, k115, m1, k58).',
    ]);
  });
  test('70 repeats asked for: three joins take none', () => {
    const forced = planned(join.work(347, 5, 70));
    expect(mends(forced)).toEqual([59, 176, 292]);
    expect(forced.totals).toMatchObject({ joins: 350, idle_joins: 3, rows: 700 });
  });
  test('mends in the row she names', () => {
    const named = planned(join.work(347, 5, 0, 0, 3));
    expect(mends(named)).toEqual([88, 258]);
    expect(mends(named).every((place) => place % 5 === 3)).toBe(true);
  });
  test('the counter knows the next mend', () => {
    expect(nextShaping(plan, 40)).toMatchObject({ row: 174, do: 'take2', says: 'take 2', after: 259 });
    expect(nextShaping(plan, 174)?.row).toBe(518);
    expect(nextShaping(plan, 518)).toBeUndefined();
  });
  test('50 are left after 59 repeats, 52 when both mends were forgotten', () => {
    expect(countAt(plan, 590)).toBe(50);
    expect(planned(join.resume(plan, 590, 50)).totals).toMatchObject({
      repeats: 10,
      double_joins: 0,
      idle_joins: 0,
    });
  });

  test.each([
    [0, 50, 'take2', [13, 38]],
    [1, 54, 'nojoin', [14, 41]],
    [2, 53, 'nojoin', [27]],
    [3, 52, 'exact', []],
    [4, 51, 'take2', [26]],
  ])(
    'rescue with 52 left and %i joins of the repeat done: %i joins, %s at %j',
    (done, joins, does, places) => {
      const rest = planned(join.resume(plan, 590 + 2 * done, 52));
      const fresh = planned(join.work(52, 5, 0, 0, 0, done));
      for (const one of [rest, fresh]) {
        expect(one.totals['joins']).toBe(joins);
        expect(one.totals['rows']).toBe(joins * 2);
        expect(mends(one)).toEqual(places);
        const [key, other] =
          does === 'nojoin' ? ['idle_joins', 'double_joins'] : ['double_joins', 'idle_joins'];
        expect([one.totals[key ?? ''], one.totals[other ?? '']]).toEqual([places.length, 0]);
      }
    },
  );
  test('from whole repeats done before: rows and repeats from the first of the edging, as a count mended on the way', () => {
    // By hand: 59 repeats of 5 and 2 joins are 297 joins, 594 rows; 53 joins are left.
    const fresh = planned(join.work(52, 5, 0, 0, 0, 2, 59));
    expect(fresh.totals).toMatchObject({ after_row: 594, rows: 106, repeats: 10, idle_joins: 1 });
    expect(fresh.steps[0]?.rows?.[0]).toBe(595);
    expect(fresh.steps.at(-1)?.rows?.[1]).toBe(700);
    expect(fresh.text).toContain('no join at join 27 (repeat 65, join 4), joins counted from here');
    const rest = planned(join.resume(plan, 594, 52));
    expect([fresh.text, fresh.steps, fresh.totals]).toEqual([rest.text, rest.steps, rest.totals]);
    const further = planned(join.resume(fresh, 600, 50));
    expect(further.text).toBe(planned(join.resume(plan, 600, 50)).text);
  });
  test('11 repeats asked for at 52: none at 10, 28 and 46', () => {
    expect(mends(planned(join.work(52, 5, 11)))).toEqual([10, 28, 46]);
  });
  test('2 left after the last repeat', () => {
    const rest = planned(join.resume(plan, 690, 2));
    expect(rest.totals).toMatchObject({ repeats: 1, idle_joins: 3 });
    expect(rest.remarks).toContain(
      'Or end with the repeat in hand, and take the 2 sts left into the graft or the bind-off.',
    );
    expect(planned(join.resume(plan, 690, 0)).text).toBe('nothing left to do: 0 sts');
  });
});

describe('corners', () => {
  test('extra joins into one stitch count as joins and take none', () => {
    const plan = planned(join.work(960, 6, 0, 24));
    expect(plan.totals).toMatchObject({ repeats: 164, double_joins: 0, idle_joins: 0, joins: 984 });
    expect(plan.text).toBe('164 repeats, 1968 rows: 1 live st at every join; 984 − 24 at corners = 960 sts');
    expect(plan.remarks).toEqual([
      'At the corners join twice into one stitch, 24 extra joins in all. ' +
        'Of two counts left, the first is with no extra join done, and each that is done leaves 1 st more.',
    ]);
  });
  test('from the middle, with half the corner joins done', () => {
    const plan = planned(join.work(960, 6, 0, 24));
    const rest = planned(join.resume(plan, 984, 480));
    expect(rest.totals).toMatchObject({ corner: 12, joins: 492, idle_joins: 0, double_joins: 0 });
  });
});

describe('403 live, 8 extra joins at two corners, 5 joins a repeat: what is on the needle', () => {
  const plan = planned(join.work(403, 5, 0, 8));
  // By hand: 82 repeats are 410 joins for 403 stitches and 8 extra joins, so one takes 2. After 205 joins 205 stitches
  // are taken before the corners, and 201 or 197 when one or both are passed: 198, 202 or 206 are left.
  test.each([
    [0, [403, 403]],
    [2, [402, 403]],
    [410, [198, 206]],
    [412, [196, 204]],
    [810, [0, 5]],
    [820, [0, 0]],
  ])('after row %i: %j', (row, counts) => {
    expect(onNeedle(plan, row)).toEqual(counts);
  });
  test('without corners it is the count of the plan', () => {
    expect(onNeedle(planned(join.work(347, 5)), 590)).toEqual([50, 50]);
  });
  test('wherever the corners are, the stitches on the needle lie between the two', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 409 }), { minLength: 8, maxLength: 8 }),
        (places) => {
          const extra = new Set(places.map((place) => (place >= 206 ? place + 1 : place)));
          let [left, joins] = [403, 0];
          for (const { row, do: does } of rowsOf(plan)) {
            if (does === 'plain') continue;
            joins += 1;
            left -= extra.has(joins) ? 0 : does === 'take2' ? 2 : 1;
            const [fewest, most] = onNeedle(plan, row);
            expect(left).toBeGreaterThanOrEqual(fewest);
            expect(left).toBeLessThanOrEqual(most);
          }
          expect(left).toBe(0);
        },
      ),
      { numRuns: 20 },
    );
  });
});

/** Works the edging row by row; gives the live stitches left, which may never fall below none. */
function worked(plan: Plan, live: number): number {
  let left = live;
  for (const row of rowsOf(plan)) {
    left -= row.do === 'join' ? 1 : row.do === 'take2' ? 2 : 0;
    if (row.do !== 'plain') expect(row.row % 2).toBe(0);
    expect(left).toBeGreaterThanOrEqual(0);
    expect(row.after).toBe(left);
  }
  return left;
}

const edges = fc
  .tuple(fc.integer({ min: 2, max: 600 }), fc.integer({ min: 1, max: 14 }))
  .filter(([live, joins]) => 2 * live > joins);

describe('laws', () => {
  test('takes in exactly the live stitches, in whole repeats, the nearest number of them', () => {
    fc.assert(
      fc.property(edges, fc.nat(), ([live, joins], at) => {
        const plan = planned(join.work(live, joins, 0, 0, at % (joins + 1)));
        expect(worked(plan, live)).toBe(0);
        expect(plan.totals['rows']).toBe((plan.totals['repeats'] ?? 0) * joins * 2);
        expect([...rowsOf(plan)].length).toBe(plan.totals['rows']);
        const off = (plan.totals['double_joins'] ?? 0) + (plan.totals['idle_joins'] ?? 0);
        expect(off * 2).toBeLessThanOrEqual(joins);
        if (off * 2 === joins) expect(plan.totals['idle_joins']).toBe(0);
      }),
    );
  });
  test('mends stand evenly, half a gap at each end', () => {
    fc.assert(
      fc.property(edges, ([live, joins]) => {
        const plan = planned(join.work(live, joins));
        const places = mends(plan);
        if (places.length === 0) return;
        const all = plan.totals['joins'] ?? 0;
        const gaps = places.slice(1).map((place, i) => place - (places[i] ?? 0));
        const ends = [(places[0] ?? 0) - 1, all - (places.at(-1) ?? 0)];
        if (gaps.length > 0) expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThanOrEqual(1);
        for (const end of ends) expect(Math.abs(end - all / places.length / 2)).toBeLessThanOrEqual(1);
      }),
    );
  });
  test('mends in a named join are one a repeat, in that join', () => {
    fc.assert(
      fc.property(edges, fc.nat(), ([live, joins], seed) => {
        const at = (seed % joins) + 1;
        const plan = planned(join.work(live, joins, 0, 0, at));
        const places = mends(plan);
        expect(new Set(places).size).toBe(places.length);
        if (places.length > (plan.totals['repeats'] ?? 0))
          expect(plan.remarks.join()).toMatch(/more than one a repeat/);
        else expect(places.every((place) => (place - 1) % joins === at - 1)).toBe(true);
      }),
    );
  });
  test('the rest from any row, on the plan or off it, ends the last repeat on the last stitch', () => {
    fc.assert(
      fc.property(
        edges,
        fc.nat(),
        fc.integer({ min: -5, max: 5 }),
        fc.nat(),
        ([live, joins], seed, off, at) => {
          const plan = planned(join.work(live, joins, 0, 0, at % (joins + 1)));
          const row = seed % ((plan.totals['rows'] ?? 0) + 1);
          const onPlan = planned(join.resume(plan, row, countAt(plan, row)));
          expect([...rowsOf(onPlan)]).toEqual([...rowsOf(plan)].slice(row));
          const count = Math.max(0, countAt(plan, row) + off);
          const rest = planned(join.resume(plan, row, count));
          expect(worked(rest, count)).toBe(0);
          expect((row + (rest.totals['rows'] ?? 0)) % (2 * joins)).toBe(0);
          if (rest.steps.length === 0) return;
          const again = planned(join.resume(rest, row + 1, countAt(rest, row + 1)));
          expect([...rowsOf(again)]).toEqual([...rowsOf(rest)].slice(1));
        },
      ),
    );
  });
});

describe('when it cannot be', () => {
  test('says what to do', () => {
    expect(sentence(join.work(1, 5))).toMatch(/One live stitch is no edge/);
    expect(sentence(join.work(2, 5))).toBe(
      '2 sts are not half of a repeat of 5 joins: choose an edging of fewer rows, or say 1 repeat.',
    );
    expect(planned(join.work(2, 5, 1)).totals['idle_joins']).toBe(3);
    expect(sentence(join.work(347, 5, 20))).toMatch(/even two at a time: work at least 35\./);
    expect(planned(join.work(347, 5, 35)).totals['double_joins']).toBe(172);
    expect(sentence(join.work(347, 5, 0, 0, 6))).toMatch(/cannot be in join 6/);
    expect(sentence(join.work(52, 5, 0, 0, 0, 5))).toMatch(/count those since the last whole repeat/);
    expect(sentence(join.work(347, 5, 20000))).toMatch(/69 repeats come nearest/);
    expect(sentence(join.work(347, 0))).toBe(
      'The number of joins a repeat is 0 and must be at least 1: check what it comes from.',
    );
  });
});
