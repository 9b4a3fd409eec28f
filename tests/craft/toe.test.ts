import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countAt, nextShaping, rowsOf, toe } from '../../src/craft/index.ts';
import type { Plan } from '../../src/formula/index.ts';
import toes from '../data/toes.json';
import { planned, sentence } from './knit.ts';

const decreases = (plan: Plan) =>
  [...rowsOf(plan)].filter((row) => row.do === 'decrease').map((row) => row.row);

describe('published toes', () => {
  test.each(toes)('$source', ({ args, rounds, all }) => {
    const plan = planned(toe.work(...args));
    expect(decreases(plan)).toEqual(rounds);
    expect(plan.totals).toMatchObject({ rows: all, shapings: rounds.length, stitches_after: args[1] });
  });
  test('as it is printed', () => {
    const plan = planned(toe.work(56, 16, 32, 32, 40));
    expect(plan.text).toBe(
      'decrease on rnd 1, then every 4th rnd 3 times, then every 3rd rnd 2 times, then every rnd 4 times: ' +
        '16 sts left after 23 rnds',
    );
    expect(plan.steps.map((step) => step.after)).toEqual([52, 40, 32, 16]);
    expect(nextShaping(plan, 9)).toMatchObject({ row: 13, says: 'decrease 4 sts', after: 40 });
  });
  test('stitches worked in the toe of 68: 904 (common practice, by exact arithmetic)', () => {
    expect(planned(toe.work(68, 20, 34)).totals['stitches_worked']).toBe(904);
  });
});

describe('when it does not come out', () => {
  test('names the nearest ends', () => {
    expect(sentence(toe.work(68, 18, 34))).toBe(
      'A toe loses 4 sts at a time, and 68 to 18 is not a whole number of fours: end with 20 or 16.',
    );
    expect(sentence(toe.work(7, 1, 4))).toMatch(/end with 3\.$/);
    expect(sentence(toe.work(20, 68, 34))).toMatch(/68 must be less than 20/);
    expect(sentence(toe.work(68, 68, 34))).toMatch(/must be less/);
    expect(sentence(toe.work(6, 4, 4))).toMatch(/end with 2/);
  });
  test('a foot that does not halve is told so', () => {
    expect(planned(toe.work(57, 17, 32)).remarks).toEqual([
      '57 sts do not halve into sole and instep: work one single decrease first, to 56.',
    ]);
  });
});

const cases = fc
  .tuple(
    fc.integer({ min: 5, max: 30 }),
    fc.integer({ min: 1, max: 4 }),
    fc.array(fc.nat(130), { minLength: 1, maxLength: 3 }),
  )
  .map(([fours, to, until]) => ({ from: fours * 4 + to, to, until }));

describe('laws', () => {
  test('four fewer a decrease round, the first on round 1, as far apart as the limits say', () => {
    fc.assert(
      fc.property(cases, ({ from, to, until }) => {
        const plan = planned(toe.work(from, to, ...until));
        const all = [...rowsOf(plan)];
        expect(all.map((row) => row.row)).toEqual(all.map((_, i) => i + 1));
        expect(all.at(-1)).toMatchObject({ do: 'decrease', after: to });
        const rounds = decreases(plan);
        expect(rounds[0]).toBe(1);
        const [seconds = 0, thirds = Infinity, fourths = Infinity] = until;
        for (const [i, round] of rounds.entries()) {
          const left = from - 4 * (i + 1);
          expect(all[round - 1]?.after).toBe(left);
          const wait = left > fourths ? 4 : left > thirds ? 3 : left > seconds ? 2 : 1;
          if (i < rounds.length - 1) expect((rounds[i + 1] ?? 0) - round).toBe(wait);
        }
      }),
    );
  });
  test('on the plan, the rest is the rest; off it, it lands on the same end', () => {
    fc.assert(
      fc.property(cases, fc.nat(), fc.integer({ min: -6, max: 6 }), ({ from, to, until }, seed, off) => {
        const plan = planned(toe.work(from, to, ...until));
        const total = plan.totals['rows'] ?? 0;
        const row = seed % total;
        const onPlan = planned(toe.resume(plan, row, countAt(plan, row)));
        expect([...rowsOf(onPlan)]).toEqual([...rowsOf(plan)].slice(row));
        const count = countAt(plan, row) + off;
        if (count < 1) return;
        const rest = toe.resume(plan, row, count);
        if ('code' in rest) {
          expect(count).toBeLessThan(to);
          return;
        }
        if (count === to) {
          expect(rest.steps).toEqual([]);
          return;
        }
        const all = [...rowsOf(rest)];
        expect(all.at(-1)?.after).toBe(to);
        const needed = Math.ceil(Math.max(0, count - to) / 4) + 1;
        if (needed <= total - row) expect(all.at(-1)?.row).toBe(total);
      }),
    );
  });
});

describe('from what is on the needle', () => {
  const plan = planned(toe.work(68, 20, 34));
  test('a decrease round forgotten is fitted into the rounds left', () => {
    expect(planned(toe.resume(plan, 6, 60)).text).toBe(
      '1 rnd plain, then decrease on rnd 8, then every 2nd rnd 3 times, then every rnd 6 times: 20 sts left after 14 rnds',
    );
  });
  test('too few rounds left take more, and say so', () => {
    const rest = planned(toe.resume(plan, 16, 60));
    expect(rest.text).toBe('decrease on rnd 17, then every rnd 9 times: 20 sts left after 10 rnds');
    expect(rest.remarks).toEqual(['This takes 6 rnds more than planned.']);
  });
  test('fewer than the toe ends with', () => {
    expect(sentence(toe.resume(plan, 19, 18))).toMatch(/graft what is there/);
  });
});
