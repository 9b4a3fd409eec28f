// The swatch notebook: gauges by counting, the line through the needles tried, and how well a gauge is known.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkSettled, type Sets, type WorkedNotebook, workOut } from '../support/notebook.ts';
import { patience } from '../support/runs.ts';

const swatches = (sets: Sets = {}): WorkedNotebook => workOut('compare-swatches', sets);

// Three needles on a straight line: 24, 22 and 20 sts to 10 cm on 3, 3.5 and 4 mm.
const STRAIGHT: Sets = {
  needle: '3 (3.5, 4) mm',
  counted_over: '10 cm',
  stitches_counted: '24 (22, 20) st',
  washed: 'yes',
  smallest_needle: '2 mm',
  largest_needle: '5 mm',
};
const straight = (wanted: number, sets: Sets = {}) =>
  swatches({ ...STRAIGHT, pattern_stitch_gauge: `${wanted} st / 10 cm`, ...sets });

describe('needles on a straight line', () => {
  // Source: arithmetic by hand.
  test('4 stitches fewer a millimetre', () => {
    const worked = straight(22);
    expect(worked.number('change_a_millimetre')).toBeCloseTo(-4, 10);
    expect(worked.number('change_for_half_a_size')).toBeCloseTo(-2, 10);
  });

  test('the nearest is named with its neighbour', () => {
    const worked = straight(21.5);
    expect(worked.label('nearest_needle')).toBe('4 mm');
    expect(worked.says('nearest_needle')).toMatch(/22 sts.*more than the .* wanted; .*20 sts.*less/);
    expect(worked.number('nearest_gauge')).toBeCloseTo(22, 10);
    expect(worked.truth('gauge_is_met')).toBe(true);
    expect(worked.number('width_it_makes')).toBeCloseTo((21.5 / 22) * 100, 8);
  });

  test('a needle in reach is found: 26 on 2.5 mm', () => {
    const worked = straight(26);
    expect(worked.truth('gauge_is_met')).toBe(false);
    expect(worked.number('needle_for_the_gauge')).toBeCloseTo(2.5, 10);
    expect(worked.number('needle_to_try')).toBeCloseTo(2.5, 10);
    expect(worked.truth('a_needle_would_meet_it')).toBe(true);
  });

  test('no needle gets to 30: work at your own gauge', () => {
    const worked = straight(30);
    expect(worked.number('needle_for_the_gauge')).toBeCloseTo(1.5, 10);
    expect(worked.truth('a_needle_would_meet_it')).toBe(false);
    expect(worked.says('a_needle_would_meet_it')).toMatch(
      /no needle here gets to 30 .* your own gauge instead, 24 sts/,
    );
  });
});

describe('how well a gauge is known', () => {
  test('half a stitch over 2, 4 and 8 inches is 1, ½ and ¼ stitch per 4 in', () => {
    // Source: common practice, by arithmetic.
    const worked = swatches({ counted_over: '2 (4, 8) in' });
    const perFour = worked.each('doubt').map((doubt) => doubt * 1.016);
    expect(perFour.map((doubt) => Number(doubt.toFixed(10)))).toEqual([1, 0.5, 0.25]);
  });

  test('a quarter stitch to 10 cm wants 20 cm counted', () => {
    expect(swatches().number('width_to_count')).toBeCloseTo(20, 10);
  });

  test('a miss within the doubt is no miss yet', () => {
    const worked = swatches({ stitches_counted: '21.3 (43; 40.5) st' });
    const [first] = worked.columns;
    expect(worked.truth('miss_is_real', first)).toBe(false);
    expect(worked.says('miss_is_real')).toContain('count over more width');
  });

  test('over 4 inches and over 10 cm differ by 1.6 per cent', () => {
    // Source: the inch of 1959, 2.54 cm.
    const worked = swatches({ stitches_counted: '21 st', counted_over: '4 in' });
    expect(worked.number('nearest_gauge')).toBeCloseTo(21 / 1.016, 8);
  });
});

