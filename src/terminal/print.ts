import type { Asked } from '../session/index.ts';

const width = (texts: readonly string[]): number => Math.max(0, ...texts.map((text) => [...text].length));
const padded = (text: string, to: number): string => text + ' '.repeat(Math.max(0, to - [...text].length));
const padLeft = (text: string, to: number): string => ' '.repeat(Math.max(0, to - [...text].length)) + text;

/** The notebook as a readable table, a line a cell. */
export function printTable(asked: Asked): string {
  const rows = asked.sections.flatMap((section) => section.rows);
  const names = width(rows.map((row) => row.name)) + 2;
  const each =
    width([...asked.columns, ...rows.flatMap((row) => (row.values.length > 1 ? row.values : []))]) + 2;
  const heads = asked.columns
    .map((label) => padLeft(label === asked.chosen ? `[${label}]` : label, each))
    .join('');
  const lines = [asked.title, ...(asked.columns.length > 0 ? [padded('', names) + heads] : [])];
  for (const section of asked.sections) {
    lines.push('', section.title);
    for (const row of section.rows) {
      const values =
        row.values.length > 1 ? row.values.map((v) => padLeft(v, each)).join('') : (row.values[0] ?? '');
      lines.push(`${padded(row.name, names)}${values}`.trimEnd());
      for (const says of row.says) lines.push(`${padded('', names)}${says}`);
    }
  }
  return `${lines.join('\n')}\n`;
}
