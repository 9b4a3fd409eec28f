// A raglan from three numbers. The shares and their worked example are those of tests/data/shares.json.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shares from '../data/shares.json';
import { checkSettled, openNotebook, type Sets, workOut } from '../support/notebook.ts';
import { printedSteps } from '../support/printed-steps.ts';

const NB = 'raglan';

const TWO_HUNDRED: Sets = {
  stitch_gauge: `${shares.body_200.to_the_inch} st / in`,
  row_gauge: '7 rnd / in',
  chest: `${shares.body_200.inches} in`,
  ease_wanted: '0 in',
};

describe('the printed example of 200 stitches (shares.json)', () => {
  const wanted = shares.body_200;
  const raglan = workOut(NB, TWO_HUNDRED);

  test('84 + 84 + 50 + 50 = 268', () => {
    expect(raglan.number('joined')).toBe(wanted.joined);
    expect(raglan.number('front_part')).toBe(wanted.front);
    expect(raglan.number('back_part')).toBe(wanted.back);
    expect(raglan.number('sleeve_part')).toBe(wanted.sleeve_part);
    expect(raglan.says('parts_add_up')).toBe('84 sts + 84 sts + 2 × 50 sts = 268 sts');
  });

  test('268 to 80 by eights is 23½ rounds, and both ways to end are said', () => {
    const { exactly, fewer, more } = shares.by_eights;
    expect(raglan.number('rounds_exactly')).toBe(exactly);
    expect([raglan.number('fewer_rounds'), raglan.number('neck_with_fewer')]).toEqual(fewer);
    expect([raglan.number('more_rounds'), raglan.number('neck_with_more')]).toEqual(more);
    expect(raglan.truth('lines_come_out_whole')).toBe(false);
    expect(raglan.says('lines_come_out_whole')).toMatch(
      /188 sts by eights are 23\.5 rounds.*23 rounds leave 84 sts, 24 leave 76 sts, and the neck wants 80 sts/,
    );
    expect(raglan.plan('neckband_round')).toBe('(k19, k2tog) 4 times; 80 sts (4 × 21 = 84 before)');
  });

  test('a decrease in every second round takes 46 to 48, in line with the printed 50', () => {
    const [least, most] = shares.by_eights.every_second_round;
    expect(raglan.number('rounds_at_every_second')).toBe(least);
    expect(workOut(NB, { ...TWO_HUNDRED, decrease_rounds: '24' }).number('rounds_at_every_second')).toBe(
      most,
    );
    const steady = workOut(NB, { ...TWO_HUNDRED, depth_from: '"every second round"' });
    expect(steady.plan('raglan_shaping')).toBe('every 2nd rnd 23 times');
    expect(steady.number('rounds_to_a_decrease')).toBe(2);
  });

  test('24 rounds leave 76, and the neckband makes up for it the other way', () => {
    const other = workOut(NB, { ...TWO_HUNDRED, decrease_rounds: '24' });
    expect(other.number('raglan_end')).toBe(76);
    expect(other.plan('neckband_round')).toContain('m1');
    expect(other.plan('neckband_round')).toContain('80 sts');
  });

  test('when it comes out whole it says so', () => {
    const whole = workOut(NB, { ...TWO_HUNDRED, neck_stitches: '84 st' });
    expect(whole.truth('lines_come_out_whole')).toBe(true);
    expect(whole.plan('neckband_round')).toBe('k84; 84 sts');
  });

  test('a round that changes no stitch is told as a plain one', () => {
    const told = printedSteps(NB, { ...TWO_HUNDRED, neck_stitches: '84 st', hem_share: '100%' });
    expect(told).toContain('each sleeve 4 sts: 84 sts in all. The yoke has');
    expect(told).toContain('Next rnd, knit plain: 200 sts.');
    expect(told).not.toMatch(/so: k84|evenly/);
    expect(printedSteps(NB, TWO_HUNDRED)).toContain(
      'The last of these rnds so: (k19, k2tog) 4 times; 80 sts',
    );
  });

  // Common practice: short rows lift the back on the stitches the neckband is worked on, and the neckband closes them.
  test('the back is lifted on the stitches of the neck, as its section says', () => {
    const told = printedSteps(NB, TWO_HUNDRED);
    expect(told).toMatch(
      /so: .*80 sts.*\n.*Back of the neck, before the neckband: short rows.*\n.*Rib 80 sts/,
    );
    const about = openNotebook(NB).sections.find(({ title }) => title === 'The back of the neck')?.about;
    expect(about).toContain('after the last round of the yoke, on the stitches of the neck');
  });
});

