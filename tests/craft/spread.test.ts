import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rowsOf, spreadFlat, spreadRound } from '../../src/craft/index.ts';
import { gapsOf, knitLine, planned, sentence } from './knit.ts';

const lineOf = (text: string): string => text.split(';')[0] ?? '';

describe('published spreads', () => {
  test('14 more in 124 (A. Budd, 2010, after C. Brunette, Sweater 101, 1991)', () => {
    expect(planned(spreadRound.work(14, 124)).text).toBe(
      '(k8, m1) 2 times, (k9, m1) 12 times; 138 sts (16 + 108 = 124 before)',
    );
  });
  test('96 to 48 in one round (Beeton, 1870, pattern 326)', () => {
    expect(planned(spreadRound.work(-48, 96)).text).toBe('k2tog 48 times; 48 sts (48 × 2 = 96 before)');
  });
  test.each([
    [268, 201, '(k2, k2tog) 67 times'],
    [201, 134, '(k1, k2tog) 67 times'],
  ])('yoke %i to %i (E. Zimmermann, Knitting Around, 1989)', (from, to, line) => {
    expect(lineOf(planned(spreadRound.work(to - from, from)).text)).toBe(line);
  });
  test('flat, half a gap at each edge (common practice)', () => {
    expect(planned(spreadFlat.work(14, 124)).text).toBe(
      'k4, (m1, k9) 12 times, m1, k8, m1, k4; 138 sts (4 + 108 + 8 + 4 = 124 before)',
    );
  });
});

const cases = fc
  .integer({ min: 1, max: 400 })
  .chain((over) => fc.tuple(fc.integer({ min: -Math.floor(over / 2), max: over - 1 }), fc.constant(over)));

describe('laws', () => {
  test('in the round the gaps add up and differ by at most one', () => {
    fc.assert(
      fc.property(cases, ([changes, over]) => {
        const plan = planned(spreadRound.work(changes, over));
        expect(knitLine(lineOf(plan.text))).toEqual({ takes: over, leaves: over + changes });
        const gaps = gapsOf(lineOf(plan.text)).slice(0, changes === 0 ? 1 : -1);
        expect(gaps.length).toBe(Math.max(1, Math.abs(changes)));
        expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThanOrEqual(1);
      }),
    );
  });
  test('flat the inner gaps differ by at most one, and the edges hold half a gap each', () => {
    fc.assert(
      fc.property(cases, ([changes, over]) => {
        const plan = planned(spreadFlat.work(changes, over));
        expect(knitLine(lineOf(plan.text))).toEqual({ takes: over, leaves: over + changes });
        const gaps = gapsOf(lineOf(plan.text));
        const [first = 0, last = 0] = [gaps[0], gaps.at(-1)];
        const whole = changes === 0 ? [] : [...gaps.slice(1, -1), first + last];
        if (whole.length > 0) expect(Math.max(...whole) - Math.min(...whole)).toBeLessThanOrEqual(1);
        expect(Math.abs(first - last)).toBeLessThanOrEqual(changes === 0 ? 0 : 1);
        if (changes > 0) expect(Math.min(first, last)).toBeGreaterThan(0);
      }),
    );
  });
  test('the steps say what the text says, and count up to it', () => {
    fc.assert(
      fc.property(cases, fc.boolean(), ([changes, over], flat) => {
        const plan = planned((flat ? spreadFlat : spreadRound).work(changes, over));
        expect(plan.steps.map((step) => step.says).join(', ')).toBe(lineOf(plan.text));
        expect(plan.steps.at(-1)?.after).toBe(over + changes);
        expect(plan.steps.at(-1)?.stitches?.[1]).toBe(over);
        expect([...rowsOf(plan)].map((row) => row.after)).toEqual([over + changes]);
      }),
    );
  });
});

describe('when it does not fit', () => {
  test('says so and what to do', () => {
    expect(sentence(spreadRound.work(30, 20))).toMatch(/do not fit among 20 sts: at most 20 in one row/);
    expect(sentence(spreadFlat.work(20, 20))).toMatch(/at most 19 in one row/);
    expect(sentence(spreadFlat.work(-11, 20))).toMatch(/at most 10 in one row/);
    // By hand: 60 → 30 → 15 → 8; 20 → 39 → 77 → 153, where flat knitting has no increase beyond its last stitch.
    expect(sentence(spreadRound.work(-45, 60))).toMatch(/work the decrease in two rows/);
    expect(sentence(spreadRound.work(-50, 60))).toMatch(/work the decrease in 3 rows/);
    expect(sentence(spreadRound.work(-60, 60))).toMatch(/one stitch at least must stay/);
    expect(sentence(spreadFlat.work(60, 20))).toMatch(/work the increase in 3 rows/);
    expect(sentence(spreadRound.work(60, 20))).toMatch(/work the increase in two rows/);
    expect(sentence(spreadRound.work(2.5, 20))).toMatch(/^Changes comes to 2.5, which cannot be knit/);
  });
  test('a hair off whole is whole', () => {
    expect(planned(spreadRound.work(14 + 1e-10, 124 - 1e-10)).args).toEqual({ changes: 14, over: 124 });
  });
});

describe('from what is on the needle', () => {
  const plan = planned(spreadFlat.work(14, 124));
  test('before the row is worked it lands on the same count', () => {
    const rest = planned(spreadFlat.resume(plan, 0, 121));
    expect(knitLine(lineOf(rest.text))).toEqual({ takes: 121, leaves: 138 });
  });
  test('after it a second row puts right what is off', () => {
    expect(planned(spreadFlat.resume(plan, 1, 136)).text).toBe(
      'k34, m1, k68, m1, k34; 138 sts (34 + 68 + 34 = 136 before)',
    );
    expect(planned(spreadFlat.resume(plan, 1, 138)).text).toBe('nothing left to do: 138 sts');
  });
});
