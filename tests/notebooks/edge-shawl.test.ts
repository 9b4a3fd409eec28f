// The edging notebook against printed edgings, a shawl worked by hand with its rescues, and edges drawn at random.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkSettled, type Sets, type WorkedNotebook, workOut } from '../support/notebook.ts';
import { printedSteps } from '../support/printed-steps.ts';
import { patience } from '../support/runs.ts';

const shawl = (sets: Sets = {}): WorkedNotebook => workOut('edge-shawl', sets);

/** Joins at which a plan takes two or none, counted from its beginning. */
function mendsOf(worked: WorkedNotebook, plan: string): readonly number[] {
  return worked
    .steps(plan)
    .filter((step) => step.do !== 'join')
    .map((step) => ((step.rows?.[1] ?? 0) - (worked.steps(plan)[0]?.rows?.[0] ?? 1) + 1) / 2);
}

describe('printed edgings', () => {
  // Sources: a 14-row wave edging after B. Walker, A Second Treasury of Knitting Patterns; Th. de Dillmont,
  // Encyclopedia of Needlework, c. 1886, figures 394 to 397 (rows); a 12-row edging of a sampler shawl.
  const printed: readonly (readonly [live: number, rows: number, repeats: number, knit: number])[] = [
    [210, 14, 30, 420],
    [576, 12, 96, 1152],
    [960, 12, 160, 1920],
    [48, 4, 24, 96],
    [48, 8, 12, 96],
    [100, 10, 20, 200],
    [96, 16, 12, 192],
  ];
  test.each(printed)('%i live, %i rows a repeat: %i repeats', (live, rows, repeats, knit) => {
    const worked = shawl({ live_stitches: `${live} st`, edging_rows: `${rows} row` });
    expect(worked.number('repeats')).toBe(repeats);
    expect(worked.number('left_over')).toBe(0);
    expect(worked.number('rows_to_knit')).toBe(knit);
    expect(worked.truth('comes_out')).toBe(true);
  });

  test('212 live with 14 rows: 2 over, 4 plain rows, or 210 or 217', () => {
    // Source: the same wave edging; 4 plain garter rows use 2 stitches.
    const worked = shawl({ live_stitches: '212 st', edging_rows: '14 row' });
    expect(worked.number('repeats')).toBe(30);
    expect(worked.number('left_over')).toBe(2);
    expect(worked.number('filler_rows')).toBe(4);
    expect(worked.number('double_joins')).toBe(2);
    expect([worked.number('fewer_live'), worked.number('more_live')]).toEqual([210, 217]);
  });

  test('a rectangle of 300 and 180: 50 and 30 repeats, 160 all round', () => {
    // Source: a sampler shawl with a 12-row edging.
    const worked = shawl({ long_side: '300 st', short_side: '180 st', extra_joins_a_corner: '0' });
    expect(worked.number('repeats_on_long_side')).toBe(50);
    expect(worked.number('repeats_on_short_side')).toBe(30);
    expect(worked.number('repeats_all_round')).toBe(160);
    expect(worked.number('rows_all_round')).toBe(1920);
  });

  test('two stitches adrift before a corner are taken up there', () => {
    // Source: knittheknits, blog, 2006: joined twice into one stitch. 358 joins for 356 stitches are two extra.
    const worked = shawl({ live_stitches: '358 st', corners: '1', extra_joins_a_corner: '2' });
    expect(worked.number('repeats')).toBe(60);
    expect(worked.number('left_over')).toBe(0);
  });
});

/** 408 live stitches, 10 rows a repeat and 4 extra joins a corner. */
const RECTANGLE: Sets = {
  live_stitches: '408 st',
  edging_rows: '10 row',
  long_side: '121 st',
  short_side: '83 st',
};

