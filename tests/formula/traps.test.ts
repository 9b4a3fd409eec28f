// The texts knitters really write, and what each must mean. The expectations are the language's own page and common
// practice; where mathjs reads a text otherwise, that is said.
import { describe, test } from 'vitest';
import { checkFormula, checkProblem } from './check-formula.ts';

const CHEST = { chest: '42 in' };
const GAUGE = { gauge: '18 st / 4 in' };

describe('inches', () => {
  test.each([
    ['4 in * 3', '12 inch'],
    ['4in', '4 inch'],
    ['3 1/2 in', '3.5 inch'],
    ['3½ in', '3.5 inch'],
    ['½ in', '0.5 inch'],
    ['1/2 in * 3', '1.5 inch'], // mathjs cannot read it
    ['chest + 1/2 in', '42.5 inch'], // mathjs adds an inchless half
    ['chest + 1/2 inch', '42.5 inch'],
    ['chest - 3 1/2 in', '38.5 inch'],
    ['10 cm to in', '10 cm'],
    ['(chest + 2 in) to cm', '44 inch'],
    ['chest + 2 in to cm', '44 inch'],
    ['2 in + 3 in', '5 inch'],
    ['2 * (3 in)', '6 inch'],
    ['(4 in) * 3', '12 inch'],
    ['chest + -2 in', '40 inch'],
    ['-2 in', '0 in - 2 inch'],
    ['2*3 in', '6 inch'],
    ['7 st per 1 in', '7 st / inch'],
    ['20 st / in', '20 st / 1 inch'],
    ['18 st per 4 inches', '4.5 st / inch'],
    ['42"', '42 inch'],
    ["42''", '42 inch'], // mathjs transposes it twice
    ['42″', '42 inch'],
    ['42”', '42 inch'],
    ['5\' 3"', '63 inch'],
    ['5\'3"', '63 inch'],
    ['5′ 3″', '63 inch'],
    ['5’ 3”', '63 inch'],
    ["5'", '60 inch'],
    ['5 ft 3 in', '63 inch'],
    ['5 ft 3 1/2 in', '63.5 inch'],
    ['54 in to ft', '4.5 ft'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, CHEST);
  });

  test.each([
    ['chest in', 'in-unclear', 'chest in', { left: 'chest', right: 'in' }],
    ['7 st in 1 in', 'in-unclear', 'st in', {}],
    ['54 in in cm', 'in-unclear', 'in in', {}],
    ['(chest + 2 in) in cm', 'in-unclear', ') in', {}],
    ['3-1/2 in', 'length-with-number', '3-1/2 in', { left: '3', right: '1/2 in' }], // mathjs: 2.5 in
    ['3 + 1/2 in', 'length-with-number', '3 + 1/2 in', {}], // mathjs: 3.5 in
    ['10 cm to', 'to-needs-unit', 'to', {}],
    ['10 cm to chest', 'to-needs-unit', 'to chest', { unit: 'chest' }],
    ['10 cm to g', 'to-unlike', '10 cm to g', { unit: 'g' }],
    ["5' 3", 'side-by-side', "' 3", {}],
  ] as const)('%s is a problem: %s', (text, code, place, parts) => {
    checkProblem(text, code, place, CHEST, parts);
  });
});

describe('gauges', () => {
  test.each([
    ['18 st / 4 in', '(18 st) / (4 inch)'],
    ['18 st/10 cm', '(18 st) / (10 cm)'],
    ['18 st per 4 in', '(18 st) / (4 inch)'],
    ['54 in * gauge', '243 st'],
    ['54 in * gauge * 2 / 3', '162 st'],
    ['243 st / gauge', '54 inch'],
    ['24 rnds / 4 in', '24 rows / 4 inch'],
    ['12 ridges / 4 in', '24 rows / 4 inch'],
    ['50 g / (110 m)', '50 g / 110 m'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, GAUGE);
  });

  test('18/4 in is a length, and says so where a gauge is wanted', () => {
    checkFormula('18/4 in', '4.5 inch');
    checkProblem('whole(54 in * 18/4 in)', 'argument-kind', '54 in * 18/4 in');
  });
});

