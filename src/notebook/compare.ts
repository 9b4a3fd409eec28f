/*
 * Two notebooks compared by identity: ids say what is the same thing, whatever it is called and wherever it stands. The
 * result is a list of differences; each can be taken on its own (`take`), as a change of the old notebook, so that taking
 * is undone like anything else. Taking every difference, in order, gives the new notebook. Not compared: the notebook's id,
 * where it comes from, its progress.
 *
 * Moved is whatever is not in the longest run of things that kept their order; a cell that changed section has moved.
 * A place is told by what stands before it in the new notebook, not by a number, so that differences can be taken in part.
 */
import { applyChange, type Change } from './change.ts';
import type { Item, ListName } from './changes/items.ts';
import { allCells, findCell } from './changes/places.ts';
import type { CellFields } from './changes/set-cell.ts';
import type { NotebookFields } from './changes/set-notebook.ts';
import type { Cell, Column, Drawing, Notebook, Section, Step } from './document.ts';
import { own, record } from './record.ts';
import { isRefused } from './remark.ts';

/** One thing that is told apart: only in the new, only in the old, altered, or standing elsewhere. */
export type Difference =
  | {
      readonly kind: 'notebook_changed';
      readonly field: NotebookField;
      readonly old: unknown;
      readonly new: unknown;
    }
  | { readonly kind: 'column_added' | 'column_removed' | 'column_moved'; readonly column: Column }
  | { readonly kind: 'column_changed'; readonly old: Column; readonly new: Column }
  | { readonly kind: 'section_added' | 'section_removed' | 'section_moved'; readonly section: Section }
  | { readonly kind: 'section_changed'; readonly old: Section; readonly new: Section }
  | { readonly kind: 'cell_added' | 'cell_removed' | 'cell_moved'; readonly cell: Cell }
  | {
      readonly kind: 'cell_changed';
      readonly old: Cell;
      readonly new: Cell;
      readonly fields: readonly CellField[];
    }
  | ({ readonly kind: 'item_added' | 'item_removed' | 'item_moved' | 'item_changed' } & Item);

/** What can differ of a cell; "text" stands for its texts by column too. */
export type CellField = 'name' | 'text' | keyof CellFields;

/** What can differ of the notebook itself. */
export type NotebookField = keyof NotebookFields | 'chosen';

const CELL_FIELDS: readonly (keyof CellFields)[] = ['note', 'shown', 'step', 'range', 'choices', 'says'];
const NOTEBOOK_FIELDS: readonly NotebookField[] = [
  'title',
  'about',
  'units',
  'money',
  'today',
  'heading',
  'how',
  'sources',
  'cautions',
];
/** Past this, two notebooks have so little in common that one change says it better. */
const MOST_DIFFERENCES = 1_000;
const LISTS: readonly ListName[] = ['drawings', 'steps'];

/** Every difference, in an order in which they can be taken one after the other. */
export function compareNotebooks(old: Notebook, now: Notebook): readonly Difference[] {
  return [
    ...compareColumns(old, now),
    ...NOTEBOOK_FIELDS.flatMap((field) => compareField(old, now, field)),
    ...compareSections(old, now),
    ...LISTS.flatMap((list) => compareItems(old, now, list)),
    ...compareField(old, now, 'chosen'),
  ];
}

/** The change that takes one difference of `now` into `mine`; of a changed cell, only the fields asked for. */
export function take(
  mine: Notebook,
  now: Notebook,
  difference: Difference,
  fields?: readonly CellField[],
): Change {
  switch (difference.kind) {
    case 'notebook_changed':
      return takeField(now, difference.field);
    case 'column_added':
      return { kind: 'add_column', ...takenColumn(mine, now, difference.column) };
    case 'column_removed':
      return { kind: 'delete_column', column: difference.column.id };
    case 'column_changed':
      return { kind: 'rename_column', column: difference.old.id, label: difference.new.label };
    case 'column_moved':
      return {
        kind: 'move_column',
        column: difference.column.id,
        at: columnPlace(mine, now, difference.column.id),
      };
    case 'section_added':
      return {
        kind: 'add_section',
        at: sectionPlace(mine, now, difference.section.id),
        section: emptied(difference.section),
      };
    case 'section_removed':
      return { kind: 'delete_section', section: difference.section.id };
    case 'section_moved':
      return {
        kind: 'move_section',
        section: difference.section.id,
        at: sectionPlace(mine, now, difference.section.id),
      };
    case 'section_changed':
      return takeSection(difference.new);
    case 'cell_added':
      return { kind: 'add_cell', ...cellPlace(mine, now, difference.cell.id), cell: difference.cell };
    case 'cell_removed':
      return { kind: 'delete_cell', cell: difference.cell.id };
    case 'cell_moved':
      return { kind: 'move_cell', cell: difference.cell.id, ...cellPlace(mine, now, difference.cell.id) };
    case 'cell_changed':
      return takeCell(difference.new, fields ?? difference.fields);
    default:
      return takeItem(mine, now, difference);
  }
}

