/*
 * Cells as a table, and a table as cells. What is copied pastes into any spreadsheet: a line a cell, its name and its
 * values between tabs. What is pasted is read the same way; a size line goes across its row's columns, a column of
 * values down the cells.
 */

import { formulaName, nameProblem, readSizeLine } from '../formula/index.ts';
import { printed } from '../quantity/index.ts';
import type { Live } from './live.ts';
import { printAt } from './show.ts';

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

/** A pasted table, taken apart: a name for each line where the first field can be one, and its fields. */
export interface PastedLine {
  readonly name: string | undefined;
  readonly values: readonly string[];
}

/** A field as it is read: without the quotes of a spreadsheet, a lone dash for nothing. */
const typographic = (text: string): string =>
  text
    .trim()
    .replace(/^"(.*)"$/s, '$1')
    .replace(/\u00a0/g, ' ')
    .replace(/^[-–—−]$/u, '');

function lineOf(line: string, known: (name: string) => boolean): PastedLine {
  const fields = line.split('\t').map(typographic);
  const [first = '', ...rest] = fields;
  const name = formulaName(first);
  const canBeName =
    rest.length > 0 &&
    (known(name) || (nameProblem(name, () => undefined) === undefined && !/^\d/.test(first)));
  return canBeName ? { name, values: rest } : { name: undefined, values: fields };
}

/** The lines of a pasted table; undefined for text that is no table (one field, no size line). */
export function readTable(text: string, known: (name: string) => boolean): readonly PastedLine[] {
  return text
    .replace(/\r\n?/g, '\n')
    .split('\n')
    .filter((line) => line.trim() !== '')
    .slice(0, 2000)
    .map((line) => lineOf(line, known));
}

/** A size line as patterns print it, pasted: its texts, or undefined. */
export function pastedSizes(text: string): readonly string[] | undefined {
  return text.includes('\t') || text.includes('\n') ? undefined : readSizeLine(text.trim(), true);
}