describe('fractions and counts', () => {
  test.each([
    ['243 / 4 st', '60.75 st'],
    ['243/4 st', '60.75 st'],
    ['1/2 in', '0.5 inch'],
    ['1/3 in * 3', '1 inch'],
    ['n / 4 st', 'n / (4 st)'],
    ['2 × 3', '6'],
    ['6 ÷ 2', '3'],
    ['5 − 2', '3'],
    ['5 – 2', '3'],
    ['2·3', '6'],
    ['3⁄4 in', '0.75 inch'],
    ['2¾', '2.75'],
    ['2^3', '8'],
    ['-2^2', '-4'],
    ['9^(1/2)', '3'],
    ['sqrt(9 in * 4 in)', '6 inch'],
    ['(9 in * 4 in)^(1/2)', '6 inch'],
    ['(4 in)^-1', '1 / (4 in)'],
    ['4 in^2', '4 in * 1 in'],
    ['144 cm²', '144 cm^2'],
    ['2 in² * 3', '6 in^2'],
    ['3 m³', '3 m^3'],
    ['pi * 2', '6.283185307179586'],
    ['2 - 3 - 4', '-5'],
    ['12 / 2 / 3', '2'],
    ['12 / 2 * 3', '18'],
    ['+3', '3'],
    ['--3', '3'],
    ['.5 in', '0.5 in'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, { n: '12' });
  });

  test.each([
    ['n 4', 'side-by-side', 'n 4'],
    ['n (4)', 'side-by-side', 'n ('],
    ['176 (198, 220) st', 'sizes-unlike-columns', '176 (198, 220) st'],
    ['2^3^2', 'power', '3^2'],
    ['2 n', 'side-by-side', '2 n'],
    ['(2)(3)', 'side-by-side', ')('],
    ['12 stiches', 'unknown-unit', '12 stiches'],
    ['n st', 'unit-after', 'n st'],
    ['2 ^ n', 'power', 'n'],
    ['2 ^ 0.3', 'power', '0.3'],
    ['2 ^ 21', 'power', '21'],
    ['(2 in) ^ 0.25', 'power', '0.25'],
    ['2 ^ 3 st', 'power', '3 st'],
    ['1 / 0', 'division-by-nothing', '0'],
    ['n / (n - 12)', 'division-by-nothing', 'n - 12'],
  ])('%s is a problem: %s', (text, code, place) => {
    checkProblem(text, code, place, { n: '12' });
  });
});

describe('percentages', () => {
  test.each([
    ['10%', '0.1'],
    ['10 %', '0.1'],
    ['chest * 90%', '37.8 inch'],
    ['80% * 9 in', '7.2 inch'],
    ['chest - 10%', '37.8 inch'],
    ['chest + 10%', '46.2 inch'],
    ['chest - 10% + 1 in', '38.8 inch'],
    ['200 * 10% + 5', '25'], // mathjs: 0
    ['10% + 5%', '15%'],
    ['negative_ease + 5%', '15%'],
    ['0.1 to %', '10%'],
    ['chest / (420 in) to %', '10%'],
    ['10% * 24', '2.4'],
    ['chest * (1 - negative_ease)', '37.8 inch'],
    ['chest - 2 * 5% * chest', '37.8 inch'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, { ...CHEST, negative_ease: '10%' });
  });

  test.each([
    [
      'chest - negative_ease',
      'percent-of-cell',
      'chest - negative_ease',
      { left: 'chest', right: 'negative_ease', op: '-' },
    ],
    ['chest + negative_ease', 'percent-of-cell', 'chest + negative_ease', { op: '+' }],
    ['10% chest', 'side-by-side', '10% chest', {}],
    ['chest % 2', 'percent-needs-number', '%', {}],
    ['5 % 3', 'side-by-side', '5 % 3', {}],
  ] as const)('%s is a problem: %s', (text, code, place, parts) => {
    checkProblem(text, code, place, { ...CHEST, negative_ease: '10%' }, parts);
  });
});

describe('commas', () => {
  test.each([
    ['107,5 cm', '107.5 cm'],
    ['0,25 in', '0.25 in'],
    ['18,5 st / 10 cm', '18.5 st / 10 cm'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is);
  });

  test.each([
    ['1,000 m', 'comma-thousands', '1,000', { point: '1.000', whole: '1000' }],
    ['1,0005 m', 'comma-decimal', '1,0005', { point: '1.0005' }],
    ['chest + 1,5 in', 'comma-decimal', '1,5', { point: '1.5' }],
    ['1 000 m', 'number-gap', '1 000', { whole: '1000' }],
    ['2, 3', 'comma-outside', ',', {}],
  ] as const)('%s is a problem: %s', (text, code, place, parts) => {
    checkProblem(text, code, place, CHEST, parts);
  });

  test('between arguments a comma separates', () => {
    checkFormula('max(107, 5)', '107');
    checkFormula('max(107,5)', '107');
    checkProblem('max(107,5 cm, 3 cm)', 'argument-kind', '5 cm');
  });
});

