// Sleeve shaping. Case B is worked by exact arithmetic; the even distribution rule is A. Budd's (2010), after C. Brunette,
// "Sweater 101" (1991), and S. Paden, "Knitwear Design Workshop" (2010).
import { describe, expect, test } from 'vitest';
import { workOut } from '../support/notebook.ts';

const NB = 'shape-sleeve';

/** 20 × 28 to 4 in, 43 sts at the cuff, 107 rows, all of them free for shaping. */
const B = {
  stitch_gauge: '20 st / 4 in',
  row_gauge: '28 row / 4 in',
  cuff_stitches: '43 st',
  top_stitches: '71 st',
  sleeve_length: '15.2857142857 in',
  edge_depth: '0 in',
  plain_before: '0 row',
  plain_after: '0 row',
};

describe('28 stitches, 14 pairs, in 107 rows', () => {
  test('in the round, all rows used: 35 + 72 = 107', () => {
    const sleeve = workOut(NB, B);
    expect(sleeve.number('shaping_rows')).toBe(107);
    expect(sleeve.plan('sleeve_shaping')).toBe('every 7th rnd 5 times, then every 8th rnd 9 times');
  });

  test('in the round, the last 7 plain: 84 + 16 = 100', () => {
    expect(workOut(NB, { ...B, plain_after: '7 row' }).plan('sleeve_shaping')).toBe(
      'every 7th rnd 12 times, then every 8th rnd 2 times',
    );
  });

  test('flat, on right-side rows only: 5, 11, 17 … 99, never an even row', () => {
    const sleeve = workOut(NB, { ...B, plain_after: '7 row', worked_in_the_round: 'no' });
    expect(sleeve.number('shape_every')).toBe(2);
    expect(sleeve.plan('sleeve_shaping')).toContain(
      'increase on row 5 (RS), then every 6th row 5 times, then every 8th row 8 times, then 1 row plain',
    );
    const rows = sleeve
      .steps('sleeve_shaping')
      .flatMap((step) => (step.do === 'increase' ? expand(step) : []));
    expect(rows).toEqual([5, 11, 17, 23, 29, 35, 43, 51, 59, 67, 75, 83, 91, 99]);
  });

  test('to 72, 29 is no whole number of pairs, and the ways out are named', () => {
    const sleeve = workOut(NB, { ...B, top_stitches: '72 st' });
    expect(sleeve.truth('parity_agrees')).toBe(false);
    const plan = sleeve.plan('sleeve_shaping');
    for (const way of [
      '14 leave 1 (71 sts)',
      '15 pass by 1 (73 sts)',
      'begin with 44 or 42',
      'end with 71 or 73',
      'one single increase',
    ])
      expect(plan).toContain(way);
  });
});

/** The rows a step acts on: the last of each of its equal stretches. */
function expand(step: { readonly rows?: readonly number[]; readonly times?: number }): readonly number[] {
  const [first = 1, last = 1] = step.rows ?? [];
  const times = step.times ?? 1;
  const stretch = (last - first + 1) / times;
  return Array.from({ length: times }, (_, i) => first - 1 + stretch * (i + 1));
}

describe('published shapings', () => {
  // Source: "Handbook of Wool Knitting and Crochet", Needlecraft, 1918: from 100 to 76 sts, one at each end every 8th row.
  test('100 to 76 in 96 rows is every 8th row 12 times', () => {
    const sleeve = workOut(NB, {
      ...B,
      worked_from: '"top"',
      top_stitches: '100 st',
      cuff_stitches: '76 st',
      sleeve_length: '13.7142857143 in',
    });
    expect(sleeve.number('shaping_rows')).toBe(96);
    expect(sleeve.plan('sleeve_shaping')).toBe('every 8th rnd 12 times');
  });

  test('97 to 73 in 96 rows likewise', () => {
    const sleeve = workOut(NB, {
      ...B,
      worked_from: '"top"',
      top_stitches: '97 st',
      cuff_stitches: '73 st',
      sleeve_length: '13.7142857143 in',
    });
    expect(sleeve.plan('sleeve_shaping')).toBe('every 8th rnd 12 times');
  });
});

describe('each length for itself', () => {
  test('a shorter sleeve has a wider edge, the same top but for parity, and saves yarn against the longest', () => {
    const sleeve = workOut(NB);
    const cuffs = sleeve.each('cuff_stitches');
    expect([...cuffs].sort((a, b) => b - a)).toEqual(cuffs);
    const tops = sleeve.each('top_stitches');
    expect(Math.max(...tops) - Math.min(...tops)).toBeLessThanOrEqual(1);
    const saved = sleeve.each('yarn_saved');
    expect(saved.at(-1)).toBe(0);
    expect([...saved].sort((a, b) => b - a)).toEqual(saved);
  });

  test('more shapings than rows, no gauge, or a sleeve shorter than its plain rows get a sentence', () => {
    const sets = [
      { sleeve_length: '1.6 in', plain_after: '0 row' },
      { stitch_gauge: '0 st / 4 in' },
      { row_gauge: '0 row / 4 in' },
      { sleeve_length: '1 in' },
    ];
    for (const set of sets) {
      const sleeve = workOut(NB, set);
      for (const fault of sleeve.faults()) expect(fault.says).toMatch(/[a-z].*[.:]/);
      expect(JSON.stringify(sleeve.asked.json)).not.toMatch(/NaN|Infinity/);
    }
  });

  test('an elbow that is not given holds nothing up', () => {
    expect(workOut(NB, { elbow: '' }).truth('elbow_has_room', 'long')).toBe(true);
  });
});
