/* Whatever a cell may hold reaches these functions; each must give a plan that holds together or a sentence. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countAt, craft, craftProblems, nextShaping, rowsOf, shape } from '../../src/craft/index.ts';
import type { Plan, PlanSpec, Problem } from '../../src/formula/index.ts';

const plans = craft.filter((spec): spec is PlanSpec => spec.kind === 'plan');
const readings = craft.filter((spec) => spec.kind === 'reading');

const anything = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: -3, max: 130 }) },
  { weight: 1, arbitrary: fc.constantFrom(1e5, 99_999, 1e6, 1e15, -1e15, Number.MAX_VALUE, 5e-324, -0) },
  { weight: 1, arbitrary: fc.constantFrom(Number.NaN, Infinity, -Infinity, 0.5, 1.5, 33.3, 20 + 1e-10) },
  { weight: 1, arbitrary: fc.integer({ min: 0, max: 100_000 }) },
);

function checkProblem({ code, parts }: Problem): void {
  const say = craftProblems[code];
  expect(say, code).toBeDefined();
  const sentence = say?.(parts) ?? '';
  expect(sentence).toMatch(/^[A-Z0-9−-].{20,}\.$/);
  expect(sentence).not.toMatch(/NaN|Infinity|undefined|null|\be\+/);
}

function checkPlan(plan: Plan): void {
  expect(plan.text).not.toBe('');
  expect(plan.text + plan.remarks.join()).not.toMatch(
    /NaN|Infinity|undefined|\.\d|-\d| 0 (st|row|rnd|time)s /,
  );
  expect(plan.steps.length).toBeLessThanOrEqual(10_000);
  for (const value of Object.values(plan.totals)) expect(Number.isInteger(value) && value >= 0).toBe(true);
  let before = plan.totals['after_row'] ?? 0;
  for (const step of plan.steps) {
    expect(Number.isInteger(step.after) && step.after >= 0).toBe(true);
    expect(step.times).toBeGreaterThan(0);
    if (!step.rows) continue;
    expect(step.rows[0]).toBe(before + 1);
    expect(step.rows[1]).toBeGreaterThanOrEqual(step.rows[0]);
    expect((step.rows[1] - before) % step.times).toBe(0);
    before = step.rows[1];
  }
}

const check = (given: Plan | Problem): void => ('code' in given ? checkProblem(given) : checkPlan(given));

describe.each(plans.map((spec) => [spec.name, spec] as const))('%s', (_, spec) => {
  const args = fc.array(anything, { minLength: spec.parameters.length, maxLength: spec.parameters.length });

  test('gives a plan that holds together, or a sentence', () => {
    fc.assert(
      fc.property(args, (given) => check(spec.work(...given))),
      { numRuns: 1500 },
    );
  });

  test('so does the rest of it, from any row and count', () => {
    fc.assert(
      fc.property(args, anything, anything, (given, row, count) => {
        const plan = spec.work(...given);
        if (!('code' in plan)) check(spec.resume(plan, row, count));
      }),
      { numRuns: 1500 },
    );
  });

  test('left-out arguments never throw', () => {
    for (let n = 0; n <= spec.parameters.length; n++) check(spec.work(...Array<number>(n).fill(40)));
  });
});

describe('the list', () => {
  test('every function has help, a source, examples and words for its call', () => {
    for (const spec of craft) {
      expect(spec.help.length).toBeGreaterThan(5);
      expect(spec.source).not.toBe('');
      expect(spec.examples.length).toBeGreaterThanOrEqual(2);
      expect(spec.says(spec.parameters.map((one) => one.name))).toMatch(/\w/);
    }
    expect(new Set(craft.map((spec) => spec.name)).size).toBe(craft.length);
  });

  test('examples with plain numbers give what they say', () => {
    let run = 0;
    for (const spec of plans) {
      for (const { text, gives } of spec.examples) {
        const inner = /^(\w+)\((.*)\)$/.exec(text);
        expect(inner?.[1]).toBe(spec.name);
        const plan = spec.work(
          ...(inner?.[2] ?? '').split(',').map((one) => (one.trim() === 'yes' ? 1 : Number.parseFloat(one))),
        );
        expect('code' in plan ? plan.code : plan.text).toBe(gives);
        run++;
      }
    }
    expect(run).toBeGreaterThanOrEqual(12);
  });

  test('examples of readings give what they say', () => {
    for (const spec of readings) {
      for (const { text, gives } of spec.examples) {
        const inner = /^(\w+)\((\w+)\((.*)\)\)$/.exec(text);
        expect(inner?.[1]).toBe(spec.name);
        const maker = plans.find((one) => one.name === inner?.[2]);
        const plan = maker?.work(...(inner?.[3] ?? '').split(',').map((one) => Number.parseFloat(one)));
        if (!plan || 'code' in plan) throw new Error(text);
        expect(spec.kind === 'reading' && spec.work(plan)).toBe(Number.parseFloat(gives));
      }
    }
  });

  test('a plan that has no such number reads NaN, which the sheet tells as a problem', () => {
    const plan = shape.work(43, 71, 107, 2, 1);
    const repeats = readings.find((spec) => spec.name === 'repeats_of');
    expect(repeats?.kind === 'reading' && !('code' in plan) && repeats.work(plan)).toBeNaN();
  });
});

test('the largest plans stay short and are read row by row', () => {
  const plan = shape.work(1, 100_000, 100_000, 1, 1);
  if ('code' in plan) throw new Error(plan.code);
  expect(plan.steps.length).toBeLessThan(5);
  expect(countAt(plan, 99_999)).toBe(99_999);
  expect(nextShaping(plan, 50_000)?.row).toBe(50_001);
  for (const row of rowsOf(plan)) if (row.row === 3) break;
});