describe('names', () => {
  test.each([
    [
      'finished chest - chest',
      'spaced-name',
      'finished chest',
      { name: 'finished_chest', written: 'finished chest' },
    ],
    ['chest - finished chest', 'spaced-name', 'finished chest', { name: 'finished_chest' }],
    ['chesst + 2 in', 'unknown-name-near', 'chesst', { name: 'chesst', near: 'chest' }],
    ['elbow + 2 in', 'unknown-name', 'elbow', { name: 'elbow' }],
    ['whole + 1', 'function-without-brackets', 'whole', { name: 'whole' }],
    ['chest(2)', 'cell-with-brackets', 'chest', { name: 'chest' }],
    ['whle(2.5)', 'unknown-function-near', 'whle', { near: 'whole' }],
    ['frobnicate(2.5)', 'unknown-function', 'frobnicate', { name: 'frobnicate' }],
    ['foot * 2', 'unknown-name', 'foot', {}],
    ['e * 2', 'unknown-name', 'e', {}],
  ] as const)('%s is a problem: %s', (text, code, place, parts) => {
    checkProblem(text, code, place, { chest: '40 in', finished_chest: '42 in' }, parts);
  });

  test.each([
    ['größe', 'gro\u0308ße'],
    ['обхват_груди', 'обхват_груди'],
    ['היקף', 'היקף'],
    ['รอบอก', 'รอบอก'],
    ['胸囲', '胸囲'],
    ['constructor', 'constructor'],
    ['toString', 'toString'],
    ['hasOwnProperty', 'hasOwnProperty'],
    ['foot', 'foot'],
    ['e', 'e'],
    ['i', 'i'],
    ['version', 'version'],
    ['total', 'total'],
    ['v0', 'v0'],
    ['f0', 'f0'],
    ['mod', 'mod'],
    ['true', 'true'],
    ['end', 'end'],
  ])('a cell may be called %s', (name, written) => {
    checkFormula(`${written} * 2 + ${written}`, '72 in', { [name]: '24 in' });
    checkFormula(`max(${written}, 1 in)`, '24 in', { [name]: '24 in' });
  });

  test('a name straight before a bracket is a function, elsewhere a cell', () => {
    checkFormula('total(chest) + total', '130 in', { chest: '36 (40, 44) in', total: '10 in' });
  });
});

describe('truths', () => {
  test.each([
    ['not a == b', 'yes'],
    ['not a == 8 st', 'no'],
    ['not not a == 8 st', 'yes'],
    ['not a == b and a == b', 'no'],
    ['a == b or not a == b', 'yes'],
    ['a ≤ b', 'yes'],
    ['a <= b', 'yes'],
    ['b ≥ a', 'yes'],
    ['a ≠ b', 'yes'],
    ['a != b', 'yes'],
    ['a < b and b < 20 st', 'yes'],
    ['a == 8.0000000001 st', 'yes'],
    ['a < 8.0000000001 st', 'no'],
    ['a >= 8.0000000001 st', 'yes'],
    ['1 in == 2.54 cm', 'yes'],
    ['yes and no', 'no'],
    ['yes == no', 'no'],
    ['"M" == "m"', 'yes'],
    ['"M" != "L"', 'yes'],
    ['a < b ? 1 in : 2 in', '1 in'],
    ['a > b ? 1 in : a == b ? 2 in : 3 in', '3 in'],
    ['a < b ? (a == b ? 1 in : 2 in) : 3 in', '2 in'],
    ['not a > b ? 1 : 2', '1'],
    ['(a > b) == no', 'yes'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, { a: '8 st', b: '12 st' });
  });

  test.each([
    ['a < b < 20 st', 'chained-comparison', 'a < b < 20 st', { a: 'a', b: 'b', c: '20 st' }],
    ['a = b', 'single-equals', '=', {}],
    ['a < b ? a == b ? 1 : 2 : 3', 'condition-in-condition', '?', {}],
    ['a < b ? 1', 'condition-needs-else', '1', {}],
    ['a : b', 'colon-without-question', ':', {}],
    ['a ? 1 : 2', 'not-a-truth', 'a', {}],
    ['a and b', 'not-a-truth', 'a', {}],
    ['not a', 'not-a-truth', 'a', {}],
    ['a < b ? 1 in : 2 st', 'arms-unlike', 'a < b ? 1 in : 2 st', {}],
    ['a == 8', 'count-with-number', 'a == 8', {}],
    ['a == "M"', 'compare-unlike', 'a == "M"', {}],
    ['"L" < "M"', 'compare-unlike', '"L" < "M"', {}],
    ['(a < b) + 1', 'not-a-number', 'a < b', {}],
    ['a and', 'value-missing', 'and', {}],
    ['and a', 'value-missing', 'and', {}],
  ] as const)('%s is a problem: %s', (text, code, place, parts) => {
    checkProblem(text, code, place, { a: '8 st', b: '12 st' }, parts);
  });
});

