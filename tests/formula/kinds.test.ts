// What is known of a text before anything is worked out: typed or worked out, its kind, whether it is decided.
import { describe, expect, test } from 'vitest';
import { isDecided, typeInWords } from '../../src/formula/index.ts';
import { RESULT, withResult } from './check-formula.ts';

const CELLS = {
  cast_on: '200 st',
  half: '100.5 st',
  repeats: '25',
  chest: '42 in',
  gauge: '18 st / 4 in',
  sizes: '176 (198, 220) st',
  uneven: '176 (198.5, 220) st',
  size_name: '"M"',
  ease_share: '10%',
};

function kindOf(text: string): {
  words: string;
  decided: boolean;
  typed: boolean;
  each: boolean;
  shown: string;
} {
  const { type, typed, each } = withResult(text, CELLS).info(RESULT);
  const shown = type.kind === 'quantity' ? (type.shown?.label ?? '') : '';
  return { words: typeInWords(type), decided: isDecided(type), typed, each, shown };
}

describe('typed', () => {
  test.each([
    '42 in',
    '2 * 21 in',
    '(20 + 1) * 2 in / 1',
    '18 ± 0.5 st / 4 in',
    '18 +- 0.5 st / 4 in',
    '2026-12-24',
    'date(2026, 12, 24)',
    'yes',
    '"M"',
    '',
    '-4 st',
    '10%',
    '107,5 cm',
    '42 in to cm',
    '3 in < 4 in',
    'pi * 2 in',
  ])('%s', (text) => {
    expect(kindOf(text).typed).toBe(true);
  });
});

describe('worked out', () => {
  test.each([
    'chest',
    'chest + 2 in',
    'whole(2.5)',
    'given(chest)',
    'today()',
    'max(1, 2)',
    'date(2026, repeats, 1)',
  ])('%s', (text) => {
    expect(kindOf(text).typed).toBe(false);
  });
});

describe('decided', () => {
  test.each([
    '200 st',
    '25',
    'cast_on',
    'cast_on + 8 st',
    'cast_on - 8 st',
    'cast_on * 2',
    '2 * cast_on',
    'repeats * 8 st',
    '-cast_on',
    'whole(chest * gauge)',
    'multiple(chest * gauge, 8) + 1 st',
    'abs(cast_on - 220 st)',
    'min(cast_on, 180 st)',
    'chest > 40 in ? cast_on : 180 st',
    'sizes',
    'sizes + cast_on',
    'total(sizes)',
    'chosen(sizes)',
    'at(sizes, "2")',
    'largest(sizes)',
    'repeats ^ 2',
    '244/4 st',
    'cast_on to st',
  ])('%s', (text) => {
    expect(kindOf(text).decided).toBe(true);
  });
});

describe('not decided', () => {
  test.each([
    '100.5 st',
    'half * 2',
    'half + cast_on',
    'chest * gauge',
    'cast_on / 2',
    'cast_on * 0.5',
    'cast_on - 10%',
    'cast_on * (1 - ease_share)',
    'chest > 40 in ? cast_on : half',
    'min(cast_on, half)',
    'uneven',
    'average(sizes)',
    'total(uneven)',
    '243/4 st',
    'sqrt(repeats)',
    'repeats ^ -1',
    '50%',
    'to_nearest(half, 1 st)',
    'chest',
  ])('%s', (text) => {
    expect(kindOf(text).decided).toBe(false);
  });
});

describe('kinds', () => {
  test.each([
    ['chest', 'a length', 'in'],
    ['chest * 2', 'a length', 'in'],
    ['2 * chest', 'a length', 'in'],
    ['chest + 10 cm', 'a length', 'in'],
    ['chest to cm', 'a length', 'cm'],
    ['chest * gauge', 'stitches', ''],
    ['cast_on / chest', 'a stitch gauge', ''],
    ['cast_on / gauge', 'a length', ''],
    ['chest * chest', 'length squared', ''],
    ['sqrt(chest * chest)', 'a length', ''],
    ['sqrt(chest)', 'length to the power 0.5', ''],
    ['cast_on / cast_on', 'a plain number', ''],
    ['ease_share', 'a plain number', '%'],
    ['ease_share * 2', 'a plain number', ''],
    ['ease_share + 5%', 'a plain number', '%'],
    ['1 - ease_share', 'a plain number', '%'],
    ['chest > 40 in', 'a yes or no', ''],
    ['size_name', 'a label', ''],
    ['nearest(sizes, cast_on)', 'a label', ''],
    ['2026-12-24', 'a date', ''],
    ['today() - 2026-12-24', 'a time', 'day'],
    ['slope(sizes, sizes)', 'a plain number', ''],
    ['', 'nothing yet', ''],
  ])('%s is %s, shown in "%s"', (text, words, shown) => {
    const kind = kindOf(text);
    expect([kind.words, kind.shown]).toEqual([words, shown]);
  });

  test.each([
    ['sizes', true],
    ['sizes + cast_on', true],
    ['cast_on', false],
    ['total(sizes)', false],
    ['total(sizes) + sizes', true],
    ['total_up_to(sizes)', true],
    ['chosen(sizes)', false],
    ['given(sizes)', true],
    ['given(cast_on)', false],
    ['chest > 1 in ? sizes : cast_on', true],
  ])('%s has one value for each column: %s', (text, each) => {
    expect(kindOf(text).each).toBe(each);
  });
});

describe('tolerance', () => {
  const toleranceOf = (text: string) => withResult(text).tolerance(RESULT);

  test.each([
    ['18 ± 0.5 st / 4 in', 0.5 / 10160],
    ['18 +- 0.5 st / 4 in', 0.5 / 10160],
    ['18 +/- 0.5 st / 4 in', 0.5 / 10160],
    ['18 st / 4 in ± 0.5 st / 4 in', 0.5 / 10160],
    ['18 st / 4 in ± 0.5', 0.5 / 10160],
    ['41 in ± 1', 2540],
    ['41 in ± 1 cm', 1000],
    ['41 ± 1 in', 2540],
    ['42 in ± 5%', 0.05 * 42 * 2540],
    ['42 in', 0],
  ])('%s', (text, base) => {
    expect(toleranceOf(text)).toBeCloseTo(base, 12);
  });

  test.each(['41 in ± 1 st', '18 st / 4 in ± 0.5 st', '18 st ± 1 in', 'yes ± no'])(
    '%s does not go together',
    (text) => {
      const value = withResult(text).value(RESULT);
      expect(value).toMatchObject({ kind: 'problem', problem: { code: 'tolerance-unlike' } });
    },
  );
});
