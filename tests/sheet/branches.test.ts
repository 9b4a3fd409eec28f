import { expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { Sheet } from '../../src/sheet/index.ts';

const language = createLanguage(standard);

/** What a text comes to beside a = 0, b = 6, for one column and for three. */
function workedOut(text: string): readonly unknown[] {
  return [[], ['S', 'M', 'L']].flatMap((columns) => {
    const sheet = new Sheet({ language, columns });
    sheet.add('a', 'a', columns.length > 0 ? ['0', '0', '0'] : '0');
    sheet.add('b', 'b', '6');
    sheet.add('x', 'x', text);
    sheet.settle();
    const value = sheet.value('x', 0);
    return [value.kind === 'quantity' ? value.value : value.kind === 'truth' ? value.truth : value];
  });
}

// A division by nothing in the arm that is not taken must leave what stands around it as it is.
test.each([
  ['a == 0 ? 1 : b / (a * 2)', 1],
  ['1 + (a == 0 ? 2 : (b + 1) / (a * 2)) * 3', 7],
  ['a == 0 ? 0 : min(max((b - 1) / (b - b * (a + 1)), 0), 1)', 0],
  ['a == 0 or b / (a + a) > 1', true],
  ['a != 0 and (b + b) / (a + a) > 1', false],
])('%s is %s', (text, wanted) => {
  expect(workedOut(text)).toEqual([wanted, wanted]);
});
