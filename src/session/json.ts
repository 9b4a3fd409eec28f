/*
 * A worked-out notebook as JSON, for other programs: numbers in each cell's own unit, unrounded, to 12 digits.
 */

import { dayText, type Plan } from '../formula/index.ts';
import type { Value } from '../sheet/index.ts';
import { planSays, planText, problemSentence } from '../telling/index.ts';
import type { Live } from './live.ts';
import { saysAt, unitAt } from './show.ts';
import { isInRounds } from './shown-as.ts';

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const digits = (x: number): number => Number(x.toPrecision(12)) + 0;

function other(live: Live, id: string, column: number, value: Value): Json {
  switch (value.kind) {
    case 'truth':
      return { truth: value.truth, says: saysAt(live, id, column, value) };
    case 'label':
      return { label: value.text };
    case 'date':
      return { date: dayText(value.day) };
    case 'plan':
      return { plan: value.plan.steps as unknown as Json, text: planInWords(live, id, column, value.plan) };
    case 'waiting':
      return { waiting: value.name };
    case 'problem':
      return { problem: { code: value.problem.code, says: problemSentence(value.problem) } };
    default:
      return { empty: true };
  }
}

function planInWords(live: Live, id: string, column: number, plan: Plan): string {
  const round = isInRounds(live, id, column);
  return [planText(plan, round), ...planSays(plan, round)].join('; ');
}

function single(live: Live, id: string, column: number): Json {
  const value = live.sheet.value(id, column);
  if (value.kind !== 'quantity') return other(live, id, column, value);
  const shown = unitAt(live, id, column, value, true);
  return { unit: shown.label, value: digits(value.value / shown.factor) };
}

function eachOf(live: Live, id: string, labels: readonly string[]): Json {
  const values = labels.map((_, c) => live.sheet.value(id, c));
  const at = values.findIndex((value) => value.kind === 'quantity');
  const first = values[at];
  const shown = first?.kind === 'quantity' ? unitAt(live, id, at, first, true) : undefined;
  const each = values.map((value, c) => {
    const plain =
      value.kind === 'quantity' && shown ? digits(value.value / shown.factor) : other(live, id, c, value);
    return [labels[c] as string, plain] as const;
  });
  return shown ? { unit: shown.label, each: Object.fromEntries(each) } : { each: Object.fromEntries(each) };
}

/** The whole notebook, worked out. */
export function toJSON(live: Live): Json {
  const labels = live.sheet.columnLabels;
  const cells = live.sheet.cells.map((id) => {
    const json = live.sheet.info(id).each ? eachOf(live, id, labels) : single(live, id, 0);
    return [live.sheet.nameOf(id), json] as const;
  });
  const chosen = live.sheet.chosenColumn;
  return {
    title: live.notebook.title,
    columns: labels,
    chosen: labels[chosen] ?? null,
    cells: Object.fromEntries(cells),
  };
}

/** Whether any cell has a problem. */
export function hasProblem(live: Live): boolean {
  const columns = Math.max(1, live.columns.length);
  return live.sheet.cells.some((id) =>
    Array.from({ length: live.sheet.info(id).each ? columns : 1 }, (_, c) => live.sheet.value(id, c)).some(
      (v) => v.kind === 'problem',
    ),
  );
}
