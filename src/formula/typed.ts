/*
 * Typed values show as typed: 3 1/2 in as "3½ in", 18.5 st / 4 in as "18½ sts / 4 in", 107.5 cm as it stands. This
 * file takes a typed text apart into the number, its unit and its tolerance, for printing and for nudging.
 */

import { printDecimals, printFraction, printUnit, readUnit, type Shown, snapped } from '../quantity/index.ts';
import type { Node } from './tree.ts';

/** A typed number with one unit: the number as written in that unit, and the unit with its basis (`st / 4 in`). */
export interface TypedNumber {
  readonly number: number;
  readonly shown: Shown;
}

/** The number and unit of a simple typed value (`41 in`, `18 st / 4 in`, `10%`); undefined for arithmetic. */
export function typedNumber(node: Node): TypedNumber | undefined {
  if (node.kind === 'literal') return { number: node.value / node.shown.factor, shown: node.shown };
  if (node.kind === 'minus') {
    const of = typedNumber(node.of);
    return of && { ...of, number: -of.number };
  }
  if (node.kind === 'to') return undefined;
  if (node.kind !== 'binary' || node.op !== '/') return undefined;
  const [above, below] = [typedNumber(node.left), node.right];
  if (!above || below.kind !== 'literal' || above.shown.label === '' || below.shown.label === '')
    return undefined;
  const basis = below.value / below.shown.factor;
  const shown = readUnit(
    `${above.shown.label} / ${basis === 1 ? '' : `${printDecimals(basis, 4)} `}${below.shown.label}`,
  );
  return shown && { number: above.number, shown };
}

const QUARTERS = /(^|\W)(in|ft)(\W|$)/;

/** A typed number as printed: quarters and eighths as fractions beside inches, else its decimals. */
export function printTyped({ number, shown }: TypedNumber): {
  readonly number: string;
  readonly unit: string;
} {
  const eighths = snapped(number * 8);
  const asFraction = QUARTERS.test(shown.label) && Number.isInteger(eighths);
  const text = asFraction ? printFraction(number, 8) : printDecimals(number, 4);
  return { number: text, unit: printUnit(shown.label, text) };
}
