/*
 * A prebuilt notebook, worked out for a test: its values by name, read through the same door as the terminal's.
 * Lengths, gauges and weights come in each cell's own unit, as the terminal's JSON gives them.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { isRefused, type Notebook, readNotebook } from '../../src/notebook/index.ts';
import { type Asked, ask, Live } from '../../src/session/index.ts';

const folder = join(import.meta.dirname, '../../notebooks');
const ENDING = '.ellwand.json';

/** The day every test of a notebook takes place: 7 January 2026, as a day number. */
export const TEST_DAY = Math.floor(Date.UTC(2026, 0, 7) / 86_400_000);

/** Every prebuilt notebook by name, in order. */
export const notebookNames: readonly string[] = readdirSync(folder)
  .filter((name) => name.endsWith(ENDING))
  .map((name) => name.slice(0, -ENDING.length))
  .sort();

/** The text of a notebook's file. */
export function notebookText(name: string): string {
  return readFileSync(join(folder, name + ENDING), 'utf8');
}

/** A notebook as data. Fails the test when the file cannot be read. */
export function openNotebook(name: string): Notebook {
  return notebookFrom(notebookText(name), name);
}

/** A notebook from the text of its file. Fails the test when it cannot be read. */
export function notebookFrom(text: string, name = 'the notebook'): Notebook {
  const read = readNotebook(text);
  if (isRefused(read)) throw new Error(`${name} cannot be read: ${read.refused.code}`);
  return read.notebook;
}

/** A notebook with some of its cells set, by their names, each to one text. */
export function withSets(notebook: Notebook, sets: Sets): Notebook {
  const sections = notebook.sections.map((section) => ({
    ...section,
    cells: section.cells.map((cell) => {
      const text = sets[cell.name];
      if (text === undefined) return cell;
      const { each: _each, ...rest } = cell;
      return { ...rest, text };
    }),
  }));
  return { ...notebook, sections };
}

/** A notebook with its sheet. */
export function liveNotebook(name: string): Live {
  return new Live(openNotebook(name), TEST_DAY);
}

/** One value as the terminal's JSON has it. */
type Item = number | Readonly<Record<string, unknown>>;

interface CellJson {
  readonly unit?: string;
  readonly value?: number;
  readonly each?: Readonly<Record<string, Item>>;
  readonly [key: string]: unknown;
}

/** A problem of a cell: where it stands and its sentence. */
export interface Fault {
  readonly cell: string;
  readonly column: string;
  readonly code: string;
  readonly says: string;
}

/** A notebook worked out: everything in it by the names of its cells. A name or kind that is not there fails. */
export class WorkedNotebook {
  readonly asked: Asked;
  private readonly cells: Readonly<Record<string, CellJson>>;
  readonly columns: readonly string[];
  readonly chosen: string | undefined;

  constructor(asked: Asked) {
    this.asked = asked;
    this.cells = (asked.json as { readonly cells: Readonly<Record<string, CellJson>> }).cells;
    this.columns = asked.columns;
    this.chosen = asked.chosen;
  }

  get names(): readonly string[] {
    return Object.keys(this.cells);
  }

  private cell(name: string): CellJson {
    const cell = Object.hasOwn(this.cells, name) ? this.cells[name] : undefined;
    if (!cell) throw new Error(`there is no cell ${name}`);
    return cell;
  }

  /** What a cell holds in a column (the chosen one where none is named), or its one value. */
  item(name: string, column: string | undefined = this.chosen): Item {
    const cell = this.cell(name);
    if (cell.each === undefined) return 'value' in cell ? (cell.value as number) : cell;
    const item = column === undefined ? undefined : cell.each[column];
    if (item === undefined) throw new Error(`${name} has nothing in column ${column}`);
    return item;
  }

  private of<T>(name: string, kind: string, column: string | undefined): T {
    const item = this.item(name, column);
    if (typeof item !== 'object' || !(kind in item))
      throw new Error(`${name} is no ${kind}: ${JSON.stringify(item)}`);
    return item[kind] as T;
  }

  /** A number in the cell's own unit. */
  number(name: string, column?: string): number {
    const item = this.item(name, column);
    if (typeof item !== 'number') throw new Error(`${name} is no number: ${JSON.stringify(item)}`);
    return item;
  }

