// Yarn by loop length and by count, written as a knitter would write it. Loop-length relations: D. L. Munden, J. Textile
// Institute 50 (1959) T448 (constants from memory); F. T. Peirce's loop, l = 2p + w + 5.94 d; the weight of a fabric from a
// textile handbook of 2023, CPI × WPI × l (mm) × 39.37² × tex / 10⁶; counts of yarn by ASTM D2260, its yards to the pound
// and the exact yard and ounce. The numbers were worked by exact arithmetic.
import { expect, test } from 'vitest';
import { workedOut } from './check-formula.ts';

const cases: readonly (readonly [what: string, text: string, is: number, digits: number])[] = [
  ['loops to a square centimetre, kc 5.5, kw 4.2, l 0.5', '5.5 * 4.2 / 0.5^2', 92.4, 9],
  ['a row 50 cm wide takes, kw 4.1', '4.1 * 50 cm / 1 cm', 205, 9],
  ['grams to a square metre, 500 tex', '5.08 * 7.112 * 19.63961 * 39.37^2 * 500 / 10^6', 549.9, 1],
  ['the same from the yarn in a square metre', '(1099.8182 m * (500 g / 1000 m)) / 1 g', 549.909, 3],
  ['the thickness of 500 tex in cm', '4.44 / 1000 * sqrt(500 / 1.31)', 0.086743, 6],
  ['Peirce’s loop at 20 × 28 in cm', '2 / 2.8 + 1 / 2.0 + 5.94 * 0.086743', 1.7295, 4],
  ['the same with the measured thickness', '2 / 2.8 + 1 / 2.0 + 4.56 * 0.086743', 1.6098, 4],
  ['the handbook’s constant', '39.37^2 * 590.541 / 10^6', 0.91534, 4],
  ['400 m / 100 g in yards to the pound', '400 m / 100 g * 1 lb / 1 yd', 1984.2, 1],
  ['and to the ounce', '400 m / 100 g * 1 oz / 1 yd', 124.01, 2],
  ['and in worsted hanks of 560 yd', '400 m / 100 g * 1 lb / 560 yd', 3.543, 3],
  ['and in cotton hanks of 840 yd', '400 m / 100 g * 1 lb / 840 yd', 2.362, 3],
  ['and in woollen runs of 1600 yd', '400 m / 100 g * 1 lb / 1600 yd', 1.24, 3],
  ['200 yd / 100 g in yards to the pound', '200 yd / 100 g * 1 lb / 1 yd', 907.185, 3],
  ['and to the ounce', '200 yd / 100 g * 1 oz / 1 yd', 56.7, 2],
  ['and in tex', '100 g / 200 yd * 1000 m / 1 g', 546.81, 2],
  ['a yard to the ounce in metres to 100 g', '1 yd / 1 oz * 100 g / 1 m', 3.225451, 6],
];

test.each(cases)('%s: %s', (_, text, is, digits) => {
  const value = workedOut(text);
  expect(value).toMatchObject({ kind: 'quantity' });
  expect(value.kind === 'quantity' ? value.value : Number.NaN).toBeCloseTo(is, digits);
});
