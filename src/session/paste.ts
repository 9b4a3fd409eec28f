/*
 * Cells as a table, and a table as cells. What is copied pastes into any spreadsheet: a line a cell, its name and its
 * values between tabs. What is pasted is read the same way; a size line goes across its row's columns, a column of
 * values down the cells.
 */

import { formulaName, nameProblem, readSizeLine } from '../formula/index.ts';
import { nameFrom, nameKey } from '../notebook/index.ts';
import { printed, type Shown } from '../quantity/index.ts';
import type { Live } from './live.ts';
import { numberIn, printAt } from './show.ts';

/** The cells as lines with tabs, headed by the columns where any cell has one value for each. */
export function tableOf(live: Live, ids: readonly string[]): string {
  const each = ids.some((id) => live.sheet.info(id).each);
  const head = each ? [['', ...live.sheet.columnLabels].join('\t')] : [];
  const lines = ids.map((id) => {
    const columns = live.sheet.info(id).each ? live.columns.length : 1;
    const values = Array.from({ length: columns }, (_, c) =>
      printed(printAt(live, id, c, live.sheet.value(id, c))),
    );
    return [live.sheet.nameOf(id).replace(/_/g, ' '), ...values].join('\t');
  });
  return [...head, ...lines].join('\n');
}

/** A line of a pasted table, taken apart: a name where its first field is one, and its fields. */
export interface PastedLine {
  /** "" where the others have a name and this one has none. */
  readonly name: string | undefined;
  readonly values: readonly string[];
  /** The unit of its plain numbers, where its name says one: "Chest (cm)". */
  readonly unit?: Shown | undefined;
}

/** A field as it is read: without the quotes of a spreadsheet, or the sign its formulas begin with; a lone dash for nothing. */
const typographic = (text: string): string =>
  text
    .trim()
    .replace(/^"(.*)"$/s, '$1')
    .replace(/^=(?!=)\s*/u, '')
    .replace(/\u00a0/g, ' ')
    .replace(/^[-–—−]$/u, '');

/** The lines of a pasted table. A first column of words is one of names, whatever signs stand in them. */
export function readTable(text: string, live: Live): readonly PastedLine[] {
  const found = cellFinder(live);
  const lines = text
    .replace(/\r\n?/g, '\n')
    .split('\n')
    .filter((line) => line.trim() !== '')
    .slice(0, 2000)
    .map((line) => line.split('\t').map(typographic));
  const read = hasNames(live, found, lines) ? namedLine : lineOf;
  return lines.map((fields, at) => (at === 0 && fields[0] === '' ? lineOf : read)(live, found, fields));
}

/** Words before any number, or behind the number of a list: "Chest", "(half) back", "2. Chest". */
const WORDS = /^(?:[^\p{L}\p{N}]*|\d+[.)]\s*)\p{L}/u;

function hasNames(live: Live, found: Finder, lines: readonly (readonly string[])[]): boolean {
  const firsts = lines.map(([first = '']) => first).filter((first) => first !== '');
  const isName = (first: string) => found(formulaName(first)) !== undefined || !isValue(live, first);
  return (
    lines.some(({ length }) => length > 1) &&
    firsts.every((first) => WORDS.test(first)) &&
    firsts.some(isName)
  );
}

/** The cell of a name, in capitals or not; undefined where there is none. */
export type Finder = (name: string) => string | undefined;

/** Finds cells as tables name them. */
export function cellFinder({ sheet }: Live): Finder {
  const byKey = new Map(sheet.cells.map((id) => [nameKey(sheet.nameOf(id)), id]));
  return (name) => byKey.get(nameKey(name));
}

/** Whether a text means something in a cell: a value, or a formula of cells there are. */
export function isValue(live: Live, text: string): boolean {
  const { parsed, checked } = live.sheet.look(text);
  return parsed.kind === 'tree' && (checked?.problems ?? []).length === 0;
}

/** A line that is judged by itself, where not all begin with words. */
function lineOf(_: Live, found: Finder, fields: readonly string[]): PastedLine {
  const [first = '', ...rest] = fields;
  const name = formulaName(first);
  const canBeName =
    rest.length > 0 &&
    (found(name) !== undefined || (nameProblem(name, () => undefined) === undefined && !/^\d/.test(first)));
  return canBeName ? { name, values: rest } : { name: undefined, values: fields };
}

/** "Chest (cm)" is a chest in centimetres, "Back (half)" a back half. */
function namedLine(live: Live, found: Finder, [first = '', ...rest]: readonly string[]): PastedLine {
  const values = rest.length > 0 ? rest : [''];
  const [, words = '', inside = ''] = /^(.*\S)\s*[([]([^()[\]]+)[)\]]\W*$/u.exec(first) ?? [];
  const shown = inside === '' ? undefined : numberIn(live, `1 ${inside}`)?.shown;
  const unit = shown?.label === '' ? undefined : shown;
  const whole = formulaName(first);
  if (first === '' || found(whole) !== undefined) return { name: whole, values };
  return { name: cellName(found, unit ? words : first), values, unit };
}

/** The nearest thing to words that a cell may be called. */
function cellName(found: Finder, words: string): string {
  const name = nameFrom(formulaName(words)).slice(0, 64).replace(/_+$/u, '');
  const problem = found(name) === undefined ? nameProblem(name, () => undefined) : undefined;
  return problem ? String(problem.parts['instead'] ?? `${name}_wanted`) : name;
}

/** A size line as patterns print it, pasted: its texts, or undefined. */
export function pastedSizes(text: string): readonly string[] | undefined {
  return text.includes('\t') || text.includes('\n') ? undefined : readSizeLine(text.trim(), true);
}
