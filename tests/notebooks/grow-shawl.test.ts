// Shawls that grow: the circle by doubling, a half circle worked by hand, triangles and the yarn they use, a crescent,
// and the last row from which the finish can still be knitted, on shawls drawn at random.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import {
  checkSettled,
  openNotebook,
  type Sets,
  TEST_DAY,
  type WorkedNotebook,
  withSets,
  workOut,
} from '../support/notebook.ts';
import { patience } from '../support/runs.ts';

const shawl = (sets: Sets = {}): WorkedNotebook => workOut('grow-shawl', sets);
const bandsOf = (worked: WorkedNotebook, cell: string) => worked.each(cell).slice(1, 6);

// Source: exact arithmetic by hand, common practice in method: 5 and 3 edge stitches each side, 0.006 g a stitch,
// 80 g in all, an edging of 10 rows at 0.9 g a repeat.
const BY_HAND: Sets = {
  cast_on: '5 st',
  edge_stitches: '3 st',
  planned_rows: '94 row',
  swatch_grams: '0.006 g / st',
  yarn_in_all: '80 g',
  edging_rows: '10 row',
  grams_a_repeat: '0.9 g',
};
const byHand = (sets: Sets = {}) => shawl({ ...BY_HAND, ...sets });

describe('a half circle worked flat, by hand', () => {
  test('its bands: counts, rows and stitches worked', () => {
    const worked = byHand();
    expect(bandsOf(worked, 'doubling_in_row')).toEqual([1, 5, 11, 23, 47]);
    expect(bandsOf(worked, 'band_stitches')).toEqual([16, 26, 46, 86, 166]);
    expect(bandsOf(worked, 'rows_to_band_end')).toEqual([4, 10, 22, 46, 94]);
    expect(bandsOf(worked, 'worked_to_band_end')).toEqual([64, 220, 772, 2836, 10804]);
    expect(worked.noes()).not.toContain('doubling_on_right_side');
  });

  test('half the yarn is gone in row 62', () => {
    expect(byHand().number('half_gone_row')).toBe(62);
    expect(byHand({ at_row: '61 row' }).number('gone_so_far')).toBeCloseTo(49.3, 2);
    expect(byHand({ at_row: '62 row' }).number('gone_so_far')).toBeCloseTo(50.83, 2);
  });

  test('80 g stop it on row 78, with 33 repeats of the edging', () => {
    const worked = byHand();
    expect(worked.number('budget_in_band', '5th doubling')).toBe(8383);
    expect(worked.number('last_row_by_yarn')).toBe(79);
    expect(worked.number('stop_row')).toBe(78);
    expect(worked.number('stitches_at_stop')).toBe(166);
    expect(worked.number('worked_at_stop')).toBe(8148);
    expect(worked.number('grams_for_body')).toBeCloseTo(48.888, 3);
    expect(worked.number('grams_for_finish')).toBeCloseTo(29.7, 10);
    expect(worked.number('grams_for_all')).toBeCloseTo(78.588, 3);
    expect(worked.plan('edging')).toMatch(/^33 repeats, 330 rows: take 2 at join/);
  });

  test('plain rows of a circle double on wrong-side rows 12 and 50', () => {
    const worked = byHand({ plain_rows_flat: '0 (3, 6, 12, 24, 48, 96) row' });
    const wrong = worked.columns.filter((band) => !worked.truth('doubling_on_right_side', band));
    expect(wrong.map((band) => worked.number('doubling_in_row', band))).toEqual([12, 50]);
    expect(worked.says('doubling_on_right_side')).toContain('odd number of plain rows');
  });

  test('weighing a row later gives the weight of a stitch', () => {
    // 4,828 stitches after row 58: 30 g gone are 6.21 g to a thousand.
    const worked = byHand({ at_row: '58 row', weight_left_now: '50 g' });
    expect(worked.number('worked_so_far')).toBe(4828);
    expect(worked.number('grams_a_stitch')).toBeCloseTo((30 / 4828) * 1000, 8);
    expect(worked.number('stop_row')).toBeLessThan(78);
  });
});

