// The gifts: finish dates on one shared calendar, what is due first knitted first.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { draw } from '../../src/drawing/index.ts';
import { createSession } from '../../src/session/index.ts';
import { openNotebook, TEST_DAY, withSets, workOut } from '../support/notebook.ts';

const NB = 'plan-gifts';

/** Days after the test's day, 7 January 2026, as a date. */
const day = (after: number): string => new Date(Date.UTC(2026, 0, 7 + after)).toISOString().slice(0, 10);

/** Four gifts that take whole weeks of 10 hours: 1000 st at 100 an hour, nothing else. */
const plain = (dues: readonly number[], stitches: readonly number[] = [1000, 1000, 1000, 1000]) => ({
  hours_a_week: '10 hours / week',
  days_off: '0 days',
  start: day(0),
  stitches_an_hour: '100 st / hour',
  finishing: '0 hours',
  washing_and_drying: '0 days',
  posting: '0 days',
  stitches_left: `${stitches[0]} (${stitches.slice(1).join(', ')}) st`,
  needed_by: `${day(dues[0] ?? 0)} (${dues.slice(1).map(day).join(', ')})`,
});

describe('one calendar', () => {
  // By hand: each gift takes 10 hours, a week at 10 hours a week; in order of need they end on the 7th, 14th, 21st and 28th
  // day, the first day counted: 6, 13, 20 and 27 days after it.
  test('gifts are done in the order they are needed, a week each', () => {
    const gifts = workOut(NB, plain([30, 10, 40, 20]));
    expect(gifts.each('order')).toEqual([3, 1, 4, 2]);
    expect(
      ['Mitts for Ines', 'Socks for Tam', 'Hat for Oona', 'Cowl for Bram'].map((gift) =>
        gifts.date('off_the_needles_on', gift),
      ),
    ).toEqual([day(20), day(6), day(27), day(13)]);
    expect(gifts.each('time_to_spare')).toEqual([10, 4, 13, 7]);
    expect(gifts.truth('all_in_time')).toBe(true);
  });

  // By hand: at 2 hours a day one day's knitting is done on the day it is begun, two days' on the next.
  test('the first day counts', () => {
    const one = { ...plain([0, 0, 1, 1], [200, 200, 200, 100]), hours_a_week: '14 hours / week' };
    const gifts = workOut(NB, one);
    expect(gifts.date('off_the_needles_on', 'Mitts for Ines')).toBe(day(0));
    expect(gifts.number('time_to_spare', 'Mitts for Ines')).toBe(0);
    expect(gifts.truth('in_time', 'Mitts for Ines')).toBe(true);
    expect(gifts.number('days_for_knitting', 'Mitts for Ines')).toBe(1);
    expect(gifts.number('hours_a_week_for_this', 'Mitts for Ines')).toBeCloseTo(14, 9);
    // Four hours today would be 28 a week; six and seven hours in two days 21 and 24.5.
    expect(gifts.date('off_the_needles_on', 'Socks for Tam')).toBe(day(1));
    expect(gifts.number('days_late', 'Socks for Tam')).toBe(1);
    expect(gifts.number('hours_a_week_for_this', 'Socks for Tam')).toBeCloseTo(28, 9);
    expect(gifts.number('hours_a_week_for_this', 'Hat for Oona')).toBeCloseTo(21, 9);
    expect(gifts.number('hours_a_week_for_this', 'Cowl for Bram')).toBeCloseTo(24.5, 9);
    const off = workOut(NB, { ...one, days_off: '3 days' });
    expect(off.date('off_the_needles_on', 'Mitts for Ines')).toBe(day(3));
  });

  // By hand, as the notebook opens: 20.45 hours of socks and 11.89 of mitts are 32.34, at 2 a day 17 days; with 4 off, 21 days
  // from 26 November are over on 16 December, the day the mitts must be off: 2 days to dry, 6 in the post, 24 December.
  test('the untouched gifts begun on 26 November: the mitts are just in time', () => {
    const gifts = workOut(NB, { start: '2026-11-26' });
    expect(gifts.number('days_at_your_pace', 'Mitts for Ines')).toBe(17);
    expect(gifts.date('off_the_needles_on', 'Mitts for Ines')).toBe('2026-12-16');
    expect(gifts.date('arrives_on', 'Mitts for Ines')).toBe('2026-12-24');
    expect(gifts.truth('in_time', 'Mitts for Ines')).toBe(true);
  });

  test('the drawing has them in that order, whatever their columns', () => {
    const session = createSession({
      // Hours enough a week that none is too late on its own, which would be knitted last.
      notebook: withSets(openNotebook(NB), {
        needed_by: `${day(30)} (${[10, 40, 20].map(day).join(', ')})`,
        most_hours_a_week: '150 hours / week',
      }),
      today: TEST_DAY,
      random: () => 0.5,
    });
    const [view] = session.drawings();
    const block = view && draw(view.kind, view.parts).block;
    const bars = block?.kind === 'bars' ? block.rows : [];
    // By hand: what is due first, less the days in the post and for drying, comes first.
    expect(bars.map(({ name }) => name.text)).toEqual([
      'Socks for Tam',
      'Cowl for Bram',
      'Mitts for Ines',
      'Hat for Oona',
    ]);
    expect(bars.slice(1).map(({ from }) => from)).toEqual(bars.slice(0, -1).map(({ to }) => to));
  });

  test('the one that cannot be met is named, with the hours that would make it so', () => {
    const gifts = workOut(NB, plain([30, 10, 40, 12]));
    expect(gifts.truth('in_time', 'Cowl for Bram')).toBe(false);
    expect(gifts.number('days_late', 'Cowl for Bram')).toBe(1);
    // 20 hours in 13 days is 20 × 7 / 13 = 10.77 hours a week; told to a tenth that is enough, 10.8.
    expect(gifts.number('hours_a_week_for_this', 'Cowl for Bram')).toBeCloseTo(10.8, 9);
    expect(gifts.truth('can_be_in_time', 'Cowl for Bram')).toBe(true);
    const enough = workOut(NB, { ...plain([30, 10, 40, 12]), hours_a_week: '10.8 hours / week' });
    expect(enough.truth('in_time', 'Cowl for Bram')).toBe(true);
  });

  test('posting, washing and days off come off the time there is', () => {
    const gifts = workOut(NB, {
      ...plain([30, 10, 40, 20]),
      posting: '3 days',
      washing_and_drying: '2 days',
      days_off: '1 day',
    });
    expect(gifts.date('off_the_needles_by', 'Socks for Tam')).toBe(day(5));
    expect(gifts.number('time_to_spare', 'Socks for Tam')).toBe(-2);
    // A day off and 7 of knitting: off the needles on day 7, 2 to dry and 3 in the post.
    expect(gifts.date('arrives_on', 'Socks for Tam')).toBe(day(12));
  });

  test('two needed on one day are knitted left to right', () => {
    expect(workOut(NB, plain([10, 10, 40, 10])).each('order')).toEqual([1, 2, 4, 3]);
  });

  test('no hours a week is a sentence, not a date at the end of time', () => {
    const faults = workOut(NB, { hours_a_week: '0 hours / week' }).faults();
    expect(new Set(faults.map((fault) => fault.code))).toEqual(
      new Set(['division-by-nothing', 'broken-column']),
    );
  });
});

