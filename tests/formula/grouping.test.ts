// A shape grouped once serves every formula of that shape: what is remembered must be what mathjs says, and a tree must
// not hang on what was read before it.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { groupingAfresh, groupingOf } from '../../src/formula/grouping.ts';
import { createLanguage, standard } from '../../src/formula/index.ts';

const operand = fc.constantFrom('v0 ', 'v1 ', 'v2 ', 'f0(v0 ,v1 )', '(v0 - v1 )');
const operator = fc.constantFrom('+ ', '- ', '* ', '/ ', '^ ', '< ', 'and ', 'or ', 'to ');
const shape = fc
  .tuple(operand, fc.array(fc.tuple(operator, operand), { maxLength: 5 }))
  .map(([first, rest]) => first + rest.flat().join(''));

/** Also what cannot be grouped is the same: an error both times. */
const orError = (group: () => unknown): unknown => {
  try {
    return group();
  } catch {
    return 'cannot be grouped';
  }
};

test('what is remembered of a shape is what mathjs says of it', () => {
  fc.assert(
    fc.property(shape, (text) => {
      const afresh = orError(() => groupingAfresh(text));
      expect(orError(() => groupingOf(text))).toEqual(afresh);
      expect(orError(() => groupingOf(text))).toEqual(afresh);
    }),
  );
});

test('formulas of one shape keep their own names, numbers and places', () => {
  const language = createLanguage(standard);
  const read = (text: string) => language.parse(text, () => true);
  expect(read('chest + ease * 2')).toMatchObject({ tree: { left: { name: 'chest', at: [0, 5] } } });
  expect(read('width + hem * 3')).toMatchObject({
    kind: 'tree',
    tree: {
      kind: 'binary',
      op: '+',
      left: { kind: 'cell', name: 'width', at: [0, 5] },
      right: {
        op: '*',
        left: { name: 'hem', at: [8, 11] },
        right: { kind: 'literal', value: 3, at: [14, 15] },
      },
    },
  });
});
