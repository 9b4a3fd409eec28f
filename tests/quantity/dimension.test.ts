import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  BASES,
  type Dimension,
  dimensionInWords,
  dimensionOf,
  divided,
  halvesOf,
  isCount,
  LENGTH,
  MASS,
  MONEY,
  multiplied,
  PLAIN,
  ROW,
  ROW_GAUGE,
  raised,
  SKEIN,
  STITCH,
  STITCH_GAUGE,
  TIME,
} from '../../src/quantity/index.ts';

const dimension = fc
  .array(fc.integer({ min: -6, max: 6 }), { minLength: BASES.length, maxLength: BASES.length })
  .map(dimensionOf);

describe('dimensions', () => {
  test('a product does not mind the order', () => {
    fc.assert(
      fc.property(dimension, dimension, dimension, (a, b, c) => {
        expect(multiplied(a, b)).toBe(multiplied(b, a));
        expect(multiplied(multiplied(a, b), c)).toBe(multiplied(a, multiplied(b, c)));
        expect(multiplied(a, PLAIN)).toBe(a);
      }),
    );
  });

  test('dividing undoes multiplying, and a thing divided by itself is a plain number', () => {
    fc.assert(
      fc.property(dimension, dimension, (a, b) => {
        expect(divided(multiplied(a, b), b)).toBe(a);
        expect(divided(a, a)).toBe(PLAIN);
      }),
    );
  });

  test('a root undoes a square; a root of a root of a length is nothing we know', () => {
    fc.assert(
      fc.property(dimension, (a) => {
        expect(raised(raised(a, 2) as Dimension, 0.5)).toBe(a);
        expect(raised(a, 3)).toBe(multiplied(a, multiplied(a, a)));
        expect(raised(a, 0)).toBe(PLAIN);
      }),
    );
    const root = raised(LENGTH, 0.5) as Dimension;
    expect(halvesOf(root)[0]).toBe(1);
    expect(raised(root, 0.5)).toBeUndefined();
  });

  test('only stitches, rows, skeins and plain numbers are counted', () => {
    expect([PLAIN, STITCH, ROW, SKEIN].every(isCount)).toBe(true);
    expect([LENGTH, MASS, TIME, MONEY, STITCH_GAUGE].some(isCount)).toBe(false);
  });

  test.each([
    [PLAIN, 'a plain number'],
    [LENGTH, 'a length'],
    [STITCH, 'stitches'],
    [STITCH_GAUGE, 'a stitch gauge'],
    [ROW_GAUGE, 'a row gauge'],
    [divided(STITCH, ROW), 'stitches per row'],
    [multiplied(LENGTH, LENGTH), 'length squared'],
    [divided(MONEY, SKEIN), 'money per skein'],
    [divided(PLAIN, TIME), 'one per time'],
    [multiplied(STITCH, ROW), 'stitches times rows'],
  ])('dimension %i in words is %s', (given, words) => {
    expect(dimensionInWords(given)).toBe(words);
  });
});
