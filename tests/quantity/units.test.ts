// The unit table against mathjs (where it comes from), against exact definitions, and against a library that shares
// no code with mathjs.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Qty from 'js-quantities';
import { all, create, type FactoryFunctionMap, type Unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  BASES,
  dimensionOf,
  inSystem,
  isMoneySign,
  LENGTH,
  MASS,
  multiplied,
  PLAIN,
  ROW,
  readUnit,
  STITCH,
  STITCH_GAUGE,
  TIME,
  UNIT_NAMES,
  unitNamed,
  usualUnit,
} from '../../src/quantity/index.ts';
import { UNIT_TABLE } from '../../src/quantity/unit-table.ts';

const data = JSON.parse(readFileSync(join(import.meta.dirname, '../data/units.json'), 'utf8')) as {
  exact: { rows: { unit: string; of: string; is: string }[] };
  gauges: { rows: { given: string; in: string; is: number }[] };
};

const math = create(all as FactoryFunctionMap);
for (const own of ['stitch', 'row', 'skein']) math.createUnit(own);
math.createUnit('ridge', '2 row');

/** What mathjs calls a unit of ours, where it has another name for it. */
const MATHJS: Readonly<Record<string, string>> = { st: 'stitch', rnd: 'row', ball: 'skein' };
const BASE_IN_MATHJS: Readonly<Record<string, string>> = {
  length: '0.01 mm',
  mass: '1 g',
  time: '1 minute',
  stitch: '1 stitch',
  row: '1 row',
  skein: '1 skein',
};

describe('the unit table', () => {
  test.each(UNIT_TABLE)('$symbol is what mathjs says it is', ({ symbol, base, factor }) => {
    const one = math.unit(1, MATHJS[symbol] ?? symbol);
    const ours = math.unit(BASE_IN_MATHJS[base] ?? '') as Unit;
    expect(one.equalBase(ours)).toBe(true);
    const ratio = math.divide(one, ours) as unknown as number;
    expect(Math.abs(ratio / factor - 1)).toBeLessThan(1e-15 * 4);
  });

  test('holds the whole table of the language and nothing else', () => {
    const words = `st sts stitch stitches row rows rnd rnds round rounds ridge ridges mm cm m in inch inches ft yd
      yard yards g kg oz lb minute minutes hour hours day days week weeks skein skeins ball balls`;
    expect([...UNIT_NAMES].sort()).toEqual(words.split(/\s+/).sort());
  });

  test('gives every name of a unit the same unit, also in capitals', () => {
    for (const { symbol, also } of UNIT_TABLE)
      for (const name of also) expect(unitNamed(name)).toBe(unitNamed(symbol));
    expect(unitNamed('CM')).toBe(unitNamed('cm'));
    expect(unitNamed('Inches')).toBe(unitNamed('in'));
  });

  test.each([
    'foot',
    'feet',
    'hand',
    'e',
    'i',
    'b',
    's',
    'h',
    't',
    'repeat',
    'size',
    'cup',
    'constructor',
    '',
  ])('"%s" is free for cells', (name) => {
    expect(unitNamed(name)).toBeUndefined();
  });
});

/** A decimal as a whole number over a power of ten, so that conversions can be exact. */
function rational(decimal: string): readonly [above: bigint, below: bigint] {
  const [whole = '', part = ''] = decimal.split('.');
  return [BigInt(whole + part), 10n ** BigInt(part.length)];
}

/** The quotient of two decimals, right to 25 places. */
function quotient(a: string, b: string): number {
  const [[aUp, aDown], [bUp, bDown]] = [rational(a), rational(b)];
  const places = 10n ** 25n;
  return Number((aUp * bDown * places) / (aDown * bUp)) / 1e25;
}

describe('conversions', () => {
  const pairs = data.exact.rows.flatMap((from) =>
    data.exact.rows.filter((to) => to.of === from.of).map((to) => [from, to] as const),
  );

  test.each(pairs.map(([from, to]) => [from.unit, to.unit, quotient(from.is, to.is)] as const))(
    'one %s in %s is exact',
    (from, to, exact) => {
      const ours = (unitNamed(from)?.factor ?? Number.NaN) / (unitNamed(to)?.factor ?? Number.NaN);
      expect(Math.abs(ours / exact - 1)).toBeLessThan(1e-15);
    },
  );

  test.each(pairs.map(([from, to]) => [from.unit, to.unit] as const))(
    'one %s in %s agrees with js-quantities to a hundred-millionth',
    (from, to) => {
      const theirs = Qty(1, from).to(to).scalar;
      const ours = (unitNamed(from)?.factor ?? Number.NaN) / (unitNamed(to)?.factor ?? Number.NaN);
      expect(Math.abs(ours / theirs - 1)).toBeLessThan(1e-8);
    },
  );

  test.each([
    ['week', 'day', 7],
    ['day', 'hour', 24],
    ['hour', 'minute', 60],
  ])('a %s in %s agrees with js-quantities', (from, to, count) => {
    expect((unitNamed(from)?.factor ?? 0) / (unitNamed(to)?.factor ?? 1)).toBe(count);
    expect(Qty(1, from).to(to).scalar).toBeCloseTo(count, 9);
  });
});

