// Babies by age: the growth standards to the printed digit, printed babies' pieces of 1870 and 1918, and sets that
// come out at every age, gauge and size.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import growth from '../data/growth.json';
import { checkSettled, type Sets, type WorkedNotebook, workOut } from '../support/notebook.ts';
import { printedSteps } from '../support/printed-steps.ts';
import { patience } from '../support/runs.ts';

const set = (sets: Sets = {}): WorkedNotebook => workOut('baby-set', sets);
const labelOf = (months: number) =>
  months === 0 ? 'newborn' : months === 1 ? '1 month' : `${months} months`;

describe('how large babies are', () => {
  // Source: WHO Child Growth Standards, 2006 (tests/data/growth.json).
  const boys = set({ child_is: '"boy"' });
  const girls = set({ child_is: '"girl"' });
  test.each(growth.rows)(
    '$measure of $sex at $months months',
    ({ measure, sex, months, median, small, large }) => {
      const worked = sex === 'boys' ? boys : girls;
      const at = labelOf(months);
      expect(worked.number(measure, at)).toBeCloseTo(median, 10);
      expect(worked.number(`${measure}_small`, at).toFixed(2)).toBe(small.toFixed(2));
      expect(worked.number(`${measure}_large`, at).toFixed(2)).toBe(large.toFixed(2));
    },
  );

  test('for either, the range is from small girls to large boys', () => {
    // Source: the same: newborn girls −2 SD 31.51, boys +2 SD 37.00; 12 months girls −2 SD 42.18.
    const either = set();
    expect(either.number('head_small', 'newborn')).toBeCloseTo(31.51, 2);
    expect(either.number('head_large', 'newborn')).toBeCloseTo(37.0, 2);
    expect(either.number('head_small', '12 months')).toBeCloseTo(42.18, 2);
  });

  test('sizes overlap, and it says so', () => {
    // Source: the same: a head of 43 cm is within two spreads at 6, 9 and 12 months.
    const worked = set({ head_measured: '43 cm' });
    expect(worked.number('ages_with_this_head')).toBe(3);
    expect(worked.says('head_is_usual')).toContain('from 6 to 12 months');
    expect(worked.label('size_by_head')).toBe('6 months');
    expect(set({ head_measured: '' }).faults()).toEqual([]);
  });
});

describe('the age at which it is worn', () => {
  test('counts in months of 30.4375 days, with room to grow', () => {
    // Source: the standards' month. 1 July to 1 December is 153 days.
    const worked = set({ born: '2026-07-01', worn_from: '2026-12-01', growth_room: '1' });
    expect(worked.number('age_when_worn')).toBeCloseTo(153 / 30.4375, 8);
    expect(worked.label('size_to_knit')).toBe('6 months');
    expect(worked.chosen).toBe('6 months');
    expect(set({ born: '2027-01-01' }).truth('worn_after_birth')).toBe(false);
  });

  // Source: common practice: in doubt the larger, since a baby grows into it and never out of it again.
  test('is rounded to what it grows into, unless half a month would do', () => {
    // 166 days are 5.45 months; with two of room 7.45, which is nearer to 6 than to 9.
    const worn = { born: '2026-04-18', worn_from: '2026-10-01' };
    expect(set({ ...worn, growth_room: '2' }).label('size_to_knit')).toBe('9 months');
    expect(set({ ...worn, growth_room: '2' }).says('size_to_knit')).toBe(
      '9 months is 9, 1.5 more than the 7.5 wanted',
    );
    expect(set({ ...worn, growth_room: '1' }).label('size_to_knit')).toBe('6 months');
    expect(set({ ...worn, growth_room: '1', may_be_short_by: '0' }).label('size_to_knit')).toBe('9 months');
  });

  // The tests take place on 7 January 2026.
  test('on a day gone by is told, once', () => {
    const past = set({ born: '2025-06-01', worn_from: '2026-01-06' });
    expect(past.noes()).toEqual(['still_to_be_worn']);
    expect(past.says('still_to_be_worn')).toBe(
      '6 Jan 2026 is gone by: give the day it is to fit from now, or it is knitted too small',
    );
    expect(set({ born: '2025-06-01', worn_from: '2026-01-07' }).noes()).toEqual([]);
    expect(set({ born: '2026-06-01', worn_from: '2026-01-06' }).noes()).toEqual(['worn_after_birth']);
  });

  test('past the oldest age it says so', () => {
    const old = set({ born: '2024-01-01', worn_from: '2026-10-01' });
    expect(old.label('size_to_knit')).toBe('24 months');
    expect(old.truth('fits_until_then')).toBe(false);
    expect(old.says('fits_until_then')).toContain('past the oldest age');
  });
});

