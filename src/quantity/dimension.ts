/*
 * A dimension says what kind of quantity a number is: so many lengths, stitches, rows … multiplied together.
 * It is seven exponents, counted in halves because loop length is the square root of an area. Each distinct
 * dimension is kept once and known by a small whole number, so that comparing two is comparing two numbers.
 */

/** The base kinds, in the order in which exponents are written. */
export const BASES = ['length', 'mass', 'stitch', 'row', 'time', 'skein', 'money'] as const;
export type Base = (typeof BASES)[number];

/** A dimension, as its number in the table of all dimensions met so far. */
export type Dimension = number;

const table: (readonly number[])[] = [];
const numbers = new Map<string, Dimension>();
const products = new Map<number, Dimension>();

/** The dimension with these seven exponents, in halves: an area is [4, 0, 0, 0, 0, 0, 0]. */
export function dimensionOf(halves: readonly number[]): Dimension {
  const key = halves.join();
  const known = numbers.get(key);
  if (known !== undefined) return known;
  numbers.set(key, table.length);
  return table.push(halves) - 1;
}

/** The exponents of a dimension, in halves. */
export function halvesOf(dimension: Dimension): readonly number[] {
  const halves = table[dimension];
  if (!halves) throw new Error(`no dimension ${dimension}`);
  return halves;
}

const base = (name: Base): Dimension => dimensionOf(BASES.map((other) => (other === name ? 2 : 0)));

export const PLAIN = dimensionOf(BASES.map(() => 0));
export const LENGTH = base('length');
export const MASS = base('mass');
export const STITCH = base('stitch');
export const ROW = base('row');
export const TIME = base('time');
export const SKEIN = base('skein');
export const MONEY = base('money');

/** The dimension of a product. */
export function multiplied(a: Dimension, b: Dimension): Dimension {
  if (b === PLAIN) return a;
  if (a === PLAIN) return b;
  const key = a * 65536 + b;
  let product = products.get(key);
  if (product === undefined) {
    const right = halvesOf(b);
    product = dimensionOf(halvesOf(a).map((n, i) => n + (right[i] ?? 0)));
    products.set(key, product);
  }
  return product;
}

/** The dimension of `a` to the power `exponent`, a multiple of ½; undefined where that has no dimension. */
export function raised(a: Dimension, exponent: number): Dimension | undefined {
  const halves = halvesOf(a).map((n) => n * exponent + 0);
  return halves.every(Number.isInteger) ? dimensionOf(halves) : undefined;
}

/** The dimension of a quotient. */
export function divided(a: Dimension, b: Dimension): Dimension {
  return b === PLAIN ? a : multiplied(a, raised(b, -1) as Dimension);
}

export const STITCH_GAUGE = divided(STITCH, LENGTH);
export const ROW_GAUGE = divided(ROW, LENGTH);

/** Whether this is a kind of thing that is counted: stitches, rows, skeins, or a plain number. */
export function isCount(dimension: Dimension): boolean {
  return dimension === STITCH || dimension === ROW || dimension === SKEIN || dimension === PLAIN;
}

/** Whether this is what is knit, stitches or rows; skeins, repeats and other plain numbers are only counted. */
export function isKnitted(dimension: Dimension): boolean {
  return dimension === STITCH || dimension === ROW;
}

/** Whether this is stitches or rows to a length. */
export function isGauge(dimension: Dimension): boolean {
  return dimension === STITCH_GAUGE || dimension === ROW_GAUGE;
}

const NOUNS = new Map<Dimension, string>([
  [PLAIN, 'a plain number'],
  [LENGTH, 'a length'],
  [MASS, 'a weight'],
  [STITCH, 'stitches'],
  [ROW, 'rows'],
  [TIME, 'a time'],
  [SKEIN, 'skeins'],
  [MONEY, 'money'],
  [STITCH_GAUGE, 'a stitch gauge'],
  [ROW_GAUGE, 'a row gauge'],
]);
const ONE = ['length', 'weight', 'stitch', 'row', 'time', 'skein', 'money'];
const MANY = ['length', 'weight', 'stitches', 'rows', 'time', 'skeins', 'money'];

function factors(halves: readonly number[], sign: 1 | -1, nouns: readonly string[]): string {
  const named = (n: number, i: number) => {
    const exponent = (n * sign) / 2;
    if (exponent <= 0) return [];
    const noun = nouns[i] ?? '';
    return [exponent === 1 ? noun : exponent === 2 ? `${noun} squared` : `${noun} to the power ${exponent}`];
  };
  return halves.flatMap(named).join(' times ');
}

/** A dimension in words: "a length", "stitches", "stitches per row", "length squared". */
export function dimensionInWords(dimension: Dimension): string {
  const noun = NOUNS.get(dimension);
  if (noun) return noun;
  const halves = halvesOf(dimension);
  const above = factors(halves, 1, MANY) || 'one';
  const below = factors(halves, -1, ONE);
  return below ? `${above} per ${below}` : above;
}
