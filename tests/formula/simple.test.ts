// One number with its unit is read by a short way; a space before it sends it the long way, which must read the same.
import { expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';

const language = createLanguage(standard);
const read = (text: string) => language.parse(text, () => false);

/** What was read, without the places. */
function shape(text: string): string {
  return JSON.stringify(read(text), (key, value: unknown) => (key === 'at' ? undefined : value));
}

test.each([
  'in',
  'cm',
  'st',
  'sts',
  'rows',
  'rnd',
  'g',
  'yd',
  'skein',
  'minutes',
  'to',
  'per',
  'and',
  'wool',
  '',
])('a number and "%s"', (unit) => {
  for (const number of ['0', '7', '042', '42', '42.5', '0.125', '123456789', '999999999.999999999']) {
    const text = `${number} ${unit}`.trim();
    expect(shape(text), text).toBe(shape(` ${text}`));
  }
});
