/*
 * How a number with a unit reads on paper: 41¾ in, 23.5 cm, 18½ sts / 4 in, 198.9 sts. Printing never feeds back:
 * what is worked out next always takes the full value.
 */

import { isCount, LENGTH, PLAIN, TIME } from './dimension.ts';
import { memo } from './memo.ts';
import { snapped, wholeNear } from './snap.ts';
import type { Shown } from './units.ts';

/** A number and its unit as printed. */
export interface Printed {
  readonly number: string;
  readonly unit: string;
}

const GLYPHS: Readonly<Record<string, string>> = {
  '1/4': '¼',
  '1/2': '½',
  '3/4': '¾',
  '1/8': '⅛',
  '3/8': '⅜',
  '5/8': '⅝',
  '7/8': '⅞',
};

const minus = (text: string, negative: boolean) => (negative ? `−${text}` : text);

/** A number to the nearest 1/`parts`, with a fraction sign: 41.75 in quarters is "41¾". */
export function printFraction(x: number, parts: number): string {
  const count = Math.abs(wholeNear(x * parts));
  const whole = Math.floor(count / parts);
  let above = count - whole * parts;
  let below = parts;
  while (above > 0 && above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  const fraction = above ? (GLYPHS[`${above}/${below}`] ?? ` ${above}/${below}`) : '';
  return minus(`${whole || !fraction ? whole : ''}${fraction}`.trim(), x < 0 && count > 0);
}

/** A number with so many decimals; trailing noughts go unless `fixed`. */
export function printDecimals(x: number, decimals: number, fixed = false): string {
  const scaled = Math.abs(wholeNear(x * 10 ** decimals)) / 10 ** decimals;
  const text = scaled.toFixed(decimals);
  const short = fixed || decimals === 0 ? text : text.replace(/\.?0+$/, '');
  return minus(short, x < 0 && scaled > 0);
}

/** Inches, feet and yards are read in fractions; centimetres in decimals. */
const IN_FRACTIONS: ReadonlySet<string> = new Set(['in', 'ft', 'yd']);

/** A number to a step of its own unit: quarters and eighths of an inch as fractions, the rest as decimals. */
function printStep(x: number, step: number, label: string): string {
  const parts = snapped(1 / step);
  if (IN_FRACTIONS.has(label) && [2, 4, 8, 16].includes(parts)) return printFraction(x, parts);
  const decimals = Math.max(0, Math.min(6, (String(step).split('.')[1] ?? '').length));
  return printDecimals(wholeNear(x / step) * step, decimals);
}

function usualStep(x: number, label: string): number {
  if (label === 'in') return 0.25;
  if (label === 'cm') return Math.abs(x) >= 10 - 0.05 ? 0.5 : 0.1;
  return label === 'ft' ? 0.1 : 1;
}

function significant(x: number): string {
  const size = Math.abs(x);
  return printDecimals(x, size < 10 ? 3 : size < 100 ? 2 : 1);
}

const MASS_DECIMALS: Readonly<Record<string, number>> = { g: 0, kg: 2, oz: 1, lb: 2 };

function printIn(x: number, shown: Shown, decided: boolean): string {
  const { dimension, label } = shown;
  if (label === '%') return printDecimals(x, 1);
  if (dimension !== PLAIN && isCount(dimension))
    return decided ? printDecimals(x, 0) : printDecimals(x, 1, true);
  if (dimension === PLAIN) return decided ? printDecimals(x, 0) : significant(x);
  if (dimension === LENGTH) return printStep(x, usualStep(x, label), label);
  if (dimension === TIME) return printDecimals(x, 1);
  if (label in MASS_DECIMALS) return printDecimals(x, MASS_DECIMALS[label] ?? 0);
  if (/^\p{Sc}$/u.test(label)) return printDecimals(x, 2, true);
  if (/^(st|row|rnd) \/ [\d.]*\s?(in|cm)$/.test(label)) return printDecimals(x, 1);
  return significant(x);
}

const PLURALS: Readonly<Record<string, string>> = {
  st: 'sts',
  row: 'rows',
  rnd: 'rnds',
  ridge: 'ridges',
  skein: 'skeins',
  ball: 'balls',
  minute: 'minutes',
  hour: 'hours',
  day: 'days',
  week: 'weeks',
};

/** A unit label as printed after a number: "st / 4 in" is "sts / 4 in" after anything but one, more or less. */
export function printUnit(label: string, number: string): string {
  return /^[-−]?1$/.test(number) ? raised(label) : plurals(label, pluralOf);
}

/** "cm^2" as one writes it by hand. */
const raised = (label: string): string => label.replace(/\^2\b/g, '²').replace(/\^3\b/g, '³');

/** Labels met, as they stand after many. */
const plurals = memo<string>();

const pluralOf = (label: string): string =>
  raised(label).replace(/^\w+/, (symbol) => PLURALS[symbol] ?? symbol);

/** A value in base units, as printed in the unit given: decided counts whole, lengths to their step. */
export function printValue(value: number, shown: Shown, decided: boolean, step?: number): Printed {
  const x = value / shown.factor;
  const number = step ? printStep(x, step / shown.factor, shown.label) : printIn(x, shown, decided);
  return { number, unit: printUnit(shown.label, number) };
}

/** What a number so large is printed to where nothing else is said. */
function significantGrain(x: number): number {
  const size = Math.abs(x);
  return size < 10 ? 0.001 : size < 100 ? 0.01 : 0.1;
}

/** How finely a value is printed, in the unit it is shown in. */
function grainOf(x: number, shown: Shown, decided: boolean): number {
  const { dimension, label } = shown;
  if (label === '%') return 0.1;
  if (isCount(dimension) && (decided || dimension !== PLAIN)) return decided ? 1 : 0.1;
  if (dimension === LENGTH) return usualStep(x, label);
  if (dimension === TIME) return 0.1;
  if (label in MASS_DECIMALS) return 10 ** -(MASS_DECIMALS[label] ?? 0);
  if (/^\p{Sc}$/u.test(label)) return 0.01;
  return /^(st|row|rnd) \/ [\d.]*\s?(in|cm)$/.test(label) ? 0.1 : significantGrain(x);
}

/** The step that a value is printed to, in the unit it is shown in: its own, or the usual one. */
function stepOf(value: number, shown: Shown, decided: boolean, step: number | undefined): number {
  return step ? step / shown.factor : grainOf(value / shown.factor, shown, decided);
}

/**
 * An end of a range as printed: as finely as any value, and rounded away from the middle, so that the range printed holds
 * the whole of the range meant. `way` is −1 for the lower end and 1 for the upper.
 */
export function printEnd(value: number, shown: Shown, decided: boolean, way: -1 | 1, step?: number): Printed {
  const grain = stepOf(value, shown, decided, step);
  const at = snapped(value / shown.factor / grain);
  return printValue((way < 0 ? Math.floor(at) : Math.ceil(at)) * grain * shown.factor, shown, decided, step);
}

/** A value in base units to what is printed of it, so that a difference told beside two values is theirs. */
export function asPrinted(value: number, shown: Shown, decided: boolean, step?: number): number {
  const grain = stepOf(value, shown, decided, step);
  return wholeNear(value / shown.factor / grain) * grain * shown.factor;
}

/**
 * A difference with its sign, to the step of what differs, or to ¼ in or a tenth of a centimetre; "" where it would
 * print as nothing.
 */
export function printDifference(value: number, shown: Shown, decided: boolean, step?: number): string {
  const x = value / shown.factor;
  const size =
    shown.label === 'cm'
      ? printDecimals(Math.abs(x), 1)
      : printValue(Math.abs(value), shown, decided, step).number;
  if (/^[0.]*$/.test(size)) return '';
  return (x < 0 ? '−' : '+') + size;
}

/** Number and unit as one text: "42¾ in", "10 %" without a gap lost, "€4.50" with its sign in front. */
export function printed({ number, unit }: Printed): string {
  if (unit === '') return number;
  if (unit === '%') return `${number}%`;
  return /^\p{Sc}$/u.test(unit) ? `${unit}${number}` : `${number} ${unit}`;
}
