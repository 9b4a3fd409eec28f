// Resizing a sweater. Case A is worked by exact arithmetic; ease classes are the Craft Yarn Council's (as carried by a yarn
// company in 2011); garments of 1917-18 are from the handbooks named.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import { openNotebook, type Sets, TEST_DAY, withSets, workOut } from '../support/notebook.ts';
import { patience } from '../support/runs.ts';

const NB = 'resize-sweater';

/** The steps that apply, as they are printed. */
function stepsOf(sets: Sets): readonly string[] {
  const session = createSession({ notebook: openNotebook(NB), today: TEST_DAY, random: () => 0.5 });
  for (const [name, text] of Object.entries(sets))
    session.type({ cell: session.live.sheet.idOf(name) ?? '', column: null }, text);
  return session
    .steps()
    .steps.filter((step) => step.applies)
    .map((step) => step.text);
}

const A: Sets = {
  pattern_stitch_gauge: '24 st / 4 in',
  pattern_row_gauge: '32 row / 4 in',
  stitch_gauge: '20 st / 4 in',
  row_gauge: '28 row / 4 in',
  chest: '42 in',
  ease_wanted: '4 in',
  pattern_body_stitches: '216 (240, 264, 288, 312, 336) st',
  pattern_yoke_rows: '68 (72, 76, 80, 84, 88) row',
  pattern_neck_stitches: '92 (96, 100, 104, 108, 112) st',
  repeat: '12',
  body_length: '15 in',
};

describe('a sweater of 24 × 32 at 20 × 28', () => {
  const a = workOut(NB, A);
  const near = (name: string, wanted: readonly number[]) => {
    for (const [i, value] of a.each(name).entries()) expect(value).toBeCloseTo(wanted[i] as number, 3);
  };

  test('every size is 24/20 as wide as the pattern says', () => {
    near('pattern_finished_chest', [36, 40, 44, 48, 52, 56]);
    near('finished_chest', [43.2, 48, 52.8, 57.6, 62.4, 67.2]);
    near('ease', [1.2, 6, 10.8, 15.6, 20.4, 25.2]);
  });

  test('the second size is followed, with both misses said, and the fourth gives the lengths', () => {
    expect(a.label('size_to_follow')).toBe(a.columns[1]);
    expect(a.chosen).toBe(a.columns[1]);
    expect(a.says('size_to_follow')).toMatch(
      /S is 48 in, 2 in more than the 46 in wanted; XS is 43¼ in, 2¾ in less/,
    );
    expect(a.label('size_for_lengths')).toBe(a.columns[3]);
  });

  test('the yoke is ten inches, 70 rows, two fewer than followed (and not 63)', () => {
    near('pattern_yoke_depth', [8.5, 9, 9.5, 10, 10.5, 11]);
    near('yoke_depth_if_followed', [9.714, 10.286, 10.857, 11.429, 12, 12.571]);
    expect(a.number('yoke_rows')).toBe(70);
    expect(a.number('yoke_rows_to_add')).toBe(-2);
    expect(a.truth('rows_can_be_left_out')).toBe(true);
  });

  test('the neck of the followed size would be 19.2 in; 87 sts keep it 17⅓, 88 in whole ribs', () => {
    expect(a.number('pattern_neck', a.columns[1])).toBeCloseTo(16, 9);
    expect(a.number('neck', a.columns[1])).toBeCloseTo(19.2, 9);
    expect(a.number('neck_wanted')).toBeCloseTo(17 + 1 / 3, 9);
    expect(a.number('neck_stitches_to_match')).toBe(88);
    expect(workOut(NB, { ...A, neck_repeat: '1' }).number('neck_stitches_to_match')).toBe(87);
  });

  test('her own count is 228, 45.6 in, with a depth between two sizes; 229 with one over', () => {
    expect(a.number('body_stitches')).toBe(228);
    expect(a.number('body_finished_chest')).toBeCloseTo(45.6, 9);
    expect(a.number('own_yoke_depth')).toBeCloseTo(9.7, 9);
    expect(a.number('own_yoke_rows')).toBe(68);
    expect(workOut(NB, { ...A, repeat_plus: '1' }).number('body_stitches')).toBe(229);
    expect(a.number('body_rows')).toBe(105);
  });
});

