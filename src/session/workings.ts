/*
 * How a value came to be, unfolded: the formula in names, the same with the numbers put in, the value before it was
 * made whole and after, and what that cost in stitches and in length.
 */

import { inWords, isDecided, type Node, type Plan, spacedName } from '../formula/index.ts';
import {
  asPrinted,
  divided,
  isGauge,
  LENGTH,
  printDifference,
  printed,
  printValue,
  usualUnit,
} from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { inRounds, planSays } from '../telling/index.ts';
import type { Live } from './live.ts';
import type { WorkingsView } from './page.ts';
import { mannerOf, printAt, printStep, remarksAt, unitAt, wordsAt } from './show.ts';
import { isInRounds } from './shown-as.ts';

const ROUNDINGS = new Set(['whole', 'whole_up', 'whole_down', 'multiple', 'multiple_up', 'multiple_down']);

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

/** The gauge a count was rounded at: a cell in the formula that is stitches or rows to a length. */
function gaugeIn(live: Live, tree: Node, column: number): number | undefined {
  if (tree.kind === 'cell') {
    const id = live.sheet.idOf(tree.name);
    const value = id === undefined ? undefined : live.sheet.value(id, column);
    const gauge = value?.kind === 'quantity' && isGauge(value.type.dimension);
    return gauge && value.value !== 0 ? value.value : undefined;
  }
  for (const part of partsOf(tree)) {
    const found = gaugeIn(live, part, column);
    if (found !== undefined) return found;
  }
  return undefined;
}

function partsOf(tree: Node): readonly Node[] {
  if (tree.kind === 'call') return tree.args;
  if (tree.kind === 'binary') return [tree.left, tree.right];
  if (tree.kind === 'if') return [tree.yes, tree.no];
  return tree.kind === 'minus' || tree.kind === 'to' ? [tree.of] : [];
}

function multipleWords(live: Live, call: Node & { kind: 'call' }, column: number): string {
  if (!call.name.startsWith('multiple')) return '';
  const [, n, plus] = call.args.map((arg) => withNumbers(live, arg, column));
  return `, multiple of ${n}${plus && plus !== '0' && !plus.startsWith('0 ') ? ` + ${plus}` : ''}`;
}

function cost(
  live: Live,
  before: Value & { kind: 'quantity' },
  after: Value & { kind: 'quantity' },
  gauge: number | undefined,
): string {
  const manner = mannerOf(live);
  const unit = before.type.shown ?? usualUnit(before.type.dimension, manner);
  const change = after.value - before.value;
  const counted = printDifference(change, unit, false);
  if (counted === '') return '';
  const parts = [`${counted} ${printValue(change, unit, false).unit}`.trim()];
  if (gauge !== undefined && divided(before.type.dimension, LENGTH) !== before.type.dimension) {
    const length = printDifference(change / gauge, usualUnit(LENGTH, manner), false);
    parts.push(length === '' ? 'no change you could measure' : `${length} ${manner.system}`);
  }
  return `; ${parts.join(', ')}`;
}

function roundingOf(live: Live, tree: Node, column: number): string {
  if (tree.kind !== 'call' || !ROUNDINGS.has(tree.name)) return '';
  const [x] = tree.args;
  const before = x ? live.sheet.workOut(x, column) : undefined;
  const after = live.sheet.workOut(tree, column);
  if (before?.kind !== 'quantity' || after.kind !== 'quantity') return '';
  const unit = before.type.shown ?? usualUnit(before.type.dimension, mannerOf(live));
  const from = printValue(before.value, unit, isDecided(before.type));
  const to = printed(printValue(after.value, unit, true));
  const spent = cost(live, before, after, gaugeIn(live, tree, column));
  return `${from.number} → ${to}${multipleWords(live, tree, column)}${spent}`;
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
    rounding: tree && !typed ? roundingOf(live, tree, column) : '',
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
