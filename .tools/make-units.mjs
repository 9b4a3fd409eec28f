// Writes src/quantity/unit-table.ts: the factors come from mathjs, the names are the knitter's.
// Run: node .tools/make-units.mjs  (tests/quantity/units.test.ts pins the table against mathjs)
import { writeFileSync } from 'node:fs';
import { all, create } from 'mathjs';

const math = create(/** @type {import('mathjs').FactoryFunctionMap} */ (all));
/** @type {Record<string, number>} */
const perBase = { length: 1e-5, mass: 1e-3, time: 60 }; // 10 µm in m, g in kg, minute in s
/** @type {Record<string, number>} */
const own = { stitch: 1, row: 1, ridge: 2, skein: 1 };
/** @type {[string, string, string, string[]][]} */
const rows = [
  ['mm', 'length', 'mm', []],
  ['cm', 'length', 'cm', []],
  ['m', 'length', 'm', []],
  ['in', 'length', 'inch', ['inch', 'inches']],
  ['ft', 'length', 'ft', []],
  ['yd', 'length', 'yd', ['yard', 'yards']],
  ['g', 'mass', 'g', []],
  ['kg', 'mass', 'kg', []],
  ['oz', 'mass', 'oz', []],
  ['lb', 'mass', 'lb', []],
  ['minute', 'time', 'minute', ['minutes']],
  ['hour', 'time', 'hour', ['hours']],
  ['day', 'time', 'day', ['days']],
  ['week', 'time', 'week', ['weeks']],
  ['st', 'stitch', 'stitch', ['sts', 'stitch', 'stitches']],
  ['row', 'row', 'row', ['rows']],
  ['rnd', 'row', 'row', ['rnds', 'round', 'rounds']],
  ['ridge', 'row', 'ridge', ['ridges']],
  ['skein', 'skein', 'skein', ['skeins']],
  ['ball', 'skein', 'skein', ['balls']],
];

/**
 * @param {string} base
 * @param {string} unit
 */
const factorOf = (base, unit) =>
  own[unit] ?? Number(/** @type {any} */ (math.unit(1, unit).value / (perBase[base] ?? 1)).toPrecision(13));

const lines = rows.map(
  ([symbol, base, unit, also]) =>
    `  { symbol: '${symbol}', base: '${base}', factor: ${factorOf(base, unit)}, also: [${also.map((n) => `'${n}'`).join(', ')}] },`,
);
writeFileSync(
  new URL('../src/quantity/unit-table.ts', import.meta.url),
  `// Written by .tools/make-units.mjs from mathjs's own units; do not edit by hand.
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
${lines.join('\n')}
];
`,
);
