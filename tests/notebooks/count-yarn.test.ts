// Yarn by weight and by loop length. Loop-length relations: D. L. Munden, J. Textile Institute 50 (1959) T448 (constants from
// memory), worked by exact arithmetic; count conversions: ASTM D2260; the sock of case E is worked by exact arithmetic.
import { describe, expect, test } from 'vitest';
import { type Sets, workOut } from '../support/notebook.ts';
import { printedSteps } from '../support/printed-steps.ts';

const NB = 'count-yarn';

const SOCK: Sets = {
  stitch_gauge: '32 st / 10 cm',
  row_gauge: '44 rnd / 10 cm',
  stitches_in_part: '1224 (3264, 1156, 203, 1738, 3672, 904) st',
  weighed_whole: '70 g',
  rounds_in_leg: '48 rnd',
  cuff_rounds: '18 rnd',
  contrasting: 'no (no, yes, yes, no, no, yes)',
};
const WITH_CUFFS = { ...SOCK, contrasting: 'yes (no, yes, yes, no, no, yes)' };

describe('a sock of 12,161 stitches, a pair of 70 g', () => {
  test('shares of heels, toes and cuffs', () => {
    const sock = workOut(NB, SOCK);
    expect(sock.number('stitches_in_all')).toBe(12_161);
    expect(sock.number('share', 'heel flap') + sock.number('share', 'heel turn')).toBeCloseTo(11.175, 3);
    expect(sock.number('share', 'toe')).toBeCloseTo(7.434, 3);
    expect(sock.number('share', 'cuff')).toBeCloseTo(10.065, 3);
  });

  test('contrasting heels and toes save 13.03 g, cuffs too 20.07 g', () => {
    expect(workOut(NB, SOCK).number('saved')).toBeCloseTo(13.03, 2);
    const all = workOut(NB, WITH_CUFFS);
    expect(all.number('saved')).toBeCloseTo(20.07, 2);
    expect(all.number('main_a_pair')).toBeCloseTo(49.93, 2);
  });

  test('two pairs need 99.86 g of 100: no, not safely', () => {
    const two = workOut(NB, WITH_CUFFS);
    expect(two.number('pairs_need')).toBeCloseTo(99.86, 2);
    expect(two.truth('enough')).toBe(false);
    expect(two.says('enough')).toContain('99.86 g of 100 g: no, not safely');
  });

  test('with 5 g held back, legs of 41 rounds', () => {
    const two = workOut(NB, WITH_CUFFS);
    expect(two.number('rounds_for_leg')).toBeCloseTo(41.8, 1);
    expect(two.number('leg_rounds')).toBe(41);
    expect(two.number('leg_length')).toBeCloseTo(9.32, 2);
    expect(two.number('leg_with_cuff')).toBeCloseTo(13.41, 2);
  });

  // By hand: a leg of 10 rounds of 108, 80 that narrow to 68 and 10 of 68 is 8800 stitches or so, 88 on average. 16,895
  // stitches a sock at 84.475 g the pair are 2.5 g a thousand; 150 g less the pair and 5 g are 60.525 g, 12,105 stitches
  // each; 4952 for gusset and foot leave 7153: 81 rounds of 88.
  test('a leg that narrows counts with its average round', () => {
    const shaped = workOut(NB, {
      stitches_in_part: '1152 (8800, 1024, 187, 1560, 3392, 780) st',
      rounds_in_leg: '100 rnd',
      weighed_whole: '84.475 g',
      main_yarn: '150 g',
    });
    expect(shaped.number('stitches_around')).toBeCloseTo(88, 9);
    expect(shaped.number('second_has')).toBe(12_105);
    expect(shaped.number('second_without_leg')).toBe(4952);
    expect(shaped.number('second_leg_rounds')).toBe(81);
  });

  // By hand: with a leg that takes a tenth more a stitch the pair has 12,487.4 plain stitches and 70 g, so 95 g in 4 socks
  // are 8473 each; 8897 less 3264 and less heel and toe, 6634, leave 1839 and a round takes 74.8: 24 rounds.
  test('a leg in a fabric that takes more yarn has fewer rounds', () => {
    const ribbed = workOut(NB, { ...SOCK, fabric: '1 (1.1, 1, 1, 1, 1, 1)' });
    expect(ribbed.number('stitches_a_piece')).toBe(8473);
    expect(ribbed.number('stitches_without_leg')).toBeCloseTo(6634, 6);
    expect(ribbed.number('leg_rounds')).toBe(24);
  });

  test('30 g left after a one-colour pair make no second at any leg length', () => {
    const second = workOut(NB, {
      ...SOCK,
      contrasting_in_second: 'yes (no, yes, yes, no, no, yes)',
      held_back: '0 g',
    });
    expect(second.number('left_after_first')).toBeCloseTo(30, 9);
    expect(second.number('second_without_leg')).toBe(5410);
    expect(second.number('second_needs')).toBeCloseTo(31.14, 2);
    expect(second.number('second_has')).toBe(5211);
    expect(second.truth('second_is_possible')).toBe(false);
    expect(second.says('second_is_possible')).toContain('not possible at any leg length');
  });
});