describe('printed pieces', () => {
  test('long bootees of 1918: 18 + 17 + 21 + 17 + 18 = 91', () => {
    // Source: Handbook of Wool Knitting and Crochet, 1918: 57 stitches, a flap of 21 by 34 rows.
    const worked = set({ ankle_stitches: '57 st', bootie_sides: '18 st', flap_rows: '34 row' });
    expect(worked.number('bootie_instep')).toBe(21);
    expect(worked.number('bootie_pick_up')).toBe(17);
    expect(worked.number('foot_row')).toBe(91);
    expect(worked.says('foot_row')).toBe('18 sts + 17 sts + 21 sts + 17 sts + 18 sts');
  });

  test('a baby’s boot of 1870: 18 for the instep, 30 waiting', () => {
    // Source: Beeton's Book of Needlework, 1870, pattern 326: 48 stitches.
    const worked = set({ ankle_stitches: '48 st', bootie_sides: '15 st' });
    expect(worked.number('bootie_instep')).toBe(18);
  });

  const jackets: readonly (readonly [
    name: string,
    sets: Sets,
    across: number,
    shoulder: number,
    front: number,
  ])[] = [
    [
      'baby’s jacket',
      { back_stitches: '52 st', sleeve_cast_on: '26 st', neck_stitches: '18 st', overlap_stitches: '4 st' },
      104,
      43,
      28,
    ],
    [
      'child’s set',
      { back_stitches: '60 st', sleeve_cast_on: '42 st', neck_stitches: '14 st', overlap_stitches: '12 st' },
      144,
      65,
      36,
    ],
  ];
  test.each(jackets)('%s of 1918, across and down the front', (_, sets, across, shoulder, front) => {
    // Source: Handbook of Wool Knitting and Crochet, 1918 (104 = 43 + 18 + 43; 43 + 11 − 26 = 28; 144 = 65 + 14 + 65; 65 + 13 − 42 = 36).
    const worked = set(sets);
    expect(worked.number('across')).toBe(across);
    expect(worked.number('shoulder_stitches')).toBe(shoulder);
    expect(worked.number('front_stitches')).toBe(front);
    expect(worked.truth('neck_comes_out')).toBe(true);
    expect(worked.truth('fronts_meet')).toBe(true);
  });

  test('a crown of 60 in ten sections loses ten a decrease round', () => {
    // Source: Handbook of Wool Knitting and Crochet, 1918, mitten tops: each section shrinks by one.
    const worked = set({ hat_stitches: '60 st', crown_sections: '10 st' });
    expect(worked.number('crown_decreases')).toBe(5);
    expect(worked.plan('crown')).toBe('every 2nd rnd 5 times');
    // Source: common practice: a higher crown begins slowly and is drawn up faster at its top. 13 rounds are 3 × 3 + 2 × 2.
    const higher = set({ hat_stitches: '60 st', crown_sections: '10 st', crown_rounds: '13 rnd' });
    expect(higher.plan('crown')).toBe('every 3rd rnd 3 times, then every 2nd rnd 2 times');
  });
});

// Common practice: 20 rows of leg end on the wrong side, so the instep is set aside on a right-side row; 24 rows of flap
// begin on the wrong side and end on the right one, at its left, 13 + 12 + 14 stitches from where the foot begins.
test('a bootie’s yarn is joined where its foot begins, and no stitch is worked twice', () => {
  const told = printedSteps('baby-set');
  expect(told).toContain('Next row, RS: work 13 sts, then 14 sts, turn; work 24 rows on these 14 sts alone.');
  expect(told).toContain(
    'break the yarn and join it, RS facing, after the first 13 sts, which are worked already. Pick up 12 sts along ' +
      'the flap, work its 14 sts, pick up 12 sts along its other side, work the last 13 sts: 64 sts in all.',
  );
});

describe('the neck of the wrap cardigan', () => {
  // Source: common practice: the front of a neck lies lower than its back; the neck of a baby from memory.
  test('is worked straight before the fronts’ neck is cast on, and goes round the neck', () => {
    // 22 sts are 7.857 cm; (24 + 2) / 2 − 7.857 = 5.143 cm, which at 3.8 rows are 19.5, so 20 rows of 5.263 cm.
    const worked = set();
    expect(worked.number('front_neck_rows', '9 months')).toBe(20);
    expect(worked.number('front_sleeve_rows', '9 months')).toBe(14);
    expect(worked.number('neck_opening', '9 months')).toBeCloseTo(2 * (22 / 2.8 + 20 / 3.8), 10);
    expect(printedSteps('baby-set')).toMatch(
      /work 20 rows on its 73 sts\. Work 14 rows more, to 34 rows from the shoulder, and .* cast on 18 sts\./,
    );
  });

  test('is tight when the fronts begin at the shoulder', () => {
    // Two widths of 7.857 cm and two sides of 0.526 cm make 16.8 cm.
    const worked = set({ front_neck_rows: '2 row' });
    expect(worked.truth('neck_is_wide_enough', '9 months')).toBe(false);
    expect(worked.says('neck_is_wide_enough')).toContain('16.8 cm around a neck of 24 cm');
    expect(printedSteps('baby-set', { front_neck_rows: '2 row' })).toMatch(
      /^0\. .* 16\.8 cm around, is tight/m,
    );
  });

  test('is cast on before the sleeve ends', () => {
    const deep = set({ front_neck_rows: '40 row' });
    expect(deep.says('front_neck_fits_sleeve')).toContain('the sleeve ends before');
    const narrow = set({ upper_arm: '4 cm', sleeve_ease: '0 cm' });
    expect(narrow.number('front_sleeve_rows', '9 months')).toBeGreaterThan(0);
    expect(narrow.truth('neck_is_wide_enough', '9 months')).toBe(false);
  });
});