describe('kinds that do not go together', () => {
  const CELLS = {
    pick_up: '12 st',
    heel_rows: '24 rows',
    leg: '7 in',
    weight: '50 g',
    cost: '€4.50',
    day: '2',
  };
  const WITH = { picked: '12 st', heel_rows: '24 rows', leg: '7 in', yarn: '50 g', cost: '€4.50', n: '2' };

  test.each([
    [
      'picked + heel_rows',
      'rows-with-stitches',
      { left: 'picked', right: 'heel_rows', rate: '1 st / 2 row', turned: 'heel_rows' },
    ],
    ['heel_rows - picked', 'rows-with-stitches', { rate: '2 row / 1 st', turned: 'picked', doing: 'takes' }],
    ['leg + picked', 'length-with-count', { leftKind: 'a length', rightKind: 'stitches' }],
    ['heel_rows + leg', 'length-with-count', {}],
    ['leg + n', 'length-with-number', {}],
    ['leg + yarn', 'unlike', {}],
    ['cost + leg', 'unlike', {}],
    ['picked + n', 'count-with-number', {}],
    ['picked < heel_rows', 'rows-with-stitches', {}],
  ] as const)('%s is a problem: %s', (text, code, parts) => {
    checkProblem(text, code, text, WITH, parts);
  });

  test('the offer works', () => {
    checkFormula('picked + heel_rows * 1 st / 2 row', '24 st', WITH);
  });

  test('a length where a count belongs', () => {
    checkProblem('whole(leg)', 'length-to-count', 'leg', WITH);
    checkProblem('multiple(leg, 4)', 'length-to-count', 'leg', WITH);
    checkProblem('multiple(picked, leg)', 'argument-kind', 'leg', WITH, { parameter: 'n' });
    checkProblem('date(2026, 1 st, 3)', 'argument-kind', '1 st', WITH);
  });

  test('plain counts are taken as stitches or as plain numbers', () => {
    checkFormula('multiple(picked, 5 st, 1 st)', '11 st', WITH);
    checkFormula('multiple(picked, 5, 1)', '11 st', WITH);
  });

  test('days of the calendar', () => {
    checkFormula('date(2026, 12, 24) - date(2026, 12, 10)', '14 days');
    checkFormula('date(2026, 2, 28) + 2 days', '2026-03-02');
    checkFormula('date(2024, 2, 28) + 2 days', '2024-03-01');
    checkFormula('1 week + date(2026, 1, 1)', '2026-01-08');
    checkFormula('2026-01-08 - 1 week', '2026-01-01');
    checkFormula('2026-01-08 - 12 hours', '2026-01-07');
    checkFormula('2026-01-08 > 2026-01-07', 'yes');
    checkProblem('date(2026, 2, 30)', 'no-such-day', 'date(2026, 2, 30)');
    checkProblem('2026-02-30', 'no-such-day', '2026-02-30');
    checkProblem('2026-01-08 + 2026-01-07', 'date-sum', '2026-01-08 + 2026-01-07');
    checkProblem('2 days - 2026-01-07', 'date-sum', '2 days - 2026-01-07');
    checkProblem('2026-01-08 * 2', 'not-a-number', '2026-01-08');
    checkProblem('2026-01-08 + 2 in', 'date-sum', '2026-01-08 + 2 in');
  });

  test('money', () => {
    checkFormula('€4.50 * 3', '13.50 €', {}, { money: '€' });
    checkFormula('3 skeins * €12 / skein', '€36', {}, { money: '€' });
    checkProblem('$3 * 2', 'other-money', '$3', {}, { money: '€' }, { money: '€' });
    checkProblem('cost + 1 st', 'unlike', 'cost + 1 st', CELLS);
  });
});

describe('texts that are not finished', () => {
  test.each([
    ['chest +', 'value-missing', '+'],
    ['* 2', 'value-missing', '*'],
    ['(chest', 'bracket-not-closed', '('],
    ['chest)', 'bracket-not-opened', ')'],
    ['()', 'empty-brackets', ')'],
    ['max(', 'value-missing', '('],
    ['max()', 'too-few-arguments', 'max()'],
    ['max(1)', 'too-few-arguments', 'max(1)'],
    ['max(1, 2, 3, 4, 5)', 'too-many-arguments', 'max(1, 2, 3, 4, 5)'],
    ['max(1,, 2)', 'value-missing', ','],
    ['"M', 'open-label', '"M'],
    ['+', 'value-missing', '+'],
    ['chest + - - - - - 2 in', 'operators-in-a-row', '-'],
    ['± 2', 'tolerance-needs-value', '±'],
    ['2 ±', 'tolerance-needs-value', '±'],
    ['chest ± 1 in', 'tolerance-typed-only', '±'],
    ['2 ± 1 ± 1', 'tolerance-typed-only', '±'],
    ['€', 'value-missing', '€'],
  ])('%s is a problem: %s', (text, code, place) => {
    checkProblem(text, code, place, CHEST);
  });
});
