import type { Asked } from '../session/index.ts';

const width = (texts: readonly string[]): number => Math.max(0, ...texts.map((text) => [...text].length));
const padded = (text: string, to: number): string => text + ' '.repeat(Math.max(0, to - [...text].length));
const padLeft = (text: string, to: number): string => ' '.repeat(Math.max(0, to - [...text].length)) + text;

/** The longest value that still stands in its column; a longer one (a heel turn) has a line of its own. */
const WIDEST = 60;

type Row = Asked['sections'][number]['rows'][number];

const isLong = ({ values }: Row): boolean => values.length > 1 && width(values) > WIDEST;

/** The notebook as a readable table, a line a cell. */
export function printTable(asked: Asked): string {
  const rows = asked.sections.flatMap((section) => section.rows);
  const names = width(rows.map((row) => row.name)) + 2;
  const inColumns = rows.filter((row) => row.values.length > 1 && !isLong(row));
  const each = width([...asked.columns, ...inColumns.flatMap((row) => row.values)]) + 2;
  const heads = asked.columns
    .map((label) => padLeft(label === asked.chosen ? `[${label}]` : label, each))
    .join('');
  const lines = [asked.title, ...(asked.columns.length > 0 ? [padded('', names) + heads] : [])];
  for (const section of asked.sections) {
    lines.push('', section.title);
    for (const row of section.rows) {
      const values =
        row.values.length > 1 ? row.values.map((v) => padLeft(v, each)).join('') : (row.values[0] ?? '');
      lines.push(`${padded(row.name, names)}${isLong(row) ? '' : values}`.trimEnd());
      if (isLong(row))
        lines.push(...row.values.map((value, c) => `${padded('', names)}${asked.columns[c]}: ${value}`));
      for (const says of row.says) lines.push(`${padded('', names)}${says}`);
    }
  }
  return `${lines.join('\n')}\n`;
}