test('what is not washed is left out, and said so', () => {
  const worked = straight(20, { washed: 'yes (yes, no)' });
  expect(worked.label('nearest_needle')).toBe('4 mm');
  expect(worked.number('nearest_gauge')).toBeCloseTo(22, 10);
  expect(worked.says('nearest_needle')).toContain('without 4.5 mm');
  expect(worked.truth('may_be_compared', '4.5 mm')).toBe(false);
  expect(worked.number('needle_for_the_gauge')).toBeCloseTo(4, 10);
});

test('a sock stitch of 1896: about 8 to the inch on a No. 12 needle', () => {
  // Source: H. P. Ryder, 1896; No. 12 is 2.75 mm in the needle makers' tables.
  const worked = swatches({
    needle: '2.75 (2.75; 2.75) mm',
    stitches_counted: '8 st',
    counted_over: '1 in',
    washed: 'yes (yes, yes)',
  });
  expect(worked.number('nearest_gauge')).toBeCloseTo(31.496, 3);
  expect(worked.says('change_a_millimetre')).toContain('at least two columns');
  checkSettled(worked);
});

test(
  'any swatches: the line meets the pattern where it says',
  () => {
    const one = fc.record({
      needle: fc.integer({ min: 8, max: 40 }),
      stitches: fc.integer({ min: 10, max: 80 }),
      width: fc.integer({ min: 4, max: 30 }),
    });
    fc.assert(
      fc.property(fc.tuple(one, one, one), fc.integer({ min: 8, max: 45 }), (tried, wanted) => {
        const [a, b, d] = tried;
        const line = (value: (t: typeof a) => number, unit: string) =>
          `${value(a)} (${value(b)}; ${value(d)}) ${unit}`;
        const worked = swatches({
          needle: line(({ needle }) => needle / 4, 'mm'),
          stitches_counted: line(({ stitches }) => stitches, 'st'),
          counted_over: line(({ width }) => width, 'cm'),
          pattern_stitch_gauge: `${wanted} st / 10 cm`,
        });
        checkSettled(worked);
        const gauges = tried.map(({ stitches, width }) => (stitches / width) * 10);
        const nearest = gauges[worked.columns.indexOf(worked.label('nearest_needle'))] ?? 0;
        for (const gauge of gauges)
          expect(Math.abs(nearest - wanted)).toBeLessThanOrEqual(Math.abs(gauge - wanted) + 1e-6);
        if (new Set(tried.map(({ needle }) => needle)).size < 2) return;
        const slope = worked.number('change_a_millimetre');
        const needle = worked.number('needle_for_the_gauge');
        if (slope >= -1e-6 || needle <= 0.11) return;
        const mean = (values: readonly number[]) => values.reduce((x, y) => x + y) / values.length;
        const there = mean(gauges) + slope * (needle - mean(tried.map((t) => t.needle / 4)));
        expect(there).toBeCloseTo(wanted, 6);
      }),
      { numRuns: 100 },
    );
  },
  patience,
);

describe('what cannot be judged gets a sentence', () => {
  const slips: readonly (readonly [what: string, sets: Sets, cell: string, says: RegExp])[] = [
    ['no width', { counted_over: '0 cm' }, 'stitch_gauge', /divides by nothing/],
    ['one needle only', { needle: '4 (4, 4) mm' }, 'change_a_millimetre', /at least two columns/],
    [
      'all alike',
      { stitches_counted: '20 st', counted_over: '10 cm' },
      'thicker_is_looser',
      /count the swatches again/,
    ],
    ['none washed', { washed: 'no (no, no)' }, 'gauge_to_compare', /waiting for a wash/],
    [
      'a pattern of no stitches',
      { pattern_stitch_gauge: '0 st / 10 cm' },
      'gauge_is_met',
      /waiting for pattern stitch gauge/,
    ],
    ['not rested', { days_rested: '0 days' }, 'rested_long_enough', /rest a day/],
  ];
  test.each(slips)('%s', (_, sets, cell, says) => {
    const worked = swatches(sets);
    expect(worked.says(cell)).toMatch(says);
    checkSettled(worked);
  });
});
