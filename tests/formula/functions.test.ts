// What the functions give beyond their own examples, and what they say when they have no answer.
import { describe, expect, test } from 'vitest';
import { checkFormula, checkProblem, workedOut } from './check-formula.ts';

describe('counts', () => {
  test.each([
    ['whole_up(243.0000000001 st)', '243 st'],
    ['whole_up(rows_done - rows_done / g * g)', '0 rows'],
    ['whole(155.49999999999997 st)', '156 st'],
    ['whole(-2.5 st)', '-2 st'],
    ['whole(2.4)', '2'],
    ['whole_down(12.9 skeins)', '12 skeins'],
    ['multiple(230 st, 12, 1 st)', '229 st'],
    ['multiple_up(192.0000000001 st, 8)', '192 st'],
    ['multiple_down(199.9999999999 st, 8)', '200 st'],
    ['multiple(-196 st, 8)', '-192 st'],
    ['multiple(13 rows, 2)', '14 rows'],
    ['to_nearest(10.1 in, 1/4 in)', '10 in'],
    ['to_nearest(31.3 cm, 0.5 cm)', '31.5 cm'],
    ['to_nearest(212 g, 50 g)', '200 g'],
    ['abs(-2.5 cm)', '2.5 cm'],
    ['min(3 in, 5 cm, 2 in, 1 ft)', '5 cm'],
    ['max(3 in, 5 cm, 2 in, 1 ft)', '12 in'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, { rows_done: '57 rows', g: '7 row / in' });
  });

  test.each([
    ['multiple(230 st, 0)', 'multiple-of-nothing', 'multiple(230 st, 0)'],
    ['multiple(230 st, -4)', 'multiple-of-nothing', 'multiple(230 st, -4)'],
    ['to_nearest(3 in, 0 in)', 'step-of-nothing', 'to_nearest(3 in, 0 in)'],
    ['to_nearest(3 in, 2)', 'argument-kind', '2'],
    ['sqrt(-1 in)', 'root-of-negative', 'sqrt(-1 in)'],
    ['(0 in - 4 in) ^ 0.5', 'power-without-value', '0 in - 4 in) ^ 0.5'],
    ['date(2026, 13, 1)', 'no-such-day', 'date(2026, 13, 1)'],
    ['date(2026, 1.5, 1)', 'no-such-day', 'date(2026, 1.5, 1)'],
    ['min(3 in, 2 st)', 'argument-kind', '2 st'],
    ['max(2026-01-01, 2026-02-01)', 'argument-kind', '2026-01-01'],
    ['given(2 + 3)', 'given-needs-cell', 'given(2 + 3)'],
  ])('%s is a problem: %s', (text, code, place) => {
    checkProblem(text, code, place);
  });
});

describe('functions over the columns', () => {
  const SIZES = { chest: '36 (40, 44) in', stitches: '180 (200, 220) st', pick: '41 in' };

  test.each([
    ['nearest(chest, pick)', '"2"'],
    ['nearest(chest, 38 in)', '"1"'],
    ['nearest(chest, 96.52 cm)', '"1"'],
    ['nearest(chest + 4 in, pick)', '"1"'],
    ['at(stitches, nearest(chest, pick))', '200 st'],
    ['at(stitches, "2")', '200 st'],
    ['chosen(stitches)', '180 st'],
    ['total(stitches)', '600 st'],
    ['average(chest)', '40 in'],
    ['largest(chest) - smallest(chest)', '8 in'],
    ['slope(stitches, chest)', '5 st / in'],
    ['at(total_up_to(stitches), "3")', '600 st'],
    ['total(stitches * 2 + 1 st)', '1203 st'],
    ['total(chest * (stitches / chest))', '600 st'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, SIZES);
  });

  test.each([
    ['total(pick)', 'needs-each', 'pick'],
    ['nearest(chest, stitches)', 'argument-kind', 'stitches'],
    ['nearest(chest, chest)', 'needs-single', 'chest'],
    ['nearest(chest, 3 st)', 'argument-kind', '3 st'],
    ['at(chest, "XL")', 'no-such-column', 'at(chest, "XL")'],
    ['at(chest, 2)', 'argument-kind', '2'],
    ['slope(stitches, chest * 0 + 1 in)', 'slope-needs-two', 'slope(stitches, chest * 0 + 1 in)'],
  ])('%s is a problem: %s', (text, code, place) => {
    checkProblem(text, code, place, SIZES);
  });

  test('need columns', () => {
    checkProblem('total(pick)', 'no-columns', 'pick', { pick: '41 in' });
  });

  test('a label is a label in any case, and in any script', () => {
    const setting = { columns: ['s', 'Größe', 'L'] };
    checkFormula('at(chest, "S")', '36 in', { chest: '36 (40, 44) in' }, setting);
    checkFormula(
      'at(chest, "GRÖSSE")',
      '36 in',
      { chest: '36 (40, 44) in' },
      { columns: ['grösse', 'm', 'l'] },
    );
    checkFormula('at(chest, "größe")', '40 in', { chest: '36 (40, 44) in' }, setting);
  });

  test('today is handed in', () => {
    expect(workedOut('today()', {}, { today: 20_000 })).toEqual({ kind: 'date', day: 20_000 });
    checkFormula('today() + 1 week - today()', '7 days', {}, { today: 20_000 });
  });
});
