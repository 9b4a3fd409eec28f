/*
 * How a notebook is kept: a page written out whole at some number, and a row for every change since (and for some hundred
 * before it), numbered without gaps. Opening reads the page and applies the rows after it. The rows are also the history: each
 * tab's undo and redo are folded from its own rows, so that saving a change saves its undo in the same breath.
 *
 *   page:ID        {number, text}      the notebook as it was after change `number`
 *   log:ID:000012  Row                 change 12
 *   about:ID       About               for the list of notebooks, written with each change
 *   place:ID       Place               order, archived, deleted: written by the shelf alone
 *   trials:ID      anything            what is being tried, kept for the session
 *   vmeta:ID:VID, vtext:ID:VID         a version: what it is called, and its file
 */
import {
  type Change,
  changeFromJSON,
  changeToJSON,
  type Entry,
  emptyHistory,
  type History,
  isRecord,
  type Notebook,
  remember,
} from '../notebook/index.ts';

/** What a change was: something done, something undone or done again; `progress` for ticks and counts, with their own undo. */
export type Role = 'do' | 'undo' | 'redo' | 'progress' | 'progress_undo' | 'progress_redo';

/** One change, numbered. */
export interface Row {
  /** 1, 2, 3 … without gaps. */
  readonly number: number;
  /** Unique to the change, given by its tab: "TAB 7". */
  readonly mark: string;
  readonly tab: string;
  /** The number of the last change its maker had seen. */
  readonly seen: number;
  /** When, in milliseconds since 1970. */
  readonly at: number;
  readonly role: Role;
  readonly title: string;
  readonly join?: string;
  readonly change: Change;
  readonly inverse: Change;
}

/** What the list of notebooks shows of one. */
export interface About {
  readonly id: string;
  readonly title: string;
  readonly about: string;
  readonly cells: number;
  /** The number of the last change. */
  readonly number: number;
  /** In milliseconds since 1970. */
  readonly madeAt: number;
  readonly changedAt: number;
}

export const pageKey = (id: string): string => `page:${id}`;
export const logPrefix = (id: string): string => `log:${id}:`;
export const logKey = (id: string, number: number): string =>
  `${logPrefix(id)}${String(number).padStart(12, '0')}`;
export const aboutKey = (id: string): string => `about:${id}`;
export const placeKey = (id: string): string => `place:${id}`;
export const trialsKey = (id: string): string => `trials:${id}`;
export const metaKey = (id: string, version: string): string => `vmeta:${id}:${version}`;
export const textKey = (id: string, version: string): string => `vtext:${id}:${version}`;

/** What the list shows of a notebook. */
export function aboutOf(notebook: Notebook, number: number, madeAt: number, changedAt: number): About {
  const cells = notebook.sections.reduce((sum, section) => sum + section.cells.length, 0);
  const { id, title, about = '' } = notebook;
  return { id, title, about: about.slice(0, 300), cells, number, madeAt, changedAt };
}

/** A change that has no number yet: what a tab asks the owner to number. */
export type Proposal = Omit<Row, 'number' | 'inverse'>;

/** A proposal as it is sent. */
export const proposalToJSON = ({ change, ...rest }: Proposal): unknown => ({
  ...rest,
  change: changeToJSON(change),
});

/** A proposal read back; undefined when this version cannot read it. */
export function proposalFromJSON(json: unknown): Proposal | undefined {
  if (!isRecord(json)) return undefined;
  const row = rowFromJSON({ ...json, number: 0, inverse: json['change'] });
  if (row === undefined) return undefined;
  const { number: _number, inverse: _inverse, ...proposal } = row;
  return proposal;
}

/** A row as it is kept and sent. */
export const rowToJSON = ({ change, inverse, ...rest }: Row): unknown => ({
  ...rest,
  change: changeToJSON(change),
  inverse: changeToJSON(inverse),
});

const ROLES: readonly Role[] = ['do', 'undo', 'redo', 'progress', 'progress_undo', 'progress_redo'];

/** A row read back; undefined when this version cannot read it. */
export function rowFromJSON(json: unknown): Row | undefined {
  if (!isRecord(json)) return undefined;
  const { number, mark, tab, seen, at, title, join } = json;
  const role = ROLES.find((one) => one === json['role']);
  const change = changeFromJSON(json['change']);
  const inverse = changeFromJSON(json['inverse']);
  const numbers = typeof number === 'number' && typeof seen === 'number' && typeof at === 'number';
  const texts = typeof mark === 'string' && typeof tab === 'string' && typeof title === 'string';
  if (!numbers || !texts || role === undefined || change === undefined || inverse === undefined)
    return undefined;
  return {
    number,
    mark,
    tab,
    seen,
    at,
    role,
    title,
    change,
    inverse,
    ...(typeof join === 'string' ? { join } : {}),
  };
}

/** Edits, and ticks and counts, as one tab may undo them. */
export interface Histories {
  readonly edits: History;
  readonly progress: History;
}

/** What a tab did, folded from the rows. */
export function historiesOf(rows: readonly Row[], tab: string): Histories {
  const mine = rows.filter((row) => row.tab === tab);
  const edits = mine.filter(({ role }) => !role.startsWith('progress'));
  const progress = mine.filter(({ role }) => role.startsWith('progress'));
  return { edits: edits.reduce(fold, emptyHistory), progress: progress.reduce(fold, emptyHistory) };
}

function fold(history: History, { role, title, change, inverse, join }: Row): History {
  if (role.endsWith('undo')) {
    const back: Entry = { title, change: inverse, inverse: change };
    const at = role === 'progress_undo' ? takenBack(history, change) : -1;
    return { done: history.done.toSpliced(at, 1), undone: [...history.undone, back] };
  }
  if (role.endsWith('redo')) {
    return { done: [...history.done, { title, change, inverse }], undone: history.undone.slice(0, -1) };
  }
  return remember(history, { title, change, inverse, ...(join === undefined ? {} : { join }) });
}

/** Which entry that change took back: of ticks and counts the last of its column, which need not be the last of all. */
function takenBack({ done }: History, change: Change): number {
  const text = JSON.stringify(changeToJSON(change));
  return done.findLastIndex(({ inverse }) => JSON.stringify(changeToJSON(inverse)) === text);
}

/** The tab that changed the notebook last; its history is taken over by a tab that has none, when no other is open. */
export const lastTab = (rows: readonly Row[]): string | undefined => rows.at(-1)?.tab;
