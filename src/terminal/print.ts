import type { Asked } from '../session/index.ts';

type Row = Asked['sections'][number]['rows'][number];

const length = (text: string): number => [...text].length;
const width = (texts: readonly string[]): number => Math.max(0, ...texts.map(length));
const padded = (text: string, to: number): string => text + ' '.repeat(Math.max(0, to - length(text)));
const padLeft = (text: string, to: number): string => ' '.repeat(Math.max(0, to - length(text))) + text;

/** Values longer than this stand on lines of their own, each after its column's label: plans, mostly. */
const LONGEST = 24;

const isWide = (row: Row): boolean =>
  row.values.length > 1 && row.values.some((value) => length(value) > LONGEST);

function rowLines(row: Row, asked: Asked, names: number, each: number): readonly string[] {
  const indent = padded('', names);
  const says = row.says.map((line) => indent + line);
  const name = padded(row.name, names);
  if (isWide(row))
    return [
      name.trimEnd(),
      ...row.values.map((value, i) => `${indent}${asked.columns[i] ?? ''}: ${value}`),
      ...says,
    ];
  const values =
    row.values.length > 1 ? row.values.map((v) => padLeft(v, each)).join('') : (row.values[0] ?? '');
  return [`${name}${values}`.trimEnd(), ...says];
}

/** The notebook as a readable table, a line a cell. */
export function printTable(asked: Asked): string {
  const rows = asked.sections.flatMap((section) => section.rows);
  const names = width(rows.map((row) => row.name)) + 2;
  const narrow = rows.flatMap((row) => (row.values.length > 1 && !isWide(row) ? row.values : []));
  const labels = asked.columns.map((label) => (label === asked.chosen ? `[${label}]` : label));
  const each = width([...labels, ...narrow]) + 2;
  const heads = labels.map((label) => padLeft(label, each)).join('');
  const lines = [asked.title, ...(labels.length > 0 ? [padded('', names) + heads] : [])];
  for (const section of asked.sections)
    lines.push('', section.title, ...section.rows.flatMap((row) => rowLines(row, asked, names, each)));
  return `${lines.join('\n')}\n`;
}