/**
 * Changes that make `old` into `now` (but for id, origin and progress): one for each difference, or, where those do not
 * come to the same to the last key, the whole notebook as one change.
 */
export function changesBetween(old: Notebook, now: Notebook): readonly Change[] {
  const changes: Change[] = [];
  let mine = old;
  let waiting = compareNotebooks(old, now);
  if (waiting.length > MOST_DIFFERENCES) return [wholly(old, now)];
  // A name may have to wait until another cell has given it up: what is refused is tried again while anything moves.
  for (let before = waiting.length + 1; waiting.length > 0 && waiting.length < before; ) {
    before = waiting.length;
    waiting = waiting.filter((difference) => {
      const change = take(mine, now, difference);
      const taken = applyChange(mine, change);
      if (isRefused(taken)) return true;
      mine = taken;
      changes.push(change);
      return false;
    });
  }
  if (same(bare(mine), bare(now))) return changes;
  return [wholly(old, now)];
}

const wholly = (old: Notebook, now: Notebook): Change => ({
  kind: 'replace_notebook',
  notebook: { ...now, id: old.id },
  why: 'take the whole notebook',
});

/** Whether two pieces of a notebook hold the same, whatever the order of their keys. */
export function same(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  const keys = Object.keys(one);
  if (keys.length !== Object.keys(other).length) return false;
  const [ones, others] = [one, other] as readonly Readonly<Record<string, unknown>>[];
  return keys.every((key) => Object.hasOwn(other, key) && same(ones?.[key], others?.[key]));
}

function bare(notebook: Notebook): unknown {
  const { id: _id, from: _from, progress: _progress, ...rest } = notebook;
  return rest;
}

// The notebook itself.

function fieldOf(notebook: Notebook, field: NotebookField): unknown {
  return field === 'heading' ? notebook.columns?.heading : notebook[field];
}

function compareField(old: Notebook, now: Notebook, field: NotebookField): readonly Difference[] {
  const [before, after] = [fieldOf(old, field), fieldOf(now, field)];
  // A heading that comes or goes does so with its columns.
  const withColumns = field === 'heading' && (before === undefined || after === undefined);
  if (withColumns || same(before, after)) return [];
  return [{ kind: 'notebook_changed', field, old: before, new: after }];
}

function takeField(now: Notebook, field: NotebookField): Change {
  if (field === 'chosen') return { kind: 'set_chosen', chosen: now.chosen ?? null };
  const fields: NotebookFields = { [field]: fieldOf(now, field) ?? null };
  return { kind: 'set_notebook', fields };
}

// Columns.

const columnsOf = (notebook: Notebook): readonly Column[] => notebook.columns?.list ?? [];

function compareColumns(old: Notebook, now: Notebook): readonly Difference[] {
  const { gone, come, kept, moved } = matched(columnsOf(old), columnsOf(now));
  const changed = kept.filter(([before, after]) => before.label !== after.label);
  const arrived = inNewOrder(columnsOf(now), come, moved);
  return [
    ...gone.map((column) => ({ kind: 'column_removed', column }) as const),
    ...changed.map(([before, after]) => ({ kind: 'column_changed', old: before, new: after }) as const),
    ...arrived.map(([column, isNew]) => ({ kind: isNew ? 'column_added' : 'column_moved', column }) as const),
  ];
}

function takenColumn(mine: Notebook, now: Notebook, column: Column) {
  const values = allCells(now).flatMap(({ id, each }) => {
    const text = own(each, column.id);
    return text === undefined ? [] : [[id, text] as const];
  });
  const heading = now.columns?.heading ?? '';
  return { at: columnPlace(mine, now, column.id), column, values: record(values), heading };
}

const columnPlace = (mine: Notebook, now: Notebook, id: string): number =>
  placeOf(columnsOf(mine), columnsOf(now), id);

// Sections and cells.