// Source: common practice: hours in the week help only while a day is left before the gift has to be washed and posted.
describe('a gift that is too late', () => {
  const late = {
    ...plain([3, 30, 40, 50]),
    washing_and_drying: '2 (0, 0, 0) days',
    posting: '6 (0, 0, 0) days',
  };
  const stepsFor = (sets: Record<string, string>) => {
    const session = createSession({
      notebook: withSets(openNotebook(NB), sets),
      today: TEST_DAY,
      random: () => 0.5,
    });
    return session.steps().steps.filter(({ applies }) => applies);
  };

  test('is called too late: no pace is promised, for it nor for all', () => {
    const gifts = workOut(NB, late);
    // Needed on day 3, 6 days in the post, 2 to dry: off the needles five days ago.
    expect(gifts.date('off_the_needles_by', 'Mitts for Ines')).toBe(day(-5));
    expect(gifts.truth('can_be_in_time', 'Mitts for Ines')).toBe(false);
    expect(gifts.says('can_be_in_time')).toContain('too late');
    expect(gifts.number('gifts_too_late')).toBe(1);
    expect(gifts.says('all_can_be_in_time')).toMatch(/^too late whatever you knit: 1 of the gifts/);
    expect(gifts.number('hours_a_week_for_all')).toBeLessThan(28);
  });

  test('so is one that would want more hours than the week has', () => {
    const steep = { ...plain([1, 30, 40, 50]), most_hours_a_week: '30 hours / week' };
    // By hand: 10 hours today and tomorrow, in 2 days, are 35 hours a week.
    expect(workOut(NB, steep).number('hours_a_week_for_this', 'Mitts for Ines')).toBeCloseTo(35, 9);
    expect(workOut(NB, steep).truth('can_be_in_time', 'Mitts for Ines')).toBe(false);
    const bearable = workOut(NB, { ...steep, most_hours_a_week: '35 hours / week' });
    expect(bearable.truth('can_be_in_time', 'Mitts for Ines')).toBe(true);
  });

  test('no step names a day to post it that has gone by', () => {
    const told = stepsFor(late).map(({ text }) => text);
    expect(told.filter((text) => text.includes('too late'))).toHaveLength(1);
    expect(told.join(' ')).not.toContain('post it by');
    expect(told.at(-1)).toMatch(/it arrives on .*, 11 days late\.$/);
    expect(
      stepsFor(plain([30, 10, 40, 20]))
        .map(({ text }) => text)
        .join(' '),
    ).toContain('post it by');
  });

  // By hand: 14 hours a week are 2 a day; 28, the most, are 4. The first wants 40 hours in 4 days, which hold 16 at the most.
  // Due first, it would leave the others 56, 76 and 90 hours in 11, 21 and 31 days: at 2 a day all but the last are late.
  const lost = {
    ...plain([3, 10, 20, 30], [4000, 1600, 2000, 1400]),
    hours_a_week: '14 hours / week',
    most_hours_a_week: '28 hours / week',
  };

  test('is knitted last where the others would be late for it, and they are in time', () => {
    const gifts = workOut(NB, lost);
    expect(gifts.truth('too_late_even_alone', 'Mitts for Ines')).toBe(true);
    expect(gifts.each('order')).toEqual([4, 1, 2, 3]);
    // 16, 36 and 50 hours at 2 a day: off the needles on days 7, 17 and 24, the first day counted.
    expect(gifts.each('time_to_spare').slice(1)).toEqual([3, 3, 6]);
    expect(gifts.number('gifts_too_late')).toBe(1);
    expect(gifts.says('too_late_even_alone')).toContain('let it go, or give it later');
    // Let go, the rest stand as they did: it held nothing back.
    const without = workOut(NB, { ...lost, needed_by: `${day(400)} (${[10, 20, 30].map(day).join(', ')})` });
    expect(without.each('time_to_spare').slice(1)).toEqual([3, 3, 6]);
  });

  test('has its turn where no other is late for it', () => {
    const slack = workOut(NB, { ...lost, needed_by: `${day(3)} (${[40, 50, 60].map(day).join(', ')})` });
    expect(slack.truth('too_late_even_alone', 'Mitts for Ines')).toBe(true);
    expect(slack.truth('others_would_be_late')).toBe(false);
    expect(slack.each('order')).toEqual([1, 2, 3, 4]);
  });

  test('one that could be in time with more hours keeps its turn', () => {
    const more = workOut(NB, { ...lost, most_hours_a_week: '70 hours / week' });
    expect(more.truth('too_late_even_alone', 'Mitts for Ines')).toBe(false);
    expect(more.each('order')).toEqual([1, 2, 3, 4]);
  });

  test('a beginning that has gone by is today', () => {
    expect(workOut(NB, { ...late, start: day(-20) }).date('first_day')).toBe(day(0));
    expect(workOut(NB, { ...late, start: day(4) }).date('first_day')).toBe(day(4));
  });
});

