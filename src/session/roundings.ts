/*
 * What was made whole on the way to a value: before and after, and what it cost in stitches or rows and in length:
 * "198.9 → 200 sts, multiple of 8; +1.1 sts, +¼ in". A formula may round within a sum, a choice or the larger of two;
 * told are the roundings that make the value what it is.
 */

import { below, isDecided, type Node, type Operator } from '../formula/index.ts';
import {
  asPrinted,
  divided,
  LENGTH,
  printDifference,
  printed,
  printValue,
  type Shown,
  same,
  usualUnit,
} from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { mannerOf, unitAt } from './show.ts';

const ROUNDINGS = new Set(['whole', 'whole_up', 'whole_down', 'multiple', 'multiple_up', 'multiple_down']);

const ARITHMETIC: ReadonlySet<Operator> = new Set(['+', '-', '*', '/', '^']);

type Call = Node & { readonly kind: 'call' };
type Quantity = Value & { readonly kind: 'quantity' };

/** A cell's formula in a column, and how a part of it is said with its numbers put in. */
export interface Formula {
  readonly id: string;
  readonly tree: Node;
  readonly column: number;
  readonly words: (part: Node) => string;
}

/** The roundings that make a cell's value what it is, each a line. */
export function roundingsOf(live: Live, formula: Formula): readonly string[] {
  const { tree, column } = formula;
  if (live.sheet.workOut(tree, column).kind !== 'quantity') return [];
  const lines = outermost(live, tree, column).map((call) => lineOf(live, formula, call));
  return [...new Set(lines)].filter((line) => line !== '');
}

/** One rounding: "198.9 → 200 sts, multiple of 8; +1.1 sts, +¼ in"; "" where it had nothing to do. */
function lineOf(live: Live, formula: Formula, call: Call): string {
  const { column, words } = formula;
  const before = live.sheet.workOut(call.args[0] as Node, column);
  const after = live.sheet.workOut(call, column);
  if (before.kind !== 'quantity' || after.kind !== 'quantity') return '';
  const unit = unitOf(live, formula, before);
  const of = multipleWords(call, words);
  const to = printed(printValue(after.value, unit, true));
  if (same(before.value, after.value))
    return of === '' ? '' : `${printValue(after.value, unit, true).number} → ${to}${of}`;
  const decided = isDecided(before.type);
  const gauge = gaugeIn(live, call, column, before.type.dimension);
  const own = after.value - before.value;
  // Told is the difference of what is printed, or the three would not add up.
  const seen = after.value - asPrinted(before.value, unit, decided);
  const all = inAll(live, formula, call, before);
  // A piece's count is rounded once and knit more than once.
  const more = all / own > 1 && !same(all, own) ? `in all ${cost(live, all, all, unit, gauge)}` : '';
  const from = printValue(before.value, unit, decided).number;
  return [`${from} → ${to}${of}`, cost(live, seen, own, unit, gauge), more]
    .filter((part) => part !== '')
    .join('; ');
}

/** What one rounding changes in the value of the whole formula; 0 where that is another kind of thing. */
function inAll(live: Live, { tree, column }: Formula, call: Call, before: Quantity): number {
  const [now, unrounded] = [tree, without(tree, call)].map((one) => live.sheet.workOut(one, column));
  return sameKind(now, before) && sameKind(unrounded, before) ? now.value - unrounded.value : 0;
}

const sameKind = (value: Value | undefined, { type }: Quantity): value is Quantity =>
  value?.kind === 'quantity' && value.type.dimension === type.dimension;

/** The outermost roundings that count: none in a test, in a branch not taken, or in what another was larger than. */
function outermost(live: Live, tree: Node, column: number): readonly Call[] {
  const within = (part: Node) => outermost(live, part, column);
  switch (tree.kind) {
    case 'call':
      if (ROUNDINGS.has(tree.name)) return [tree];
      if (tree.name === 'max' || tree.name === 'min')
        return (
          deciding(live, tree, column)
            .map(within)
            .find((found) => found.length > 0) ?? []
        );
      return tree.name === 'abs' ? tree.args.flatMap(within) : [];
    case 'binary':
      return ARITHMETIC.has(tree.op) ? [tree.left, tree.right].flatMap(within) : [];
    case 'minus':
    case 'to':
      return within(tree.of);
    case 'if': {
      const test = live.sheet.workOut(tree.test, column);
      return test.kind === 'truth' ? within(test.truth ? tree.yes : tree.no) : [];
    }
    default:
      return [];
  }
}

/** Which of the values that `max` or `min` looks at it came to: more than one where they are the same. */
function deciding(live: Live, call: Call, column: number): readonly Node[] {
  const chosen = live.sheet.workOut(call, column);
  return call.args.filter((arg) => {
    const value = live.sheet.workOut(arg, column);
    return value.kind === 'quantity' && chosen.kind === 'quantity' && same(value.value, chosen.value);
  });
}

/** A formula with one of its roundings left out. */
function without(tree: Node, call: Call): Node {
  const [x] = call.args;
  if (tree === call && x) return x;
  switch (tree.kind) {
    case 'call':
      return { ...tree, args: tree.args.map((arg) => without(arg, call)) };
    case 'binary':
      return { ...tree, left: without(tree.left, call), right: without(tree.right, call) };
    case 'minus':
    case 'to':
      return { ...tree, of: without(tree.of, call) };
    case 'if':
      return { ...tree, yes: without(tree.yes, call), no: without(tree.no, call) };
    default:
      return tree;
  }
}

/** Rounds where the cell is told in rounds. */
function unitOf(live: Live, { id, column }: Formula, before: Quantity): Shown {
  const usual = before.type.shown ?? usualUnit(before.type.dimension, mannerOf(live));
  const value = live.sheet.value(id, column);
  const own = sameKind(value, before) ? unitAt(live, id, column, value) : usual;
  return own.factor === usual.factor ? own : usual;
}

function multipleWords(call: Call, words: (part: Node) => string): string {
  if (!call.name.startsWith('multiple')) return '';
  const [, n, plus] = call.args.map(words);
  if (n === '1') return '';
  return `, multiple of ${n}${plus && plus !== '0' && !plus.startsWith('0 ') ? ` + ${plus}` : ''}`;
}

/** The gauge a count was rounded at: a cell below that is so many of what is counted to a length. */
function gaugeIn(live: Live, tree: Node, column: number, counted: number): number | undefined {
  if (tree.kind === 'cell') {
    const id = live.sheet.idOf(tree.name);
    const value = id === undefined ? undefined : live.sheet.value(id, column);
    const isGauge = value?.kind === 'quantity' && value.type.dimension === divided(counted, LENGTH);
    return isGauge && value.value !== 0 ? value.value : undefined;
  }
  for (const part of below(tree)) {
    const found = gaugeIn(live, part, column, counted);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** "+1.1 sts, +¼ in"; `shift` is the change between what is printed, `change` the whole of it. */
function cost(live: Live, shift: number, change: number, unit: Shown, gauge: number | undefined): string {
  const counted = printDifference(shift, unit, false);
  if (counted === '') return '';
  const spent = `${counted} ${printValue(shift, unit, false).unit}`.trim();
  if (gauge === undefined) return spent;
  const manner = mannerOf(live);
  const length = printDifference(change / gauge, usualUnit(LENGTH, manner), false);
  return `${spent}, ${length === '' ? 'no change you could measure' : `${length} ${manner.system}`}`;
}
