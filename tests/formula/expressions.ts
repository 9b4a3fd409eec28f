/*
 * Random formulas in which the kinds go together, over a few cells. `arithmetic` keeps to what mathjs reads the same
 * way; `anything` has every kind of operation the machine knows.
 */

import fc from 'fast-check';

/** The cells the formulas use: an empty one, one that is nothing, and some with a value for each column. */
export const CELLS = {
  chest: '42 in',
  ease: '2 1/2 in',
  none: '0 in',
  missing: '',
  body: '180 (198.5, 220) st',
  widths: '36 (40, 44) in',
  edge: '6 st',
  gauge: '18 st / 4 in',
  gauges: '18 (20, 0) st / 4 in',
  n: '3',
  share: '0.25',
} as const;

type Texts = Record<'length' | 'count' | 'number' | 'truth', fc.Arbitrary<string>>;

const both = (op: string, a: fc.Arbitrary<string>, b: fc.Arbitrary<string>) =>
  fc.tuple(a, b).map(([x, y]) => `(${x} ${op} ${y})`);
const called = (name: string, ...args: fc.Arbitrary<string>[]) =>
  fc.tuple(...args).map((list) => `${name}(${list.join(', ')})`);

/** Formulas of each kind, so deep, from leaves and from what `more` adds. */
function grown(
  leaves: Texts,
  depth: number,
  more: (t: Texts) => Partial<Record<keyof Texts, fc.Arbitrary<string>[]>>,
): Texts {
  if (depth === 0) return leaves;
  const t = grown(leaves, depth - 1, more);
  const extra = more(t);
  const gauge = fc.constantFrom('gauge', '(20 st / 4 inch)');
  return {
    length: fc.oneof(
      leaves.length,
      both('+', t.length, t.length),
      both('-', t.length, t.length),
      both('*', t.length, t.number),
      both('*', t.number, t.length),
      both('/', t.length, t.number),
      both('/', t.count, gauge),
      both('-', t.length, fc.constantFrom('10%', '5%')),
      t.length.map((x) => `(-${x})`),
      called('max', t.length, t.length),
      called('min', t.length, t.length),
      called('abs', t.length),
      ...(extra.length ?? []),
    ),
    count: fc.oneof(
      leaves.count,
      both('+', t.count, t.count),
      both('-', t.count, t.count),
      both('*', t.length, gauge),
      both('*', t.count, t.number),
      both('/', t.count, t.number),
      ...(extra.count ?? []),
    ),
    number: fc.oneof(
      leaves.number,
      both('/', t.length, t.length),
      both('/', t.count, t.count),
      both('+', t.number, t.number),
      both('*', t.number, t.number),
      t.number.map((x) => `(${x} ^ 2)`),
      ...(extra.number ?? []),
    ),
    truth: extra.truth ? fc.oneof(...extra.truth) : leaves.truth,
  };
}

/** Formulas of + − × ÷ and powers over single cells. */
export const arithmetic: fc.Arbitrary<string> = (() => {
  const leaves: Texts = {
    length: fc.constantFrom('chest', 'ease', '3 inch', '10 cm', '0.25 inch', '(1/2 * 1 inch)'),
    count: fc.constantFrom('edge', '198 st', '8 st', '60.75 st'),
    number: fc.constantFrom('n', 'share', '2', '0.5', '1.36', '7'),
    truth: fc.constant('yes'),
  };
  const { length, count, number } = grown(leaves, 4, () => ({}));
  return fc.oneof(length, count, number);
})();

/** Formulas with everything in them, over cells with one value and with one for each column. */
export const anything: fc.Arbitrary<string> = (() => {
  const leaves: Texts = {
    length: fc.constantFrom('chest', 'ease', 'none', '(missing * 1 in)', 'widths', '3 in', '10 cm', '½ in'),
    count: fc.constantFrom('edge', 'body', '198 st', '60.75 st'),
    number: fc.constantFrom('n', 'share', '2', '0.5', '10%', '0'),
    truth: fc.constantFrom('yes', 'no', 'given(missing)', 'given(widths)'),
  };
  const either = (t: Texts, of: fc.Arbitrary<string>) =>
    fc.tuple(t.truth, of, of).map(([test, yes, no]) => `(${test} ? ${yes} : ${no})`);
  const { length, count, number, truth } = grown(leaves, 3, (t) => ({
    length: [
      either(t, t.length),
      called('to_nearest', t.length, fc.constantFrom('1/4 in', '0.5 cm')),
      called(
        'total',
        t.length.map((x) => `${x} + 0 * widths`),
      ),
      called(
        'chosen',
        t.length.map((x) => `${x} + widths`),
      ),
      called(
        'at',
        t.length.map((x) => `${x} + widths`),
        fc.constantFrom('"1"', '"2"', '"nowhere"'),
      ),
      called(
        'largest',
        t.length.map((x) => `${x} + 0 * widths`),
      ),
      both('/', t.count, fc.constant('gauges')),
      called('sqrt', both('*', t.length, t.length)),
    ],
    count: [
      either(t, t.count),
      called('whole', t.count),
      called('whole_up', t.count),
      called('multiple', t.count, fc.constantFrom('4', '12', 'n', '0'), fc.constantFrom('1', '2')),
      called(
        'total_up_to',
        t.count.map((x) => `${x} + 0 * body`),
      ),
      called('max', t.count, t.count, t.count),
    ],
    number: [
      either(t, t.number),
      t.number.map((x) => `(${x} ^ 0.5)`),
      called('slope', fc.constant('body'), fc.constant('widths')).map((x) => `(${x} * 1 in / 1 st)`),
    ],
    truth: [
      t.truth,
      ...['<', '<=', '>', '>=', '==', '!='].map((op) => both(op, t.length, t.length)),
      both('==', t.count, t.count),
      both('and', t.truth, t.truth),
      both('or', t.truth, t.truth),
      both('==', called('nearest', fc.constant('widths'), t.length), fc.constantFrom('"2"', '"1"')),
      t.truth.map((x) => `not ${x}`).map((x) => `(${x})`),
    ],
  }));
  return fc.oneof(length, count, number, truth);
})();
