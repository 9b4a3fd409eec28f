/*
 * Changes: the list of kinds, and what may be done with any of them. To add a kind: a file in `changes/`, a line in `Change`
 * and in `KINDS` here.
 */
import { type AddCell, addCell } from './changes/add-cell.ts';
import { type AddColumn, addColumn } from './changes/add-column.ts';
import { type AddItem, addItem } from './changes/add-item.ts';
import { type AddSection, addSection } from './changes/add-section.ts';
import { type DeleteCell, deleteCell } from './changes/delete-cell.ts';
import { type DeleteColumn, deleteColumn } from './changes/delete-column.ts';
import { type DeleteItem, deleteItem } from './changes/delete-item.ts';
import { type DeleteSection, deleteSection } from './changes/delete-section.ts';
import { type DuplicateCell, duplicateCell } from './changes/duplicate-cell.ts';
import type { AnyChange, ChangeKind } from './changes/kind.ts';
import { type MoveCell, moveCell } from './changes/move-cell.ts';
import { type MoveColumn, moveColumn } from './changes/move-column.ts';
import { type MoveItem, moveItem } from './changes/move-item.ts';
import { type MoveSection, moveSection } from './changes/move-section.ts';
import { type RenameCell, renameCell } from './changes/rename-cell.ts';
import { type RenameColumn, renameColumn } from './changes/rename-column.ts';
import { type ReplaceNotebook, replaceNotebook } from './changes/replace-notebook.ts';
import { type SetCell, setCell } from './changes/set-cell.ts';
import { type SetChosen, setChosen } from './changes/set-chosen.ts';
import { type SetItem, setItem } from './changes/set-item.ts';
import { type SetNotebook, setNotebook } from './changes/set-notebook.ts';
import { type SetProgress, setProgress } from './changes/set-progress.ts';
import { type SetSection, setSection } from './changes/set-section.ts';
import { type SetText, setText } from './changes/set-text.ts';
import { makeTogether, type Together, unknownKind } from './changes/together.ts';
import { FORMAT, type Notebook } from './document.ts';
import { isRecord } from './record.ts';
import { type Refused, Remarks, refuse } from './remark.ts';
import { Shape } from './shape.ts';

/** Any change of a notebook. */
export type Change =
  | AddCell
  | AddColumn
  | AddItem
  | AddSection
  | DeleteCell
  | DeleteColumn
  | DeleteItem
  | DeleteSection
  | DuplicateCell
  | MoveCell
  | MoveColumn
  | MoveItem
  | MoveSection
  | RenameCell
  | RenameColumn
  | ReplaceNotebook
  | SetCell
  | SetChosen
  | SetItem
  | SetNotebook
  | SetProgress
  | SetSection
  | SetText
  | Together<Change>;

const KINDS: ReadonlyMap<string, ChangeKind<Change, Change>> = byKind([
  addCell,
  addColumn,
  addItem,
  addSection,
  deleteCell,
  deleteColumn,
  deleteItem,
  deleteSection,
  duplicateCell,
  moveCell,
  moveColumn,
  moveItem,
  moveSection,
  renameCell,
  renameColumn,
  replaceNotebook,
  setCell,
  setChosen,
  setItem,
  setNotebook,
  setProgress,
  setSection,
  setText,
  makeTogether<Change>({
    title: (change, old) => changeTitle(old, change),
    apply: (old, change) => applyChecked(old, change),
    invert: (old, change) => invertChange(old, change),
    toJSON: (change) => changeToJSON(change),
    fromJSON: (shape) => readChange(shape),
  }),
]);

/** The kinds there are, by name. */
export const changeKinds = (): readonly string[] => [...KINDS.keys()];

/** The notebook after the change, or why it cannot be: never throws, and never gives a notebook that could not be kept. */
export function applyChange(old: Notebook, change: Change): Notebook | Refused {
  if (old.ellwand > FORMAT) return refuse('read_only', { version: old.ellwand });
  const remarks = new Remarks();
  const json = changeToJSON(change);
  const carried = isRecord(json) ? readChange(new Shape(json, '', remarks)) : undefined;
  const [remark] = remarks.list();
  if (remark !== undefined) return refuse(remark.code, remark.parts);
  return carried === undefined ? unknownKind(String(change.kind)) : applyChecked(old, carried);
}

/** The change that takes this one back, told from the notebook before it. Only for a change that can be applied. */
export function invertChange(old: Notebook, change: Change): Change {
  return KINDS.get(change.kind)?.invert(old, change) ?? change;
}

/** What the change does, in the knitter's words, told from the notebook before it: "change stitch gauge". */
export function changeTitle(old: Notebook, change: Change): string {
  return KINDS.get(change.kind)?.title(change, old) ?? 'change';
}

/** Whether undo steps over it: ticks, pins and row counts are no edits. */
export function isProgress(change: Change): boolean {
  if (change.kind === 'together') return change.changes.length > 0 && change.changes.every(isProgress);
  return KINDS.get(change.kind)?.outsideHistory === true;
}

/** The change as plain JSON, as it is kept and sent. */
export function changeToJSON(change: Change): unknown {
  return KINDS.get(change.kind)?.toJSON(change);
}

/** A change from what was kept or sent; undefined when it is none that this version knows, or anything in it is amiss. */
export function changeFromJSON(json: unknown): Change | undefined {
  const remarks = new Remarks();
  const change = isRecord(json) ? readChange(new Shape(json, '', remarks)) : undefined;
  return remarks.list().length > 0 ? undefined : change;
}

function applyChecked(old: Notebook, change: Change): Notebook | Refused {
  return KINDS.get(change.kind)?.apply(old, change) ?? unknownKind(change.kind);
}

function readChange(shape: Shape): Change | undefined {
  const kind = shape.value('kind');
  return typeof kind === 'string' ? KINDS.get(kind)?.fromJSON(shape) : undefined;
}

/** Each kind is only ever handed changes of its own kind: that is what this map is for, and the one place it is relied on. */
function byKind(
  kinds: readonly { readonly kind: string }[],
): ReadonlyMap<string, ChangeKind<Change, Change>> {
  return new Map(kinds.map((kind) => [kind.kind, kind as ChangeKind<Change, Change>]));
}

export type { AnyChange };