describe('from outside', () => {
  // Common practice: at 18 to 4 in, what was written at 24 to 4 in comes out 4/3 as wide; 40.5 in makes 54.
  test('a count that makes 40.5 in at 24 makes 54 at 18', () => {
    const wide = workOut(NB, {
      pattern_stitch_gauge: '24 st / 4 in',
      stitch_gauge: '18 st / 4 in',
      pattern_body_stitches: '243 st',
    });
    expect(wide.number('pattern_finished_chest')).toBeCloseTo(40.5, 9);
    expect(wide.number('finished_chest')).toBeCloseTo(54, 9);
  });

  // Source: "Red Cross sleeveless sweater", Needlecraft, 1918: 11 sts = 2 in, 80 sts, so 14.545 in wide.
  test('80 stitches at 11 to 2 in are 14.545 in', () => {
    const vest = workOut(NB, { stitch_gauge: '11 st / 2 in', pattern_body_stitches: '80 st' });
    expect(vest.number('finished_chest')).toBeCloseTo(14.545, 3);
  });

  // Source: "Skating cap", 1918: 136 sts for a 23 in head, so 5.91 sts to the inch.
  test('136 stitches at 5.913 to the inch go round 23 in', () => {
    expect(
      workOut(NB, { stitch_gauge: '5.913 st / in', pattern_body_stitches: '136 st' }).number(
        'finished_chest',
      ),
    ).toBeCloseTo(23, 2);
  });

  // Source: Craft Yarn Council ease classes: standard, 2 to 4 in. Worked there: bust 38 and 2 in of ease is 40 in finished; 62 is 64.
  test.each([
    ['38 in', 40],
    ['62 in', 64],
  ])('a bust of %s with 2 in of ease is %d in', (chest, finished) => {
    const own = workOut(NB, {
      chest,
      ease_wanted: '2 in',
      stitch_gauge: '20 st / 4 in',
      repeat: '1',
      repeat_plus: '0',
    });
    expect(own.number('body_finished_chest')).toBeCloseTo(finished, 9);
  });

  // At 20 sts / 4 in, 42 in is 210 sts and 44 in is 220; at 20 sts / 10 cm the same 42 in is 213.36 (exact arithmetic).
  test('42 in is 210 stitches at 20 to 4 in, and 213 at 20 to 10 cm', () => {
    const sets = { chest: '40 in', ease_wanted: '2 in', repeat: '1', repeat_plus: '0' };
    expect(workOut(NB, { ...sets, stitch_gauge: '20 st / 4 in' }).number('body_stitches')).toBe(210);
    expect(workOut(NB, { ...sets, stitch_gauge: '20 st / 10 cm' }).number('body_stitches')).toBe(213);
  });
});