describe('what is held back, and what is short', () => {
  // By hand: 100 − 70 g leave 30; a stitch weighs 70 / 2 / 12,161 g; the foot contrasts too, so 1,738 of the gusset come off
  // and the rest goes round a leg of 68. Common practice: what is held back is not knitted.
  test('is kept out of a second pair too', () => {
    const sets = { ...SOCK, contrasting_in_second: 'yes (no, yes, yes, no, yes, yes)' };
    const rounds = (held_back: string) => workOut(NB, { ...sets, held_back }).number('second_leg_rounds');
    const each = (grams: number) => Math.floor(grams / 2 / (70 / 2 / 12_161));
    expect(workOut(NB, sets).number('second_has')).toBe(each(25));
    expect(rounds('5 g')).toBe(Math.floor((each(25) - 1738) / 68));
    expect(rounds('0 g')).toBe(Math.floor((each(30) - 1738) / 68));
    const none = workOut(NB, { ...sets, held_back: '30 g' });
    expect(none.number('second_leg_rounds')).toBe(0);
    expect(none.truth('second_is_possible')).toBe(false);
    expect(none.says('second_is_possible')).toContain('30 g left and 30 g of it held back');
  });

  // 99.86 and 5 g of 100 (above): one skein more, or legs of 41 rounds.
  test('is said before the cast-on, with what to buy', () => {
    expect(workOut(NB, WITH_CUFFS).number('more_to_buy')).toBe(1);
    expect(printedSteps(NB, WITH_CUFFS)).toMatch(
      /^0\. Before you cast on: 2 pairs need 99\.86 g of the main yarn and 5 g held back, and there are 100 g\. Buy 1 skein more, shorten the leg \(there is yarn for 41 rnds below the cuff\), or let another part contrast\.\n1\. /,
    );
    // 60 g, less 5, are 27.5 g a pair; cuff, flap, turn, gusset, foot and toe want more, so no leg would be short enough.
    const none = printedSteps(NB, { ...WITH_CUFFS, main_yarn: '60 g' });
    expect(none).toMatch(
      /^0\. Before you cast on: .* there are 60 g, too little for any leg below the cuff\. Buy 1 skein more, or let another part contrast\.\n1\. /,
    );
    expect(none).not.toContain('shorten the leg');
    expect(printedSteps(NB, { ...WITH_CUFFS, main_yarn: '150 g' })).toMatch(/^1\. Weigh the main yarn/);
    expect(workOut(NB, { ...WITH_CUFFS, main_yarn: '150 g' }).number('more_to_buy')).toBe(0);
  });
});

describe('loop length from gauge alone', () => {
  test.each([
    ['21.6', 19.63961],
    ['19.0', 18.42],
    ['23.1', 20.31],
  ])('20 × 28 to 10 cm at %s is a loop of %d mm', (density_constant, mm) => {
    const yarn = workOut(NB, {
      stitch_gauge: '20 st / 10 cm',
      row_gauge: '28 row / 10 cm',
      density_constant,
    });
    expect(yarn.number('loop_length')).toBeCloseTo(mm, 2);
  });

  test('16 × 22 to 10 cm is a loop of 24.772 mm', () => {
    expect(
      workOut(NB, { stitch_gauge: '16 st / 10 cm', row_gauge: '22 row / 10 cm' }).number('loop_length'),
    ).toBeCloseTo(24.772, 3);
  });

  test('560 stitches of 20 × 28, 100 cm², take 10.998 m, and 15 % either way is said', () => {
    const yarn = workOut(NB, {
      stitch_gauge: '20 st / 10 cm',
      row_gauge: '28 row / 10 cm',
      stitches_in_part: '80 (80, 80, 80, 80, 80, 80) st',
      pieces: '1',
    });
    expect(yarn.number('metres_by_gauge')).toBeCloseTo(10.998182, 6);
    expect(yarn.number('metres_at_least')).toBeCloseTo(10.998182 * 0.85, 6);
  });
});

describe('weights and skeins', () => {
  // A square of 6 × 6 in weighs 10 g; 1,450 square inches weigh 402.8 g (exact arithmetic).
  test('by area', () => {
    const yarn = workOut(NB, { square_area: '36 in^2', square_weight: '10 g', garment_area: '1450 in^2' });
    expect(yarn.number('weight_by_area')).toBeCloseTo(402.8, 1);
  });

  // 972.7 yd: at 220 yd a skein 4.42, so 5; with a tenth to spare 4.86, still 5; at 200 yd 5.35, so 6 (exact arithmetic).
  test.each([
    ['220 yd / 100 g', '0%', 5],
    ['220 yd / 100 g', '10%', 5],
    ['200 yd / 100 g', '10%', 6],
  ])('972.7 yd at %s with %s to spare is %d skeins', (label_metres, margin, skeins) => {
    expect(workOut(NB, { label_metres, margin, metres_needed: '972.7 yd' }).number('skeins_to_buy')).toBe(
      skeins,
    );
  });

  test('one dye lot is said, and no weight, gauge or label of nothing gives a sentence', () => {
    expect(workOut(NB).says('skeins_to_buy')).toContain('dye lot');
    for (const set of [
      { label_metres: '0 m / 100 g' },
      { stitch_gauge: '0 st / 10 cm' },
      { square_stitches: '0 st' },
      { rounds_in_leg: '0 rnd' },
    ]) {
      const yarn = workOut(NB, set);
      expect(yarn.faults().length).toBeGreaterThan(0);
      for (const fault of yarn.faults()) expect(fault.says).toMatch(/[a-z].*[.:]/);
    }
  });
});
