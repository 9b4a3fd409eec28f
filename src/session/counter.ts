/*
 * The row counter of a step. It knows the plan: where the next shaping is, what the next row asks for and how many
 * stitches there should be. When the count on the needles was another, the plan was worked out again from there; that
 * place and count are kept with the progress, beside the rows done, as "STEP.at" and "STEP.count".
 */

import { nextShaping, onNeedle, ordinal, rowsOf } from '../craft/index.ts';
import { isDecided, type Plan, type Problem } from '../formula/index.ts';
import type { Knitted } from '../notebook/index.ts';
import { printed, ROW } from '../quantity/index.ts';
import { isAlongRow, isRound, nounOf } from '../telling/index.ts';
import { atKey, countKey, isWorkedAgain } from './begun.ts';
import type { FilledStep } from './fill-step.ts';
import { type Live, language } from './live.ts';
import type { CounterView } from './page.ts';
import { countWords, printAt } from './show.ts';

/** What is counted of a step: how many rows there are, and the plan they follow where there is one. */
export interface Counted {
  readonly of: number;
  readonly noun: 'row' | 'rnd';
  readonly plan: Plan | undefined;
}

/** The rest of a plan after a row, or why there is none. */
export function resumed(plan: Plan, row: number, count: number): Plan | Problem {
  const spec = language.spec(plan.kind);
  if (spec?.kind !== 'plan') throw new Error(`no plan is called ${plan.kind}`);
  return spec.resume(plan, row, count);
}

/** The plan of a step as it is knitted: worked out again where the count on the needles was another. */
export function knittedPlan(progress: Knitted | undefined, step: string, plan: Plan): Plan {
  const rows = progress?.rows ?? {};
  const at = Object.hasOwn(rows, atKey(step)) ? rows[atKey(step)] : undefined;
  const count = Object.hasOwn(rows, countKey(step)) ? rows[countKey(step)] : undefined;
  if (at === undefined || count === undefined || isAlongRow(plan)) return plan;
  const rest = resumed(plan, at, count);
  return 'code' in rest ? plan : rest;
}

/** Rows done before a plan begins: 0 for a whole one. */
export const begunAfter = (plan: Plan): number => plan.totals['after_row'] ?? 0;

/** Rows that a plan has behind it before its step is begun: those of a sheet's plan that begins in the middle. */
export function beginsAfter(progress: Knitted | undefined, step: string, plan: Plan | undefined): number {
  return plan === undefined || isWorkedAgain(progress, step) ? 0 : begunAfter(plan);
}

/** What can be counted of a filled step: the rows of its first plan, or of the one count of rows it prints. */
export function countedOf(live: Live, filled: FilledStep): Counted | undefined {
  const round = isRound(filled.parts);
  const plan = planIn(filled);
  if (plan) {
    const of = begunAfter(plan) + (plan.totals['rows'] ?? 0);
    return of > 0 ? { of, plan, noun: nounOf(plan, round) } : undefined;
  }
  const rows = filled.cells.filter(
    ({ value }) =>
      value.kind === 'quantity' && value.type.dimension === ROW && isDecided(value.type) && value.value > 0,
  );
  const [first] = rows;
  if (first?.value.kind !== 'quantity' || rows.some(({ cell }) => cell !== first.cell)) return undefined;
  const unit = printed(printAt(live, first.cell, first.column, first.value));
  const noun = round || /\brnds?\b/.test(unit) ? 'rnd' : 'row';
  return { of: first.value.value, noun, plan: undefined };
}

/** The plan over rows that a step prints first; undefined where it prints none. */
export function planIn(filled: FilledStep): Plan | undefined {
  const part = filled.parts.find((one) => one.kind === 'plan' && !isAlongRow(one.plan));
  return part?.kind === 'plan' ? part.plan : undefined;
}

const EVENT: Readonly<Record<string, string>> = {
  increase: 'increase',
  decrease: 'decrease',
  take2: 'take 2',
  nojoin: 'no join',
};

function wordsOf(counted: Counted, done: number): string {
  const { of, noun, plan } = counted;
  if (done >= of) return `all ${countWords(of, noun, `${noun}s`)} done`;
  const event = plan && nextShaping(plan, done);
  const name = event && EVENT[event.do];
  const next = event && name ? `, next ${name} on ${noun} ${event.row}` : '';
  return done === 0
    ? `${countWords(of, noun, `${noun}s`)}${next.replace('next', 'first')}`
    : `${done} of ${countWords(of, noun, `${noun}s`)} done${next}`;
}

function nextOf({ of, noun, plan }: Counted, done: number): string {
  if (done >= of) return '';
  for (const row of plan ? rowsOf(plan) : [])
    if (row.row === done + 1) return `next is ${noun} ${row.row}: ${row.says}`;
  return `next is ${noun} ${done + 1}`;
}

/** The count after so many rows of a plan, as it is printed: "52 sts", "52 sts left", "198 to 206 sts left". */
export function stitchesAfter(plan: Plan, row: number): string {
  const [fewest, most] = onNeedle(plan, row);
  const range = fewest < most ? `${fewest} to ` : '';
  return `${range}${countWords(most, 'st', 'sts')}${plan.kind === 'join' ? ' left' : ''}`;
}

/** The counter of a step with so many rows done, and so often all of them before. */
export function counterView(counted: Counted, done: number, isAgain: boolean, times: number): CounterView {
  const { of, noun, plan } = counted;
  const again = plan ? begunAfter(plan) : 0;
  const where = again > 0 ? `from ${noun} ${again}` : 'from the beginning';
  const start = plan?.totals['live'] ?? plan?.totals['start'] ?? 0;
  return {
    done: Math.min(done, of),
    of,
    noun,
    words: `${times === 0 ? '' : `${ordinal(times + 1)} time: `}${wordsOf(counted, done)}`,
    times,
    next: nextOf(counted, done),
    count: plan ? stitchesAfter(plan, Math.min(done, of)) : '',
    mended: plan && isAgain ? `worked out again ${where} with ${countWords(start, 'st', 'sts')}` : '',
  };
}
