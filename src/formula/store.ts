/*
 * Every value is a number. Labels and plans are kept here once each and known by their number, so that whether a
 * value changed is a comparison of two numbers, also for a plan of a hundred rows.
 */

import type { Problem } from './problem.ts';
import type { Plan, PlanSpec } from './spec.ts';

/** Keeps labels and plans by number. */
export interface Store {
  /** The number of a label's text. */
  label(text: string): number;
  labelText(id: number): string;
  /** Whether two labels are the same, ignoring case. */
  sameLabel(a: number, b: number): boolean;
  /** The number of the plan that `spec` lays out for these arguments; NaN where it gives a problem. */
  plan(spec: PlanSpec, args: readonly number[]): number;
  /** The problem that came instead of a plan. */
  planProblem(spec: PlanSpec, args: readonly number[]): Problem | undefined;
  planAt(id: number): Plan;
}

const KEPT_PLANS = 20_000;

/** A new, empty store. */
export function createStore(): Store {
  const texts: string[] = [];
  const folds: number[] = [];
  const labels = new Map<string, number>();
  const plans: Plan[] = [];
  const outcomes = new Map<string, number | Problem>();

  const label = (text: string): number => {
    const known = labels.get(text);
    if (known !== undefined) return known;
    const id = texts.push(text) - 1;
    labels.set(text, id);
    const folded = text.toLowerCase();
    folds.push(folded === text ? id : label(folded));
    return id;
  };
  const outcome = (spec: PlanSpec, args: readonly number[]): number | Problem => {
    const key = `${spec.name} ${args.join(' ')}`;
    let known = outcomes.get(key);
    if (known === undefined) {
      if (outcomes.size > KEPT_PLANS) outcomes.clear();
      const made = spec.work(...args.map((arg) => (Number.isNaN(arg) ? undefined : arg)));
      known = 'code' in made ? made : plans.push(made) - 1;
      outcomes.set(key, known);
    }
    return known;
  };
  return {
    label,
    labelText: (id) => texts[id] ?? '',
    sameLabel: (a, b) => folds[a] === folds[b],
    plan: (spec, args) => {
      const made = outcome(spec, args);
      return typeof made === 'number' ? made : Number.NaN;
    },
    planProblem: (spec, args) => {
      const made = outcome(spec, args);
      return typeof made === 'number' ? undefined : made;
    },
    planAt: (id) => {
      const plan = plans[id];
      if (!plan) throw new Error(`no plan ${id}`);
      return plan;
    },
  };
}
