// Changes that are alike in every repeat of a round: by hand, knitted stitch by stitch, and worked out again.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { spreadRepeats, spreadRound } from '../../src/craft/index.ts';
import { gapsOf, knitLine, planned, sentence, unfolded } from './knit.ts';

const lineOf = (text: string): string => text.split(';')[0] ?? '';
const line = (changes: number, over: number, repeats: number): string =>
  lineOf(planned(spreadRepeats.work(changes, over, repeats)).text);

/** The stitches of a line, one by one: "k3" is three. */
const stitches = (text: string): readonly string[] =>
  unfolded(text).flatMap((word) => {
    const plain = /^k(\d+)$/.exec(word);
    return plain ? Array.from({ length: Number(plain[1]) }, () => 'k') : [word];
  });

// Source: common practice: what is done to one motif is done to all of them.
describe('by hand', () => {
  test.each([
    // 8 to 5: 2 plain stitches between three decreases and the next motif: 1, 1 and 0.
    [-81, 216, 27, '(k2tog, k1, k2tog, k1, k2tog) 27 times'],
    // 5 to 3: one plain stitch for two decreases.
    [-54, 135, 27, '(k2tog, k1, k2tog) 27 times'],
    // 12 to 9 and 9 to 6 have equal gaps, and are written as the books write them.
    [-66, 264, 22, '(k2, k2tog) 66 times'],
    [-66, 198, 22, '(k1, k2tog) 66 times'],
    // 14 to 9: 4 plain stitches among five.
    [-50, 140, 10, '[(k2tog, k1) 4 times, k2tog] 10 times'],
    // 10 to 7: 4 among three; the 2 is cut in halves, so that no motif begins or ends with a decrease.
    [-30, 100, 10, '[k1, (k2tog, k1) 3 times] 10 times'],
    // 5 to 7: gaps of 3 and 2.
    [20, 50, 10, '(k1, m1, k3, m1, k1) 10 times'],
  ])('%i over %i in %i repeats', (changes, over, repeats, told) => {
    expect(line(changes, over, repeats)).toBe(told);
  });

  test('a count that the repeats cannot share is spread over the whole round', () => {
    for (const [changes, over, repeats] of [
      [-80, 216, 27],
      [-81, 217, 27],
      [-3, 100, 1],
    ] as const)
      expect(line(changes, over, repeats)).toBe(lineOf(planned(spreadRound.work(changes, over)).text));
  });

  test('it adds up', () => {
    expect(planned(spreadRepeats.work(-81, 216, 27)).text).toBe(
      '(k2tog, k1, k2tog, k1, k2tog) 27 times; 135 sts (27 × 8 = 216 before)',
    );
  });

  test('what does not fit, and no repeats, are said', () => {
    expect(sentence(spreadRepeats.work(-81, 135, 27))).toMatch(/at most 67 in one row/);
    expect(sentence(spreadRepeats.work(-81, 216, 0))).toMatch(/^The number of repeats is 0/);
  });

  test('from another count the rest is alike in every repeat where it can be', () => {
    const plan = planned(spreadRepeats.work(-81, 216, 27));
    expect(lineOf(planned(spreadRepeats.resume(plan, 0, 189)).text)).toBe(
      '(k1, k2tog, k1, k2tog, k1) 27 times',
    );
    expect(planned(spreadRepeats.resume(plan, 0, 215)).totals['stitches_after']).toBe(135);
    expect(planned(spreadRepeats.resume(plan, 1, 135)).steps).toEqual([]);
  });
});

describe('laws', () => {
  const cases = fc
    .tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 30 }))
    .chain(([of, repeats]) =>
      fc.tuple(fc.integer({ min: -Math.floor(of / 2), max: of }), fc.constant(of), fc.constant(repeats)),
    );

  test('every repeat is knitted alike, the round adds up, and its gaps differ by at most one', () => {
    fc.assert(
      fc.property(cases, ([each, of, repeats]) => {
        const [changes, over] = [each * repeats, of * repeats];
        const plan = planned(spreadRepeats.work(changes, over, repeats));
        const told = lineOf(plan.text);
        expect(knitLine(told)).toEqual({ takes: over, leaves: over + changes });
        expect(plan.steps.map(({ says }) => says).join(', ')).toBe(told);
        expect(plan.steps.at(-1)?.after).toBe(over + changes);
        if (changes === 0) return;
        const gaps = gapsOf(told);
        const around = [...gaps.slice(1, -1), (gaps[0] ?? 0) + (gaps.at(-1) ?? 0)];
        expect(around).toHaveLength(Math.abs(changes));
        expect(Math.max(...around) - Math.min(...around)).toBeLessThanOrEqual(1);
        if (repeats < 2) return;
        const all = stitches(told);
        const length = all.length / repeats;
        const motifs = Array.from({ length: repeats }, (_, i) =>
          all.slice(i * length, (i + 1) * length).join(' '),
        );
        expect(new Set(motifs).size).toBe(1);
      }),
    );
  });
});
