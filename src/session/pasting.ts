/*
 * A pasted table as changes of the notebook. A line with a name goes to the cell of that name, or makes it; lines without
 * go down the cells from where she stands. A first line with no name, or with words where the others have values, names
 * the columns: those there are, in whatever order, or new ones where there are none yet. What has no place is not left
 * out: then nothing is pasted, and the sentence says why.
 */

import { spacedName } from '../formula/index.ts';
import {
  type Cell,
  type Change,
  freeName,
  isLabel,
  labelFrom,
  type Notebook,
  nameKey,
  type Section,
} from '../notebook/index.ts';
import { columnIds, type Live } from './live.ts';
import { heldAt, meant } from './meant.ts';
import type { PastePlace, Place } from './page.ts';
import { cellFinder, type Finder, isValue, type PastedLine } from './paste.ts';
import { isWorkedOutRow, plansStay, type RowTexts, rowTexts, type ValueIn } from './row-texts.ts';
import { stored } from './stored.ts';

/** What is pasted where. */
export interface Pasting {
  readonly live: Live;
  readonly place: PastePlace;
  readonly lines: readonly PastedLine[];
  /** What a cell held before the change being tried; the same as now where none is. */
  readonly valueIn: (id: string) => ValueIn | undefined;
  readonly newId: (letter: 'c' | 'k') => string;
}

/** The changes that take a table in, and what is to be said of them ("" for nothing); or why it cannot be taken in. */
export type Pasted = { readonly changes: readonly Change[]; readonly note: string } | string;

/** The columns the values of a line go to, in their order. */
interface Across {
  readonly ids: readonly string[];
  /** The column of single values with a name, where the first line names no more than that one. */
  readonly only?: string;
  /** Columns that are made for it. */
  readonly made: readonly Change[];
}

/** Said where nothing can be pasted. */
export const PASTE_WHERE = 'A table is pasted on a cell, or on a section’s heading: stand there first.';

/** A pasted table as changes. */
export function pastedChanges(pasting: Pasting): Pasted {
  const { live, place } = pasting;
  const found = cellFinder(live);
  const head = headOf(live, found, pasting.lines);
  const lines = head ? pasting.lines.slice(1) : pasting.lines;
  const across = acrossOf(pasting, head, lines);
  if (typeof across === 'string') return across;
  if (lines.length === 0) return 'There is nothing to paste.';
  const landing = landingOf(live.notebook, place);
  if (typeof landing === 'string') return landing;
  const { section, down } = landing;
  let { at } = landing;
  const taken = new Set(live.sheet.cells.map((id) => nameKey(live.sheet.nameOf(id))));
  const changes: Change[] = [...across.made];
  const formulas: Cell[] = [];
  for (const { name, values, unit = head?.unit } of lines) {
    const named = name === undefined ? undefined : live.cell(found(name) ?? '');
    const target = name === undefined ? down.shift() : named;
    const column = name === undefined ? columnOf(place) : (across.only ?? null);
    const given = unit ? values.map((value) => meant(live, value, { shown: unit, off: 0 })) : values;
    const change = target
      ? into(pasting, target, given, across.ids, column)
      : ({
          kind: 'add_cell',
          section: section.id,
          at,
          cell: { id: pasting.newId('k'), name: newName(name, taken), ...textsOf(given, across.ids) },
        } satisfies Change);
    if (typeof change === 'string') return change;
    if (target && isFormula(live, target)) formulas.push(target);
    if (!target || (name === undefined && target !== landing.first)) at += 1;
    changes.push(change);
  }
  return { changes, note: noteOf(head !== undefined, across, formulas) };
}

/** Where a table lands: the cells that lines without a name go down, and where new ones are put. */
interface Landing {
  readonly section: Section;
  readonly first?: Cell | undefined;
  readonly down: Cell[];
  readonly at: number;
}

function landingOf({ sections }: Notebook, place: PastePlace): Landing | string {
  if ('section' in place) {
    const section = sections.find(({ id }) => id === place.section);
    if (!section) return PASTE_WHERE;
    return { section, down: [], at: place.atEnd ? section.cells.length : 0 };
  }
  const section = sections.find(({ cells }) => cells.some(({ id }) => id === place.cell));
  if (!section) return 'That cell is gone: it was deleted.';
  const first = section.cells.findIndex(({ id }) => id === place.cell);
  return { section, first: section.cells[first], down: section.cells.slice(first), at: first + 1 };
}

const columnOf = (place: PastePlace): Place['column'] => ('section' in place ? null : place.column);

function newName(name: string | undefined, taken: Set<string>): string {
  const free = freeName(name || 'new_cell', taken);
  taken.add(nameKey(free));
  return free;
}

// ── The columns ───

/** The first line, where it names the columns. */
function headOf(live: Live, found: Finder, [first, ...rest]: readonly PastedLine[]): PastedLine | undefined {
  if (!first || (rest.length === 0 && first.values[0] !== '')) return undefined;
  if (first.name === undefined) return first.values[0] === '' ? first : undefined;
  const isCell = found(first.name) !== undefined;
  const isHeading = nameKey(first.name) === nameKey(live.notebook.columns?.heading ?? 'size');
  const isWords = first.values.every((value) => !isValue(live, value));
  return !isCell && (isHeading || isWords) ? first : undefined;
}

/** The names a head gives, without the empty fields at its end. */
function headLabels({ name, values }: PastedLine): readonly string[] {
  const labels = name === undefined ? values.slice(1) : values;
  return labels.slice(0, filled(labels));
}

