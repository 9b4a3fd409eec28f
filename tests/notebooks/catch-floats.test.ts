// Floats and ladder stitches: limits as lengths, catches as a book of 1896 has them, ladder columns that keep their
// line, and rounds drawn at random.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import {
  checkSettled,
  openNotebook,
  type Sets,
  TEST_DAY,
  type WorkedNotebook,
  workOut,
} from '../support/notebook.ts';
import { patience } from '../support/runs.ts';

const floats = (sets: Sets = {}): WorkedNotebook => workOut('catch-floats', sets);

// Source: exact arithmetic by hand, common practice in method: at most 4 stitches between, 18 sts to 4 in.
const COUNTS = [96, 120, 144, 192, 240] as const;
const yoke = (sets: Sets = {}) =>
  floats({
    stitches: '96 (120, 144, 192, 240) st',
    stitch_gauge: '18 st / 4 in',
    float_limit: '2.26 cm',
    ...sets,
  });

/** The gaps of each stage as [stitches, how many] pairs. */
function gaps(worked: WorkedNotebook): readonly (readonly (readonly [number, number])[])[] {
  return worked.columns.map((stage) => {
    const narrow = worked.number('narrow_gap', stage);
    const pairs = [
      [narrow, worked.number('narrow_gaps', stage)],
      [narrow + 1, worked.number('wide_gaps', stage)],
    ] as const;
    return pairs.filter(([, times]) => times > 0);
  });
}
const verdicts = (worked: WorkedNotebook, check: string) =>
  worked.columns.map((stage) => worked.truth(check, stage));

describe('ladder stitches on a yoke of 96 to 240, by hand', () => {
  test('0.889 in is 4 stitches, and the fewest follow', () => {
    expect(yoke().number('most_between')).toBe(4);
    expect(yoke({ float_limit: '8/9 in' }).number('most_between')).toBe(4);
    expect(yoke().each('fewest')).toEqual([24, 30, 36, 48, 60]);
  });

  test('24 throughout breaks at 120', () => {
    const worked = yoke({ ladders_at_start: '24 st', double_when_needed: 'no' });
    expect(worked.each('widest_gap')).toEqual([4, 5, 6, 8, 10]);
    expect(verdicts(worked, 'gaps_are_short')).toEqual([true, false, false, false, false]);
    expect(worked.says('gaps_are_short')).toContain('30 sts are wanted here');
  });

  test('30 from the start, doubled to 60 at 144', () => {
    const worked = yoke();
    expect(worked.number('ladders_at_start')).toBe(30);
    expect(worked.each('ladder_stitches')).toEqual([30, 30, 60, 60, 60]);
    expect(gaps(worked)).toEqual([
      [
        [3, 24],
        [4, 6],
      ],
      [[4, 30]],
      [
        [2, 36],
        [3, 24],
      ],
      [
        [3, 48],
        [4, 12],
      ],
      [[4, 60]],
    ]);
    const shares = worked.each('back_share').map((share) => Math.round(share * 100) / 100);
    expect(shares).toEqual([31.25, 25, 41.67, 31.25, 25]);
    expect(verdicts(worked, 'gaps_are_short')).toEqual([true, true, true, true, true]);
    expect(worked.plan('setting', 'neck')).toMatch(/^\(k3, m1\) 24 times, \(k4, m1\) 6 times/);
  });

  test('60 throughout is allowed, but thick at the neck', () => {
    const worked = yoke({ ladders_at_start: '60 st' });
    expect(verdicts(worked, 'gaps_are_short')).toEqual([true, true, true, true, true]);
    expect(worked.number('back_share', 'neck')).toBeCloseTo(62.5, 10);
    expect(verdicts(worked, 'back_is_not_thick')[0]).toBe(false);
    expect(worked.says('back_is_not_thick')).toContain('thick');
  });

  test('30 kept at 144 fails: 6 gaps of 4 and 24 of 5', () => {
    const worked = yoke({ ladders_at_start: '30 st', double_when_needed: 'no' });
    expect(gaps(worked)[2]).toEqual([
      [4, 6],
      [5, 24],
    ]);
    expect(verdicts(worked, 'gaps_are_short')[2]).toBe(false);
  });

  test('a yoke that hardly grows keeps one number', () => {
    const worked = yoke({ stitches: '96 (104, 112, 120, 144) st' });
    expect(worked.truth('one_number_will_do')).toBe(true);
    expect(worked.each('ladder_stitches')).toEqual([36, 36, 36, 36, 36]);
  });
});