// Source: common practice, by hand: 121 + 4 joins are 25 repeats of 5; 83 + 4 are 87, so 17 repeats and 2 over.
describe('a rectangle whose sides are given', () => {
  test('has one number of repeats, rows and grams, by its sides', () => {
    const worked = shawl(RECTANGLE);
    expect(worked.truth('sides_add_up')).toBe(true);
    expect([worked.number('repeats'), worked.number('repeats_all_round')]).toEqual([84, 84]);
    expect([worked.number('rows_to_knit'), worked.number('rows_all_round')]).toEqual([840, 840]);
    expect([worked.number('left_over'), worked.number('double_joins'), worked.number('idle_joins')]).toEqual([
      4, 4, 0,
    ]);
    // 121 stay, and 83 become 81 or 86.
    expect([worked.number('fewer_live'), worked.number('more_live')]).toEqual([404, 414]);
    expect(worked.number('grams_for_all')).toBeCloseTo(84 * 1.9 * 1.05, 10);
    expect(worked.number('repeats_to_go')).toBe(84);
  });

  test('is told side by side, and in no other way', () => {
    const told = printedSteps('edge-shawl', { ...RECTANGLE, corners: '4', closed: 'yes' });
    expect(told.match(/(The \w+ side|The edging|Before|Stop one row)/g)).toEqual([
      'The first side',
      'The second side',
      'The third side',
      'The fourth side',
      'Stop one row',
    ]);
    const worked = shawl(RECTANGLE);
    expect(worked.plan('long_side_edging')).toContain('25 repeats, 250 rows: 1 live st at every join');
    expect(worked.plan('short_side_edging')).toMatch(/^17 repeats, 170 rows: take 2 at joins 22 .* and 64 /);
    expect(worked.plan('edging_now')).toBe(worked.plan('long_side_edging'));
  });

  test('that do not make the edge say so before it is begun', () => {
    const worked = shawl({ ...RECTANGLE, short_side: '84 st' });
    expect(worked.says('sides_add_up')).toContain('make 410 sts, and the edge has 408 sts');
    expect(printedSteps('edge-shawl', { ...RECTANGLE, short_side: '84 st' })).toMatch(/^0\. .*make 410 sts/);
    expect(printedSteps('edge-shawl')).not.toContain('long side');
  });

  test('goes on from the side in hand', () => {
    // Second side, after 25 of its joins, one of which took 2: 83 − 26 are left, and 12 + 25 + 17 repeats.
    const second = { ...RECTANGLE, sides_done: '1', repeats_done: '5' };
    const worked = shawl(second);
    expect(worked.number('planned_live_left')).toBe(57);
    expect(worked.number('repeats_to_go')).toBe(54);
    const astray = shawl({ ...second, live_left: '59 st' });
    // 59 and 4 of its corner are 63 joins: 13 repeats, 2 joins that take none.
    expect([astray.number('rescue_rows'), astray.number('rescue_takes_none')]).toEqual([130, 2]);
    expect(shawl({ ...RECTANGLE, sides_done: '3' }).number('repeats_to_go')).toBe(17);
  });
});

// Source: exact arithmetic by hand, common practice in method.
const BY_HAND: Sets = {
  live_stitches: '347 st',
  edging_rows: '10 row',
  repeats_done: '59',
  live_left: '52 st',
};
const byHand = (sets: Sets = {}) => shawl({ ...BY_HAND, ...sets });

describe('347 live stitches and 5 joins a repeat, by hand', () => {
  test('69 repeats, 2 over, taken at joins 87 and 259', () => {
    const worked = byHand();
    expect(worked.number('joins_per_repeat')).toBe(5);
    expect(worked.number('repeats')).toBe(69);
    expect(worked.number('rows_to_knit')).toBe(690);
    expect(worked.number('left_over')).toBe(2);
    expect([worked.number('double_joins'), worked.number('idle_joins')]).toEqual([2, 0]);
    expect(mendsOf(worked, 'edging')).toEqual([87, 259]);
    expect(worked.plan('edging')).toContain(
      'take 2 at joins 87 (repeat 18, join 2) and 259 (repeat 52, join 4)',
    );
    expect(worked.plan('edging')).toContain('343 + 2 × 2 = 347');
  });

  test('clean at 345 or 350', () => {
    const worked = byHand();
    expect([worked.number('fewer_live'), worked.number('lose')]).toEqual([345, 2]);
    expect([worked.number('more_live'), worked.number('gain')]).toEqual([350, 3]);
    expect(worked.plan('lose_evenly')).toContain('345 sts');
    expect(worked.plan('gain_evenly')).toContain('350 sts');
  });

  test('70 repeats when they are wanted: 3 joins take none', () => {
    const worked = byHand({ repeats_wanted: '70' });
    expect(mendsOf(worked, 'edging')).toEqual([59, 176, 292]);
    expect([worked.number('double_joins'), worked.number('idle_joins')]).toEqual([0, 3]);
  });

  test('after 59 repeats 50 should be left, and 52 when both mends were forgotten', () => {
    const worked = byHand();
    expect(worked.number('planned_live_left')).toBe(50);
    expect(worked.truth('on_plan')).toBe(false);
    expect(worked.says('on_plan')).toContain('52 sts left and the plan has 50 sts');
    expect(byHand({ live_left: '50 st' }).truth('on_plan')).toBe(true);
  });

  const rescues: readonly (readonly [Sets, rows: number, two: readonly number[], none: readonly number[]])[] =
    [
      [{}, 100, [13, 38], []],
      [{ repeats_to_go_wanted: '11' }, 110, [], [10, 28, 46]],
      [{ joins_done_in_this_repeat: '1' }, 108, [], [14, 41]],
      [{ joins_done_in_this_repeat: '2' }, 106, [], [27]],
      [{ joins_done_in_this_repeat: '3' }, 104, [], []],
      [{ joins_done_in_this_repeat: '4' }, 102, [26], []],
    ];
  test.each(rescues)('rescue of 52 with %j', (sets, rows, two, none) => {
    const worked = byHand(sets);
    expect(worked.number('rescue_rows')).toBe(rows);
    expect(worked.number('rescue_takes_two')).toBe(two.length);
    expect(worked.number('rescue_takes_none')).toBe(none.length);
    expect(mendsOf(worked, 'rescue')).toEqual([...two, ...none]);
    expect(worked.says('rescue')).not.toContain('last row of the body');
  });
});

