/*
 * Two notebooks side by side, in words: what differs, thing by thing, and which worked-out values moved. Each difference
 * can be taken into the open notebook on its own, as a change that undo takes back like any other. Differences are known
 * by a key, so that the list can be asked for again after each taking; a difference that has been taken is gone from it.
 */

import { spacedName } from '../formula/index.ts';
import {
  type Cell,
  type CellField,
  type Change,
  changesBetween,
  changeTitle,
  compareNotebooks,
  type Difference,
  type Drawing,
  findCell,
  type Notebook,
  type NotebookField,
  type Step,
  take,
} from '../notebook/index.ts';
import { printed } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { columnTitle } from './column-title.ts';
import type { Live } from './live.ts';
import { columnFor, printAt, sameValue } from './show.ts';

/** One side against the other: what is said of one field. */
export interface PartView {
  /** "value", "name", "note"; "" where there is nothing to tell apart. */
  readonly label: string;
  readonly mine: string;
  readonly theirs: string;
}

/** One thing that differs. */
export interface DifferenceView {
  readonly key: string;
  readonly kind: 'changed' | 'added' | 'removed' | 'moved';
  /** Where it stands: a section's title, "the notebook", "columns", "steps", "drawings". */
  readonly where: string;
  readonly what: string;
  readonly parts: readonly PartView[];
}

/** A worked-out value that comes out otherwise. */
export interface MovedView {
  readonly name: string;
  readonly mine: string;
  readonly theirs: string;
}

/** All that differs between two notebooks. */
export interface ComparisonView {
  readonly differences: readonly DifferenceView[];
  readonly moved: readonly MovedView[];
  /** The column whose values `moved` tells: "size M"; "" where there are no columns. */
  readonly column: string;
}

const FIELD_WORDS: Readonly<Record<CellField, string>> = {
  name: 'name',
  text: 'value',
  note: 'note',
  shown: 'shown in',
  step: 'step',
  range: 'range',
  choices: 'choices',
  says: 'says',
};

const NOTEBOOK_WORDS: Readonly<Record<NotebookField, string>> = {
  title: 'title',
  about: 'what it is about',
  units: 'inches or centimetres',
  money: 'money',
  today: 'today',
  heading: 'what the columns are',
  how: 'how this is worked out',
  sources: 'where the numbers come from',
  cautions: 'cautions',
  chosen: 'the chosen column',
};

/** So many moved values are told. */
const MOST_MOVED = 40;

/** What differs: `mine` is the open notebook, worked out; `theirs` the other. Linear in their cells. */
export function compareWith(mine: Live, theirs: Live): ComparisonView {
  const column = columnFor(mine, undefined);
  const label = mine.notebook.columns?.list[column]?.label;
  return {
    differences: compareNotebooks(mine.notebook, theirs.notebook).map((difference) =>
      viewOf(difference, mine.notebook, theirs.notebook),
    ),
    moved: movedValues(mine, theirs),
    column: label === undefined ? '' : columnTitle(mine.notebook.columns?.heading ?? 'size', label),
  };
}

/** The change that takes the difference of that key; of a changed cell only the field asked for. Undefined when it is gone. */
export function takingOf(mine: Notebook, theirs: Notebook, key: string, field?: string): Change | undefined {
  const difference = compareNotebooks(mine, theirs).find((one) => keyOf(one) === key);
  if (difference === undefined) return undefined;
  const fields =
    difference.kind === 'cell_changed' && field !== undefined
      ? difference.fields.filter((one) => FIELD_WORDS[one] === field)
      : undefined;
  const change = take(mine, theirs, difference, fields);
  return {
    kind: 'together',
    changes: [change],
    title: `take over: ${changeTitle(mine, change)}`.slice(0, 200),
  };
}

/** The change that takes everything over. */
export function takingAll(mine: Notebook, theirs: Notebook, title: string): Change {
  return { kind: 'together', changes: changesBetween(mine, theirs), title: title.slice(0, 200) };
}

function keyOf(difference: Difference): string {
  const { kind } = difference;
  if (kind === 'notebook_changed') return `${kind} ${difference.field}`;
  if (kind === 'column_changed' || kind === 'section_changed' || kind === 'cell_changed')
    return `${kind} ${difference.new.id}`;
  if ('column' in difference) return `${kind} ${difference.column.id}`;
  if ('section' in difference) return `${kind} ${difference.section.id}`;
  if ('cell' in difference) return `${kind} ${difference.cell.id}`;
  return `${kind} ${difference.list} ${difference.item.id}`;
}

function viewOf(difference: Difference, mine: Notebook, theirs: Notebook): DifferenceView {
  return {
    key: keyOf(difference),
    kind: difference.kind.split('_').at(-1) as DifferenceView['kind'],
    ...wordsOf(difference, mine, theirs),
  };
}

type Words = Pick<DifferenceView, 'where' | 'what' | 'parts'>;

