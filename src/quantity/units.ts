/*
 * The units of the language by name, and unit expressions such as "st / 4 in": what a value is shown in.
 * A value is always a plain number in base units (10 µm, g, stitches, rows, minutes, skeins, money); the unit
 * it is shown in belongs to the cell, never to the value.
 */

import {
  BASES,
  type Dimension,
  dimensionOf,
  divided,
  halvesOf,
  LENGTH,
  MASS,
  MONEY,
  multiplied,
  PLAIN,
  ROW,
  raised,
  SKEIN,
  STITCH,
  TIME,
} from './dimension.ts';
import { memo } from './memo.ts';
import { UNIT_TABLE, type UnitRow } from './unit-table.ts';

/** A unit by one of its names: its symbol, how many base units it is, and its dimension. */
export interface Unit {
  readonly symbol: string;
  readonly factor: number;
  readonly dimension: Dimension;
}

/** A unit expression to show values in: its label ("st / 4 in"), base units in one of it, its dimension. */
export interface Shown {
  readonly label: string;
  readonly factor: number;
  readonly dimension: Dimension;
}

const dimensionOfRow = (row: UnitRow) => dimensionOf(BASES.map((base) => (base === row.base ? 2 : 0)));

const units = new Map<string, Unit>(
  UNIT_TABLE.flatMap((row) => {
    const unit = { symbol: row.symbol, factor: row.factor, dimension: dimensionOfRow(row) };
    return [row.symbol, ...row.also].map((name) => [name, unit] as const);
  }),
);

/** Every name of a unit. */
export const UNIT_NAMES: readonly string[] = [...units.keys()];

/** The unit of that name, also with a capital where a text processor made one ("In", "CM"). */
export function unitNamed(name: string): Unit | undefined {
  return units.get(name) ?? units.get(name.toLowerCase());
}

/** Whether a character is a currency sign. */
export function isMoneySign(text: string): boolean {
  return /^\p{Sc}$/u.test(text);
}

const TERM = /^(\d+(?:\.\d+)?)?\s*([^\d\s^/]+)(?:\^(\d))?$/u;

function term(text: string): Shown | undefined {
  const [, number = '1', name = '', exponent = '1'] = TERM.exec(text.trim()) ?? [];
  const unit = isMoneySign(name) ? { symbol: name, factor: 1, dimension: MONEY } : unitNamed(name);
  const dimension = unit && raised(unit.dimension, Number(exponent));
  if (!unit || dimension === undefined || name === '') return undefined;
  const label = (number === '1' ? '' : `${number} `) + unit.symbol + (exponent === '1' ? '' : `^${exponent}`);
  return { label, factor: Number(number) * unit.factor ** Number(exponent), dimension };
}

const read = memo<Shown | undefined>();

function readFresh(text: string): Shown | undefined {
  if (text.trim() === '') return { label: '', factor: 1, dimension: PLAIN };
  if (text.trim() === '%') return { label: '%', factor: 0.01, dimension: PLAIN };
  const terms = text.split('/').map(term);
  return terms.reduce((above, below) =>
    above && below
      ? {
          label: `${above.label} / ${below.label}`,
          factor: above.factor / below.factor,
          dimension: divided(above.dimension, below.dimension),
        }
      : undefined,
  );
}

/** Reads a unit expression: "in", "%", "st / 4 in", "m / 100 g", "€ / skein"; undefined where it is none. */
export function readUnit(text: string): Shown | undefined {
  return read(text, readFresh);
}

/** The two systems a notebook can be shown in. */
export type System = 'in' | 'cm';

/** How a sheet shows what has no unit of its own. */
export interface Manner {
  readonly system: System;
  /** The currency sign. */
  readonly money: string;
}

const BASE_LABELS = ['', 'g', 'st', 'row', 'hour', 'skein', ''];

function composed(dimension: Dimension, manner: Manner): string {
  const labels = BASE_LABELS.map((label, i) => (i === 0 ? manner.system : i === 6 ? manner.money : label));
  const part = (sign: 1 | -1) =>
    halvesOf(dimension).flatMap((n, i) => {
      const exponent = (n * sign) / 2;
      return exponent > 0 ? [`${labels[i]}${exponent === 1 ? '' : `^${exponent}`}`] : [];
    });
  const above = part(1);
  return [above.join('·') || '1', ...part(-1)].join(' / ');
}

/** The unit that a worked-out value of this dimension is shown in: lengths in the system, gauges over its square. */
export function usualUnit(dimension: Dimension, manner: Manner): Shown {
  const known = usualOf(manner);
  const before = known.get(dimension);
  if (before) return before;
  const shown = usualFresh(dimension, manner);
  known.set(dimension, shown);
  return shown;
}

function usualOf({ system, money }: Manner): Map<Dimension, Shown> {
  const before = usual[system].get(money);
  if (before) return before;
  const fresh = new Map<Dimension, Shown>();
  usual[system].set(money, fresh);
  return fresh;
}

/** By system, money and dimension, as they are asked for at every value that is printed; there are few of each. */
const usual: Readonly<Record<System, Map<string, Map<Dimension, Shown>>>> = { in: new Map(), cm: new Map() };

function usualFresh(dimension: Dimension, manner: Manner): Shown {
  if (dimension === PLAIN) return readUnit('') as Shown;
  const over = manner.system === 'in' ? '4 in' : '10 cm';
  for (const count of [STITCH, ROW])
    if (dimension === divided(count, LENGTH))
      return readUnit(`${count === STITCH ? 'st' : 'row'} / ${over}`) as Shown;
  if (dimension === divided(LENGTH, MASS)) return readUnit('m / 100 g') as Shown;
  const label = composed(dimension, manner);
  return readUnit(label) ?? { label, factor: factorOf(dimension, manner), dimension };
}

function factorOf(dimension: Dimension, manner: Manner): number {
  const bases = [LENGTH, MASS, STITCH, ROW, TIME, SKEIN, MONEY];
  const factors = [manner.system === 'in' ? 2540 : 1000, 1, 1, 1, 60, 1, 1];
  return bases.reduce((total, _, i) => total * (factors[i] ?? 1) ** ((halvesOf(dimension)[i] ?? 0) / 2), 1);
}

/** The same kind of unit in the other system: "in" ↔ "cm", "st / 4 in" ↔ "st / 10 cm"; others, as a needle's mm, stay. */
export function inSystem(shown: Shown, manner: Manner): Shown {
  if (shown.dimension === PLAIN || shown.dimension === STITCH || shown.dimension === ROW) return shown;
  const lengthwise =
    shown.dimension === LENGTH ||
    multiplied(shown.dimension, LENGTH) === STITCH ||
    multiplied(shown.dimension, LENGTH) === ROW;
  if (!lengthwise || /\b(mm|m|yd|ft)\b/.test(shown.label)) return shown;
  const imperial = /\bin\b/.test(shown.label);
  return imperial === (manner.system === 'in') ? shown : usualUnit(shown.dimension, manner);
}