describe('whether it lies flat', () => {
  // Source: common practice, by arithmetic: 20 stitches want 40 rows.
  const fullness = (stitches: number, rows: number) =>
    shawl({ edge_stitch_gauge: `${stitches} st / 10 cm`, edging_row_gauge: `${rows} row / 10 cm` });

  test('20 stitches on 40 garter rows are exact', () => {
    expect(fullness(20, 40).number('fullness')).toBeCloseTo(0, 10);
    expect(fullness(20, 40).truth('edging_lies_flat')).toBe(true);
  });

  test('on 28 rows it ruffles: 14.3 cm for 10', () => {
    const worked = fullness(20, 28);
    expect(worked.number('edging_for_ten_cm')).toBeCloseTo(14.2857, 4);
    expect(worked.truth('edging_lies_flat')).toBe(false);
    expect(worked.says('edging_lies_flat')).toContain('ruffle');
  });

  test('below nothing it never blocks out', () => {
    const worked = fullness(20, 44);
    expect(worked.truth('edging_is_long_enough')).toBe(false);
    expect(worked.says('edging_is_long_enough')).toContain('never blocks out');
  });
});

describe('other edges', () => {
  // Source: common practice: one a stitch, one a loop or ridge of two rows, three for four rows.
  const edges: readonly (readonly [edge: string, sets: Sets, places: number])[] = [
    ['bound off', { bound_off_stitches: '240 st' }, 240],
    ['slipped', { rows_along_edge: '240 row' }, 120],
    ['garter', { rows_along_edge: '240 row' }, 120],
    ['plain', { rows_along_edge: '240 row' }, 180],
  ];
  test.each(edges)('%s', (edge, sets, places) => {
    const worked = shawl({ ...sets, edge_is: `"${edge}"`, body_row_gauge: '40 row / 10 cm' });
    expect(worked.number('edge_stitches')).toBe(places);
    expect(worked.faults()).toEqual([]);
    expect(Number.isFinite(worked.number('fullness'))).toBe(true);
  });

  test('a closed edging stops one row early, for the graft', () => {
    expect(shawl({ closed: 'yes' }).number('rows_before_grafting')).toBe(743);
  });

  // Common practice: a graft makes a row of its own, a three-needle bind-off makes none.
  test('a closed edging may end in a three-needle bind-off, all its rows worked', () => {
    expect(printedSteps('edge-shawl', { closed: 'yes' })).toMatch(
      /Stop one row before the end.* graft .*\. Or work that row too, .* three-needle bind-off/,
    );
    expect(printedSteps('edge-shawl', { closed: 'no' })).not.toContain('three-needle');
  });

  test('extra joins at four corners are counted', () => {
    // 374 and 4 × 4 are 390 joins: 65 repeats of 6.
    const worked = shawl({ corners: '4' });
    expect(worked.number('repeats')).toBe(65);
    expect(worked.number('left_over')).toBe(0);
    expect(worked.number('rows_to_knit')).toBe(780);
  });
});

/** Two stitches more on the needle than the plan has after 47 repeats. */
const RESCUED: Sets = { repeats_done: '47', live_left: '92 st' };

