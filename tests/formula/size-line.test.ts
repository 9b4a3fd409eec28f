// Size lines as patterns print them, typed and pasted.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSizeLine } from '../../src/formula/index.ts';
import { patience, runs } from '../support/runs.ts';
import { workedOut } from './check-formula.ts';

const SIX = ['176 st', '198 st', '220 st', '242 st', '264 st', '286 st'];

describe('typed', () => {
  test.each([
    ['176 (198, 220, 242, 264, 286) st', SIX],
    ['176 (198, 220, 242, 264, 286)st', SIX],
    ['176 (198; 220; 242; 264; 286) st', SIX],
    ['176 (198,220,242,264,286) st', SIX],
    ['176 [198, 220, 242, 264, 286] st', SIX],
    ['176, 198, 220, 242, 264, 286 st', SIX],
    ['176; 198; 220; 242; 264; 286 st', SIX],
    ['36 (40, 44) in', ['36 in', '40 in', '44 in']],
    ['36½ (40¼, 44) in', ['36½ in', '40¼ in', '44 in']],
    ['36 1/2 (40 1/4, 44) in', ['36 1/2 in', '40 1/4 in', '44 in']],
    ['36" (40", 44")', ['36"', '40"', '44"']],
    ['36 in (40 in, 44 in)', ['36 in', '40 in', '44 in']],
    ['36 (40, 44)', ['36', '40', '44']],
    ['91,5 (101,5; 112) cm', ['91,5 cm', '101,5 cm', '112 cm']],
    ['91.5 (101.5, 112) cm', ['91.5 cm', '101.5 cm', '112 cm']],
    ['18 (20, 22) st / 4 in', ['18 st / 4 in', '20 st / 4 in', '22 st / 4 in']],
    ['10 (15, 20) %', ['10 %', '15 %', '20 %']],
    ['10% (15%, 20%)', ['10%', '15%', '20%']],
    ['36 (, 44) in', ['36 in', '', '44 in']],
    ['36 (–, 44) in', ['36 in', '', '44 in']],
    ['-2 (0, 2) in', ['-2 in', '0 in', '2 in']],
  ])('%s', (text, items) => {
    expect(readSizeLine(text)).toEqual(items);
  });

  test.each([
    '42 in',
    '',
    '(42) in',
    'max(3, 4)',
    'chest + (2, 3)',
    'max(107, 5 cm)',
    '2 * (3 + 4) in',
    '(36, 40, 44) in',
    '36 (40, x) in',
    '36 ((40, 44)) in',
    '1,000 m',
    '107,5 cm',
    'whole(2.5)',
    '36/40/44 in',
    '36 - 40 - 44 in',
    '5 (2 + 3) st',
    '5.2 g / (10 cm * 10 cm)',
    '40 in (2 in * 3)',
    '40 cm / (2 rows)',
  ])('%s is no size line', (text) => {
    expect(readSizeLine(text)).toBeUndefined();
  });
});

describe('pasted', () => {
  test.each([
    ['176 – 198 – 220 – 242 – 264 – 286 sts', SIX],
    ['176-198-220-242-264-286 sts', SIX],
    ['176 / 198 / 220 / 242 / 264 / 286 sts', SIX],
    ['176/198/220/242/264/286 sts', SIX],
    ['176 (198-220-242-264-286) sts', SIX],
    ['176 (198, –, 242) sts', ['176 st', '198 st', '', '242 st']],
    ['176 (198 / – / 242) sts', ['176 st', '198 st', '', '242 st']],
    ['36 1/2 – 40 – 43 1/2 in', ['36 1/2 in', '40 in', '43 1/2 in']],
    ['36 1/2 / 40 / 43 1/2 in', ['36 1/2 in', '40 in', '43 1/2 in']],
    ['176 (198 – 220) sts', ['176 st', '198 st', '220 st']],
    ['36 1/2 (40 1/4, 44) in', ['36 1/2 in', '40 1/4 in', '44 in']],
    ['91,5 (101,5, 112) cm', ['91,5 cm', '101,5 cm', '112 cm']],
  ])('%s', (text, items) => {
    const read = readSizeLine(text, true)?.map((item) => item.replace(/ sts$/, ' st'));
    expect(read).toEqual(items.map((item) => item.replace(/ sts$/, ' st')));
  });
});

describe('pasted, but one value', () => {
  test.each([
    '1/2 in',
    '10 1/2 in',
    '243 / 4 st',
    '18 st / 4 in',
    '42 in - 4 in',
    '3-1/2 in',
    '2026-05-04',
    '1,5 cm',
    '32/36 in',
    '-4 st',
  ])('%s', (text) => {
    expect(readSizeLine(text, true)).toBeUndefined();
  });
});

describe('every item', () => {
  test('is a text the language reads', () => {
    for (const line of [
      '176 (198, 220) st',
      '10 (15, 20) %',
      '36" (40", 44")',
      '91,5 (101,5; 112) cm',
      '3 1/2 (4; 5 3/4) in',
      '18 (20, 22) st / 4 in',
    ])
      for (const item of readSizeLine(line) ?? []) expect(workedOut(item).kind, item).toBe('quantity');
  });

  test(
    'is there again however the numbers are written',
    () => {
      const number = fc.oneof(
        fc.integer({ min: 0, max: 400 }).map(String),
        fc.integer({ min: 0, max: 4000 }).map((n) => (n / 10).toFixed(1)),
        fc.integer({ min: 1, max: 60 }).map((n) => `${n}½`),
      );
      const line = fc.record({
        items: fc.array(number, { minLength: 2, maxLength: 10 }),
        unit: fc.constantFrom('in', 'st', 'cm', 'rows', 'st / 4 in', ''),
        by: fc.constantFrom(', ', '; ', ' ; '),
        brackets: fc.constantFrom('()', '[]'),
      });
      fc.assert(
        fc.property(line, ({ items, unit, by, brackets }) => {
          const [first = '', ...rest] = items;
          const text = `${first} ${brackets[0]}${rest.join(by)}${brackets[1]} ${unit}`;
          expect(readSizeLine(text)).toEqual(items.map((item) => (unit ? `${item} ${unit}` : item)));
        }),
        runs(300, 20_000),
      );
    },
    patience,
  );

  test(
    'never throws and never hangs',
    () => {
      const piece = fc.constantFrom(
        '(',
        ')',
        '[',
        ', ',
        ',',
        ';',
        ' - ',
        '–',
        '/',
        '1',
        '12',
        '½',
        '.',
        '"',
        'in',
        ' ',
        '-',
        "'",
        '%',
        '1/2',
      );
      fc.assert(
        fc.property(fc.array(piece, { maxLength: 60, size: 'max' }), fc.boolean(), (pieces, pasted) => {
          const items = readSizeLine(pieces.join(''), pasted);
          expect(items === undefined || items.length > 1).toBe(true);
        }),
        runs(1000, 50_000),
      );
      expect(readSizeLine(`${'1 '.repeat(990)}(x)`)).toBeUndefined();
      expect(readSizeLine('1'.repeat(1_000_000))).toBeUndefined();
    },
    patience,
  );
});
