// What a cell may be called, and texts rewritten when a name or a label changes.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formulaName,
  nameProblem,
  nearest,
  renameCellIn,
  renameLabelIn,
  spacedName,
  WORDS,
} from '../../src/formula/index.ts';
import { UNIT_NAMES } from '../../src/quantity/index.ts';
import { brief, sheetOf } from '../support/cells.ts';
import { patience, runs } from '../support/runs.ts';
import { anything, CELLS } from './expressions.ts';

const free = () => undefined;

describe('a name', () => {
  test.each([
    'chest',
    'total',
    'whole',
    'größe',
    'обхват',
    'היקף',
    'รอบอก',
    '胸囲',
    'x2',
    'a_b',
    'foot',
    'e',
    'i',
    'size',
    'repeat',
    'constructor',
    '__proto__x'.slice(2),
    'Äußerste_Weite',
    'K',
  ])('%s is fine', (name) => {
    expect(nameProblem(formulaName(name), free)).toBeUndefined();
  });

  test.each([
    ['', 'name-empty', {}],
    ['g', 'name-unit', { unit: 'g', instead: 'gauge' }],
    ['IN', 'name-unit', { unit: 'in' }],
    ['rows', 'name-unit', { unit: 'row', instead: 'row_count' }],
    ['2nd', 'name-letters', {}],
    ['_x', 'name-letters', {}],
    ['__proto__', 'name-letters', {}],
    ['neck+width', 'name-letters', {}],
    ['neck#width', 'name-letters', {}],
    ['😀', 'name-letters', {}],
    ['not', 'name-word', {}],
    ['x'.repeat(65), 'name-long', {}],
  ] as const)('%s is refused: %s', (name, code, parts) => {
    expect(nameProblem(formulaName(name), free)).toMatchObject({ code, parts });
  });

  test('of a unit, or a word of the language, is refused every time', () => {
    for (const name of UNIT_NAMES) expect(nameProblem(name, free)?.code, name).toBe('name-unit');
    for (const name of WORDS) expect(nameProblem(name, free)?.code, name).toBe('name-word');
  });

  test('that differs only in case from another is taken', () => {
    const taken = (folded: string) => (folded === 'größe' ? 'Größe' : undefined);
    expect(nameProblem('GRÖßE', taken)).toMatchObject({ code: 'name-taken', parts: { other: 'Größe' } });
  });

  test('is written with _ and read with spaces, and composed letters are one', () => {
    expect(formulaName('  finished  chest ')).toBe('finished_chest');
    expect(formulaName('cast-on stitches')).toBe('cast_on_stitches');
    expect(formulaName('upper arm (cm)')).toBe('upper_arm_cm');
    expect(formulaName('front/back of baby’s coat')).toBe('front_back_of_babys_coat');
    expect(formulaName('chest - ease')).toBe('chest_-_ease');
    expect(formulaName('gro\u0308ße')).toBe('größe');
    expect(spacedName('finished_chest')).toBe('finished chest');
  });
});

describe('renaming', () => {
  test.each([
    ['chest + ease', 'chest', 'bust', 'bust + ease'],
    ['chest+chest', 'chest', 'bust', 'bust+bust'],
    ['chest_wide + chest', 'chest', 'bust', 'chest_wide + bust'],
    ['total(chest) + total', 'total', 'sum', 'total(chest) + sum'],
    ['"chest" == chest', 'chest', 'bust', '"chest" == bust'],
    ['3 ½ in + chest', 'chest', 'обхват', '3 ½ in + обхват'],
    ['gro\u0308ße * 2', 'größe', 'weite', 'weite * 2'],
    ['chest + ', 'chest', 'bust', 'bust + '],
    ['chest + = ', 'chest', 'bust', 'bust + = '],
    ['', 'chest', 'bust', ''],
    ['Chest + chest', 'chest', 'bust', 'Chest + bust'],
  ])('%s: %s becomes %s', (text, old, renamed, is) => {
    expect(renameCellIn(text, old, renamed)).toBe(is);
  });

  test.each([
    ['at(chest, "M")', 'M', 'Medium', 'at(chest, "Medium")'],
    ['at(chest, “m”)', 'M', 'Medium', 'at(chest, "Medium")'],
    ['M + at(chest, "L")', 'M', 'Medium', 'M + at(chest, "L")'],
    ['42" + "M"', 'M', 'S', '42" + "S"'],
  ])('%s: the column %s becomes %s', (text, old, renamed, is) => {
    expect(renameLabelIn(text, old, renamed)).toBe(is);
  });

  test(
    'changes no value, and back again gives the same text',
    () => {
      fc.assert(
        fc.property(anything, fc.constantFrom('chest', 'widths', 'edge', 'gauge', 'missing'), (text, old) => {
          const renamed = renameCellIn(text, old, 'другое_имя');
          expect(renameCellIn(renamed, 'другое_имя', old)).toBe(text);
          const turned = Object.fromEntries(
            Object.entries(CELLS).map(([name, its]) => [name === old ? 'другое_имя' : name, its]),
          );
          const [one, other] = [sheetOf({ ...CELLS, it: text }), sheetOf({ ...turned, it: renamed })];
          expect(brief(other.value('it', 1)).replace('другое_имя', old)).toBe(brief(one.value('it', 1)));
        }),
        runs(100, 5000),
      );
    },
    patience,
  );
});

describe('a near name', () => {
  test.each([
    ['chesst', 'chest'],
    ['Chest', 'chest'],
    ['finshed_chest', 'finished_chest'],
    ['eas', 'ease'],
    ['elbow', undefined],
    ['x', undefined],
  ])('to %s is %s', (written, near) => {
    const names = ['finished_chest', 'chest', 'ease', 'gauge'];
    expect(nearest(written, names)).toBe(near);
    expect(nearest(written, names.reverse()), 'in whatever order they came').toBe(near);
  });

  test('is the same in whatever order the names came, also where two are as near', () => {
    expect(nearest('cuff_a', ['cuff_b', 'cuff_c'])).toBe(nearest('cuff_a', ['cuff_c', 'cuff_b']));
  });
});
