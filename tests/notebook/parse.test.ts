import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from '../../src/notebook/parse.ts';
import { runs } from './runs.ts';

/** With ordinary prototypes, so that the two readers can be compared. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe('reading JSON by hand', () => {
  test('gives what JSON.parse gives, for any JSON', () => {
    fc.assert(
      fc.property(
        fc.jsonValue({ depthSize: 'large', maxDepth: 12 }),
        fc.constantFrom(undefined, 1, '\t'),
        (value, indent) => {
          const text = JSON.stringify(value, undefined, indent);
          const parsed = parse(text);
          expect(parsed).toMatchObject({ slips: 0, repeated: [], tail: false });
          expect(parsed.stopped).toBeUndefined();
          expect(JSON.stringify(parsed.value)).toBe(JSON.stringify(JSON.parse(text)));
        },
      ),
      runs(300, 5000),
    );
  });

  test('finds no fault with a text exactly when JSON.parse finds none', () => {
    const piece = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '"b"',
      '1',
      '-0.5e2 ',
      'true',
      'null',
      ' ',
      '"\\n"',
      '01',
      '"\n"',
      '\\',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 9 }), (pieces) => {
        const text = pieces.join('');
        const { value, stopped, slips, tail } = parse(text);
        const faultless = stopped === undefined && slips === 0 && !tail;
        let strict: unknown;
        try {
          strict = { value: JSON.parse(text) };
        } catch {
          strict = undefined;
        }
        expect(faultless ? { value: plain(value) } : undefined).toEqual(strict);
      }),
      runs(3000, 50_000),
    );
  });

  test('says where it stopped, counted from 1', () => {
    expect(parse('{"a": 1,\n "b": ?}').stopped).toEqual({ line: 2, column: 7, why: 'broken' });
    expect(parse('{"a": 1,\n "b": "x').stopped).toEqual({ line: 2, column: 9, why: 'cut' });
  });

  test('of a half text keeps lists, sections and columns, and no half group', () => {
    expect(parse('{"list": [1, {"cells": [{"a": 1}, {"a": 2').value).toEqual({
      list: [1, { cells: [{ a: 1 }] }],
    });
  });

  test('forgives commas too many or missing, and counts them', () => {
    expect(parse('{"a": [1,,2 3,], "b": 1 "c": 2,}')).toMatchObject({
      value: { a: [1, 2, 3], b: 1, c: 2 },
      slips: 5,
    });
  });
});