describe('at the neck', () => {
  test('front, back and sleeve tops add up, and a sleeve that is used up is said', () => {
    const raglan = workOut(NB, TWO_HUNDRED);
    expect(raglan.says('sleeve_tops_are_left')).toBe('38 sts + 38 sts + 2 × 4 sts = 84 sts at the neck');
    const gone = workOut(NB, { ...TWO_HUNDRED, sleeve_share: '25%' });
    expect(gone.truth('sleeve_tops_are_left')).toBe(false);
    expect(gone.says('sleeve_tops_are_left')).toContain('a larger sleeve share');
  });

  test('the printed steps give the counts, the rate and the end', () => {
    const text = printedSteps(NB, TWO_HUNDRED);
    expect(text).toContain('front 84 sts, sleeve 50 sts, back 84 sts, sleeve 50 sts: 268 sts');
    // 70 rounds of yoke, 4 and 2 of them plain: 64 = 5 × 2 + 18 × 3.
    expect(text).toContain('decrease 8 sts every 2nd rnd 5 times: 228 sts');
    expect(text).toContain('decrease 8 sts every 3rd rnd 18 times: 84 sts');
    expect(text).toContain('Front 38 sts, back 38 sts and each sleeve 4 sts: 84 sts in all.');
    expect(text).toContain('Rib 80 sts');
  });

  // By hand: 4 + 64 + 2 = 70 rounds of yoke, and the round that comes to the neck is the last of these 2. Of 14 in at 7
  // rounds, 98, 14 are ribbing, one increases and 83 are plain.
  test('tell as many rounds as there are, body and yoke', () => {
    const text = printedSteps(NB, TWO_HUNDRED);
    expect(text).toMatch(
      /rib for 14 rnds\.\n2\. Next rnd, increase.*\n3\. Knit 83 rnds: 200 sts, 14 in from/,
    );
    expect(text).toContain('Knit 4 rnds plain.');
    expect(text).toMatch(
      /Knit 2 rnds plain\. .*: 84 sts in all\. The last of these rnds so: \(k19, k2tog\) 4 times; 80 sts .*\. The yoke has 70 rnds, 10 in\./,
    );
    expect(text).not.toContain('Last plain rnd');
    // There is always one round to come to the neck in.
    const short = workOut(NB, { ...TWO_HUNDRED, plain_at_end: '0 in' });
    expect(short.number('end_rounds')).toBe(1);
    const parts = ['start_rounds', 'raglan_rounds', 'end_rounds'].map((name) => short.number(name));
    expect(parts.reduce((sum, n) => sum + n, 0)).toBe(short.number('yoke_rounds'));
  });
});

describe('laws', () => {
  const half = (from: number, to: number) => fc.integer({ min: from * 2, max: to * 2 }).map((n) => n / 2);
  test('any gauge and chest: the parts add up before and after, and the plan ends where it says', () => {
    fc.assert(
      fc.property(
        half(8, 36),
        half(12, 50),
        half(20, 64),
        fc.integer({ min: 1, max: 3 }),
        (st, rows, chest, repeat) => {
          const one = workOut(NB, {
            stitch_gauge: `${st} st / 4 in`,
            row_gauge: `${rows} rnd / 4 in`,
            chest: `${chest} in`,
            ease_wanted: '3 in',
            repeat: `${repeat}`,
          });
          checkSettled(one);
          const n = (name: string) => one.number(name);
          expect(one.truth('parts_add_up')).toBe(true);
          expect(n('front_left') + n('back_left') + 2 * n('sleeve_top_left')).toBe(n('raglan_end'));
          expect(n('neck_with_fewer')).toBeGreaterThanOrEqual(n('neck_stitches'));
          expect(n('neck_with_more')).toBeLessThanOrEqual(n('neck_stitches'));
          expect(n('neck_with_fewer') - n('neck_with_more')).toBe(one.truth('lines_come_out_whole') ? 0 : 8);
          expect(Math.abs(n('front_part') - n('back_part'))).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 60 },
    );
  });

  test.each([
    ['no gauge', { stitch_gauge: '0 st / 4 in' }],
    ['no rows', { row_gauge: '0 rnd / 4 in' }],
    ['one stitch to 40 in', { stitch_gauge: '1 st / 40 in' }],
    ['nothing lost in a round', { lost_a_round: '0 st' }],
    ['a neck wider than the yoke', { neck_share: '150%' }],
    [
      'shares of nothing',
      { sleeve_share: '0%', neck_share: '0%', underarm_share: '0%', cuff_share: '0%', hem_share: '0%' },
    ],
    ['a yoke of no depth', { yoke_share: '0%' }],
    ['more plain rounds than yoke', { plain_at_start: '40 in' }],
    ['nothing typed yet', { stitch_gauge: '', row_gauge: '', chest: '', ease_wanted: '' }],
    ['no measures to check against', { armhole_depth: '', upper_arm: '', wrist: '', head: '' }],
    ['a chest of 22 in', { chest: '22 in' }],
    ['a chest of 62 in', { chest: '62 in', ease_wanted: '6 in' }],
  ] as const)('%s: a sentence or waiting, never nonsense', (_, sets) => {
    checkSettled(workOut(NB, sets));
  });
});
