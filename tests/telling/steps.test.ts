// Steps as patterns print them: plans unfolded line by line with the count after each, plurals, and the key of
// abbreviations. Rules of print are common practice; the turn's rows are those of the 1896 book named below.
import { describe, expect, test } from 'vitest';
import { heelTurn, join, shape, spreadFlat, spreadRound, toe } from '../../src/craft/index.ts';
import type { Plan, PlanSpec } from '../../src/formula/index.ts';
import { abbreviationsIn, type Filled, sizeLine, tellPlan, tellStep } from '../../src/telling/index.ts';

function planOf(spec: PlanSpec, ...args: readonly number[]): Plan {
  const plan = spec.work(...args);
  if ('code' in plan) throw new Error(plan.code);
  return plan;
}

const words = (text: string): Filled => ({ kind: 'words', text });
const value = (text: string, cell = 'k1'): Filled => ({ kind: 'value', cell, text });
const plan = (given: Plan, cell = 'k9'): Filled => ({ kind: 'plan', cell, plan: given });

function linesOf(given: Plan, round = false): readonly string[] {
  return tellPlan(given, round).lines.map(({ label, text, after }) => `${label}: ${text}: ${after}`);
}

describe('plans unfolded', () => {
  test('a sleeve worked on any row', () => {
    const sleeve = planOf(shape, 43, 71, 107, 2, 1);
    expect(linesOf(sleeve)).toEqual([
      'Rows 1–35: increase 2 sts every 7th row 5 times: 53 sts',
      'Rows 36–107: increase 2 sts every 8th row 9 times: 71 sts',
    ]);
    expect(tellPlan(sleeve, false).sum).toBe('35 + 72 = 107 rows; 43 + 14 × 2 = 71 sts');
  });

  test('the same sleeve in the round counts rounds', () => {
    const sleeve = planOf(shape, 43, 71, 107, 2, 1);
    expect(linesOf(sleeve, true)[0]).toBe('Rnds 1–35: increase 2 sts every 7th rnd 5 times: 53 sts');
    expect(tellPlan(sleeve, true).sum).toContain('= 107 rnds');
  });

  test('worked flat, the first right-side row is named', () => {
    const sleeve = planOf(shape, 43, 71, 100, 2, 2);
    expect(linesOf(sleeve)).toEqual([
      'Rows 1–4: 4 rows plain: 43 sts',
      'Row 5 (RS): increase 2 sts: 45 sts',
      'Rows 6–35: increase 2 sts every 6th row 5 times: 55 sts',
      'Rows 36–99: increase 2 sts every 8th row 8 times: 71 sts',
      'Row 100: 1 row plain: 71 sts',
    ]);
    expect(tellPlan(sleeve, false).sum).toBe('4 + 1 + 30 + 64 + 1 = 100 rows; 43 + 14 × 2 = 71 sts');
  });

  test('a heel turn row by row: H. P. Ryder, Knickerbocker Stockings, 1896, heel of 28', () => {
    const lines = linesOf(planOf(heelTurn, 28, 16));
    expect(lines.slice(0, 3)).toEqual([
      'Row 1 (RS): sl1, k15, k2tog, k1, turn: 27 sts',
      'Row 2 (WS): sl1, p5, p2tog, p1, turn: 26 sts',
      'Row 3 (RS): sl1, k6, k2tog, k1, turn: 25 sts',
    ]);
    expect(lines.at(-1)).toBe('Row 12 (WS): sl1, p14, p2tog, turn: 16 sts');
  });

  test('a toe counts rounds of four', () => {
    expect(linesOf(planOf(toe, 60, 8, 32, 44))).toEqual([
      'Rnd 1: decrease 4 sts: 56 sts',
      'Rnds 2–10: decrease 4 sts every 3rd rnd 3 times: 44 sts',
      'Rnds 11–16: decrease 4 sts every 2nd rnd 3 times: 32 sts',
      'Rnds 17–22: decrease 4 sts every rnd 6 times: 8 sts',
    ]);
  });

  test('an edging says what is left, and its sum', () => {
    const told = tellPlan(planOf(join, 347, 5), false);
    expect(told.lines[1]).toEqual({
      label: 'Rows 173–174',
      text: 'take 2 at join 87 (repeat 18, join 2)',
      after: '259 sts left',
      rows: [173, 174],
    });
    expect(told.sum).toBe('343 + 2 × 2 = 347 sts');
  });

  test('what happens once is said with its row, and nothing left is said so', () => {
    expect(linesOf(planOf(shape, 40, 44, 25, 2, 1))).toEqual([
      'Rows 1–12: increase 2 sts on row 12: 42 sts',
      'Rows 13–25: increase 2 sts on row 25: 44 sts',
    ]);
    expect(linesOf(planOf(shape, 40, 42, 1, 2, 1), true)).toEqual(['Rnd 1: increase 2 sts: 42 sts']);
    expect(tellPlan(planOf(join, 10, 5), false).lines.at(-1)?.after).toBe('none left');
  });

  test('a mend in a plan that was worked out again is said once', () => {
    const sleeve = planOf(shape, 43, 71, 107, 2, 1);
    const rest = shape.resume(sleeve, 37, 52);
    if ('code' in rest) throw new Error(rest.code);
    expect(linesOf(rest)[0]).toBe('Row 38: increase 1 st to put the count right: 53 sts');
  });

  test('a plan of a thousand lines is cut, and says so', () => {
    const told = tellPlan(planOf(join, 1500, 5, 250), false);
    expect(told.lines.length).toBe(120);
    expect(told.more).toMatch(/^and \d+ lines more$/);
  });
});