describe('the circle by doubling', () => {
  // Source: E. Zimmermann, Knitter's Almanac, 1974 (counts and rounds); stitches worked by arithmetic.
  const circle = (sets: Sets = {}) =>
    shawl({ shape_is: '"circle"', cast_on: '9 st', planned_rows: '196 rnd', yarn_in_all: '2000 g', ...sets });

  test('9 to 576, round by round', () => {
    const worked = circle();
    expect(worked.each('band_stitches')).toEqual([9, 18, 36, 72, 144, 288, 576]);
    expect(worked.each('rows_to_band_end')).toEqual([1, 5, 12, 25, 50, 99, 196]);
    expect(worked.each('worked_to_band_end')).toEqual([9, 81, 333, 1269, 4869, 18981, 74853]);
    expect(worked.number('share_of_band', '6th doubling')).toBeCloseTo(74.6, 1);
  });

  test('an edging on 576 is 1,152 rows', () => {
    expect(circle().number('edging_rows_to_knit')).toBe(1152);
  });

  test('round 25 has 72 stitches where a flat circle has 157', () => {
    const square = { stitch_gauge: '24 st / 10 cm', row_gauge: '24 row / 10 cm', at_row: '25 rnd' };
    const worked = circle(square);
    expect(worked.number('stitches_now')).toBe(72);
    expect(worked.number('stitches_to_lie_flat')).toBeCloseTo(157.08, 2);
    expect(worked.number('band_must_stretch')).toBeCloseTo(2.18, 2);
    expect(worked.label('band_in_hand')).toBe('3rd doubling');
  });
});

test('the spine of a triangle is aslant to its rows', () => {
  // Source: common practice, by Pythagoras: 94 rows are 36.15 cm, and 47 stitches beside the middle 26.11 cm.
  const worked = shawl({ shape_is: '"triangle"', cast_on: '3 st' });
  expect(worked.number('stop_row')).toBe(94);
  expect(worked.number('spine')).toBeCloseTo(Math.hypot(94 / 2.6, 47 / 1.8), 10);
  expect(worked.number('spine')).toBeCloseTo(44.6, 1);
  // With as many stitches as rows to the centimetre: 94 rows and 47 stitches, √1.25 times as long.
  const even = shawl({ shape_is: '"triangle"', cast_on: '3 st', stitch_gauge: '26 st / 10 cm' });
  expect(even.number('spine') / even.number('radius')).toBeCloseTo(Math.sqrt(1.25), 10);
});

describe('triangles', () => {
  // Source: H. Chayes, Shawl Geometry, 2013 (counts); shares by arithmetic.
  const triangle = (sets: Sets = {}) =>
    shawl({
      shape_is: '"triangle"',
      cast_on: '3 st',
      edge_stitches: '2 st',
      planned_rows: '100 row',
      ...sets,
    });

  test('from 7: 11 after row 1, 207 after row 100; from 5: 9 and 205', () => {
    const counts = (sets: Sets) =>
      ['1 row', '100 row'].map((row) => triangle({ ...sets, at_row: row }).number('stitches_now'));
    expect(counts({})).toEqual([11, 207]);
    expect(counts({ cast_on: '1 st' })).toEqual([9, 205]);
  });

  test('the yarn gone after each row mark', () => {
    const shares = triangle()
      .each('gone_at_mark')
      .map((share) => Math.round(share * 100) / 100);
    expect(shares).toEqual([5.32, 17.98, 27.06, 37.98, 50.73, 65.32, 81.74]);
    const five = triangle({ cast_on: '1 st' });
    expect(five.number('gone_at_mark', '4th doubling')).toBeCloseTo(50.37, 2);
  });

  test('half is gone at seven tenths of the rows, and the last tenth takes about 18 per cent', () => {
    expect(triangle().number('half_gone_row')).toBe(70);
    const long = triangle({ planned_rows: '1000 row' });
    expect(long.number('half_gone_row') / 1000).toBeCloseTo(Math.SQRT1_2, 2);
    const last = 100 - triangle({ at_row: '90 row' }).number('gone_so_far');
    expect(last).toBeCloseTo(18.26, 2);
  });

  test('its plan increases on right-side rows and ends on the same count', () => {
    expect(triangle().plan('triangle')).toBe(
      'increase on row 1 (RS), then every 2nd row 49 times, then 1 row plain',
    );
  });
});