describe('laws', () => {
  const dues = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 4, maxLength: 4 });
  const sizes = fc.array(fc.integer({ min: 1, max: 5000 }), { minLength: 4, maxLength: 4 });

  // Source: common practice: a pace that is advised is a pace that is enough.
  test('with the hours advised, every gift that can be in time is', () => {
    fc.assert(
      fc.property(dues, sizes, (needed, stitches) => {
        const now = { ...plain(needed, stitches), most_hours_a_week: '60 hours / week' };
        const before = workOut(NB, now);
        const advised = before.number('hours_a_week_for_all');
        const after = workOut(NB, { ...now, hours_a_week: `${advised.toFixed(1)} hours / week` });
        for (const gift of before.columns)
          if (before.truth('can_be_in_time', gift)) expect(after.truth('in_time', gift)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  // Source: J. R. Jackson, "Scheduling a production line to minimize maximum tardiness", 1955 (from memory): no other order
  // has a smaller worst lateness than earliest due date first. All 24 orders are tried; what is knitted last as it is too late
  // anyway is another matter.
  test('no other order of the same gifts has a smaller worst lateness', () => {
    fc.assert(
      fc.property(dues, sizes, (needed, stitches) => {
        const gifts = workOut(NB, { ...plain(needed, stitches), most_hours_a_week: '9000 hours / week' });
        const least = gifts.number('least_to_spare');
        for (const order of orders([0, 1, 2, 3])) {
          let hours = 0;
          const spare = order.map((i) => {
            hours += (stitches[i] ?? 0) / 100;
            return (needed[i] ?? 0) - (Math.ceil((hours / 10) * 7 - 1e-9) - 1);
          });
          expect(Math.min(...spare)).toBeLessThanOrEqual(least + 1e-9);
        }
      }),
      { numRuns: 60 },
    );
  });

  // Source: J. M. Moore, "An n job, one machine sequencing algorithm for minimizing the number of late jobs", 1968 (from
  // memory): what cannot be in time in any order goes last, and no gift that can is late for it.
  test('no gift is late at your pace for one that is too late anyway', () => {
    fc.assert(
      fc.property(dues, sizes, (needed, stitches) => {
        const gifts = workOut(NB, { ...plain(needed, stitches), most_hours_a_week: '10 hours / week' });
        const lost = gifts.columns.map((gift) => gifts.truth('too_late_even_alone', gift));
        gifts.columns.forEach((gift, i) => {
          if (lost[i]) return;
          const hours = stitches
            .map((size, k) => (!lost[k] && isDueFirst(needed, k, i) ? size / 100 : 0))
            .reduce((sum, one) => sum + one, 0);
          const spare = (needed[i] ?? 0) - (Math.ceil((hours / 10) * 7 - 1e-9) - 1);
          expect(gifts.truth('in_time', gift)).toBe(spare >= 0);
        });
      }),
      { numRuns: 40 },
    );
  });

  test('the order is one of the four places each', () => {
    fc.assert(
      fc.property(dues, (needed) => {
        const order = workOut(NB, plain(needed)).each('order');
        expect([...order].sort()).toEqual([1, 2, 3, 4]);
      }),
      { numRuns: 40 },
    );
  });
});

function orders(items: readonly number[]): readonly (readonly number[])[] {
  if (items.length < 2) return [items];
  return items.flatMap((item) =>
    orders(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
  );
}

/** Whether gift `k` is due no later than gift `i`, the one on the left first on the same day. */
function isDueFirst(needed: readonly number[], k: number, i: number): boolean {
  const [one, other] = [needed[k] ?? 0, needed[i] ?? 0];
  return one < other || (one === other && k <= i);
}