describe('steps', () => {
  test('words and values are runs; a value names its cell', () => {
    const told = tellStep([words('Cast on '), value('88 sts'), words('.')]);
    expect(told.runs).toEqual([
      { text: 'Cast on ', cell: '' },
      { text: '88 sts', cell: 'k1' },
      { text: '.', cell: '' },
    ]);
    expect(told.text).toBe('Cast on 88 sts.');
  });

  test('a unit is not said twice', () => {
    expect(tellStep([words('Cast on '), value('88 sts'), words(' sts.')]).text).toBe('Cast on 88 sts.');
    expect(tellStep([words('Slip '), value('1 st'), words(' sts.')]).text).toBe('Slip 1 st.');
  });

  test('a plan that ends the sentence is unfolded below it', () => {
    const told = tellStep([words('Shape the sleeve: '), plan(planOf(shape, 43, 71, 107, 2, 1)), words('.')]);
    expect(told.runs).toEqual([{ text: 'Shape the sleeve:', cell: '' }]);
    expect(told.plans[0]).toMatchObject({ cell: 'k9', sum: expect.stringContaining('71 sts') });
    expect(told.text).toBe(
      'Shape the sleeve: Rows 1–35: increase 2 sts every 7th row 5 times: 53 sts. ' +
        'Rows 36–107: increase 2 sts every 8th row 9 times: 71 sts.',
    );
  });

  test('a plan in mid-sentence is told in it and unfolded as well', () => {
    const told = tellStep([words('Work '), plan(planOf(toe, 24, 8, 12)), words(', then break off.')]);
    expect(told.runs.map(({ text }) => text).join('')).toMatch(
      /^Work decrease on rnd 1.*, then break off\.$/,
    );
    expect(told.plans).toHaveLength(1);
  });

  test('a plan along one row stands in its sentence with its sum', () => {
    const told = tellStep([words('Next rnd: '), plan(planOf(spreadRound, 14, 124)), words('.')]);
    expect(told.plans).toEqual([]);
    expect(told.text).toBe('Next rnd: (k8, m1) 2 times, (k9, m1) 12 times; 138 sts (16 + 108 = 124 before).');
  });

  test('a step that speaks of rounds has its plan in rounds, unless a right side is named', () => {
    const sleeve = plan(planOf(shape, 43, 71, 107, 2, 1));
    expect(tellStep([words('In the round, shape: '), sleeve]).text).toContain('every 7th rnd');
    expect(tellStep([words('Beginning with a RS row after the last round: '), sleeve]).text).toContain(
      'every 7th row',
    );
  });

  test('a row that is worked flat keeps half a gap at each edge', () => {
    expect(tellStep([plan(planOf(spreadFlat, -2, 347))]).text).toContain('k86, k2tog, k171, k2tog, k86');
  });
});

describe('all sizes at once', () => {
  test.each([
    [['176', '198', '220'], 'sts', '176 (198, 220) sts'],
    [['12', '12', '12'], 'sts', '12 sts'],
    [['40½', '', '44'], 'in', '40½ (—, 44) in'],
    [['10', '12'], '%', '10 (12)%'],
    [['S', 'M'], '', 'S (M)'],
    [['5', '6'], '€', '€5 (6)'],
  ])('%j %s', (numbers, unit, line) => {
    expect(sizeLine(numbers.map((number) => ({ number, unit })))).toBe(line);
  });

  test('one stitch beside many prints the plural', () => {
    const values = [
      { number: '1', unit: 'st' },
      { number: '2', unit: 'sts' },
    ];
    expect(sizeLine(values)).toBe('1 (2) sts');
  });
});

describe('the key of abbreviations', () => {
  const shorts = (text: string) => abbreviationsIn(text).map(({ short }) => short);

  test('holds what is used and nothing else', () => {
    expect(shorts('Row 1 (RS): sl1, k15, k2tog, k1, turn: 27 sts')).toEqual([
      'k',
      'k2tog',
      'sl',
      'st, sts',
      'RS',
    ]);
    expect(shorts('(k8, m1) 2 times every 3rd rnd')).toEqual(['k', 'm1', 'rnd, rnds']);
    expect(shorts('p5, p2tog, ssk, k3tog')).toEqual(['k3tog', 'p', 'p2tog', 'ssk'].sort(byOrder));
  });

  test('takes no word for an abbreviation that only looks like one', () => {
    expect(shorts('Keep the 1st ball of pink in a pm bag')).toEqual(['pm']);
    expect(shorts('Knit 40 rows; last step')).toEqual([]);
  });
});

const order = ['k', 'p', 'k2tog', 'p2tog', 'k3tog', 'ssk'];
const byOrder = (a: string, b: string) => order.indexOf(a) - order.indexOf(b);
