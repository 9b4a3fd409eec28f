// Every operation of the two quick loops, above all those that are written as pairs: each first with each second, as a
// single value and as one for each column, held against the same arithmetic written out.
import { describe, expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { multipleOf, wholeNear } from '../../src/quantity/index.ts';
import { Sheet } from '../../src/sheet/index.ts';
import { sheetOf } from '../support/cells.ts';

const language = createLanguage(standard);

type Numbers = (a: number, b: number, c: number) => number;

const FIRST: Readonly<Record<string, Numbers>> = {
  '(a + b)': (a, b) => a + b,
  '(a - b)': (a, b) => a - b,
  '(a * b)': (a, b) => a * b,
  '(a / b)': (a, b) => a / b,
  a: (a) => a,
};

/** What comes second, by its text, in which `x` is the first. */
const SECOND: Readonly<Record<string, (x: number, c: number) => number>> = {
  'x + c': (x, c) => x + c,
  'x - c': (x, c) => x - c,
  'x * c': (x, c) => x * c,
  'x / c': (x, c) => x / c,
  'whole(x)': (x) => wholeNear(x),
  'multiple(x, c)': (x, c) => multipleOf(wholeNear, x, c, 0),
  'max(x, c)': (x, c) => Math.max(x, c),
  'min(x, c)': (x, c) => Math.min(x, c),
};

/** Pairs alone, and with another operation behind. */
const PAIRS = Object.entries(FIRST).flatMap(([first, one]) =>
  Object.entries(SECOND).flatMap(([second, two]) => {
    const text = second.replace(/\bx\b/, first);
    const value: Numbers = (a, b, c) => two(one(a, b, c), c);
    return [
      [text, value] as const,
      [`(${text}) * 3`, ((a, b, c) => value(a, b, c) * 3) satisfies Numbers] as const,
    ];
  }),
);

/** What is no pair: numbers that wait, operands on the left, what takes no operand, calls, tests. */
const OTHERS: readonly (readonly [string, Numbers])[] = [
  ['(a * b) + (a - c)', (a, b, c) => a * b + (a - c)],
  ['(a + b) - (a * c)', (a, b, c) => a + b - a * c],
  ['(a + b) * (a - c)', (a, b, c) => (a + b) * (a - c)],
  ['(a + b) / (a * c)', (a, b, c) => (a + b) / (a * c)],
  ['c - (a + b)', (a, b, c) => c - (a + b)],
  ['c / (a * b)', (a, b, c) => c / (a * b)],
  ['-(a + b)', (a, b) => 0 - (a + b)],
  ['abs(a - b)', (a, b) => Math.abs(a - b)],
  ['whole_down(a / c) + b', (a, b, c) => Math.floor(a / c) + b],
  ['max(a, b, c)', (a, b, c) => Math.max(a, b, c)],
  ['a > b ? a * c : b - c', (a, b, c) => (a > b ? a * c : b - c)],
  ['a', (a) => a],
];

const VALUES = [
  [7, 3, 2],
  [10.5, 4, 3],
  [-6.5, 2, 5],
] as const;

const numberIn = (sheet: Sheet, column: number, id = 'y') => {
  const value = sheet.value(id, column);
  return value.kind === 'quantity' ? value.value : Number.NaN;
};

describe('a pair of operations', () => {
  test.each([...PAIRS, ...OTHERS])('%s, as a single value', (text, value) => {
    const sheet = sheetOf({ a: '1', b: '1', c: '1', y: text });
    for (const [a, b, c] of VALUES) {
      Object.entries({ a, b, c }).forEach(([id, number]) => {
        sheet.setText(id, String(number));
      });
      sheet.settle();
      expect(numberIn(sheet, 0)).toBe(value(a, b, c));
    }
  });

  test.each([...PAIRS, ...OTHERS])('%s, with one for each column', (text, value) => {
    const sheet = sheetOf({ a: '1 (1, 1)', b: '1', c: '1', y: text });
    for (const [, b, c] of VALUES) {
      VALUES.forEach(([a], column) => {
        sheet.setColumnText('a', column, String(a - 1));
      });
      sheet.settle();
      sheet.setText(
        'a',
        VALUES.map(([a]) => String(a)),
      );
      sheet.setText('b', String(b));
      sheet.setText('c', String(c));
      const { ran } = sheet.settle();
      expect(ran).toContain('y');
      VALUES.forEach(([a], column) => {
        expect(numberIn(sheet, column)).toBe(value(a, b, c));
      });
    }
  });

  test.each([1, 2, 4, 5, 6, 7, 8, 9, 10, 11])('in %i columns is the same in every one', (width) => {
    const columns = Array.from({ length: width }, (_, c) => String(c + 1));
    const sheet = new Sheet({ language, columns });
    const all = [...PAIRS, ...OTHERS];
    const a = (by: number) => columns.map((_, c) => 10.5 - 3 * c + by);
    sheet.add('a', 'a', a(1).map(String));
    sheet.add('b', 'b', '4');
    sheet.add('c', 'c', '3');
    all.forEach(([text], i) => {
      sheet.add(`y${i}`, `y${i}`, text);
    });
    sheet.settle();
    // The first two find their way, the others go it again.
    for (const by of [0, 2, 0.25, 0]) {
      sheet.setText('a', a(by).map(String));
      const { ran } = sheet.settle();
      expect(ran).toHaveLength(all.length + 1);
      all.forEach(([text, value], i) => {
        const expected = a(by).map((one) => value(one, 4, 3));
        expect([text, ...columns.map((_, c) => numberIn(sheet, c, `y${i}`))]).toEqual([text, ...expected]);
      });
    }
  });

  test.each([1, 4, 5, 6, 7, 10])(
    'without a value in any one of %i columns leaves the others theirs',
    (width) => {
      const columns = Array.from({ length: width }, (_, c) => String(c + 1));
      const sheet = new Sheet({ language, columns });
      const b = (empty: number) => columns.map((_, c) => (c === empty ? '0' : String(c + 2)));
      sheet.add('b', 'b', b(-1));
      sheet.add('y', 'y', '60 / b + 1');
      sheet.settle();
      for (let empty = 0; empty < width; empty += 1) {
        for (const texts of [b(empty), b(-1), b(empty)]) {
          sheet.setText('b', texts);
          sheet.settle();
          columns.forEach((_, c) => {
            if (texts[c] === '0') expect(sheet.value('y', c).kind).toBe('problem');
            else expect(numberIn(sheet, c)).toBe(60 / (c + 2) + 1);
          });
        }
      }
    },
  );

  test('in one column that has no value leaves the others theirs, and comes back', () => {
    const sheet = sheetOf({ a: '8 (6, 4)', b: '1 (2, 3)', y: 'a / b + 1' });
    sheet.setColumnText('b', 1, '0');
    sheet.settle();
    expect(sheet.value('y', 1).kind).toBe('problem');
    expect([numberIn(sheet, 0), numberIn(sheet, 2)]).toEqual([9, 4 / 3 + 1]);
    sheet.setColumnText('b', 1, '3');
    expect(sheet.settle().changed).toEqual(['b', 'y']);
    expect(numberIn(sheet, 1)).toBe(3);
  });

  test('with nothing at hand that can be divided by has no value, and has one again', () => {
    const sheet = sheetOf({ a: '8', b: '4', c: '2', y: '(a / b) * c' });
    sheet.setText('b', '0');
    sheet.settle();
    expect(sheet.value('y').kind).toBe('problem');
    sheet.setText('b', '2');
    sheet.settle();
    expect(numberIn(sheet, 0)).toBe(8);
  });
});
