// A piece made longer or shorter. Shapings of 1918 are from the handbook named; the rest is arithmetic, or common practice.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkSettled, type Sets, workOut } from '../support/notebook.ts';
import { printedSteps } from '../support/printed-steps.ts';

const NB = 'adapt-length';

describe('where the shaping goes', () => {
  // Handbook of Wool Knitting and Crochet, Needlecraft, 1918: from 100 to 76 stitches, one at each end of every 8th row:
  // 12 decrease rows in 96 rows.
  const SLEEVE_1918: Sets = {
    row_gauge: '7 row / in',
    worked_from: '"underarm"',
    worked_in_the_round: 'yes',
    underarm_stitches: '100 st',
    edge_stitches: '76 st',
    pattern_rows: '96 row',
    edging_rows: '0 row',
    plain_before: '0 row',
    plain_after: '0 row',
    pattern_interval: '8 row',
    motif_rows: '1',
    length_wanted: '96/7 in',
  };

  test('the printed rate comes out of the printed rows', () => {
    const printed = workOut(NB, SLEEVE_1918);
    expect(printed.number('rows_to_knit')).toBe(96);
    expect(printed.plan('new_shaping')).toBe('every 8th rnd 12 times');
    expect(printed.number('shapings')).toBe(12);
    expect(printed.number('rows_free')).toBe(0);
  });

  test('an inch longer: the same 12 shapings, seven rows free', () => {
    const longer = workOut(NB, { ...SLEEVE_1918, length_wanted: '103/7 in' });
    expect(longer.number('rows_to_change')).toBe(7);
    expect(longer.plan('new_shaping')).toBe('every 8th rnd 5 times, then every 9th rnd 7 times');
    expect(longer.number('rows_free')).toBe(7);
    expect(longer.truth('rate_can_stay')).toBe(true);
  });

  test('two inches shorter: the printed rate no longer fits, and a faster one is said', () => {
    const shorter = workOut(NB, { ...SLEEVE_1918, length_wanted: '82/7 in' });
    expect(shorter.number('rows_free')).toBe(-14);
    expect(shorter.truth('rate_can_stay')).toBe(false);
    expect(shorter.says('rate_can_stay')).toContain('every 6th rnd 2 times, then every 7th rnd 10 times');
  });

  // "Serviceable sweater", 1918: 7 rows to the inch, 120 + 8 + 48 + 6 + 2 = 184 rows, 26 in by the book.
  test('184 rows at 7 to the inch are the 26 in of the book, to about one part in a hundred', () => {
    const sweater = workOut(NB, { ...SLEEVE_1918, pattern_rows: '184 row' });
    expect(Math.abs(sweater.number('pattern_length') / 26 - 1)).toBeLessThan(0.0115);
  });

  test('flat, shaping stays on right-side rows, and an odd start is said', () => {
    const flat = workOut(NB, { worked_in_the_round: 'no', pattern_rows: '130 row' });
    const rows = flat
      .steps('new_shaping', 'sleeve')
      .filter((step) => step.do === 'increase')
      .map((step) => step.rows?.[0] ?? 0);
    expect(flat.plan('new_shaping', 'sleeve')).toContain('(RS)');
    expect((rows[0] ?? 0) % 2).toBe(1);
    expect(flat.truth('shaping_begins_on_a_right_side', 'sleeve')).toBe(true);
    const odd = workOut(NB, { worked_in_the_round: 'no', plain_before: '5 row' });
    expect(odd.truth('shaping_begins_on_a_right_side', 'sleeve')).toBe(false);
  });
});

describe('motifs', () => {
  test('the two nearest whole motifs are said, the nearer is taken', () => {
    const one = workOut(NB);
    // 94 rows wanted, 16 of edging: 78 lie between 9 and 10 motifs of 8.
    expect([one.number('shorter_rows', 'body'), one.number('longer_rows', 'body')]).toEqual([88, 96]);
    expect(one.number('rows_to_knit', 'body')).toBe(96);
    expect(one.says('rows_to_knit')).toContain('88 rows make 11¾ in, 96 rows make 12¾ in');
  });

  test('a motif too high to come near is said', () => {
    const tall = workOut(NB, { motif_rows: '60' });
    expect(tall.truth('length_is_right', 'body')).toBe(false);
    expect(tall.says('length_is_right')).toContain('change the edging by the difference');
  });
});