describe('round or flat, and a yoke with a motif', () => {
  test('a body worked flat loses its selvedges to the seams, and the count has them', () => {
    // Common practice: a stitch at each edge of front and back; 216 − 4 = 212 sts at 20 to 4 in are 42.4 in.
    const flat = workOut(NB, { ...A, worked: '"flat"', selvedge_stitches: '1 st', repeat_plus: '1' });
    expect(flat.number('finished_chest', flat.columns[0])).toBeCloseTo(42.4, 9);
    expect(flat.number('pattern_finished_chest', flat.columns[0])).toBeCloseTo(35 + 1 / 3, 9);
    // 46 in is 230 sts, 115 a piece: 9 × 12 + 1 = 109 or 121; 115 lies between and goes up; 2 × (121 + 2) = 246.
    expect(flat.number('body_stitches')).toBe(246);
    expect(flat.number('body_finished_chest')).toBeCloseTo(48.4, 9);
    expect(flat.truth('swatch_is_like_the_body')).toBe(false);
    expect(flat.says('swatch_is_like_the_body')).toContain('knit another square');
    expect(flat.truth('plus_suits_the_work')).toBe(true);
    expect(workOut(NB, { ...A, repeat_plus: '1' }).truth('plus_suits_the_work')).toBe(false);
  });

  test('the joined yoke is whole motifs, and a round makes up for what is over', () => {
    // The percentage system's joined yoke, 200 + 2 × 66 − 4 × 16 = 268 sts: E. Zimmermann, as a public sheet has it.
    const yoke = workOut(NB, {
      pattern_body_stitches: '200 (200, 200, 200, 200, 200) st',
      pattern_upper_arm_stitches: '66 (66, 66, 66, 66, 66) st',
      underarm_stitches: '16 (16, 16, 16, 16, 16) st',
      yoke_repeat: '12',
    });
    expect(yoke.number('joined_yoke_stitches')).toBe(268);
    expect(yoke.number('yoke_repeats')).toBe(22);
    expect(yoke.number('yoke_stitches')).toBe(264);
    expect(yoke.number('stitches_to_fit')).toBe(4);
    expect(yoke.plan('fitting_round')).toContain('268 sts');
    expect(yoke.truth('yoke_is_whole_repeats')).toBe(false);
    expect(workOut(NB, { yoke_repeat: '1' }).each('stitches_to_fit')).toEqual([0, 0, 0, 0, 0, 0]);
  });

  test('a yoke in colourwork goes by its own gauge', () => {
    const yoke = workOut(NB, {
      ...A,
      row_gauge_of_yoke: '24 row / 4 in',
      stitch_gauge_of_yoke: '22 st / 4 in',
    });
    expect(yoke.number('yoke_rows')).toBe(60);
    expect(yoke.number('body_rows')).toBe(105);
    const [width = 0, stitches = 0] = [yoke.each('yoke_width')[0], yoke.each('yoke_stitches')[0]];
    expect(width).toBeCloseTo((stitches / 22) * 4, 9);
  });
});

describe('the neck', () => {
  test('what the size casts on is told beside what keeps the pattern’s neck, and that is worked when asked for', () => {
    const plain = workOut(NB, {});
    const matched = workOut(NB, { match_neck: 'yes' });
    expect(plain.truth('neck_is_near')).toBe(false);
    expect(plain.number('cast_on')).toBe(plain.number('neck_stitches_of_your_size'));
    expect(matched.number('cast_on')).toBe(plain.number('neck_stitches_to_match'));
    expect(matched.truth('neck_is_near')).toBe(true);
    expect(matched.number('neck_you_get')).toBeCloseTo((matched.number('cast_on') / 19) * 4, 9);
    const steps = stepsOf({ match_neck: 'yes' });
    expect(steps[0]).toBe(
      `Cast on ${matched.number('cast_on')} sts; join for working in the round and mark the beginning.`,
    );
    expect(steps[1]).toContain(`${plain.number('cast_on')} sts`);
    expect(stepsOf({})[0]).toContain(`${matched.number('cast_on')} sts make that`);
  });

  test('the step of the yoke says how many rounds to leave out or to add', () => {
    const yoke = (sets: Sets) => stepsOf(sets).find((step) => step.startsWith('Work the yoke')) ?? '';
    const by = (sets: Sets) => workOut(NB, sets).number('yoke_rows_to_add');
    const fewer = { row_gauge: '24 row / 4 in' };
    const more = { row_gauge: '34 row / 4 in' };
    expect(by(fewer)).toBeLessThan(0);
    expect(yoke(fewer)).toContain(`Plain rnds to leave out: ${-by(fewer)},`);
    expect(by(more)).toBeGreaterThan(0);
    expect(yoke(more)).toContain(`Plain rnds to add: ${by(more)},`);
  });
});