test('a crescent of 135 stitches and 20 in goes 1.125 stitches further at each turn', () => {
  // Source: knitting.today: 135 stitches, 6 rows to the inch, 20 in.
  const worked = shawl({
    shape_is: '"crescent"',
    crescent_stitches: '135 st',
    crescent_depth: '20 in',
    row_gauge: '6 row / 1 in',
  });
  expect(worked.number('crescent_rows')).toBe(120);
  expect(worked.number('crescent_rate')).toBeCloseTo(1.125, 10);
  expect(worked.number('further_each_turn')).toBe(1);
  expect(worked.number('turns_of_one_more')).toBe(15);
});

// Source: common practice: in short rows the stitches that are not reached wait on the needle, and what finishes the lower
// edge takes every one of them. 140 stitches over 48 cm at 26 rows are 124 rows, 140 ÷ 124 = 1.129 further at each turn.
describe('a crescent keeps all its stitches on the needle', () => {
  const crescent = (sets: Sets = {}) => shawl({ shape_is: '"crescent"', ...sets });

  test('stopped at row 94 it has reached 106 of 140, and the edging takes 140', () => {
    const worked = crescent();
    expect(worked.number('crescent_rows')).toBe(124);
    expect(worked.number('stop_row')).toBe(94);
    // 94 × 1.129 = 106.1: 94 × 1 and one more on 12 of them.
    expect(worked.number('crescent_reached')).toBe(106);
    expect(worked.number('one_more_to_the_stop')).toBe(12);
    expect(worked.number('stitches_at_stop')).toBe(140);
    expect(worked.number('stitches_now')).toBe(140);
    // 140 = 23 × 6 + 2: 23 repeats of 12 rows, two joins that take 2.
    expect(worked.plan('edging')).toMatch(/^23 repeats, 276 rows: .*136 \+ 2 × 2 = 140 sts/);
    expect(worked.number('grams_for_finish')).toBeCloseTo(25.3, 10);
  });

  test('60 g stop it on row 108, for the edging wants 25.3 g at every row', () => {
    const worked = crescent({ planned_rows: '200 row', yarn_in_all: '60 g' });
    // 1.129 × 108 × 109 ÷ 2 = 6,645.5 stitches at 0.0052 g are 34.55 g; two rows more are 6,892.7, 35.84 g: 61.14 g in all.
    expect(worked.number('stop_row')).toBe(108);
    expect(worked.number('grams_for_body')).toBeCloseTo(34.554, 3);
    expect(worked.number('grams_for_all')).toBeCloseTo(59.854, 3);
    expect(worked.truth('yarn_is_enough')).toBe(true);
    // Of the 200 rows planned it has 124.
    expect(worked.says('reaches_what_was_planned')).toBe('the yarn ends it after 108 rows, not 124 rows');
    expect(worked.number('worked_when_done')).toBe(8750);
  });

  test('with yarn for all of it the short rows reach both ends', () => {
    const worked = crescent({ planned_rows: '200 row' });
    expect(worked.number('stop_row')).toBe(124);
    expect(worked.number('crescent_reached')).toBe(140);
    expect(worked.truth('crescent_reaches_the_ends')).toBe(true);
    expect(worked.truth('reaches_what_was_planned')).toBe(true);
    // 16 turns of one more in all: 124 + 16 = 140.
    expect(worked.number('one_more_to_the_stop')).toBe(16);
  });

  test('whatever the yarn: where it stops there is enough, two rows later there is not', () => {
    const any = fc.record({
      stitches: fc.integer({ min: 20, max: 400 }),
      rows: fc.integer({ min: 10, max: 120 }).map((pairs) => 2 * pairs),
      yarn: fc.integer({ min: 5, max: 150 }),
      bound: fc.boolean(),
    });
    fc.assert(
      fc.property(any, ({ stitches, rows, yarn, bound }) => {
        const worked = crescent({
          crescent_stitches: `${stitches} st`,
          row_gauge: '10 row / 10 cm',
          crescent_depth: `${rows} cm`,
          planned_rows: '300 row',
          yarn_in_all: `${yarn} g`,
          finish: bound ? '"bind off"' : '"edging"',
        });
        checkSettled(worked);
        // Row by row: the nth short row spans n times the stitches a turn; then the finish on all of them.
        const finish = bound ? 3 * stitches * 0.0052 : 1.1 * Math.ceil(stitches / 6 - 0.5);
        const weighs = (stop: number) => {
          let body = 0;
          for (let row = 1; row <= stop; row += 1) body += (row * stitches) / rows;
          return body * 0.0052 + finish;
        };
        const stop = worked.number('stop_row');
        expect(stop % 2).toBe(0);
        expect(stop).toBeLessThanOrEqual(rows);
        expect(worked.number('stitches_at_stop')).toBe(stitches);
        const reached = worked.number('crescent_reached');
        expect(worked.number('further_each_turn') * stop + worked.number('one_more_to_the_stop')).toBe(
          reached,
        );
        if (stop === 0) return;
        expect(worked.truth('yarn_is_enough')).toBe(true);
        // Stitches are whole: half of one more or less.
        expect(weighs(stop)).toBeLessThanOrEqual(yarn + 0.0052);
        if (stop < rows) expect(weighs(stop + 2)).toBeGreaterThan(yarn - 0.0052);
      }),
      { numRuns: 60 },
    );
  });
});

