// The season's tally: totals in metres and yards against a goal. Yards are exact; what is gone is told by weight.
import { describe, expect, test } from 'vitest';
import { workOut } from '../support/notebook.ts';

const NB = 'tally-season';

describe('yards and metres', () => {
  // Source: the international yard and pound agreement, 1959: a yard is 0.9144 m exactly.
  test('200 m of a 50 g skein is 218.723 yd', () => {
    const season = workOut(NB, {
      skeins_used: '1 skein',
      metres_a_skein: '200 m / skein',
      grams_a_skein: '50 g / skein',
      grams_left: '0 g',
      held_double: 'no',
      finished: 'yes',
    });
    expect(season.number('yards_used')).toBeCloseTo(218.723, 3);
  });

  test('100 yd is 91.44 m, and a goal in yards is the same goal', () => {
    const season = workOut(NB, { goal: '100 yd' });
    expect(season.number('goal')).toBe(100);
    const sets = {
      skeins_used: '1 skein',
      metres_a_skein: '91.44 m / skein',
      grams_left: '0 g',
      finished: 'yes',
      held_double: 'no',
    };
    expect(workOut(NB, { goal: '100 yd', ...sets, count_unfinished: 'no' }).truth('goal_reached')).toBe(true);
    expect(workOut(NB, { goal: '500.01 yd', ...sets }).truth('goal_reached')).toBe(false);
    expect(workOut(NB, { goal: '500 yd', ...sets }).truth('goal_reached')).toBe(true);
  });
});

describe('what is gone is told by weight (common practice)', () => {
  test('a skein of 100 g and 400 m with 25 g left has given 300 m', () => {
    const season = workOut(NB, {
      skeins_used: '1 (1, 1, 2, 4) skeins',
      metres_a_skein: '400 m / skein',
      grams_a_skein: '100 g / skein',
      grams_left: '25 g',
    });
    expect(season.each('yarn_off_the_skeins')).toEqual([300, 300, 300, 700, 1500]);
  });

  test('held double counts twice, or once when asked', () => {
    const once = workOut(NB, { count_every_strand: 'no' });
    const twice = workOut(NB);
    expect(once.number('metres_used', 'Drift cowl') * 2).toBeCloseTo(
      twice.number('metres_used', 'Drift cowl'),
      9,
    );
    expect(once.number('metres_used', 'Kelp hat')).toBe(twice.number('metres_used', 'Kelp hat'));
  });

  test('more left than there was is said', () => {
    const season = workOut(NB, { grams_left: '138 g' });
    expect(season.truth('weights_are_possible', 'Kelp hat')).toBe(false);
    expect(season.says('weights_are_possible')).toContain('check the grams');
  });
});

describe('against the goal', () => {
  // By hand: 210 × 0.62 + 400 × 0.69 + 210 × 0.48 + 225 × 1.76 = 130.2 + 276 + 100.8 + 396 = 903 m.
  test('the total is the finished pieces together', () => {
    const season = workOut(NB);
    expect(season.number('total_metres')).toBeCloseTo(903, 9);
    expect(season.number('total_yards')).toBeCloseTo(903 / 0.9144, 6);
    expect(season.number('still_to_go')).toBeCloseTo(3597, 9);
    expect(season.number('pieces_needed')).toBe(10);
    expect(season.each('metres_so_far').at(-1)).toBeCloseTo(903, 9);
  });

  test('an unfinished piece counts when it is said to', () => {
    expect(workOut(NB, { count_unfinished: 'yes' }).number('total_metres')).toBeCloseTo(903 + 680.4, 9);
  });

  test('a goal reached leaves nothing to go, never less', () => {
    const season = workOut(NB, { goal: '800 m' });
    expect(season.truth('goal_reached')).toBe(true);
    expect(season.number('still_to_go')).toBe(0);
    expect(season.number('pieces_needed')).toBe(0);
  });

  test('a season that is over asks for nothing a week', () => {
    const season = workOut(NB, { season_ends: '2020-01-01' });
    expect(season.truth('season_is_over')).toBe(true);
    expect(season.number('metres_a_week')).toBe(0);
  });

  test('pieces without weights yet are passed over, and the rest goes on', () => {
    const season = workOut(NB, { grams_left: '38 (31, 52, , 11) g' });
    expect(season.number('total_metres')).toBeCloseTo(903 - 396, 9);
    expect(season.says('total_metres')).toContain('without Drift cowl');
  });

  test('a planned piece of nothing is a sentence, not infinity', () => {
    const faults = workOut(NB, { planned_piece: '0 m' }).faults();
    expect(faults.map((fault) => [fault.cell, fault.code])).toEqual([
      ['pieces_needed', 'division-by-nothing'],
    ]);
  });
});
