/*
 * Undo and redo, as data: two stacks of changes with their inverses, kept with the notebook, one history for each tab.
 * Undo applies the newest inverse to the notebook *as it is now*, which another tab may have changed meanwhile; what
 * undoes that undo is worked out then, so that redo gives exactly what undo took. An entry whose cell has gone is refused
 * and dropped. Ticks and counters have a history of their own: the same shape, another stack.
 */
import {
  applyChange,
  type Change,
  changeFromJSON,
  changeTitle,
  changeToJSON,
  invertChange,
} from './change.ts';
import type { Notebook } from './document.ts';
import { emptyHistory } from './empty-history.ts';
import { isRecord } from './record.ts';
import { isRefused, type Refused, refuse } from './remark.ts';

/** One thing that was done, and what takes it back. */
export interface Entry {
  /** In the knitter's words: "change stitch gauge". */
  readonly title: string;
  readonly change: Change;
  readonly inverse: Change;
  /** Entries in a row with the same word become one: the nudges of one cell. */
  readonly join?: string;
}

/** What one tab has done and undone; the newest is last in both. */
export interface History {
  readonly done: readonly Entry[];
  readonly undone: readonly Entry[];
}

/** A step through the history: what to apply, what that gives, and the history afterwards. */
export interface HistoryStep {
  readonly notebook: Notebook;
  readonly history: History;
  readonly change: Change;
  readonly inverse: Change;
  readonly title: string;
}

/** The most entries, and the most characters of them all, that a history holds; the oldest go first. */
const MOST_ENTRIES = 300;
const MOST_CHARACTERS = 2_000_000;

/** Does a change: the new notebook, the entry that undo will take back, and the history with it. */
export function perform(
  old: Notebook,
  history: History,
  change: Change,
  join?: string,
): HistoryStep | Refused {
  const notebook = applyChange(old, change);
  if (isRefused(notebook)) return notebook;
  const inverse = invertChange(old, change);
  const title = changeTitle(old, change);
  const entry: Entry = { title, change, inverse, ...(join === undefined ? {} : { join }) };
  return { notebook, history: remember(history, entry), change, inverse, title };
}

/** The history with one more entry; what had been undone can no longer be redone. */
export function remember(history: History, entry: Entry): History {
  const last = history.done.at(-1);
  const joins = last?.join !== undefined && last.join === entry.join && history.undone.length === 0;
  const done = joins ? [...history.done.slice(0, -1), joined(last, entry)] : [...history.done, entry];
  return { done: withinLimits(done), undone: [] };
}

/** Takes back the newest entry. Refused with `nothing_to_undo`; or with the reason, and the entry's dropping, by `drop`. */
export function undo(notebook: Notebook, history: History): HistoryStep | Refused {
  const entry = history.done.at(-1);
  if (entry === undefined) return refuse('nothing_to_undo');
  return step(notebook, entry, entry.inverse, (back) => ({
    done: history.done.slice(0, -1),
    undone: [...history.undone, back],
  }));
}

/** Does again what was undone last. Refused with `nothing_to_redo`, or with the reason. */
export function redo(notebook: Notebook, history: History): HistoryStep | Refused {
  const entry = history.undone.at(-1);
  if (entry === undefined) return refuse('nothing_to_redo');
  return step(notebook, entry, entry.change, (again) => ({
    done: [...history.done, again],
    undone: history.undone.slice(0, -1),
  }));
}

/** The history without the entry that undo (or redo) refused. */
export function drop(history: History, which: 'undo' | 'redo'): History {
  return which === 'undo'
    ? { ...history, done: history.done.slice(0, -1) }
    : { ...history, undone: history.undone.slice(0, -1) };
}

/** As it is kept. */
export function historyToJSON({ done, undone }: History): unknown {
  return { done: done.map(entryToJSON), undone: undone.map(entryToJSON) };
}

/** From what was kept; entries before one that cannot be read are out of reach, and are left out with it. */
export function historyFromJSON(json: unknown): History {
  if (!isRecord(json)) return emptyHistory;
  return { done: readableTail(json['done']), undone: readableTail(json['undone']) };
}

function step(
  notebook: Notebook,
  entry: Entry,
  change: Change,
  move: (entry: Entry) => History,
): HistoryStep | Refused {
  const changed = applyChange(notebook, change);
  if (isRefused(changed)) return changed;
  const inverse = invertChange(notebook, change);
  const undoing = change === entry.inverse;
  const { title } = entry;
  const moved = undoing ? { title, change: inverse, inverse: change } : { title, change, inverse };
  return { notebook: changed, history: move(moved), change, inverse, title };
}

/** Two entries as one: there by the new change alone when it sets the same thing, else by both. */
function joined(old: Entry, entry: Entry): Entry {
  const sameThing = old.change.kind === 'set_text' && old.inverse.kind === 'set_text';
  if (sameThing) return { ...entry, inverse: old.inverse };
  return {
    ...entry,
    change: { kind: 'together', changes: [old.change, entry.change], title: entry.title },
    inverse: { kind: 'together', changes: [entry.inverse, old.inverse], title: entry.title },
  };
}

function withinLimits(entries: readonly Entry[]): readonly Entry[] {
  let characters = 0;
  let from = entries.length;
  while (from > 0 && entries.length - from < MOST_ENTRIES) {
    const entry = entries[from - 1];
    characters += entry === undefined ? 0 : sizeOf(entry);
    if (characters > MOST_CHARACTERS && from < entries.length) break;
    from--;
  }
  return from === 0 ? entries : entries.slice(from);
}

const sizes = new WeakMap<Entry, number>();

/** Characters of an entry as it is kept; worked out once. */
function sizeOf(entry: Entry): number {
  const known = sizes.get(entry);
  if (known !== undefined) return known;
  const size = JSON.stringify(entryToJSON(entry)).length;
  sizes.set(entry, size);
  return size;
}

const entryToJSON = ({ change, inverse, ...rest }: Entry): unknown => ({
  ...rest,
  change: changeToJSON(change),
  inverse: changeToJSON(inverse),
});

function readableTail(json: unknown): readonly Entry[] {
  const entries = Array.isArray(json) ? json.map(readEntry) : [];
  return entries.slice(entries.lastIndexOf(undefined) + 1).filter((entry) => entry !== undefined);
}

function readEntry(json: unknown): Entry | undefined {
  if (!isRecord(json)) return undefined;
  const { title, change, inverse, join } = json;
  const done = changeFromJSON(change);
  const back = changeFromJSON(inverse);
  if (typeof title !== 'string' || done === undefined || back === undefined) return undefined;
  return { title, change: done, inverse: back, ...(typeof join === 'string' ? { join } : {}) };
}