function compareSections(old: Notebook, now: Notebook): readonly Difference[] {
  const { gone, come, kept, moved } = matched(old.sections, now.sections);
  const changed = kept.filter(
    ([before, after]) => before.title !== after.title || before.about !== after.about,
  );
  const arrived = inNewOrder(now.sections, come, moved);
  return [
    ...arrived.map(
      ([section, isNew]) => ({ kind: isNew ? 'section_added' : 'section_moved', section }) as const,
    ),
    ...compareCells(old, now),
    ...gone.map((section) => ({ kind: 'section_removed', section }) as const),
    ...changed.map(([before, after]) => ({ kind: 'section_changed', old: before, new: after }) as const),
  ];
}

const emptied = (section: Section): Section => ({ ...section, cells: [] });

const sectionPlace = (mine: Notebook, now: Notebook, id: string): number =>
  placeOf(mine.sections, now.sections, id);

const takeSection = ({ id, title, about }: Section): Change => ({
  kind: 'set_section',
  section: id,
  fields: { title, about: about ?? null },
});

function compareCells(old: Notebook, now: Notebook): readonly Difference[] {
  const before = new Map(allCells(old).map((cell) => [cell.id, cell]));
  const after = new Map(allCells(now).map((cell) => [cell.id, cell]));
  const shared = new Set(
    columnsOf(now).flatMap(({ id }) => (columnsOf(old).some((one) => one.id === id) ? [id] : [])),
  );
  const gone = [...before.values()].filter(({ id }) => !after.has(id));
  const changed = [...after.values()].flatMap((cell) => {
    const was = before.get(cell.id);
    const fields = was ? changedFields(was, cell, shared) : [];
    return was && fields.length > 0 ? [{ kind: 'cell_changed', old: was, new: cell, fields } as const] : [];
  });
  return [
    ...gone.map((cell) => ({ kind: 'cell_removed', cell }) as const),
    ...changed,
    ...arrivals(old, now, before),
  ];
}

/** New cells and moved ones, in the order of the page. */
function arrivals(old: Notebook, now: Notebook, before: ReadonlyMap<string, Cell>): readonly Difference[] {
  return now.sections.flatMap((section) => {
    const oldCells = old.sections.find(({ id }) => id === section.id)?.cells ?? [];
    const stayed = new Set(oldCells.map(({ id }) => id));
    const { moved } = matched(oldCells, section.cells);
    return section.cells.flatMap((cell): Difference[] => {
      if (!before.has(cell.id)) return [{ kind: 'cell_added', cell }];
      return stayed.has(cell.id) && !moved.has(cell.id) ? [] : [{ kind: 'cell_moved', cell }];
    });
  });
}

function changedFields(old: Cell, now: Cell, shared: ReadonlySet<string>): readonly CellField[] {
  const fields: CellField[] = old.name === now.name ? [] : ['name'];
  if (!sameTexts(old, now, shared)) fields.push('text');
  return [...fields, ...CELL_FIELDS.filter((field) => !same(old[field], now[field]))];
}

/** Texts by column are compared in the columns that both have: the others come and go with their columns. */
function sameTexts(old: Cell, now: Cell, shared: ReadonlySet<string>): boolean {
  if (old.each === undefined || now.each === undefined) return old.text === now.text && old.each === now.each;
  return [...shared].every((id) => own(old.each, id) === own(now.each, id));
}

function takeCell(now: Cell, fields: readonly CellField[]): Change {
  const about = CELL_FIELDS.filter((field) => fields.includes(field)).map((field) => [
    field,
    now[field] ?? null,
  ]);
  const changes: Change[] = [];
  if (fields.includes('name')) changes.push({ kind: 'rename_cell', cell: now.id, name: now.name });
  if (fields.includes('text')) changes.push(takeText(now));
  if (about.length > 0)
    changes.push({ kind: 'set_cell', cell: now.id, fields: Object.fromEntries(about) as CellFields });
  const [only] = changes;
  return changes.length === 1 && only ? only : { kind: 'together', changes };
}

const takeText = ({ id, text = '', each }: Cell): Change =>
  each === undefined ? { kind: 'set_text', cell: id, text } : { kind: 'set_text', cell: id, each };

/** Where a cell belongs in `mine`, judged by where it stands in `now`; in the last section when its own is not there. */
function cellPlace(
  mine: Notebook,
  now: Notebook,
  id: string,
): { readonly section: string; readonly at: number } {
  const theirs = findCell(now, id)?.section;
  const section = mine.sections.find((one) => one.id === theirs?.id) ?? mine.sections.at(-1);
  if (section === undefined || theirs === undefined) return { section: theirs?.id ?? '', at: 0 };
  return { section: section.id, at: placeOf(section.cells, theirs.cells, id) };
}

