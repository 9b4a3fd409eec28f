/*
 * A notebook as a table for other programs: CSV as RFC 4180 has it (commas, quote marks doubled, lines end with CR and
 * LF), and Markdown tables. Rows come in as printed texts; a value stands with its unit in the same field, as a
 * knitter would write it.
 */

/** One row: a cell's name, its values as printed (one, or one for each column), and what is said of it. */
export interface TableRow {
  readonly name: string;
  readonly values: readonly string[];
  readonly says: readonly string[];
  /** What she wrote beside it. */
  readonly note?: string;
}

/** A step of what to knit, as text: its number ("" for none), its words, and the lines that belong to it. */
export interface TableStep {
  readonly number: string;
  readonly words: string;
  readonly lines: readonly string[];
}

/** A section with its rows. */
export interface TableSection {
  readonly title: string;
  readonly rows: readonly TableRow[];
}

/** A notebook as rows of text. */
export interface Table {
  readonly title: string;
  /** What the columns are: "size"; "" where there are none. */
  readonly heading: string;
  readonly columns: readonly string[];
  readonly sections: readonly TableSection[];
  /** What to knit, for the chosen column. */
  readonly steps?: readonly TableStep[];
}

/** A row's values under the columns: one value stands under the first. */
const under = (columns: readonly string[], values: readonly string[]): readonly string[] =>
  Array.from({ length: Math.max(1, columns.length) }, (_, i) => values[i] ?? '');

/** A field of CSV: in quote marks when it holds a comma, a quote mark or a line's end, or begins or ends blank. */
function field(text: string): string {
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const record = (fields: readonly string[]): string => `${fields.map(guarded).map(field).join(',')}\r\n`;

/** Spreadsheets work out a field that begins like a formula; a quote mark before it keeps it a text. */
function guarded(text: string): string {
  return /^[=@\t\r]|^[+-](?![\d.])/.test(text) ? `'${text}` : text;
}

/** A line of headings, then a line for each cell: section, name, a field for each column, and what is said. */
function records({ columns, sections }: Table): readonly (readonly string[])[] {
  const heads = columns.length > 0 ? columns : ['value'];
  const lines = sections.flatMap(({ title, rows }) =>
    rows.map(({ name, values, says }) => [title, name, ...under(columns, values), says.join('; ')]),
  );
  return [['section', 'name', ...heads, 'says'], ...lines];
}

/** The notebook as CSV. */
export function toCSV(table: Table): string {
  return records(table).map(record).join('');
}

/** The notebook as spreadsheets take it when it is pasted: fields apart by tabs, one line a cell. */
export function toTabs(table: Table): string {
  const line = (fields: readonly string[]): string =>
    fields.map((text) => guarded(text.replace(/\s+/g, ' ').trim())).join('\t');
  return `${records(table).map(line).join('\n')}\n`;
}

/** Text that Markdown takes as it stands: its own marks are disarmed, and no line ends within a cell. */
function plain(text: string): string {
  return text
    .replace(/[\\`*_[\]<>|#~]/g, (mark) => `\\${mark}`)
    .replaceAll('&', '&amp;')
    .replace(/\s+/g, ' ')
    .trim();
}

const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

function section({ title, rows }: TableSection, { heading, columns }: Table): string {
  const many = rows.some(({ values }) => values.length > 1);
  const shown = many ? columns : [''];
  const heads = [many ? plain(heading) : '', ...shown.map(plain), ''];
  const body = rows.map(({ name, values, says, note = '' }) =>
    line([
      plain(name),
      ...under(shown, values).map(plain),
      plain([...says, note].filter((one) => one !== '').join('; ')),
    ]),
  );
  const rule = line(['---', ...shown.map(() => '--:'), '---']);
  return [`## ${plain(title)}`, '', line(heads), rule, ...body].join('\n');
}

function stepsIn(steps: readonly TableStep[]): readonly string[] {
  if (steps.length === 0) return [];
  const told = steps.map(({ number, words, lines }) =>
    [
      `${number === '' ? '-' : `${number}.`} ${plain(words)}`,
      ...lines.map((one) => `   - ${plain(one)}`),
    ].join('\n'),
  );
  return [['## What to knit', '', ...told].join('\n')];
}

/** The notebook as Markdown: a heading and a table for each section, with its notes, and what to knit. */
export function toMarkdown(table: Table): string {
  const sections = table.sections.map((one) => section(one, table));
  return `${[`# ${plain(table.title)}`, ...sections, ...stepsIn(table.steps ?? [])].join('\n\n')}\n`;
}