describe('floats', () => {
  test('carried wool is caught at the third or fourth stitch of a run of six or more', () => {
    // Source: H. P. Ryder, Cycling and Shooting Knickerbocker Stockings, 1896.
    const worked = floats({ longest_run: '6 (7, 8, 5, 4) st', run_at_end: '0 st', run_at_start: '0 st' });
    expect(worked.each('catches')).toEqual([1, 1, 1, 0, 0]);
    expect(worked.each('catch_after').slice(0, 3)).toEqual([3, 4, 4]);
  });

  test('the smaller of the two limits wins', () => {
    const most = (sets: Sets) => floats(sets).number('most_between');
    expect(most({ float_limit: '1 in', stitch_limit: '9 st' })).toBe(5);
    expect(most({ float_limit: '1 in', stitch_limit: '4 st' })).toBe(4);
    // Source: safety, from memory: a centimetre for babies; 28 sts to 10 cm are 2.8 to the centimetre.
    expect(most({ worn_by: '"a baby"', stitch_gauge: '28 st / 10 cm' })).toBe(2);
  });

  test('two runs meet at the end of the round', () => {
    const worked = floats({ run_at_end: '4 st', run_at_start: '4 st' });
    expect(worked.number('longest')).toBe(8);
    expect(worked.number('catches')).toBe(1);
  });

  // Source: common practice: where no float is too long, none is caught.
  test('a stage whose floats are short is told to catch nothing', () => {
    const told = (stage: string) => {
      const session = createSession({
        notebook: openNotebook('catch-floats'),
        today: TEST_DAY,
        random: () => 0.5,
      });
      const column = session.notebook.columns?.list.find(({ label }) => label === stage);
      session.choose(column?.id ?? '');
      return session
        .steps()
        .steps.filter(({ applies }) => applies)
        .map(({ text }) => text);
    };
    expect(told('neck')[0]).toBe(
      'Carry the second colour loosely, behind 3 sts at most at this stage. Nothing is caught here.',
    );
    expect(told('neck').join(' ')).not.toContain('catch it');
    expect(told('band 2')[0]).toContain('catch it, every 5 sts at this stage');
    expect(told('band 2').join(' ')).not.toContain('Nothing is caught');
  });

  test('colourwork that draws in says so', () => {
    const worked = floats({ stitch_gauge: '22 st / 4 in', plain_stitch_gauge: '20 st / 4 in' });
    expect(worked.number('draws_in')).toBeCloseTo(9.0909, 3);
    expect(worked.truth('keeps_its_width')).toBe(false);
    expect(floats({ plain_stitch_gauge: '' }).truth('keeps_its_width')).toBe(true);
  });
});

test(
  'any yoke: gaps add up and differ by one; none is wider than it says; no catch is missing',
  () => {
    const stage = fc.integer({ min: 40, max: 400 });
    fc.assert(
      fc.property(
        fc.array(stage, { minLength: 5, maxLength: 5 }),
        fc.integer({ min: 10, max: 45 }),
        fc.integer({ min: 5, max: 40 }),
        fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 5, maxLength: 5 }),
        (counts, gauge, limit, runs) => {
          const line = (values: readonly number[]) => `${values[0]} (${values.slice(1).join(', ')}) st`;
          const worked = floats({
            stitches: line([...counts].sort((a, b) => a - b)),
            stitch_gauge: `${gauge} st / 10 cm`,
            float_limit: `${limit} mm`,
            stitch_limit: '9 st',
            longest_run: line(runs),
          });
          checkSettled(worked);
          const most = worked.number('most_between');
          for (const at of worked.columns) {
            const n = (cell: string) => worked.number(cell, at);
            expect(n('narrow_gap') * n('narrow_gaps') + (n('narrow_gap') + 1) * n('wide_gaps')).toBe(
              n('stitches'),
            );
            expect(n('narrow_gaps') + n('wide_gaps')).toBe(n('ladder_stitches'));
            expect([1, 2]).toContain(n('ladder_stitches') / worked.number('ladders_at_start'));
            expect(worked.truth('gaps_are_short', at)).toBe(n('widest_gap') <= most);
            if (n('fewest') <= 2 * worked.number('ladders_at_start'))
              expect(n('widest_gap')).toBeLessThanOrEqual(most);
            expect(n('catch_after')).toBeLessThanOrEqual(most);
            expect(n('catch_after') * (n('catches') + 1)).toBeGreaterThanOrEqual(n('longest'));
          }
        },
      ),
      { numRuns: 80 },
    );
  },
  patience,
);

test('the counts tried by hand are those of the table', () => {
  expect(yoke().each('stitches')).toEqual(COUNTS);
});

describe('what cannot be knit gets a sentence', () => {
  const slips: readonly (readonly [what: string, sets: Sets, cell: string, says: RegExp])[] = [
    ['no gauge', { stitch_gauge: '0 st / 4 in' }, 'stitch_gauge', /more than nothing/],
    [
      'a gauge too coarse for any float',
      { stitch_gauge: '2 st / 4 in' },
      'one_stitch_is_short_enough',
      /finer yarn/,
    ],
    ['a run longer than the round', { longest_run: '500 st' }, 'runs_fit', /count the chart again/],
    ['no stitches', { stitches: '0 (0, 0, 0, 0) st' }, 'share_of_one_number', /divides by nothing/],
    ['more ladder stitches than stitches', { ladders_at_start: '300 st' }, 'setting', /more do not fit/],
  ];
  test.each(slips)('%s', (_, sets, cell, says) => {
    const worked = floats(sets);
    expect(worked.says(cell)).toMatch(says);
    checkSettled(worked);
  });
});