// Steps and drawings.

function compareItems(old: Notebook, now: Notebook, list: ListName): readonly Difference[] {
  const { gone, come, kept, moved } = matched<Step | Drawing>(old[list], now[list]);
  const changed = kept.filter(([before, after]) => !same(before, after));
  const told = (
    kind: 'item_added' | 'item_removed' | 'item_moved' | 'item_changed',
    item: Step | Drawing,
  ): Difference => ({ kind, list, item }) as Difference;
  return [
    ...gone.map((item) => told('item_removed', item)),
    ...changed.map(([, item]) => told('item_changed', item)),
    ...inNewOrder<Step | Drawing>(now[list], come, moved).map(([item, isNew]) =>
      told(isNew ? 'item_added' : 'item_moved', item),
    ),
  ];
}

function takeItem(mine: Notebook, now: Notebook, difference: Extract<Difference, Item>): Change {
  const { kind, list, item } = difference;
  const at = placeOf<Step | Drawing>(mine[list], now[list], item.id);
  if (kind === 'item_removed') return { kind: 'delete_item', list, id: item.id };
  if (kind === 'item_moved') return { kind: 'move_item', list, id: item.id, at };
  const carried = { list, item } as Item;
  return kind === 'item_added' ? { kind: 'add_item', at, ...carried } : { kind: 'set_item', ...carried };
}

// Lists of things with ids.

interface Matched<T> {
  readonly gone: readonly T[];
  readonly come: ReadonlySet<string>;
  readonly kept: readonly (readonly [old: T, now: T])[];
  /** Ids of those that both have and that stand elsewhere. */
  readonly moved: ReadonlySet<string>;
}

function matched<T extends { readonly id: string }>(old: readonly T[], now: readonly T[]): Matched<T> {
  const before = new Map(old.map((member, index) => [member.id, { member, index }]));
  const after = new Set(now.map(({ id }) => id));
  const kept = now.flatMap((member) => {
    const was = before.get(member.id);
    return was ? [{ pair: [was.member, member] as const, index: was.index }] : [];
  });
  const stay = new Set(longestRise(kept.map(({ index }) => index)));
  return {
    gone: old.filter(({ id }) => !after.has(id)),
    come: new Set(now.flatMap(({ id }) => (before.has(id) ? [] : [id]))),
    kept: kept.map(({ pair }) => pair),
    moved: new Set(kept.flatMap(({ pair, index }) => (stay.has(index) ? [] : [pair[1].id]))),
  };
}

/** Those that came or moved, in the new order, and whether they are new. */
function inNewOrder<T extends { readonly id: string }>(
  now: readonly T[],
  come: ReadonlySet<string>,
  moved: ReadonlySet<string>,
): readonly (readonly [member: T, isNew: boolean])[] {
  return now.flatMap((member) => {
    const isNew = come.has(member.id);
    return isNew || moved.has(member.id) ? [[member, isNew] as const] : [];
  });
}

/** The longest rising run of the numbers, not necessarily side by side (patience sorting). */
function longestRise(numbers: readonly number[]): readonly number[] {
  const ends: number[] = [];
  const previous = new Map<number, number | undefined>();
  for (const number of numbers) {
    let low = 0;
    for (let high = ends.length; low < high; ) {
      const middle = (low + high) >> 1;
      if ((ends[middle] ?? 0) < number) low = middle + 1;
      else high = middle;
    }
    previous.set(number, ends[low - 1]);
    ends[low] = number;
  }
  const rise: number[] = [];
  for (let number = ends.at(-1); number !== undefined; number = previous.get(number)) rise.unshift(number);
  return rise;
}

/** The index in `mine`, counted without the member, just after the nearest of those that stand before it in `now`. */
function placeOf<T extends { readonly id: string }>(
  mine: readonly T[],
  now: readonly T[],
  id: string,
): number {
  const others = mine.filter((member) => member.id !== id);
  const places = new Map(others.map((member, index) => [member.id, index]));
  const index = now.findIndex((member) => member.id === id);
  for (let before = index - 1; before >= 0; before--) {
    const place = places.get(now[before]?.id ?? '');
    if (place !== undefined) return place + 1;
  }
  return 0;
}