describe('the sleeve', () => {
  // By hand: 76 sts to 44 are 32, 16 rounds of two; the size for lengths, L, would go from 84 to 46 in 19.
  test('has the decreases of the size that is followed, whatever size gives the lengths', () => {
    const sets = { stitch_gauge: '20 st / 4 in' };
    const worked = workOut(NB, sets);
    expect([worked.chosen, worked.label('size_for_lengths')]).toEqual(['M', 'L']);
    expect(worked.number('sleeve_decreases')).toBe(16);
    expect(stepsOf(sets).at(-2)).toMatch(/From 76 sts each sleeve has 16 decrease rnds of two/);
    expect(stepsOf(sets).at(-1)).toMatch(/44 sts above the ribbing/);
    expect(stepsOf(sets).join()).not.toContain('size L');
  });

  // By hand, size S: 17½ in at 26 rnds to 4 in are 113.75, 114 rnds; 2 in of ribbing are 13, so 101 are left for 14
  // decreases: 14 × 7 = 98 and 3 over. 3 × 8 + 11 × 7 = 101.
  test('says where the decreases go', () => {
    const worked = workOut(NB, {});
    expect(worked.chosen).toBe('S');
    expect(worked.number('rounds_to_decrease')).toBe(101);
    expect(worked.number('decrease_every')).toBe(7);
    expect(worked.number('rounds_over')).toBe(3);
    expect(stepsOf({}).at(-2)).toContain(
      'one every 7 rnds. 3 rnds are over: work one more before each decrease until they are used.',
    );
    for (const size of worked.columns) {
      const [decreases, every, over] = ['sleeve_decreases', 'decrease_every', 'rounds_over'].map((name) =>
        worked.number(name, size),
      ) as [number, number, number];
      expect(decreases * every + over).toBe(101);
      expect(over).toBeGreaterThanOrEqual(0);
      expect(over).toBeLessThan(decreases);
    }
  });

  test('a sleeve too short for its decreases holds back', () => {
    const session = createSession({
      notebook: withSets(openNotebook(NB), { sleeve_length: '3 1/2 in' }),
      today: TEST_DAY,
      random: () => 0.5,
    });
    // 3½ in are 22.75, 23 rnds; less 13 of ribbing 10 are left for 14 decreases: 4 too few.
    const problems = session.steps().steps.find(({ id }) => id === 't19')?.problems;
    expect(problems).toEqual(['“rounds over” comes to −4 rnds, fewer than none: check what it comes from.']);
  });
});

describe('the yarn', () => {
  // Source: D. L. Munden, Journal of the Textile Institute 50, 1959 (from memory): the yarn in an area goes with the root
  // of its stitches. By hand: lengths of size L, 1430 yd; 19/23 × 26/31 = 0.6928, its root 0.8324: 1190 yd.
  test('of a fabric of fewer stitches is less', () => {
    const worked = workOut(NB, {});
    expect(worked.label('size_for_lengths')).toBe('L');
    expect(worked.number('yarn_needed')).toBeCloseTo(1190.3, 1);
    expect(worked.says('yarn_needed')).toBe('for the pattern’s lengths, 15% off either way');
  });

  test('is told in the unit the pattern’s was typed in', () => {
    // By hand: 1310 m × 0.8324.
    const metres = workOut(NB, { pattern_yarn: '960 (1060, 1170, 1310, 1460, 1620) m' });
    expect(metres.unit('yarn_needed')).toBe('m');
    expect(metres.number('yarn_needed')).toBeCloseTo(1090.4, 1);
    expect(workOut(NB).unit('yarn_needed')).toBe('yd');
  });

  test('at the pattern’s gauge it is the pattern’s', () => {
    const worked = workOut(NB, { stitch_gauge: '23 st / 4 in', row_gauge: '31 row / 4 in' });
    expect(worked.number('yarn_needed')).toBeCloseTo(worked.number('pattern_yarn', worked.chosen), 6);
  });
});

describe('before the cast-on', () => {
  // Common practice: what will not fit, or cannot be knit so, is said before it is begun.
  test.each([
    [
      'a square worked otherwise',
      { worked: '"flat"' },
      /square was worked in the round and the body is worked flat/,
    ],
    ['rounds that cannot go', { plain_yoke_rows: '1 rnd' }, /yoke has only 1 rnd that can go/],
    ['a neck that does not pass', { head: '32 in' }, /stretch 1\.58 × to pass the head/],
    ['a tight sleeve', { upper_arm: '16 in' }, /of ease at the upper arm, too little to move in/],
  ])('%s is said', (_, sets, says) => {
    const said = (them: Sets) =>
      stepsOf(them).filter((step) => /^Before you cast on/.test(step) && says.test(step));
    expect(said(sets)).toHaveLength(1);
    expect(said({})).toEqual([]);
  });
});