function acrossOf(
  { live, place, newId }: Pasting,
  head: PastedLine | undefined,
  lines: readonly PastedLine[],
): Across | string {
  const labels = head ? headLabels(head) : [];
  const most = Math.max(labels.length, ...lines.map(({ values }) => filled(values)));
  const { columns } = live.notebook;
  if (!columns || columns.list.length === 0)
    return most > 1 || labels.length > 0 ? making(labels, most, head?.name, newId) : { ids: [], made: [] };
  const ids = columnIds(live.notebook);
  const byLabel = labels.map(
    (label) => columns.list.find((one) => nameKey(one.label) === nameKey(label))?.id,
  );
  if (labels.length > 0 && byLabel.every((id) => id !== undefined))
    return { ids: byLabel, made: [], ...(byLabel.length === 1 ? { only: byLabel[0] } : {}) };
  if (labels.length > 0)
    return strangeHead(
      live.notebook,
      labels.filter((_, at) => byLabel[at] === undefined),
    );
  const column = columnOf(place);
  const isDown = lines.every(({ name }) => name === undefined);
  const from = isDown && column !== null ? Math.max(0, ids.indexOf(column)) : 0;
  if (most > ids.length - from) return tooWide(live.notebook, most, from);
  return { ids: ids.slice(from), made: [] };
}

/** How many values a line has, without the empty ones at its end. */
function filled(values: readonly string[]): number {
  return values.findLastIndex((value) => value !== '') + 1;
}

function making(
  labels: readonly string[],
  count: number,
  heading: string | undefined,
  newId: Pasting['newId'],
): Across {
  const taken = new Set<string>();
  const ids: string[] = [];
  const made = Array.from({ length: count }, (_, at): Change => {
    const wished = labels[at] ?? '';
    const label = freeName(
      wished === '' ? String(at + 1) : isLabel(wished) ? wished : labelFrom(wished),
      taken,
      ' ',
    );
    taken.add(nameKey(label));
    const id = newId('c');
    ids.push(id);
    return {
      kind: 'add_column',
      at,
      column: { id, label },
      ...(at === 0 ? { heading: heading === undefined ? 'size' : spacedName(heading) } : {}),
    };
  });
  return { ids, made };
}

function strangeHead({ columns }: Notebook, strange: readonly string[]): string {
  const heading = columns?.heading ?? 'column';
  const some = strange.slice(0, 3).map((label) => `“${label}”`);
  const names = some.join(', ') + (strange.length > 3 ? ` and ${strange.length - 3} more` : '');
  return `There is no ${heading} ${names} here: add it, or rename a column, or copy the table without its head. Nothing was pasted.`;
}

function tooWide({ columns }: Notebook, most: number, from: number): string {
  const count = columns?.list.length ?? 0;
  const heading = columns?.heading ?? 'column';
  const there = `there ${count === 1 ? 'is' : 'are'} ${count} ${heading} column${count === 1 ? '' : 's'}`;
  const where = from > 0 ? `, and you stand in ${columns?.list[from]?.label ?? ''}` : '';
  return `A line of that table has ${most} values and ${there}${where}: add a column first, or copy less. Nothing was pasted.`;
}

// ── The cells ───

/** The texts of a new cell: one, or one for each column. */
function textsOf(values: readonly string[], ids: readonly string[]): Pick<Cell, 'text'> | Pick<Cell, 'each'> {
  if (values.length === 1 || ids.length === 0) return { text: stored(values[0] ?? '') };
  return { each: Object.fromEntries(ids.flatMap((id, i) => (values[i] ? [[id, stored(values[i])]] : []))) };
}

function into(
  { live, valueIn }: Pasting,
  cell: Cell,
  pasted: readonly string[],
  ids: readonly string[],
  column: string | null,
): Change | string {
  const heldIn = (at: number) => heldAt(live, { cell: cell.id, column: ids[at] ?? column });
  const values = pasted.map((value, at) => stored(meant(live, value, heldIn(at))));
  const row = cell.each ?? rowTexts(live, cell, valueIn(cell.id));
  const isOne = values.length === 1 && (column === null || row === undefined);
  if (isOne || ids.length === 0) return { kind: 'set_text', cell: cell.id, text: values[0] ?? '' };
  if (row === 'plans' && values.length < columnIds(live.notebook).length) return plansStay(cell);
  const texts: RowTexts = row === 'plans' || row === undefined ? {} : row;
  const given = Object.fromEntries(
    ids.flatMap((id, i) => (values[i] === undefined ? [] : [[id, values[i]]])),
  );
  return { kind: 'set_text', cell: cell.id, each: { ...texts, ...given } };
}

function isFormula(live: Live, { id, text }: Cell): boolean {
  return text !== undefined && live.sheet.has(id) && (isWorkedOutRow(live, id) || !live.sheet.info(id).typed);
}

function noteOf(hasHead: boolean, { made }: Across, formulas: readonly Cell[]): string {
  const columns =
    made.length === 0 ? '' : `${made.length} ${made.length === 1 ? 'column was' : 'columns were'} made`;
  const heads =
    columns && !hasHead ? `${columns}, and numbered: touch a number to name it.` : columns && `${columns}.`;
  const names = formulas.slice(0, 3).map(({ name }) => spacedName(name));
  const more = formulas.length > 3 ? ` and ${formulas.length - 3} more` : '';
  const were = formulas.length === 1 ? 'was worked out, and is' : 'were worked out, and are';
  const typed =
    formulas.length === 0
      ? ''
      : `${names.join(', ')}${more} ${were} now what you pasted. Undo brings ${formulas.length === 1 ? 'its formula' : 'their formulas'} back.`;
  return [heads, typed].filter((part) => part !== '').join(' ');
}
