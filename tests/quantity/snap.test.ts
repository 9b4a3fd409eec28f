// Counts are whole or they are wrong: what counts as whole, and which way ties go.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { multipleOf, same, snapped, wholeDown, wholeNear, wholeUp } from '../../src/quantity/index.ts';

const count = fc.integer({ min: -100_000, max: 100_000 });
/** A speck of binary dust, well within a billionth. */
const dust = fc.double({ min: -5e-10, max: 5e-10, noNaN: true });
const number = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe('the snap', () => {
  test.each([
    [243.0000000001, 243],
    [242.9999999999, 243],
    [243.00000000000003, 243],
    [243.001, 244],
    [0.1 + 0.2 - 0.3, 0],
    [-0.0000000001, 0],
    [1e-8, 1],
  ])('%d up to a whole is %d', (x, whole) => {
    expect(wholeUp(x)).toBe(whole);
  });

  test('dust on a whole number never moves it, whichever way it is rounded', () => {
    fc.assert(
      fc.property(count, dust, (n, speck) => {
        const x = n + speck * Math.max(1, Math.abs(n));
        for (const round of [wholeUp, wholeDown, wholeNear, snapped]) expect(round(x)).toBe(n + 0);
      }),
    );
  });

  test('rows less a gauge times rows over that gauge are none at all', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 2000 }),
        fc.double({ min: 0.0001, max: 0.1, noNaN: true }),
        (rows, g) => {
          expect(wholeUp(rows - (rows / g) * g)).toBe(0);
          expect(wholeDown(rows - (rows / g) * g)).toBe(0);
        },
      ),
    );
  });

  test.each([
    [2.5, 3],
    [-2.5, -2],
    [-0.5, 0],
    [0.5, 1],
    [155.49999999999997, 156],
    [0.49999999999999994, 1],
    [-2.5000000000000004, -2],
    [999999.5, 1_000_000],
    [-999999.5, -999_999],
    [-3.5, -3],
    [2.49, 2],
    [-2.51, -3],
  ])('%d to the nearest whole is %d: ties go to the larger', (x, whole) => {
    expect(wholeNear(x)).toBe(whole);
  });

  test('dust on a tie never moves it: it goes to the larger', () => {
    fc.assert(
      fc.property(count, dust, (n, speck) => {
        expect(wholeNear(n + 0.5 + speck)).toBe(n + 1);
        expect(wholeNear(n + 0.5)).toBe(n + 1);
      }),
    );
  });

  test('a whole is within half of what it came from, up is above, down is below', () => {
    fc.assert(
      fc.property(number, (x) => {
        const slack = 1e-9 * Math.max(1, Math.abs(x));
        expect(Math.abs(wholeNear(x) - x)).toBeLessThanOrEqual(0.5 + slack);
        expect(wholeUp(x) - x).toBeGreaterThanOrEqual(-slack);
        expect(wholeUp(x) - x).toBeLessThan(1);
        expect(x - wholeDown(x)).toBeGreaterThanOrEqual(-slack);
        expect(x - wholeDown(x)).toBeLessThan(1);
        for (const round of [wholeNear, wholeUp, wholeDown]) expect(Number.isInteger(round(x))).toBe(true);
      }),
    );
  });

  test('none of them ever gives minus nought', () => {
    for (const round of [wholeNear, wholeUp, wholeDown, snapped])
      for (const x of [-0, -1e-12, -0.2, -0.5]) expect(Object.is(round(x), -0)).toBe(false);
  });

  test('rounding twice is rounding once', () => {
    fc.assert(
      fc.property(number, (x) => {
        for (const round of [wholeNear, wholeUp, wholeDown, snapped]) expect(round(round(x))).toBe(round(x));
      }),
    );
  });
});

describe('multiples', () => {
  test.each([
    [wholeNear, 198.9, 8, 0, 200],
    [wholeNear, 230, 12, 1, 229],
    [wholeNear, 196, 8, 0, 200],
    [wholeNear, -196, 8, 0, -192],
    [wholeUp, 193, 8, 0, 200],
    [wholeUp, 193.0000000001, 8, 1, 193],
    [wholeDown, 199, 8, 0, 192],
    [wholeDown, 7, 8, 0, 0],
  ])('%o of %d by %d plus %d is %d', (round, x, n, plus, is) => {
    expect(multipleOf(round, x, n, plus)).toBe(is);
  });

  test('is a multiple plus the few, and no nearer one is to be had', () => {
    fc.assert(
      fc.property(number, fc.integer({ min: 1, max: 60 }), fc.integer({ min: 0, max: 12 }), (x, n, plus) => {
        const got = multipleOf(wholeNear, x, n, plus);
        expect(Math.abs((got - plus) % n)).toBe(0);
        expect(Math.abs(got - x)).toBeLessThanOrEqual(n / 2 + 1e-9 * Math.max(n, Math.abs(x)));
      }),
    );
  });

  test('of nothing has no answer', () => {
    for (const n of [0, -4, Number.NaN]) expect(multipleOf(wholeNear, 10, n, 0)).toBeNaN();
  });
});

describe('equal', () => {
  test('is the same both ways round, and within a billionth', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        expect(same(a, b)).toBe(same(b, a));
        expect(same(a, a + 0.9e-9 * Math.max(1, Math.abs(a)))).toBe(true);
        expect(same(a, a + 3e-9 * Math.max(1, Math.abs(a)))).toBe(false);
      }),
    );
  });
});