/** What a body of so many rows and its finish weigh, worked row by row. */
function weighed(shape: string, sets: { readonly [name: string]: number }, rows: number): number {
  const { caston = 0, edge = 0, stitch = 0, repeat = 0, joins = 1 } = sets;
  const edges = shape === 'circle' ? 0 : 2 * edge;
  const plains = shape === 'circle' ? [1, 3, 6, 12, 24, 48, 96] : [0, 3, 5, 11, 23, 47, 95];
  const counts: number[] = [];
  if (shape === 'triangle')
    for (let row = 1; row <= rows; row += 1) counts.push(caston + edges + 4 * Math.ceil(row / 2));
  else
    plains.forEach((plain, b) => {
      for (let k = 0; k < plain + (b > 0 ? 1 : 0); k += 1) counts.push(caston * 2 ** b + edges);
    });
  const worked = counts.slice(0, rows).reduce((sum, count) => sum + count, 0);
  const last = counts[rows - 1] ?? caston + edges;
  return worked * stitch + repeat * Math.ceil(last / joins - 0.5);
}

test(
  'any shawl: where it stops the yarn is enough, and a little later it is not',
  () => {
    const any = fc.record({
      shape: fc.constantFrom('triangle', 'half circle', 'circle'),
      caston: fc.integer({ min: 1, max: 15 }),
      edge: fc.integer({ min: 0, max: 4 }),
      stitch: fc.integer({ min: 2, max: 15 }).map((mg) => mg / 1000),
      repeat: fc.integer({ min: 2, max: 20 }).map((g) => g / 10),
      joins: fc.integer({ min: 2, max: 10 }),
      yarn: fc.integer({ min: 5, max: 250 }),
      now: fc.integer({ min: 1, max: 180 }),
    });
    fc.assert(
      fc.property(any, ({ shape, yarn, now, ...numbers }) => {
        const worked = shawl({
          shape_is: `"${shape}"`,
          cast_on: `${numbers.caston} st`,
          edge_stitches: `${numbers.edge} st`,
          swatch_grams: `${numbers.stitch} g / st`,
          grams_a_repeat: `${numbers.repeat} g`,
          edging_rows: `${2 * numbers.joins} row`,
          yarn_in_all: `${yarn} g`,
          planned_rows: '180 row',
          at_row: `${now} row`,
        });
        checkSettled(worked);
        const stop = worked.number('stop_row');
        const plain = (rows: number) => weighed(shape, numbers, rows);
        expect(worked.number('worked_so_far') * numbers.stitch).toBeCloseTo(
          weighed(shape, { ...numbers, repeat: 0 }, now),
          6,
        );
        if (stop > 0) {
          expect(worked.number('grams_for_all')).toBeCloseTo(plain(stop), 6);
          expect(plain(stop)).toBeLessThanOrEqual(yarn + 1e-6);
          expect(worked.truth('yarn_is_enough')).toBe(true);
        }
        if (shape !== 'circle') expect(stop % 2).toBe(0);
        // A triangle keeps half a repeat back, so it may stop a little early.
        const later = shape === 'circle' ? stop + 1 : stop + 2;
        const kept = shape === 'triangle' ? numbers.repeat * 1.5 : 0;
        if (later <= 180) expect(plain(later) + kept).toBeGreaterThan(yarn - 1e-6);
      }),
      { numRuns: 120 },
    );
  },
  patience,
);

