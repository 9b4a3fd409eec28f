/*
 * How a value came to be, unfolded: the formula in names, the same with the numbers put in, what was made whole
 * and what that cost, and what the value comes to.
 */

import { inWords, type Node, type Plan, spacedName } from '../formula/index.ts';
import { asPrinted, LENGTH, printed } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { inRounds, planSays } from '../telling/index.ts';
import type { Live } from './live.ts';
import type { WorkingsView } from './page.ts';
import { roundingsOf } from './roundings.ts';
import { printAt, printStep, remarksAt, unitAt, wordsAt } from './show.ts';
import { isInRounds } from './shown-as.ts';

/** In workings a length is told to a hundredth where its own step would hide more than that. */
const CLOSELY = 100;

/** A length to a hundredth, so that the arithmetic can be followed by hand; undefined where its own step tells as much. */
function closer(live: Live, id: string, column: number): number | undefined {
  const value = live.sheet.value(id, column);
  if (value.kind !== 'quantity' || value.type.dimension !== LENGTH) return undefined;
  const shown = unitAt(live, id, column, value);
  const step = printStep(live, id, shown, live.sheet.info(id).typed, undefined);
  const hidden = Math.abs(asPrinted(value.value, shown, false, step) - value.value);
  return hidden * 2 * CLOSELY > shown.factor ? shown.factor / CLOSELY : undefined;
}

function withNumbers(live: Live, tree: Node, column: number): string {
  return inWords(tree, 0, {
    spec: (name) => live.sheet.spec(name),
    across: spacedName,
    cell: (name) => {
      const id = live.sheet.idOf(name);
      if (id === undefined) return spacedName(name);
      const at = live.sheet.info(id).each ? column : 0;
      const text = wordsAt(live, id, at, closer(live, id, at));
      return text === 'not known yet' || text === 'not given' ? spacedName(name) : text;
    },
  });
}

/** The workings of a cell in a column. */
export function workingsOf(live: Live, id: string, column: number): WorkingsView {
  const tree = live.sheet.tree(id, column);
  const value = live.sheet.value(id, column);
  const typed = live.sheet.info(id).typed;
  const lines: { label: string; text: string }[] = [];
  if (tree && !typed) {
    const names = inWords(tree, 0, { cell: spacedName, spec: (name) => live.sheet.spec(name) });
    const numbers = withNumbers(live, tree, column);
    lines.push({ label: 'in names', text: names });
    if (numbers !== names) lines.push({ label: 'in numbers', text: numbers });
  }
  if (!['empty', 'waiting', 'problem'].includes(value.kind))
    lines.push({ label: typed ? 'typed' : 'comes to', text: outcome(live, id, column, value) });
  return {
    id,
    lines,
    roundings:
      tree && !typed
        ? roundingsOf(live, { id, tree, column, words: (part) => withNumbers(live, part, column) })
        : [],
    uses: live.sheet.uses(id),
    feeds: live.sheet.feeds(id),
    plan: value.kind === 'plan' ? linesOf(live, id, column, value.plan) : [],
    remarks: remarksOf(live, id, column, value),
  };
}

/** A value as the sheet shows it, and where that hides some of a length, the length. */
function outcome(live: Live, id: string, column: number, value: Value): string {
  const shown = printed(printAt(live, id, column, value));
  const step = closer(live, id, column);
  const { number } = printAt(live, id, column, value, undefined, step);
  return step === undefined || shown.startsWith(`${number} `)
    ? shown
    : `${shown}, rounded for show from ${number}`;
}

function linesOf(live: Live, id: string, column: number, plan: Plan): readonly string[] {
  const round = isInRounds(live, id, column);
  return plan.steps.map(({ says }) => (round ? inRounds(says) : says));
}

function remarksOf(live: Live, id: string, column: number, value: Value): readonly string[] {
  if (value.kind === 'plan') return planSays(value.plan, isInRounds(live, id, column));
  return live.sheet.info(id).typed ? [] : remarksAt(live, id);
}
