import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { heelTurn, nextShaping, rowsOf } from '../../src/craft/index.ts';
import type { Plan } from '../../src/formula/index.ts';
import turns from '../data/heel-turns.json';
import { planned, sentence, takesAndLeaves, unfolded } from './knit.ts';

/** The words of a row, without its side and its turn. */
const wordsOf = (says: string): string[] =>
  unfolded(says.replace(/^\((RS|WS)\) /, '')).filter((word) => word !== 'turn');

/** The first plain stitches of each row after the slipped one: what patterns list. */
const middles = (plan: Plan): number[] =>
  plan.steps.map(({ says }) => Number(/^\(\wS\) sl1, [kp](\d+), /.exec(says)?.[1] ?? 0));

describe('published turns', () => {
  test.each(turns)('$source', ({ flap, first, middles: printed, bare_last_pair, left }) => {
    const plan = planned(heelTurn.work(flap, first));
    expect(middles(plan)).toEqual(printed);
    expect(plan.totals['stitches_after']).toBe(left);
    expect(plan.totals['rows']).toBe(printed.length);
    expect(plan.steps.slice(-2).every(({ says }) => says.endsWith('tog, turn'))).toBe(bare_last_pair);
  });
  test('a row reads as a pattern prints it', () => {
    const plan = planned(heelTurn.work(34, 19));
    expect(plan.steps[0]).toEqual({
      rows: [1, 1],
      times: 1,
      do: 'turn',
      says: '(RS) sl1, k18, k2tog, k1, turn',
      after: 33,
    });
    expect(plan.steps[1]?.says).toBe('(WS) sl1, p5, p2tog, p1, turn');
    expect(plan.text).toMatch(/^Row 1 \(RS\) sl1, k18, k2tog, k1, turn: 33 sts\. Row 2 \(WS\) /);
    expect(nextShaping(plan, 4)).toMatchObject({ row: 5, says: '(RS) sl1, k8, k2tog, k1, turn', after: 29 });
  });
  test('stitches worked in the turn of 34: 203 (common practice, by exact arithmetic)', () => {
    expect(planned(heelTurn.work(34, 19)).totals['stitches_worked']).toBe(203);
  });
});

/** Knits the turn on two needles; each stitch knows the row that worked it last (0: none yet). */
function knitTurn(flap: number, plan: Plan): number {
  let ahead = Array<number>(flap).fill(0);
  let behind: number[] = [];
  for (const [i, step] of plan.steps.entries()) {
    const row = i + 1;
    for (const word of wordsOf(step.says)) {
      const [takes, leaves] = takesAndLeaves(word);
      if (takes > ahead.length) throw new Error(`row ${row} runs out of stitches`);
      const taken = Array.from({ length: takes }, () => ahead.pop() ?? 0);
      const closesGap = taken[0] === row - 1 && (taken[1] ?? 0) < row - 1;
      if (row > 2 && word.endsWith('tog')) expect(closesGap, `row ${row} closes the gap`).toBe(true);
      behind.push(...Array<number>(leaves).fill(row));
    }
    expect(ahead.length + behind.length).toBe(step.after);
    [ahead, behind] = [behind, ahead];
  }
  expect(behind).toEqual([]);
  expect(Math.min(...ahead)).toBeGreaterThanOrEqual(plan.steps.length - 1);
  return ahead.length;
}

describe('laws', () => {
  test('every flap of 8 to 80 and every possible first row closes, all stitches worked', () => {
    for (let flap = 8; flap <= 80; flap++) {
      for (let first = Math.ceil((flap - 1) / 2); first <= flap - 2; first++) {
        const plan = planned(heelTurn.work(flap, first));
        expect(knitTurn(flap, plan)).toBe(plan.totals['stitches_after']);
        expect(plan.steps.length % 2).toBe(0);
      }
    }
  });
  test('on the count, the rest is the rest; off it, it ends with as many', () => {
    const cases = fc.tuple(
      fc.integer({ min: 8, max: 80 }),
      fc.nat(),
      fc.nat(),
      fc.integer({ min: -3, max: 3 }),
    );
    fc.assert(
      fc.property(cases, ([flap, a, b, off]) => {
        const least = Math.ceil((flap - 1) / 2);
        const plan = planned(heelTurn.work(flap, least + (a % (flap - 1 - least))));
        const row = b % plan.steps.length;
        const rest = heelTurn.resume(plan, row, flap - row + off);
        if ('code' in rest) {
          expect(rest.code).toBe('plan-far-off');
          expect(off).not.toBe(0);
          return;
        }
        expect([...rowsOf(rest)].at(-1)?.after).toBe(plan.totals['stitches_after']);
        if (off === 0) expect(rest.steps).toEqual(plan.steps.slice(row));
        const gained = wordsOf(rest.steps[0]?.says ?? '')
          .map(takesAndLeaves)
          .reduce((sum, [takes, leaves]) => sum + leaves - takes, 0);
        expect(flap - row + off + gained).toBe(rest.steps[0]?.after);
      }),
    );
  });
});

describe('from what is on the needle', () => {
  const plan = planned(heelTurn.work(34, 19));
  test('one too many after four rows', () => {
    const rest = planned(heelTurn.resume(plan, 4, 31));
    expect(rest.steps[0]).toMatchObject({ says: '(RS) sl1, k3, k2tog, k4, k2tog, k1, turn', after: 29 });
    expect(rest.remarks).toEqual(['There is 1 st too many; the next row puts it right.']);
  });
  test('one too few on a wrong-side row', () => {
    const rest = planned(heelTurn.resume(plan, 5, 28));
    expect(rest.steps[0]).toMatchObject({ says: '(WS) sl1, p4, m1p, p4, p2tog, p1, turn', after: 28 });
  });
  test('nothing left, or too far off', () => {
    expect(planned(heelTurn.resume(plan, 14, 20)).text).toBe('nothing left to do: 20 sts');
    expect(sentence(heelTurn.resume(plan, 14, 21))).toMatch(/no row left to come from 21 sts to 20/);
    expect(sentence(heelTurn.resume(plan, 2, 50))).toMatch(/too far off/);
  });
});

describe('when it cannot be', () => {
  test('a first row that stops before the middle or runs past the end', () => {
    expect(sentence(heelTurn.work(34, 40))).toBe(
      'A heel of 34 sts cannot begin its turn with 40: work between 17 and 32, usually half + 1 or half + 2.',
    );
    expect(sentence(heelTurn.work(31, 14))).toMatch(/between 15 and 29/);
    expect(sentence(heelTurn.work(2, 1))).toBe(
      'The number of heel stitches is 2 and must be at least 5: check what it comes from.',
    );
    expect(sentence(heelTurn.work(90000, 45001))).toMatch(
      /^This turn would have 44,999 rows and 1,000 is the most/,
    );
  });
});