describe('yarn by weighing', () => {
  test('what is left and what it makes', () => {
    // By arithmetic: 15 repeats at 2 g and 5 % are 31.5 g; 30 g make 14.
    const sets = { ...RESCUED, weight_before: '42 g', weight_after: '40 g' };
    const worked = shawl({ ...sets, grams_left: '30 g' });
    expect(worked.number('grams_a_repeat')).toBe(2);
    expect(worked.number('grams_to_go')).toBeCloseTo(31.5, 10);
    expect(worked.truth('yarn_will_do')).toBe(false);
    expect(worked.number('repeats_it_makes')).toBe(14);
    const more = shawl({ ...sets, grams_left: '32 g' });
    expect(more.truth('yarn_will_do')).toBe(true);
  });

  test('without a rescue the plan’s own repeats are left', () => {
    const worked = shawl({ repeats_done: '47', joins_done_in_this_repeat: '3' });
    expect(worked.number('repeats_to_go')).toBeCloseTo(62 - 47 - 0.5, 10);
    expect(worked.waiting('on_plan')).toBe('live_left');
    expect(worked.number('repeats')).toBe(62);
  });
});

/** Live stitches and extra joins left after so many joins of a plan. */
function leftAfter(worked: WorkedNotebook, joins: number): number {
  let left = worked.number('live_stitches');
  for (const step of worked.steps('edging')) {
    const [first = 0, last = 0] = step.rows ?? [];
    const each = step.do === 'take2' ? 2 : step.do === 'nojoin' ? 0 : 1;
    const done = Math.max(0, Math.min(joins, last / 2) - (first - 1) / 2);
    left -= done * each;
  }
  return left;
}

describe('any edge', () => {
  test(
    'is taken in exactly, in whole repeats, and so is the rescue from any join',
    () => {
      const edge = fc.record({
        live: fc.integer({ min: 20, max: 900 }),
        joins: fc.integer({ min: 1, max: 12 }),
        plainest: fc.integer({ min: 0, max: 12 }),
        part: fc.double({ min: 0, max: 0.95, noNaN: true }),
        off: fc.integer({ min: -3, max: 3 }),
      });
      fc.assert(
        fc.property(edge, ({ live, joins, plainest, part, off }) => {
          const total = Math.max(1, Math.ceil(live / joins - 0.5)) * joins;
          const done = Math.floor(total * part);
          const sets = {
            live_stitches: `${live} st`,
            edging_rows: `${2 * joins} row`,
            plainest_join: `${Math.min(plainest, joins)}`,
            repeats_done: `${Math.floor(done / joins)}`,
            joins_done_in_this_repeat: `${done % joins}`,
          };
          const worked = shawl(sets);
          expect(worked.number('rows_to_knit')).toBe(worked.number('repeats') * 2 * joins);
          expect(worked.number('repeats') * joins + worked.number('left_over')).toBe(live);
          expect(worked.number('left_over')).toBe(
            worked.number('double_joins') - worked.number('idle_joins'),
          );
          expect(leftAfter(worked, total * 2)).toBe(0);
          const planned = worked.number('planned_live_left');
          expect(planned).toBe(leftAfter(worked, done));
          const there = planned + off;
          if (there < joins * 2) return;
          const rescued = shawl({ ...sets, live_left: `${there} st` });
          const left = rescued.number('rescue_rows') / 2;
          expect((left + done) % joins).toBe(0);
          expect(left + rescued.number('rescue_takes_two') - rescued.number('rescue_takes_none')).toBe(there);
        }),
        { numRuns: 120 },
      );
    },
    patience,
  );
});

describe('what cannot be knit gets a sentence', () => {
  const slips: readonly (readonly [what: string, sets: Sets, cell: string, says: RegExp])[] = [
    ['one live stitch', { live_stitches: '1 st' }, 'edging', /One live stitch is no edge/],
    [
      'a repeat larger than the edge',
      { live_stitches: '20 st', edging_rows: '200 row' },
      'edging',
      /fewer rows/,
    ],
    ['an odd repeat', { edging_rows: '11 row' }, 'repeat_is_even', /even number of rows/],
    ['no rows', { edging_rows: '0 row' }, 'edging', /at least 1/],
    ['half a stitch', { live_stitches: '374.4 st' }, 'edging', /cannot be knit/],
    ['too few repeats', { repeats_wanted: '3' }, 'edging', /work at least/],
    ['a join the repeat has not', { plainest_join: '9' }, 'edging', /name one of them/],
    [
      'more joins done than a repeat has',
      { ...RESCUED, joins_done_in_this_repeat: '7' },
      'rescue',
      /since the last whole repeat/,
    ],
    ['no gauge', { edging_row_gauge: '0 row / 10 cm' }, 'edging_row_gauge', /more than nothing/],
    ['a repeat that weighs nothing', { weight_after: '41.3 g' }, 'repeats_it_makes', /divides by nothing/],
  ];
  test.each(slips)('%s', (_, sets, cell, says) => {
    const worked = shawl(sets);
    expect(worked.says(cell)).toMatch(says);
    checkSettled(worked);
  });
});