  /** The unit its numbers are in. */
  unit(name: string): string {
    return this.cell(name).unit ?? '';
  }

  /** A number for each column, in order. */
  each(name: string): readonly number[] {
    return this.columns.map((column) => this.number(name, column));
  }

  truth(name: string, column?: string): boolean {
    return this.of<boolean>(name, 'truth', column);
  }

  label(name: string, column?: string): string {
    return this.of<string>(name, 'label', column);
  }

  /** A plan as its printed text. */
  plan(name: string, column?: string): string {
    return this.of<string>(name, 'text', column);
  }

  /** The steps of a plan. */
  steps(
    name: string,
    column?: string,
  ): readonly { readonly do: string; readonly rows?: readonly number[] }[] {
    return this.of(name, 'plan', column);
  }

  date(name: string, column?: string): string {
    return this.of<string>(name, 'date', column);
  }

  /** The name of what a cell waits for. */
  waiting(name: string, column?: string): string {
    return this.of<string>(name, 'waiting', column);
  }

  isEmpty(name: string, column?: string): boolean {
    const item = this.item(name, column);
    return typeof item === 'object' && 'empty' in item;
  }

  /** The code of a cell's problem. */
  problem(name: string, column?: string): string {
    return this.of<{ readonly code: string }>(name, 'problem', column).code;
  }

  /** A cell's line in the table: its printed values. */
  printed(name: string): readonly string[] {
    return this.row(name).values;
  }

  /** What is said beside a cell, in one text. */
  says(name: string): string {
    return this.row(name).says.join(' | ');
  }

  private row(name: string): Asked['sections'][number]['rows'][number] {
    const spaced = name.replaceAll('_', ' ');
    for (const section of this.asked.sections)
      for (const row of section.rows) if (row.name === spaced) return row;
    throw new Error(`there is no line ${spaced}`);
  }

  /** Every problem there is. */
  faults(): readonly Fault[] {
    return this.names.flatMap((cell) => {
      const columns = this.cell(cell).each === undefined ? [''] : this.columns;
      return columns.flatMap((column) => {
        const item = this.item(cell, column);
        const problem = typeof item === 'object' ? item['problem'] : undefined;
        return problem ? [{ cell, column, ...(problem as { code: string; says: string }) }] : [];
      });
    });
  }

  /** Every truth that is *no*, by name. */
  noes(): readonly string[] {
    return this.names.filter((name) => {
      const columns = this.cell(name).each === undefined ? [''] : this.columns;
      return columns.some((column) => {
        const item = this.item(name, column);
        return typeof item === 'object' && item['truth'] === false;
      });
    });
  }
}

/** Texts to set, by cell name; an empty text empties the cell. */
export type Sets = Readonly<Record<string, string>>;

/** Works out a notebook with some cells set and a column chosen. Fails where the door would stop. */
export function workOut(name: string, sets: Sets = {}, { column }: { column?: string } = {}): WorkedNotebook {
  const asked = ask(notebookText(name), {
    sets: Object.entries(sets).map(([cell, text]) => `${cell}=${text}`),
    day: TEST_DAY,
    ...(column === undefined ? {} : { column }),
  });
  if ('stop' in asked) throw new Error(asked.stop);
  return new WorkedNotebook(asked);
}

const ABSURD = /NaN|Infinity|undefined|null|∞/;

/**
 * Whatever was typed, every cell holds a value, is empty, waits for a cell by name, or has a sentence; no number is
 * NaN or infinite, nothing printed says so, and every problem has words of its own.
 */
export function checkSettled(worked: WorkedNotebook): void {
  const { title, columns, cells } = worked.asked.json as Record<string, unknown>;
  expect(JSON.stringify({ title, columns, cells })).not.toMatch(ABSURD);
  for (const { rows } of worked.asked.sections)
    for (const row of rows) expect(`${row.values.join(' ')} ${row.says.join(' ')}`).not.toMatch(ABSURD);
  for (const fault of worked.faults()) {
    expect(fault.says, `${fault.cell} ${fault.column}`).toMatch(/\w.*[.?]$/);
    expect(fault.says, `${fault.cell} ${fault.column}`).not.toMatch(/Something is wrong here/);
  }
}