describe('what has to pass and to stay', () => {
  test('a fist passes the mitten’s cuff, or it says what to do', () => {
    // Source: smoothed means after Snyder et al., 1977: a fist of 4.9 cm at 6 months, taken as round.
    const worked = set();
    expect(worked.number('fist_around', '6 months')).toBeCloseTo(Math.PI * 4.9, 8);
    expect(worked.truth('fist_passes', '6 months')).toBe(true);
    const tight = set({ stretched_gauge: '30 st / 10 cm' });
    expect(tight.truth('fist_passes', '6 months')).toBe(false);
    expect(tight.says('fist_passes')).toContain('stretchier rib');
  });

  test('a hat that is too small or too large says so', () => {
    expect(set({ hat_smaller: '25%' }).truth('hat_is_comfortable')).toBe(false);
    expect(set({ hat_smaller: '0%', crown_sections: '20 st' }).noes()).toContain('hat_stays_on');
  });
});

test(
  'any gauge, child and age: pieces close, and nothing is negative',
  () => {
    const any = fc.record({
      child: fc.constantFrom('boy', 'girl', 'either'),
      gauge: fc.integer({ min: 20, max: 44 }),
      rows: fc.integer({ min: 120, max: 150 }),
      sections: fc.integer({ min: 5, max: 10 }),
      smaller: fc.integer({ min: 2, max: 14 }),
      overlap: fc.integer({ min: 0, max: 9 }),
    });
    fc.assert(
      fc.property(any, ({ child, gauge, rows, sections, smaller, overlap }) => {
        const worked = set({
          child_is: `"${child}"`,
          stitch_gauge: `${gauge} st / 10 cm`,
          row_gauge: `${(gauge * rows) / 100} row / 10 cm`,
          stretched_gauge: `${gauge * 0.65} st / 10 cm`,
          crown_sections: `${sections} st`,
          hat_smaller: `${smaller}%`,
          overlap_wanted: `${overlap} cm`,
        });
        checkSettled(worked);
        expect(worked.faults()).toEqual([]);
        for (const at of worked.columns) {
          const n = (cell: string) => worked.number(cell, at);
          for (const cell of ['hat_rounds', 'mitten_rounds', 'bootie_instep', 'body_rows', 'front_stitches'])
            expect(Number.isInteger(n(cell)) && n(cell) > 0, `${cell} ${n(cell)}`).toBe(true);
          expect(n('hat_stitches') - sections * n('crown_decreases')).toBe(sections);
          expect((n('mitten_stitches') - n('mitten_end')) % 4).toBe(0);
          expect(2 * n('bootie_sides') + n('bootie_instep')).toBe(n('ankle_stitches'));
          expect(n('foot_row')).toBe(n('ankle_stitches') + 2 * n('bootie_pick_up'));
          expect(2 * n('shoulder_stitches') + n('neck_stitches')).toBe(n('across'));
          expect(n('front_neck_rows') + n('front_sleeve_rows')).toBe(n('half_sleeve_rows'));
          expect(n('front_sleeve_rows')).toBeGreaterThan(0);
          expect(n('fronts_overlap')).toBe(n('overlap_stitches'));
        }
        const checks = [
          'neck_comes_out',
          'fronts_meet',
          'bootie_is_long_enough',
          'ankle_is_loose',
          'fist_passes',
        ];
        for (const check of checks) expect(worked.noes()).not.toContain(check);
      }),
      { numRuns: 60 },
    );
  },
  patience,
);

describe('what cannot be knit gets a sentence', () => {
  const slips: readonly (readonly [what: string, sets: Sets, cell: string, says: RegExp])[] = [
    ['no gauge', { stitch_gauge: '0 st / 10 cm' }, 'stitch_gauge', /more than nothing/],
    ['no sections', { crown_sections: '0 st' }, 'hat_stitches', /more than nothing/],
    ['an odd neck', { neck_stitches: '17 st' }, 'neck_comes_out', /both even or both odd/],
    ['fronts that do not meet', { front_neck_cast_on: '2 st' }, 'fronts_meet', /cast on more/],
    ['a tight bootie', { ankle_stitches: '20 st' }, 'ankle_is_loose', /cast on more/],
    ['a yarn that cannot be washed', { washable: 'no' }, 'washable', /can be washed/],
    ['a crown deeper than the hat', { crown_sections: '2 st' }, 'crown_fits', /more crown sections/],
  ];
  test.each(slips)('%s', (_, sets, cell, says) => {
    const worked = set(sets);
    expect(worked.says(cell)).toMatch(says);
    checkSettled(worked);
  });
});