function wordsOf(difference: Difference, mine: Notebook, theirs: Notebook): Words {
  switch (difference.kind) {
    case 'notebook_changed': {
      const { field } = difference;
      const parts = [{ label: '', mine: plain(difference.old), theirs: plain(difference.new) }];
      return { where: 'the notebook', what: NOTEBOOK_WORDS[field], parts };
    }
    case 'column_changed':
      return {
        where: 'columns',
        what: difference.old.label,
        parts: [{ label: 'name', mine: difference.old.label, theirs: difference.new.label }],
      };
    case 'column_added':
    case 'column_removed':
    case 'column_moved':
      return { where: 'columns', what: difference.column.label, parts: [] };
    case 'section_changed':
      return {
        where: 'sections',
        what: difference.new.title || 'a section',
        parts: [
          { label: 'title', mine: difference.old.title, theirs: difference.new.title },
          { label: 'words', mine: difference.old.about ?? '', theirs: difference.new.about ?? '' },
        ].filter((part) => part.mine !== part.theirs),
      };
    case 'section_added':
    case 'section_removed':
    case 'section_moved':
      return { where: 'sections', what: difference.section.title || 'a section', parts: [] };
    case 'cell_changed':
      return changedCell(difference.old, difference.new, difference.fields, mine, theirs);
    case 'cell_added':
    case 'cell_removed':
    case 'cell_moved':
      return onlyCell(difference.cell, difference.kind, difference.kind === 'cell_added' ? theirs : mine);
    default:
      return itemWords(difference, mine);
  }
}

function changedCell(
  old: Cell,
  now: Cell,
  fields: readonly CellField[],
  mine: Notebook,
  theirs: Notebook,
): Words {
  const parts = fields.map((field) => ({
    label: FIELD_WORDS[field],
    mine: fieldText(old, field, mine),
    theirs: fieldText(now, field, theirs),
  }));
  return { where: sectionOf(mine, old.id), what: spacedName(old.name), parts };
}

function onlyCell(cell: Cell, kind: 'cell_added' | 'cell_removed' | 'cell_moved', home: Notebook): Words {
  const text = fieldText(cell, 'text', home);
  const part = {
    label: 'value',
    mine: kind === 'cell_removed' ? text : '',
    theirs: kind === 'cell_added' ? text : '',
  };
  return {
    where: sectionOf(home, cell.id),
    what: spacedName(cell.name),
    parts: kind === 'cell_moved' ? [] : [part],
  };
}

function itemWords(difference: Extract<Difference, { readonly list: string }>, mine: Notebook): Words {
  const { list, item, kind } = difference;
  const old = (mine[list] as readonly (Step | Drawing)[]).find(({ id }) => id === item.id);
  const told = (one: Step | Drawing | undefined) =>
    one === undefined ? '' : 'binds' in one ? (one.title ?? one.kind) : one.text;
  const what = list === 'drawings' ? told(item) || 'a drawing' : (told(old ?? item) || 'a step').slice(0, 60);
  const part = {
    label: '',
    mine: kind === 'item_added' ? '' : told(old),
    theirs: kind === 'item_removed' ? '' : told(item),
  };
  const tells = kind !== 'item_moved' && part.mine !== part.theirs && list === 'steps';
  return { where: list, what, parts: tells ? [part] : [] };
}

function sectionOf(notebook: Notebook, cell: string): string {
  return findCell(notebook, cell)?.section.title || 'the sheet';
}

function fieldText(cell: Cell, field: CellField, home: Notebook): string {
  if (field === 'name') return spacedName(cell.name);
  if (field !== 'text') return plain(cell[field]);
  if (cell.each === undefined) return cell.text ?? '';
  const { each } = cell;
  return (home.columns?.list ?? []).map(({ id, label }) => `${label}: ${each[id] ?? ''}`).join(', ');
}

/** A value of a file in words: texts as they are, lists and groups by what stands in them. */
function plain(value: unknown): string {
  if (value === undefined || value === null) return '';
  if (typeof value !== 'object') return String(value);
  return Object.values(value)
    .map(plain)
    .filter((text) => text !== '')
    .join(Array.isArray(value) ? '; ' : ', ');
}

function movedValues(mine: Live, theirs: Live): readonly MovedView[] {
  const column = columnFor(mine, undefined);
  const id = mine.notebook.columns?.list[column]?.id;
  const at = (theirs.notebook.columns?.list ?? []).findIndex((one) => one.id === id);
  const moved: MovedView[] = [];
  for (const cell of mine.sheet.cells) {
    if (moved.length >= MOST_MOVED) break;
    const told = movedCell(mine, theirs, cell, column, at);
    if (told) moved.push(told);
  }
  return moved;
}

function movedCell(mine: Live, theirs: Live, id: string, column: number, at: number): MovedView | undefined {
  if (!theirs.sheet.has(id)) return undefined;
  const [here, there] = [mine.sheet.info(id), theirs.sheet.info(id)];
  if (here.typed || there.typed || (there.each && at < 0)) return undefined;
  const [mineAt, theirsAt] = [here.each ? column : 0, there.each ? at : 0];
  const old = mine.sheet.value(id, mineAt);
  const now = theirs.sheet.value(id, theirsAt);
  if (old.kind === now.kind && sameValue(old, now)) return undefined;
  const texts = {
    mine: outcomeWords(mine, id, mineAt, old),
    theirs: outcomeWords(theirs, id, theirsAt, now),
  };
  return texts.mine === texts.theirs ? undefined : { name: spacedName(mine.sheet.nameOf(id)), ...texts };
}

/** What came out, in a word where it is no value. */
function outcomeWords(live: Live, id: string, column: number, value: Value): string {
  if (value.kind === 'problem') return 'a problem';
  if (value.kind === 'waiting') return `waiting for ${spacedName(value.name)}`;
  return printed(printAt(live, id, column, value)) || '—';
}
