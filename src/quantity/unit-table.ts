// Written by .tools/make-units.mjs from mathjs's own units; do not edit by hand.
import type { Base } from './dimension.ts';

/** A unit: the symbol it is kept under, its base kind, how many base units it is, and its other names. */
export interface UnitRow {
  readonly symbol: string;
  readonly base: Base;
  readonly factor: number;
  readonly also: readonly string[];
}

/** Every unit of the language. Bases: 10 µm, gram, stitch, row, minute, skein. */
export const UNIT_TABLE: readonly UnitRow[] = [
  { symbol: 'mm', base: 'length', factor: 100, also: [] },
  { symbol: 'cm', base: 'length', factor: 1000, also: [] },
  { symbol: 'm', base: 'length', factor: 100000, also: [] },
  { symbol: 'in', base: 'length', factor: 2540, also: ['inch', 'inches'] },
  { symbol: 'ft', base: 'length', factor: 30480, also: [] },
  { symbol: 'yd', base: 'length', factor: 91440, also: ['yard', 'yards'] },
  { symbol: 'g', base: 'mass', factor: 1, also: [] },
  { symbol: 'kg', base: 'mass', factor: 1000, also: [] },
  { symbol: 'oz', base: 'mass', factor: 28.349523125, also: [] },
  { symbol: 'lb', base: 'mass', factor: 453.59237, also: [] },
  { symbol: 'minute', base: 'time', factor: 1, also: ['minutes'] },
  { symbol: 'hour', base: 'time', factor: 60, also: ['hours'] },
  { symbol: 'day', base: 'time', factor: 1440, also: ['days'] },
  { symbol: 'week', base: 'time', factor: 10080, also: ['weeks'] },
  { symbol: 'st', base: 'stitch', factor: 1, also: ['sts', 'stitch', 'stitches'] },
  { symbol: 'row', base: 'row', factor: 1, also: ['rows'] },
  { symbol: 'rnd', base: 'row', factor: 1, also: ['rnds', 'round', 'rounds'] },
  { symbol: 'ridge', base: 'row', factor: 2, also: ['ridges'] },
  { symbol: 'skein', base: 'skein', factor: 1, also: ['skeins'] },
  { symbol: 'ball', base: 'skein', factor: 1, also: ['balls'] },
];