describe('before washing', () => {
  test('a step tells it by the rows she counted herself, and no step where she did not', () => {
    expect(stepsOf({}).join(' ')).not.toContain('before washing');
    const steps = stepsOf({ row_gauge: '28 row / 4 in' }).join(' ');
    expect(steps).not.toContain('before washing');
    // By hand: 70 rows of the yoke at 25 to 4 in are 11.2 in, 105 of the body 16.8 in.
    const counted = stepsOf({ ...A, row_gauge_on_needles: '25 row / 4 in' });
    expect(counted).toContain(
      'On the needles, before washing, the yoke measures 11¼ in and the body 16¾ in.',
    );
  });
});

describe('your own count', () => {
  const FAR: Sets = { ease_wanted: '6 in' };

  test('when the ease is not right, a step before the cast-on says so and names the own count', () => {
    expect(stepsOf(FAR)[0]).toBe(
      'Before you cast on: size M gives 7¼ in of ease and you want 6 in. Your own count, 220 sts, gives 6¼ in: set “take own count” to yes for it, or go on if 7¼ in pleases you.',
    );
    expect(stepsOf({ match_neck: 'yes' })[0]).toMatch(/^Cast on/);
  });

  // 46 in at 19 to 4 in is 218.5, 220 in fours; size M has 224, so four go in the plain round: 336 − 4 = 332.
  test('taken, the steps are knitted by it', () => {
    const sets = { ...FAR, take_own_count: 'yes', yoke_repeat: '1' };
    const own = workOut(NB, sets);
    const plain = workOut(NB, { ...sets, take_own_count: 'no' });
    expect(own.truth('ease_is_right')).toBe(true);
    expect(own.number('body_after_joining')).toBe(own.number('body_stitches'));
    expect(plain.number('body_after_joining')).not.toBe(own.number('body_stitches'));
    expect(own.number('yoke_rows')).toBe(own.number('own_yoke_rows'));
    expect(own.number('stitches_to_fit', 'M')).toBe(-4);
    const fitted = own.number('yoke_stitches') + own.number('stitches_to_fit');
    const underarms = 4 * own.number('underarm_stitches') - 2 * own.number('pattern_upper_arm_stitches');
    expect(fitted + underarms).toBe(own.number('body_stitches'));
    const steps = stepsOf(sets).join('\n');
    expect(steps).toContain(`under each arm: ${own.number('body_stitches')} sts.`);
    expect(steps).not.toContain('take own count');
    // A plain yoke has no motif.
    expect(steps).toMatch(/After the last motif or shaping there are 336 sts/);
    expect(steps).toMatch(/none with motif or shaping/);
    expect(own.number('cast_on')).toBe(plain.number('cast_on'));
  });

  test('an own count that is off as well is said', () => {
    const off = stepsOf({ ...FAR, take_own_count: 'yes', repeat: '60', chest: '41 in' });
    expect(off[0]).toMatch(/^Before you cast on: your own count gives .* Choose a smaller repeat/);
  });

  test('the yoke is counted in rounds', () => {
    expect(stepsOf({}).join('\n')).toMatch(/in \d+ rnds in all/);
    expect(workOut(NB).unit('pattern_yoke_rows')).toBe('rnd');
  });
});

