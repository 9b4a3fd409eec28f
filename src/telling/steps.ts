/*
 * A step of a pattern as it is printed. It comes in filled: words, values of cells, and plans. A plan along one row
 * stands in its sentence; a plan over rows is unfolded below it, line by line with the count after each, and when it
 * ends its sentence it is not also told within.
 *
 * "Shape the sleeve: {sleeve}." becomes "Shape the sleeve:" and the lines "Rows 1–35: increase 2 sts every 7th row
 * 5 times: 53 sts" and so on.
 */

import type { Plan } from '../formula/index.ts';
import type { Printed } from '../quantity/index.ts';
import { isAlongRow, planText, type ToldPlan, tellPlan } from './plan-lines.ts';

/** A piece of a step, filled: words of its own, a cell's value as printed, or a cell's plan. */
export type Filled =
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'value'; readonly cell: string; readonly text: string }
  | { readonly kind: 'plan'; readonly cell: string; readonly plan: Plan; readonly round?: boolean };

/** A run of printed text; `cell` is the id of the cell whose value it shows, "" for words. */
export interface ToldRun {
  readonly text: string;
  readonly cell: string;
}

/** A step as it is printed. */
export interface ToldStep {
  readonly runs: readonly ToldRun[];
  /** The plans unfolded below it, each with the cell it is in. */
  readonly plans: readonly (ToldPlan & { readonly cell: string })[];
  /** All of it as one text, for keeping what was printed and for the key of abbreviations. */
  readonly text: string;
}

/** Whether a step is knitted round: its own words say so, or the rows of its plan are rounds. */
export function isRound(parts: readonly Filled[]): boolean {
  const words = parts.map((part) => (part.kind === 'plan' ? '' : part.text)).join(' ');
  const round = parts.some((part) => part.kind === 'plan' && part.round);
  return (
    (round || /\b(rnds?|rounds?|in the round)\b/i.test(words)) &&
    !/\b(RS|WS|right side|wrong side)\b/.test(words)
  );
}

/** A step from its filled parts. */
export function tellStep(parts: readonly Filled[]): ToldStep {
  const round = isRound(parts);
  const runs: ToldRun[] = [];
  const plans: (ToldPlan & { readonly cell: string })[] = [];
  let endsWithLines = false;
  for (const [i, part] of parts.entries()) {
    if (part.kind !== 'plan') {
      addRun(runs, part);
      continue;
    }
    const unfolded = !isAlongRow(part.plan);
    if (unfolded) plans.push({ ...tellPlan(part.plan, round), cell: part.cell });
    if (unfolded && endsAt(parts, i)) endsWithLines = true;
    else runs.push({ text: planText(part.plan, round), cell: part.cell });
  }
  const told = tidied(runs, endsWithLines);
  return { runs: told, plans, text: textOf(told, plans) };
}

/** Whether only punctuation follows. */
function endsAt(parts: readonly Filled[], index: number): boolean {
  return parts.slice(index + 1).every((part) => part.kind === 'words' && /^[\s.;:]*$/.test(part.text));
}

/** Adds a run; a unit that the value before has printed already is not said twice ("88 sts sts"). */
function addRun(runs: ToldRun[], part: Filled & { readonly kind: 'words' | 'value' }): void {
  const unit = part.kind === 'words' ? / (sts?|rows?|rnds?)$/.exec(runs.at(-1)?.text ?? '')?.[1] : undefined;
  const stem = unit?.replace(/s$/, '');
  const text = stem ? part.text.replace(new RegExp(`^ ${stem}s?\\b`), '') : part.text;
  if (text !== '') runs.push({ text, cell: part.kind === 'value' ? part.cell : '' });
}

/** Runs without blanks at the ends; where lines are what the sentence ends with, it ends with a colon. */
function tidied(runs: readonly ToldRun[], endsWithLines: boolean): readonly ToldRun[] {
  const kept = [...runs];
  while (kept.length > 0 && /^[\s.;:]*$/.test(kept.at(-1)?.text ?? '') && endsWithLines) kept.pop();
  const last = kept.at(-1);
  if (!last || !endsWithLines) return kept;
  const ended = last.text.replace(/[\s.;:,]+$/, '');
  return last.cell === ''
    ? [...kept.slice(0, -1), { ...last, text: `${ended}:` }]
    : [...kept, { text: ':', cell: '' }];
}

function textOf(runs: readonly ToldRun[], plans: ToldStep['plans']): string {
  const lines = plans.flatMap(({ lines: all, more }) => [
    ...all.map(({ label, text, after }) => `${label === '' ? '' : `${label}: `}${text}: ${after}.`),
    ...(more === '' ? [] : [`${more}.`]),
  ]);
  return [runs.map(({ text }) => text).join(''), ...lines].join(' ').replace(/\s+/g, ' ').trim();
}

/** Values of all sizes as patterns print them, "176 (198, 220) sts"; one value when they are all the same. */
export function sizeLine(values: readonly Printed[]): string {
  const numbers = values.map(({ number }) => (number === '' ? '—' : number));
  const [first = '—', ...rest] = numbers;
  const units = values.map(({ unit }) => unit).filter((unit) => unit !== '');
  const unit = units.find((one) => /^\w+s\b/.test(one)) ?? units[0] ?? '';
  const line = rest.every((number) => number === first) ? first : `${first} (${rest.join(', ')})`;
  if (unit === '') return line;
  return unit === '%' ? `${line}%` : /^\p{Sc}$/u.test(unit) ? `${unit}${line}` : `${line} ${unit}`;
}
