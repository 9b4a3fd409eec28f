/*
 * A typed value written anew, as a knitter would type it: the number with its unit and its basis, and how far off it
 * can be. For working back, which finds a number, and for a tolerance that is put in, moved or taken away.
 */

import {
  dayText,
  MINUTES_A_DAY,
  printTyped,
  type TypedNumber,
  tokenise,
  typedNumber,
} from '../formula/index.ts';
import { inSystem, printUnit, type Shown, snapped } from '../quantity/index.ts';
import type { Live } from './live.ts';
import type { Place } from './page.ts';
import { mannerOf, unitAt } from './show.ts';

/** A number as one writes it: 107, −0,5, 3 1/2, 3½, 1/2. As a piece of a pattern (flag u). */
export const A_NUMBER = String.raw`[-−]?\s*(?:\d[\d.,]*(?:\s+\d+\/\d+|\s?[½¼¾⅓⅔⅛⅜⅝⅞]|\/\d+)?|[½¼¾⅓⅔⅛⅜⅝⅞]|[.,]\d+)`;

/** The text that stands at a place. */
export function textAt(live: Live, { cell, column }: Place): string {
  const over = live.topText(cell);
  return over.each ? (column === null ? '' : (over.each[column] ?? '')) : (over.text ?? '');
}

/** A number with all the digits it needs, or as a fraction beside inches where that is exact. */
export function digits(number: number, shown: Shown): string {
  const exact = Number(number.toPrecision(14));
  const eighths = snapped(exact * 8);
  const isFraction = Number.isInteger(eighths) && Math.abs(eighths - exact * 8) < 1e-12;
  return isFraction ? printTyped({ number: exact, shown }).number.replace('−', '-') : plainDigits(exact);
}

/** Without an exponent: 0.0000012, not 1.2e-6. */
function plainDigits(number: number): string {
  const text = String(number);
  return /e/i.test(text) ? number.toFixed(20).replace(/\.?0+$/, '') : text;
}

/** A value and its tolerance (0 for none), both in base units, as a text to type. */
export function typedText(value: number, off: number, shown: Shown): string {
  return withLabel(digits(value / shown.factor, shown), off > 0 ? offDigits(off, shown) : '', shown);
}

/** A number and its tolerance ("" for none), both written already, with their unit. */
export function withLabel(number: string, off: string, { label }: Shown): string {
  const about = off === '' ? '' : ` ± ${off}`;
  if (label === '') return `${number}${about}`;
  if (label === '%') return about ? `${number}%${about}%` : `${number}%`;
  return /^\p{Sc}$/u.test(label)
    ? `${label}${number}${about && `${about} ${label}`}`
    : `${number}${about} ${printUnit(label, number)}`;
}

/** A tolerance in base units as a number to type: as much of it as anybody means. */
export function offDigits(off: number, shown: Shown): string {
  return digits(Number((off / shown.factor).toPrecision(3)), shown);
}

/** Where the ± of a text stands; where it ends, if it has none. */
export function plusMinusAt(text: string): number {
  return tokenise(text).tokens.find((token) => token.kind === 'plusminus')?.from ?? text.length;
}

/** What is typed at a place, taken apart: undefined for arithmetic and for what is no number. */
export function typedAt(live: Live, id: string, column: number): TypedNumber | undefined {
  const tree = live.sheet.info(id).typed ? live.sheet.tree(id, column) : undefined;
  return tree && typedNumber(tree);
}

/** The unit a typed value was written in. */
export function typedUnit(live: Live, id: string, column: number): Shown | undefined {
  const typed = typedAt(live, id, column);
  if (typed) return typed.shown;
  const value = live.sheet.value(id, column);
  return value.kind === 'quantity' ? unitAt(live, id, column, value, true) : undefined;
}

/** The unit a typed value is shown in: the one it was written in, or that of its kind in the notebook's own system. */
export function shownUnit(live: Live, id: string, column: number): Shown | undefined {
  const unit = typedUnit(live, id, column);
  return unit && inSystem(unit, mannerOf(live));
}

/** The text of a place with another value in it, its tolerance as it was. */
export function withValue(live: Live, id: string, column: number, value: number): string | undefined {
  const { type } = live.sheet.info(id);
  if (type.kind === 'truth') return value === 1 ? 'yes' : 'no';
  if (type.kind === 'label') return `"${live.sheet.around.store.labelText(value)}"`;
  if (type.kind === 'date') return dayText(value / MINUTES_A_DAY);
  const shown = shownUnit(live, id, column);
  return shown && typedText(value, live.sheet.tolerance(id, column), shown);
}

/** The text of a place with another tolerance, in base units; 0 takes it away. */
export function withTolerance(
  live: Live,
  id: string,
  column: number,
  text: string,
  off: number,
): string | undefined {
  const value = live.sheet.value(id, column);
  const typed = typedAt(live, id, column);
  if (value.kind !== 'quantity') return undefined;
  if (typed && plusMinusAt(text) === text.length) return inserted(text, off, typed);
  if (typed) return replaced(text, off, typed.shown) ?? typedText(value.value, off, typed.shown);
  const bare = text.slice(0, plusMinusAt(text)).trim();
  const shown = unitAt(live, id, column, value, true);
  return off > 0 ? `${bare} ± ${digits(off / shown.factor, shown)} ${shown.label}`.trim() : bare;
}

/** "18 ± 0.5 st / 4 in" with another tolerance, the rest as it was typed; undefined where it is written otherwise. */
function replaced(text: string, off: number, shown: Shown): string | undefined {
  const parts =
    /^(\s*[-−]?\s*[\d.,½¼¾⅓⅔⅛⅜⅝⅞]+(?:\s+\d+\/\d+)?)\s*(?:±|\+\/-|\+-)\s*[\d.,½¼¾⅓⅔⅛⅜⅝⅞]+(?:\s+\d+\/\d+)?(?=\s|$)([^±]*)$/u.exec(
      text,
    );
  if (!parts) return undefined;
  const about = off > 0 ? ` ± ${offDigits(off, shown)}` : '';
  return `${parts[1]}${about}${parts[2]}`;
}

/** Puts a tolerance behind the number of a text, which otherwise stays as it was typed. */
export function inserted(text: string, off: number, { number, shown }: TypedNumber): string {
  if (off <= 0) return text;
  const simple = /^\s*([-−]?\s*[\d.,½¼¾⅓⅔⅛⅜⅝⅞]+(?:\s+\d+\/\d+)?)\s+([\p{L}/ \d.]+)$/u.exec(text);
  const [, written, unit] = simple ?? [];
  if (written === undefined || unit === undefined || /^(ft|feet)/.test(unit))
    return typedText(number * shown.factor, off, shown);
  return `${written} ± ${offDigits(off, shown)} ${unit}`;
}