describe('buttonholes and yarn', () => {
  test('gaps are even in number of rows and add up to the body', () => {
    const one = workOut(NB);
    const n = (name: string) => one.number(name);
    expect(n('gap') % 2).toBe(0);
    expect(n('narrow_gaps') + n('wider_gaps')).toBe(n('buttonholes') - 1);
    const last = n('first_buttonhole') + n('narrow_gaps') * n('gap') + n('wider_gaps') * n('wider_gap');
    expect(n('last_buttonhole')).toBe(last);
    expect(n('body_rows') - last).toBeGreaterThanOrEqual(n('rows_above_last'));
    expect(n('body_rows') - last).toBeLessThan(n('rows_above_last') + 2);
  });

  test('none, one, or far too many', () => {
    expect(printedSteps(NB, {}, 'body')).toContain('Buttonholes of the body');
    expect(printedSteps(NB, {}, 'sleeve')).not.toContain('Buttonholes');
    expect(printedSteps(NB, { buttonholes: '0' }, 'body')).not.toContain('Buttonholes');
    expect(workOut(NB, { buttonholes: '1' }).number('last_buttonhole')).toBe(5);
    expect(workOut(NB, { buttonholes: '60' }).truth('buttonholes_have_room')).toBe(false);
  });

  // 13 g in 10 rows of 202 stitches is 0.0064356 g a stitch (exact arithmetic).
  test('sixteen rows fewer of 202 stitches save 20.8 g', () => {
    const one = workOut(NB);
    expect(one.number('weight_a_stitch')).toBeCloseTo((13 / 2020) * 1000, 9);
    expect(one.number('stitches_saved', 'body')).toBe(16 * 202);
    expect(one.number('yarn_saved', 'body')).toBeCloseTo((16 * 202 * 13) / 2020, 6);
    expect(one.number('yarn_saved', 'sleeve')).toBeLessThan(0);
    expect(one.number('yarn_saved_in_all')).toBeCloseTo(
      one.number('yarn_saved', 'body') + one.number('yarn_saved', 'sleeve'),
      9,
    );
  });

  test('nothing in hand and more to knit is said', () => {
    const short = workOut(NB, { yarn_in_hand: '0 g', length_wanted: '20 in' });
    expect(short.truth('yarn_will_do')).toBe(false);
    expect(workOut(NB, { yarn_in_hand: '' }).waiting('yarn_will_do')).toBe('yarn_in_hand');
  });
});

describe('laws', () => {
  test('any length and rows: the shapings stay, the rows add up, whole motifs come nearest', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 120 }),
        fc.integer({ min: 8, max: 240 }),
        fc.integer({ min: 1, max: 30 }),
        fc.boolean(),
        (rows, quarters, motif, round) => {
          const one = workOut(NB, {
            row_gauge: `${rows / 2} row / 4 in`,
            length_wanted: `${quarters / 4} in`,
            motif_rows: `${motif}`,
            worked_in_the_round: round ? 'yes' : 'no',
          });
          checkSettled(one);
          const n = (name: string) => one.number(name, 'sleeve');
          expect((n('rows_to_knit') - 16) % motif).toBe(0);
          const wanted = n('rows_wanted');
          if (wanted >= 16) expect(Math.abs(n('rows_to_knit') - wanted)).toBeLessThanOrEqual(motif / 2);
          const plan = one.item('new_shaping', 'sleeve');
          if (typeof plan === 'object' && 'plan' in plan) {
            expect(n('shapings')).toBe(14);
            const last = one.steps('new_shaping', 'sleeve').at(-1)?.rows?.[1];
            expect(last).toBe(n('shaping_rows'));
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  test.each([
    ['no gauge', { row_gauge: '0 row / 4 in' }],
    ['a row to 40 in', { row_gauge: '1 row / 40 in' }],
    ['no length', { length_wanted: '0 in' }],
    ['a length below nothing', { length_wanted: '-5 in' }],
    ['shorter than its edging', { length_wanted: '1 in' }],
    ['a motif of nothing', { motif_rows: '0' }],
    ['a ball that grew', { ball_after: '80 g' }],
    ['nothing weighed', { weighed_rows: '0 row', weighed_stitches: '0 st' }],
    ['nothing typed yet', { row_gauge: '', length_wanted: '', pattern_rows: '' }],
    ['no rate known', { pattern_interval: '' }],
    ['no rows before washing', { row_gauge_on_needles: '' }],
    ['half a buttonhole', { buttonholes: '2.5' }],
    ['a coat for a giant', { length_wanted: '120 in', row_gauge: '60 row / 4 in' }],
  ] as const)('%s: a sentence or waiting, never nonsense', (_, sets) => {
    checkSettled(workOut(NB, sets));
  });
});
