import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { Sheet } from '../../src/sheet/index.ts';

const language = createLanguage(standard);

function workedOut(text: string) {
  const sheet = new Sheet({ language });
  sheet.add('a', 'a', '1');
  sheet.add('x', 'x', text);
  sheet.settle();
  return sheet.value('x');
}

describe('a text built to do harm is a problem and nothing else', () => {
  test.each([
    '(1 ± 2)',
    '(18 ± 0.5) st / 4 in',
    'max(1 ± 2, 3)',
    '1 ± (2',
    '1) ± (2',
    'a.constructor',
    'f(x) = x',
    '[1, 2]',
    '10^100000',
    '9'.repeat(400),
    `${'('.repeat(100_000)}1${')'.repeat(100_000)}`,
    '+ '.repeat(50_000),
    'x'.repeat(1_000_000),
    `${'1%('.repeat(40)}1${')'.repeat(40)}`,
  ])('%.30s', (text) => {
    expect(workedOut(text).kind).toBe('problem');
  });

  const pieces = fc.constantFrom(
    '1%(',
    '((',
    '))',
    ')',
    '(',
    '+',
    '-',
    '^',
    '10^',
    '"',
    'a',
    'x',
    '.',
    '[',
    '1e',
    '½',
    '±',
    '? 1 :',
    ':',
    ' in',
    ' st',
    '/',
    '4',
    'max(',
    ',',
    ';',
    '=',
    'not ',
    ' and ',
    ' to ',
    '__proto__',
    'ก',
    '€',
  );
  test('random texts never throw', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 30 }), (list) => {
        expect(workedOut(list.join('')).kind).toBeTypeOf('string');
      }),
      { numRuns: process.env['LONG'] ? 20_000 : 3000 },
    );
  });
});