test('a bind-off instead of an edging keeps its own yarn back', () => {
  const worked = byHand({ finish: '"bind off"' });
  expect(worked.number('grams_for_finish')).toBeCloseTo(3 * 166 * 0.006, 8);
  expect(worked.number('stop_row')).toBe(94);
  const crescent = shawl({ shape_is: '"crescent"', yarn_in_all: '30 g', finish: '"bind off"' });
  expect(crescent.number('grams_for_all')).toBeLessThanOrEqual(30);
  expect(crescent.number('stop_row')).toBeGreaterThan(50);
});

describe('what cannot be knit gets a sentence', () => {
  const slips: readonly (readonly [what: string, sets: Sets, cell: string, says: RegExp])[] = [
    ['no yarn', { yarn_in_all: '0 g' }, 'yarn_is_enough', /bind off instead/],
    ['yarn that weighs nothing', { swatch_grams: '0 g / 1000 st' }, 'budget_in_band', /divides by nothing/],
    [
      'weighed before the first row',
      { weight_left_now: '50 g', at_row: '0 row' },
      'grams_a_stitch',
      /divides by nothing/,
    ],
    ['past the stop', { at_row: '90 row' }, 'may_go_on', /begin the finish now/],
    ['an edging of no rows', { edging_rows: '0 row' }, 'finish_from_band', /divides by nothing/],
    [
      'one stitch and no yarn',
      { cast_on: '1 st', edge_stitches: '0 st', yarn_in_all: '0 g' },
      'edging',
      /One live stitch/,
    ],
  ];
  test.each(slips)('%s', (_, sets, cell, says) => {
    const worked = shawl(sets);
    expect(worked.says(cell)).toMatch(says);
    checkSettled(worked);
  });
});

