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
} from '../notebook/index.ts';
import { columnIds, type Live } from './live.ts';
import { heldAt, meant } from './meant.ts';
import type { Place } from './page.ts';
import type { PastedLine } from './paste.ts';
import { isWorkedOutRow, plansStay, type RowTexts, rowTexts, type ValueIn } from './row-texts.ts';
import { stored } from './stored.ts';

/** What is pasted where. */
export interface Pasting {
  readonly live: Live;
  readonly place: Place;
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

/** A pasted table as changes. */
export function pastedChanges(pasting: Pasting): Pasted {
  const { live, place } = pasting;
  const head = headOf(live, pasting.lines);
  const lines = head ? pasting.lines.slice(1) : pasting.lines;
  const across = acrossOf(pasting, head, lines);
  if (typeof across === 'string') return across;
  if (lines.length === 0) return 'There is nothing to paste.';
  const section = live.notebook.sections.find(({ cells }) => cells.some(({ id }) => id === place.cell));
  if (!section) return 'That cell is gone: it was deleted.';
  const taken = new Set(live.sheet.cells.map((id) => nameKey(live.sheet.nameOf(id))));
  const first = section.cells.findIndex(({ id }) => id === place.cell);
  const down = section.cells.slice(first);
  let at = first + 1;
  const changes: Change[] = [...across.made];
  const formulas: Cell[] = [];
  for (const { name, values } of lines) {
    const named = name === undefined ? undefined : live.cell(live.sheet.idOf(name) ?? '');
    const target = name === undefined ? down.shift() : named;
    const column = name === undefined ? place.column : (across.only ?? null);
    const change = target
      ? into(pasting, target, values, across.ids, column)
      : ({
          kind: 'add_cell',
          section: section.id,
          at,
          cell: { id: pasting.newId('k'), name: newName(name, taken), ...textsOf(values, across.ids) },
        } satisfies Change);
    if (typeof change === 'string') return change;
    if (target && isFormula(live, target)) formulas.push(target);
    if (!target || (name === undefined && target.id !== place.cell)) at += 1;
    changes.push(change);
  }
  return { changes, note: noteOf(head !== undefined, across, formulas) };
}

function newName(name: string | undefined, taken: Set<string>): string {
  const free = freeName(name ?? 'new_cell', taken);
  taken.add(nameKey(free));
  return free;
}

// ── The columns ───

/** The first line, where it names the columns. */
function headOf(live: Live, [first, ...rest]: readonly PastedLine[]): PastedLine | undefined {
  if (!first || (rest.length === 0 && first.values[0] !== '')) return undefined;
  if (first.name === undefined) return first.values[0] === '' ? first : undefined;
  const isCell = live.sheet.idOf(first.name) !== undefined;
  const isHeading = nameKey(first.name) === nameKey(live.notebook.columns?.heading ?? 'size');
  const isWords = first.values.every((value) => !isValue(live, value));
  return !isCell && (isHeading || isWords) ? first : undefined;
}

/** Whether a text means something in a cell: a value, or a formula of cells there are. */
function isValue(live: Live, text: string): boolean {
  const { parsed, checked } = live.sheet.look(text);
  return parsed.kind === 'tree' && (checked?.problems ?? []).length === 0;
}

const headLabels = ({ name, values }: PastedLine): readonly string[] =>
  name === undefined ? values.slice(1) : values;

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
  const isDown = lines.every(({ name }) => name === undefined);
  const from = isDown && place.column !== null ? Math.max(0, ids.indexOf(place.column)) : 0;
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
  const held = heldAt(live, { cell: cell.id, column });
  const values = pasted.map((value) => stored(meant(live, value, held)));
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