/** A text like "20 st / 4 in" in base units. */
function read(text: string): number {
  const [, number = '', unit = ''] = /^([\d.]+) (.*)$/.exec(text) ?? [];
  return Number(number) * (readUnit(unit)?.factor ?? Number.NaN);
}

describe('facts knitters rely on', () => {
  test.each(data.gauges.rows)('$given is $is $in', ({ given, in: unit, is }) => {
    expect(read(given) / (readUnit(unit)?.factor ?? Number.NaN)).toBeCloseTo(is, 6);
  });

  test('a ridge is two rows, a round is a row', () => {
    expect(unitNamed('ridge')?.factor).toBe(2);
    expect(unitNamed('rnd')?.dimension).toBe(ROW);
    expect(unitNamed('rnd')?.factor).toBe(1);
  });

  test('stitches and rows are different kinds', () => {
    expect(STITCH).not.toBe(ROW);
    expect(new Set([PLAIN, LENGTH, MASS, STITCH, ROW, TIME]).size).toBe(6);
  });
});

describe('reading a unit', () => {
  test.each([
    ['in', 'in', 2540],
    ['st / 4 in', 'st / 4 in', 1 / 10160],
    ['sts/10cm', 'st / 10 cm', 1 / 10000],
    ['rounds / 4 inches', 'rnd / 4 in', 1 / 10160],
    ['m / 100 g', 'm / 100 g', 1000],
    ['%', '%', 0.01],
    ['', '', 1],
    ['in^2', 'in^2', 2540 ** 2],
    ['€ / skein', '€ / skein', 1],
    ['$', '$', 1],
  ])('"%s" is %s', (text, label, factor) => {
    const unit = readUnit(text);
    expect(unit?.label).toBe(label);
    expect(unit?.factor).toBeCloseTo(factor, 12);
  });

  test.each([
    'nonsense',
    'st /',
    '/ in',
    'st // in',
    '4',
    'in in',
    'st * in',
    'constructor',
    '5 %',
    'st / %',
  ])('"%s" is no unit', (text) => {
    expect(readUnit(text)).toBeUndefined();
  });

  test('knows money by its sign', () => {
    for (const sign of ['€', '£', '$', '¥', '₪', '฿']) expect(isMoneySign(sign)).toBe(true);
    for (const other of ['e', '#', '', '€€', 'kr']) expect(isMoneySign(other)).toBe(false);
  });
});

describe('what worked-out values are shown in', () => {
  const inches = { system: 'in', money: '£' } as const;
  const metric = { system: 'cm', money: '£' } as const;
  const dimension = (base: string, halves: number) =>
    dimensionOf(BASES.map((name) => (name === base ? halves : 0)));

  test('lengths and gauges follow the system', () => {
    expect(usualUnit(LENGTH, inches).label).toBe('in');
    expect(usualUnit(LENGTH, metric).label).toBe('cm');
    expect(usualUnit(STITCH_GAUGE, inches).label).toBe('st / 4 in');
    expect(usualUnit(STITCH_GAUGE, metric).label).toBe('st / 10 cm');
    expect(usualUnit(dimension('money', 2), metric).label).toBe('£');
  });

  test('an area and a root have a unit too, with the right size', () => {
    const area = usualUnit(multiplied(LENGTH, LENGTH), inches);
    expect([area.label, area.factor]).toEqual(['in^2', 2540 ** 2]);
    expect(usualUnit(dimension('length', 1), metric).factor).toBeCloseTo(Math.sqrt(1000), 9);
    expect(usualUnit(dimension('length', -2), metric).factor).toBeCloseTo(1 / 1000, 12);
  });

  test('the switch turns lengths and gauges and leaves the rest', () => {
    const turned = (text: string, manner: typeof inches | typeof metric) => {
      const unit = readUnit(text);
      if (!unit) throw new Error(`no unit ${text}`);
      return inSystem(unit, manner).label;
    };
    expect(turned('in', metric)).toBe('cm');
    expect(turned('in', inches)).toBe('in');
    expect(turned('st / 4 in', metric)).toBe('st / 10 cm');
    expect(turned('row / 10 cm', inches)).toBe('row / 4 in');
    for (const stays of ['yd', 'm', 'g', 'st', '%', 'm / 100 g', '']) {
      expect(turned(stays, metric)).toBe(stays);
      expect(turned(stays, inches)).toBe(stays);
    }
  });
});