// Source: E. Zimmermann, Knitter’s Almanac, 1974, for the circle; the half circle by hand, as above.
describe('the steps tell every doubling from the cast-on on, and stop where the yarn does', () => {
  const told = (sets: Sets = {}) => {
    const session = createSession({
      notebook: withSets(openNotebook('grow-shawl'), sets),
      today: TEST_DAY,
      random: () => 0.5,
    });
    const steps = session.steps().steps.filter(({ applies }) => applies);
    const step = steps.find(({ text }) => /^(Double|Increase)/.test(text));
    return { texts: steps.map(({ text }) => text), lines: step?.lines ?? [] };
  };

  test('a half circle: rows 1, 5, 11, 23 and 47, and no row past the last', () => {
    const { texts, lines } = told();
    expect(lines.map(({ label, after }) => `${label}: ${after}`)).toEqual([
      'Row 1: 20 sts',
      'Rows 2–4: 20 sts',
      'Row 5: 34 sts',
      'Rows 6–10: 34 sts',
      'Row 11: 62 sts',
      'Rows 12–22: 62 sts',
      'Row 23: 118 sts',
      'Rows 24–46: 118 sts',
      'Row 47: 230 sts',
      'Rows 48–76: 230 sts',
    ]);
    expect(lines[4]?.text).toBe('increase 28 sts, every stitch between the edges twice');
    expect(texts).toContain('Stop after 76 rows with 230 sts.');
    expect(texts.join(' ')).not.toMatch(/\b(94|95) rows?/);
  });

  test('a circle, in rounds', () => {
    const { lines } = told({
      shape_is: '"circle"',
      cast_on: '9 st',
      planned_rows: '30 rnd',
      yarn_in_all: '500 g',
    });
    expect(lines.map(({ label, after }) => `${label}: ${after}`)).toEqual([
      'Rnd 1: 9 sts',
      'Rnd 2: 18 sts',
      'Rnds 3–5: 18 sts',
      'Rnd 6: 36 sts',
      'Rnds 7–12: 36 sts',
      'Rnd 13: 72 sts',
      'Rnds 14–25: 72 sts',
      'Rnd 26: 144 sts',
      'Rnds 27–30: 144 sts',
    ]);
  });

  test('whatever the yarn, the plan ends with the row and the count to stop at', () => {
    fc.assert(
      fc.property(fc.integer({ min: 8, max: 200 }), fc.integer({ min: 3, max: 15 }), (grams, from) => {
        const worked = shawl({ yarn_in_all: `${grams} g`, cast_on: `${from} st`, planned_rows: '180 row' });
        const stop = worked.number('stop_row');
        if (stop > 0)
          expect(worked.plan('all_doublings')).toContain(
            `${worked.number('stitches_at_stop')} sts after row ${stop}`,
          );
      }),
      { numRuns: 40 },
    );
  });

  test('a triangle ends where the yarn does: row 118 with 245 stitches, and 118 rows are told', () => {
    // By hand: 3 + 6 edge stitches; 29 pairs are 4,260 stitches after row 60, 22 g of 85: 5.164 g to a thousand. 59 pairs are
    // 15,222 stitches, 78.6 g, and three rows’ worth of 245 to bind off 3.8 g; 60 pairs would be 15,720, 81.2 and 3.9 g.
    const sets = {
      shape_is: '"triangle"',
      cast_on: '3 st',
      planned_rows: '140 row',
      at_row: '60 row',
      yarn_in_all: '85 g',
      weight_left_now: '63 g',
      finish: '"bind off"',
    };
    const { texts, lines } = told(sets);
    expect(lines.map(({ label, after }) => `${label}: ${after}`)).toEqual([
      'Row 1 (RS): 13 sts',
      'Rows 2–117: 245 sts',
      'Row 118: 245 sts',
    ]);
    expect(texts).toContain('Stop after 118 rows with 245 sts.');
    expect(texts).toContain('Bind off the 245 sts very loosely.');
    expect(texts.join(' ')).not.toMatch(/\b140\b/);
  });

  test('whatever the yarn, a triangle’s plan ends with the row and the count to stop at', () => {
    fc.assert(
      fc.property(fc.integer({ min: 8, max: 200 }), fc.integer({ min: 1, max: 15 }), (grams, from) => {
        const worked = shawl({
          shape_is: '"triangle"',
          yarn_in_all: `${grams} g`,
          cast_on: `${from} st`,
          planned_rows: '181 row',
        });
        const stop = worked.number('stop_row');
        if (stop < 4) return;
        const again = stop / 2 - 1;
        expect(worked.plan('triangle')).toBe(
          `increase on row 1 (RS), then every 2nd row ${again === 1 ? 'once' : `${again} times`}, then 1 row plain`,
        );
        expect(worked.number('stitches_at_stop')).toBe(from + 6 + 2 * stop);
      }),
      { numRuns: 40 },
    );
  });

  test('a crescent is cast on whole, goes to its stop, and is finished on all its stitches', () => {
    const whole = told({ shape_is: '"crescent"', planned_rows: '200 row' }).texts;
    expect(whole.slice(0, 3)).toEqual([
      'Cast on 140 sts.',
      'Work short rows, 124 rows: they begin in the middle, and each goes 1 st further than the last, and one more on 16 of them, evenly (140 sts on the needle all the while).',
      'Stop after 124 rows: the short rows have reached both ends, and the finish takes all 140 sts.',
    ]);
    const short = told({ shape_is: '"crescent"' }).texts;
    expect(short[1]).toContain('short rows, 94 rows');
    expect(short[2]).toBe(
      'Stop after 94 rows and cut the yarn: the last short row spans 106 sts, the others wait at both ends. The finish begins at the right-hand end and takes all 140 sts.',
    );
    expect(short[3]).toContain('Edging, 276 rows');
    expect(short).toHaveLength(4);
  });

  test('only half circle and circle are told by bands', () => {
    const chosen = (sets: Sets) => shawl(sets).chosen;
    expect(chosen({})).toBe('5th doubling');
    expect(chosen({ shape_is: '"triangle"' })).toBeUndefined();
    expect(chosen({ shape_is: '"crescent"' })).toBeUndefined();
  });

  test('a triangle doubles nothing', () => {
    expect(told({ shape_is: '"triangle"' }).texts.join(' ')).not.toContain('Double');
  });
});
