// A gauge that turns out otherwise in mid sock: what is on the needles stays, and the lengths the steps and the drawing
// tell are those of the rounds there will be, kept ones among them. By hand: the rounds of the parts, added, over the
// new gauge.
import { describe, expect, test } from 'vitest';
import { createSession, type Session } from '../../src/session/index.ts';
import { openNotebook, TEST_DAY, withSets } from '../support/notebook.ts';

/** The socks in the last column, whose leg is long, at a gauge of 31 rounds to 10 cm. */
function socks(leg: string): Session {
  const notebook = withSets(openNotebook('fit-sock'), { leg_length: leg, row_gauge: '31 rnd / 10 cm' });
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  session.choose('c3');
  return session;
}

function number({ live: { sheet } }: Session, name: string): number {
  const value = sheet.value(sheet.idOf(name) ?? '', sheet.info(sheet.idOf(name) ?? '').each ? 2 : 0);
  if (value.kind !== 'quantity') throw new Error(`${name} is no number`);
  return value.value;
}

const sum = (session: Session, names: readonly string[]): number =>
  names.reduce((all, name) => all + number(session, name), 0);

const typeGauge = (session: Session): boolean =>
  session.type({ cell: session.live.sheet.idOf('row_gauge') ?? '', column: null }, '33 rnd / 10 cm').done;

const stepText = (session: Session, id: string): string =>
  session.steps().steps.find((step) => step.id === id)?.text ?? '';

const LEG = ['cuff_rounds', 'rounds_after_cuff', 'calf_shaping_rounds', 'plain_rounds_above_heel'];

describe('another row gauge in mid sock', () => {
  test('a long leg begun: its parts come to the length that is said from the cast-on edge', () => {
    const session = socks('40 cm');
    expect(session.tick('t1').done).toBe(true);
    for (let rnd = 0; rnd < 12; rnd += 1) expect(session.rowOn('t4').done).toBe(true);
    const straight = number(session, 'rounds_after_cuff');
    expect(typeGauge(session)).toBe(true);
    expect(number(session, 'rounds_after_cuff')).toBe(straight);
    expect(number(session, 'row_gauge') * 1000).toBeCloseTo(3.3, 10);
    expect(sum(session, LEG)).toBe(Math.round(40 * 3.3));
    expect(number(session, 'leg_length_you_get') / 1000).toBeCloseTo(40, 10);
    expect(stepText(session, 't6')).toContain('40 cm from the cast-on edge');
  });

  test('all of the leg begun: the length is that of its rounds, and not the one wished for', () => {
    const session = socks('40 cm');
    for (const id of ['t1', 't4', 't5', 't6']) expect(session.tick(id).done).toBe(true);
    const rounds = sum(session, LEG);
    expect(rounds).toBe(Math.round(40 * 3.1));
    typeGauge(session);
    expect(sum(session, LEG)).toBe(rounds);
    expect(number(session, 'leg_rounds_you_get')).toBe(rounds);
    expect(number(session, 'leg_length_you_get') / 1000).toBeCloseTo(rounds / 3.3, 10);
  });

  test('a straight leg and a foot begun, likewise', () => {
    const session = socks('14 cm');
    expect(session.tick('t1').done && session.tick('t3').done && session.tick('t15').done).toBe(true);
    const leg = sum(session, ['cuff_rounds', 'straight_leg_rounds']);
    const foot = sum(session, ['gusset_rounds', 'plain_foot_rounds']);
    typeGauge(session);
    expect(number(session, 'leg_length_you_get') / 1000).toBeCloseTo(leg / 3.3, 10);
    const beforeToe = foot + number(session, 'turn_rows');
    expect(number(session, 'foot_before_toe') / 1000).toBeCloseTo(beforeToe / 3.3, 10);
  });
});

describe('another sleeve length when the sleeve is shaped', () => {
  for (const name of ['raglan', 'round-yoke'])
    test(`${name}: the rounds to the underarm are those that are left of it`, () => {
      const session = createSession({ notebook: openNotebook(name), today: TEST_DAY, random: () => 0.5 });
      const single = (cell: string) => session.live.sheet.value(session.live.sheet.idOf(cell) ?? '', 1);
      const rounds = (cell: string) => {
        const value = single(cell);
        return value.kind === 'quantity' ? value.value : Number.NaN;
      };
      const setLength = (text: string) =>
        session.type({ cell: session.live.sheet.idOf('sleeve_length') ?? '', column: 'c2' }, text);
      const last = () => /^Knit (\d+) rnds?: /.exec(stepText(session, 't7'))?.[1];
      const [rib, before, after] = ['rib_rounds', 'rounds_before', 'rounds_after'].map(rounds) as [
        number,
        number,
        number,
      ];
      expect(last()).toBe(`${after}`);
      session.tick('t5');
      const shaping = rounds('shaping_rounds');
      for (let rnd = 0; rnd < shaping; rnd += 1) session.rowOn('t6');
      // 17 1/2 in by 6 rounds to the inch are 105; four rounds fewer leave four fewer of the last.
      expect(rib + before + shaping + after).toBe(105);
      setLength('16.8 in');
      expect(rounds('sleeve_rounds')).toBe(101);
      expect(rounds('shaping_rounds')).toBe(shaping);
      expect(last()).toBe(`${after - 4}`);
      expect(stepText(session, 't7')).toContain('16¾ in from the edge');
      // Shorter than what is knitted: nothing is left, and the length told is that of what is knitted.
      setLength('15 in');
      expect(rounds('rounds_left')).toBe(0);
      expect(stepText(session, 't7')).toContain('16½ in from the edge');
    });

  test('shape a sleeve, and a length that is changed: likewise', () => {
    for (const [name, length, shaped, last] of [
      ['shape-sleeve', 'sleeve_length', 't4', 't5'],
      ['adapt-length', 'length_wanted', 't3', 't5'],
    ] as const) {
      const session = createSession({ notebook: openNotebook(name), today: TEST_DAY, random: () => 0.5 });
      const before = stepText(session, last);
      session.rowOn(shaped);
      const cell = session.live.sheet.idOf(length) ?? '';
      const column = session.page().columns.find(({ chosen }) => chosen)?.id ?? null;
      const place = session.live.sheet.info(cell).each ? column : null;
      expect(session.type({ cell, column: place }, '18 in').done).toBe(true);
      expect(stepText(session, last)).not.toBe(before);
    }
  });
});
