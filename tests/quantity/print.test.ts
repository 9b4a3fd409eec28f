// How numbers read on paper.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { printDifference, printed, printFraction, printValue, readUnit } from '../../src/quantity/index.ts';

/** A number in a unit, printed as the sheet does. */
function print(x: number, unit: string, decided = false, step?: string): string {
  const shown = readUnit(unit);
  if (!shown) throw new Error(`no unit ${unit}`);
  const [, size, of = unit] = /^([\d./]+) ?(.*)$/.exec(step ?? '') ?? [];
  const [above = 0, below = 1] = (size ?? '').split('/').map(Number);
  const base = step ? (above / below) * (readUnit(of)?.factor ?? Number.NaN) : undefined;
  return printed(printValue(x * shown.factor, shown, decided, base));
}

describe('lengths', () => {
  test.each([
    [41.75, 'in', '41¾ in'],
    [41.8, 'in', '41¾ in'],
    [41.875, 'in', '42 in'],
    [0.2, 'in', '¼ in'],
    [0.1, 'in', '0 in'],
    [-0.1, 'in', '0 in'],
    [-2.5, 'in', '−2½ in'],
    [1, 'in', '1 in'],
    [106.2, 'cm', '106 cm'],
    [106.25, 'cm', '106.5 cm'],
    [10, 'cm', '10 cm'],
    [10.2, 'cm', '10 cm'],
    [9.94, 'cm', '9.9 cm'],
    [9.96, 'cm', '10 cm'],
    [9.25, 'cm', '9.3 cm'],
    [0.04, 'cm', '0 cm'],
    [-12.3, 'cm', '−12.5 cm'],
    [199.6, 'm', '200 m'],
    [218.7, 'yd', '219 yd'],
  ])('%d %s prints as %s', (x, unit, text) => {
    expect(print(x, unit)).toBe(text);
  });

  test.each([
    [41.8, 'in', '1/8 in', '41¾ in'],
    [41.9, 'in', '1/8 in', '41⅞ in'],
    [41.3, 'in', '1 in', '41 in'],
    [106.23, 'cm', '0.1 cm', '106.2 cm'],
    [106.23, 'cm', '1 cm', '106 cm'],
    [198.9, 'st', '2 st', '198 sts'],
  ])('%d %s to a step of %3$s', (x, unit, step, text) => {
    expect(print(x, unit, false, step)).toBe(text);
  });
});

describe('counts', () => {
  test.each([
    [198.9, 'st', false, '198.9 sts'],
    [199, 'st', true, '199 sts'],
    [199, 'st', false, '199.0 sts'],
    [198.96, 'st', false, '199.0 sts'],
    [1, 'st', true, '1 st'],
    [-8, 'st', true, '−8 sts'],
    [-1, 'rnd', true, '−1 rnd'],
    [0, 'row', true, '0 rows'],
    [60, 'rnd', true, '60 rnds'],
    [4.2, 'skein', false, '4.2 skeins'],
    [5, 'skein', true, '5 skeins'],
    [3, 'ball', true, '3 balls'],
    [12, '', true, '12'],
    [1.36, '', false, '1.36'],
    [23.333333, '', false, '23.33'],
    [233.3333, '', false, '233.3'],
  ])('%d %s, decided: %s, prints as %s', (x, unit, decided, text) => {
    expect(print(x, unit, decided)).toBe(text);
  });

  test('198.9 never reads 199, whatever it was worked out from', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 999 }),
        fc.double({ min: 0.06, max: 0.94, noNaN: true }),
        (n, part) => {
          const text = print(n + part, 'st');
          expect(text).toMatch(/^\d+\.[1-9] sts$/);
        },
      ),
    );
  });
});

describe('the rest', () => {
  test.each([
    [18, 'st / 4 in', '18 sts / 4 in'],
    [144, 'cm^2', '144 cm²'],
    [1, 'm^3', '1 m³'],
    [19.685039, 'st / 10 cm', '19.7 sts / 10 cm'],
    [24.04, 'row / 4 in', '24 rows / 4 in'],
    [49.6, 'g', '50 g'],
    [1.764, 'oz', '1.8 oz'],
    [0.125, 'kg', '0.13 kg'],
    [10, '%', '10%'],
    [12.5, '%', '12.5%'],
    [-10, '%', '−10%'],
    [4.5, '€', '€4.50'],
    [-4.5, '€', '€−4.50'],
    [14, 'day', '14 days'],
    [1.5, 'hour', '1.5 hours'],
    [1, 'day', '1 day'],
  ])('%d %s prints as %s', (x, unit, text) => {
    expect(print(x, unit)).toBe(text);
  });
});

describe('differences', () => {
  const difference = (x: number, unit: string, decided = false) => {
    const shown = readUnit(unit);
    if (!shown) throw new Error(`no unit ${unit}`);
    return printDifference(x * shown.factor, shown, decided);
  };

  test.each([
    [2.25, 'in', false, '+2¼'],
    [-2.25, 'in', false, '−2¼'],
    [0.1, 'in', false, ''],
    [12.34, 'cm', false, '+12.3'],
    [-0.04, 'cm', false, ''],
    [-0.06, 'cm', false, '−0.1'],
    [8, 'st', true, '+8'],
    [-0.4, 'st', false, '−0.4'],
    [0, 'st', true, ''],
    [0.01, 'st', false, ''],
  ])('%d %s, decided: %s, is "%s"', (x, unit, decided, text) => {
    expect(difference(x, unit, decided)).toBe(text);
  });
});

describe('fractions', () => {
  test('read back as what they are, to the part asked for', () => {
    const values: Readonly<Record<string, number>> = {
      '¼': 0.25,
      '½': 0.5,
      '¾': 0.75,
      '⅛': 0.125,
      '⅜': 0.375,
      '⅝': 0.625,
      '⅞': 0.875,
    };
    const readBack = (text: string): number => {
      const sign = text.startsWith('−') ? -1 : 1;
      const glyph = values[text.at(-1) ?? ''];
      const whole = Number(text.replace('−', '').replace(/[¼½¾⅛⅜⅝⅞]/u, '') || 0);
      return sign * (whole + (glyph ?? 0));
    };
    fc.assert(
      fc.property(fc.integer({ min: -4000, max: 4000 }), fc.constantFrom(2, 4, 8), (n, parts) => {
        expect(readBack(printFraction(n / parts, parts))).toBe(n / parts + 0);
      }),
    );
  });

  test('sixteenths have no sign of their own', () => {
    expect(printFraction(3 + 5 / 16, 16)).toBe('3 5/16');
    expect(printFraction(5 / 16, 16)).toBe('5/16');
  });
});
