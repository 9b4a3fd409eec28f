import { expect } from 'vitest';
import type { Problem } from '../../src/formula/index.ts';
import type { Sheet, Value } from '../../src/sheet/index.ts';
import { brief, columnsFor, type Given, type Setting, sheetOf } from '../support/cells.ts';

/** The name of the cell that a checked text is put in. */
export const RESULT = 'the_result';

/** A sheet with the given cells and the text in a cell of its own. */
export function withResult(text: string, given: Given = {}, setting: Setting = {}): Sheet {
  const sheet = sheetOf(given, { columns: columnsFor(given), ...setting });
  sheet.add(RESULT, RESULT, text);
  sheet.settle();
  return sheet;
}

/** What a text comes to beside the given cells. */
export function workedOut(text: string, given: Given = {}, setting: Setting = {}): Value {
  return withResult(text, given, setting).value(RESULT);
}

/** Checks that a text comes to the same as another: same kind, same dimension, same number to twelve digits. */
export function checkFormula(text: string, gives: string, given: Given = {}, setting: Setting = {}): void {
  const [got, wanted] = [workedOut(text, given, setting), workedOut(gives, given, setting)];
  if (got.kind === 'problem' || wanted.kind === 'problem')
    expect.fail(`${text}: ${JSON.stringify(got)}; ${gives}: ${JSON.stringify(wanted)}`);
  if (got.kind !== 'quantity' || wanted.kind !== 'quantity') return expect(brief(got)).toBe(brief(wanted));
  expect(got.type.dimension, `what kind of thing ${text} is`).toBe(wanted.type.dimension);
  const scale = Math.max(Math.abs(wanted.value), 1e-9);
  expect(
    Math.abs(got.value - wanted.value) / scale,
    `${text}: ${got.value}, not ${wanted.value}`,
  ).toBeLessThan(1e-12);
}

/** The problem of a text beside the given cells. */
export function problemOf(text: string, given: Given = {}, setting: Setting = {}): Problem {
  const value = workedOut(text, given, setting);
  if (value.kind !== 'problem') expect.fail(`"${text}" has no problem but is ${brief(value)}`);
  return value.problem;
}

/**
 * Checks a text's problem: its code, the piece of text it points at ('' for none in particular), and those of the
 * parts its sentence names that are asked about.
 */
export function checkProblem(
  text: string,
  code: string,
  place: string,
  given: Given = {},
  parts: Problem['parts'] = {},
  setting: Setting = {},
): void {
  const found = problemOf(text, given, setting);
  expect(found.code).toBe(code);
  expect(found.at ? text.normalize('NFC').slice(...found.at) : '').toBe(place);
  expect(found.parts).toMatchObject(parts);
}
