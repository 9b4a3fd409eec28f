// Every example that a function carries in its own record, worked out as a notebook would. A function without one, or
// without help or a source, fails here.
import { describe, expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { checkFormula } from './check-formula.ts';

const EXAMPLES = standard.flatMap((spec) =>
  spec.examples.map((example) => ({ name: spec.name, ...example })),
);

describe('the functions every notebook has', () => {
  test.each(EXAMPLES)('$text gives $gives', ({ text, gives, given }) => {
    checkFormula(text, gives, given ?? {});
  });

  test.each(standard.map((spec) => [spec.name, spec] as const))('%s says what it is', (_name, spec) => {
    expect(spec.examples.length).toBeGreaterThan(0);
    expect(spec.help).toMatch(/^[A-Z].*\.$/);
    expect(spec.source).not.toBe('');
    for (const parameter of spec.parameters) expect(parameter.help).not.toBe('');
    const optional = spec.parameters.map((parameter) => parameter.optional ?? false);
    expect(optional, 'only the last may be left out').toEqual([...optional].sort());
    const words = spec.parameters.map((parameter) => `<${parameter.name}>`);
    const least = spec.parameters.filter((parameter) => !parameter.optional).length;
    for (let count = least; count <= words.length; count += 1)
      for (const word of words.slice(0, count))
        expect(spec.says(words.slice(0, count))).toContain(word.slice(1, -1));
  });

  test('two of one name are refused', () => {
    expect(() => createLanguage([...standard, ...standard.slice(0, 1)])).toThrow('two functions');
  });

  test('has those the language promises', () => {
    expect(standard.map((spec) => spec.name).sort()).toEqual(
      `abs at average chosen date given largest max min multiple multiple_down multiple_up nearest rank slope smallest
       sqrt to_nearest today total total_until total_up_to whole whole_down whole_up`.split(/\s+/),
    );
  });
});