describe('what it says', () => {
  test('a tie goes to the first and is told, in inches and in centimetres alike', () => {
    const inches = workOut(NB, {
      stitch_gauge: '20 st / 4 in',
      pattern_body_stitches: '200 (220, 240, 260, 280, 300) st',
      chest: '40 in',
      ease_wanted: '2 in',
    });
    const centimetres = workOut(NB, {
      stitch_gauge: '20 st / 10.16 cm',
      pattern_body_stitches: '200 (220, 240, 260, 280, 300) st',
      chest: '101.6 cm',
      ease_wanted: '5.08 cm',
    });
    for (const tie of [inches, centimetres]) {
      expect(tie.label('size_to_follow')).toBe('XS');
    }
    expect(inches.says('size_to_follow')).toBe(
      'XS is 40 in, 2 in less; S is 44 in, 2 in more: equally near, so XS, which comes first',
    );
    expect(centimetres.says('size_to_follow')).toMatch(/^XS is .*less; S is .*more: equally near/);
  });

  test('rows that cannot be left out are said', () => {
    const deep = workOut(NB, { ...A, plain_yoke_rows: '1 row' });
    expect(deep.truth('rows_can_be_left_out')).toBe(false);
    expect(deep.says('rows_can_be_left_out')).toContain('only 1 r');
  });

  test('ease too far off is no tick, and the own count is offered', () => {
    const off = workOut(NB, { ...A, ease_wanted: '6 in', chest: '36 in', limit: '1/4 in' });
    expect(off.truth('ease_is_right')).toBe(false);
    expect(off.says('ease_is_right')).toContain('take your own count');
  });

  test('in centimetres the ease, the ease wanted and what it is off by add up', () => {
    // By hand: 184 sts at 20 to 10 cm are 92 cm, less 65.3 cm are 26.7 cm, and 18.7 cm more than 8 cm.
    const cm = withSets(openNotebook(NB), {
      chest: '65.3 cm',
      ease_wanted: '8 cm',
      stitch_gauge: '20 st / 10 cm',
    });
    const session = createSession({ notebook: { ...cm, units: 'cm' }, today: TEST_DAY, random: () => 0.5 });
    const [said] = session.row(session.live.sheet.idOf('ease_is_right') ?? '').values;
    expect(said?.says).toMatch(/^26\.7 cm of ease and 8 cm wanted, 18\.7 cm off/);
  });

  test('measures left empty hold nothing else up', () => {
    const bare = workOut(NB, { head: '', upper_arm: '', wrist: '', row_gauge_on_needles: '' });
    expect(bare.number('yoke_rows')).toBeGreaterThan(0);
    expect(bare.waiting('arm_ease')).toBe('upper_arm');
    expect(bare.truth('neck_passes_head')).toBe(true);
    expect(bare.faults()).toEqual([]);
  });
});

describe('laws', () => {
  const gauge = fc.integer({ min: 16, max: 80 }).map((half) => half / 2);
  test('for any two gauges and any chest: nothing nearer is passed over, counts are whole, nothing is not a number', {
    timeout: patience,
  }, () => {
    fc.assert(
      fc.property(gauge, gauge, gauge, fc.integer({ min: 22, max: 62 }), (theirs, mine, rows, chest) => {
        const worked = workOut(NB, {
          pattern_stitch_gauge: `${theirs} st / 4 in`,
          stitch_gauge: `${mine} st / 4 in`,
          row_gauge: `${rows} row / 4 in`,
          chest: `${chest} in`,
        });
        const wanted = chest + 3.5;
        const misses = worked.each('finished_chest').map((width) => Math.abs(width - wanted));
        const followed = misses[worked.columns.indexOf(worked.label('size_to_follow'))] as number;
        expect(followed).toBeLessThanOrEqual(Math.min(...misses) + 1e-6);
        for (const count of [
          'yoke_rows',
          'body_rows',
          'body_stitches',
          'neck_stitches_to_match',
          'own_yoke_rows',
        ])
          expect(Number.isInteger(worked.number(count))).toBe(true);
        expect(worked.number('body_stitches') % 4).toBe(0);
        expect(JSON.stringify(worked.asked.json)).not.toMatch(/NaN|Infinity/);
      }),
      { numRuns: 60 },
    );
  });

  test('no gauge is a sentence', () => {
    for (const set of [
      { stitch_gauge: '0 st / 4 in' },
      { row_gauge: '0 row / 4 in' },
      { pattern_stitch_gauge: '0 st / 4 in' },
    ]) {
      const worked = workOut(NB, set);
      expect(JSON.stringify(worked.asked.json)).not.toMatch(/NaN|Infinity/);
    }
    const none = workOut(NB, { stitch_gauge: '0 st / 4 in' });
    expect(none.problem('stitch_gauge')).toBe('gauge-of-nothing');
    expect(none.waiting('finished_chest', 'S')).toBe('stitch_gauge');
  });
});
