// What will not fit, or cannot be knit, is said before it is begun and not only in its row. Common practice: one measures
// and asks before the cast-on. Every check of a garment's notebook speaks in its steps, or stands here with what does.
import { describe, expect, test } from 'vitest';
import { allCells } from '../../src/notebook/index.ts';
import { openNotebook, type Sets } from '../support/notebook.ts';
import { printedSteps } from '../support/printed-steps.ts';

/** Checks whose "no" another cell says in the steps, or that a step mends by itself. */
const SAID_BY: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'fit-sock': {
    leg_is_known_at_cuff: 'cuff_is_a_guess',
    cuff_is_comfortable: 'cuff_pinches',
    heel_and_instep_meet: 'not counts_meet',
    parity_is_right: 'not counts_meet',
    gusset_closes: 'not counts_meet',
    foot_count_is_even: 'one_decrease_before_toe',
  },
  'resize-sweater': {
    ease_is_right: 'own_count_is_offered',
    neck_is_near: 'neck_is_offered',
    yoke_is_whole_repeats: 'fit_is_needed',
  },
  'round-yoke': {},
  raglan: {},
  'adapt-length': {},
  'shape-sleeve': {},
  'baby-set': {},
  'grow-shawl': { doubling_on_right_side: 'doubles_on_wrong_side' },
  'catch-floats': { floats_are_short: 'caught_at_this_stage', one_number_will_do: 'ladders_are_doubled' },
};

/** Checks that need no step: what they tell is worked into the plan that is printed. */
const WORKED_IN: readonly string[] = ['lines_come_out_whole', 'rate_can_stay', 'reaches_what_was_planned'];

describe.each(Object.keys(SAID_BY))('%s', (name) => {
  const notebook = openNotebook(name);
  const checks = allCells(notebook).filter(({ says }) => says?.no !== undefined);

  test('every check that can fail is heard in the steps', () => {
    const heard = new Set(notebook.steps.map(({ when }) => when));
    const silent = checks
      .map((cell) => cell.name)
      .filter((check) => !heard.has(SAID_BY[name]?.[check] ?? `not ${check}`) && !WORKED_IN.includes(check));
    expect(silent).toEqual([]);
    expect(checks.length).toBeGreaterThan(2);
  });
});

test.each<readonly [name: string, column: string, sets: Sets, says: RegExp]>([
  [
    'raglan',
    '',
    { head: '40 in' },
    /^0\. Before you cast on: the neck, .* does not stretch over a head of 40 in/,
  ],
  ['raglan', '', { upper_arm: '20 in' }, /^0\. .*sleeve .* does not suit an arm of 20 in.* share of [\d.]+%/],
  ['raglan', '', { line_stitches: '30 st' }, /left of each sleeve at the neck, less than its lines need/],
  ['raglan', '', { body_length: '1 in' }, /the ribbing is longer than the body/],
  [
    'adapt-length',
    'body',
    { length_limit: '0 in', length_wanted: '13.1 in' },
    /^0\. Before you begin: it comes to/,
  ],
  ['adapt-length', 'body', { yarn_in_hand: '0 g', length_wanted: '20 in' }, /not yarn enough in hand/],
  ['shape-sleeve', '', { cuff_stitches: '90 st' }, /the sleeve will flare/],
  ['baby-set', '', { stretched_gauge: '30 st / 10 cm' }, /^0\. .*does not pass the mitten’s cuff/],
  ['baby-set', '', { worn_from: '2028-10-01' }, /^0\. .*past the oldest here/],
  ['grow-shawl', '', { yarn_in_all: '0 g' }, /^0\. .*does not reach for any row/],
  ['grow-shawl', '', { plain_rows_flat: '0 (3, 6, 12, 24, 48, 96) row' }, /falls on a wrong-side row/],
  ['catch-floats', 'neck', { ladders_at_start: '60 st' }, /^0\. Before you begin: .* will be thick/],
  ['shape-sleeve', '', { cuff_stitches: '58 st', top_stitches: '79 st' }, /differ by an odd number/],
])('%s %s with %o says so first', (name, column, sets, says) => {
  expect(printedSteps(name, sets, column)).toMatch(says);
  expect(printedSteps(name, {}, column)).not.toMatch(/Before you/);
});
