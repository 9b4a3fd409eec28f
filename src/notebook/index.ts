/** The document as plain data: its format, reading, writing, changing, undoing, comparing. Knows no formulas and no screen. */
export {
  applyChange,
  type Change,
  changeFromJSON,
  changeKinds,
  changeTitle,
  changeToJSON,
  invertChange,
  isProgress,
} from './change.ts';
export type { AddCell } from './changes/add-cell.ts';
export type { AddColumn } from './changes/add-column.ts';
export type { Item, ListName } from './changes/items.ts';
export { allCells, findCell } from './changes/places.ts';
export type { CellTexts, Rewrites } from './changes/rewrites.ts';
export type { CellFields } from './changes/set-cell.ts';
export type { NotebookFields } from './changes/set-notebook.ts';
export type { SetProgress } from './changes/set-progress.ts';
export type { SetText } from './changes/set-text.ts';
export {
  type CellField,
  changesBetween,
  compareNotebooks,
  type Difference,
  type NotebookField,
  same,
  take,
} from './compare.ts';
export { withDatesToCome } from './dates-to-come.ts';
export type * from './document.ts';
export { FORMAT } from './document.ts';
export { emptyHistory } from './empty-history.ts';
export {
  drop,
  type Entry,
  type History,
  type HistoryStep,
  historyFromJSON,
  historyToJSON,
  perform,
  redo,
  remember,
  undo,
} from './history.ts';
export { firstFreeId, type IdLetter, newId } from './ids.ts';
export { isByColumn, knittedOf } from './knitted.ts';
export { limits } from './limits.ts';
export { freeName, isId, isLabel, isName, labelFrom, nameFrom, nameKey, normalName } from './names.ts';
export { type Parsed, parse as parseJson } from './parse.ts';
export { type Read, readNotebook, readNotebookValue } from './read.ts';
export { isRecord, own, record, withEntry } from './record.ts';
export { isRefused, type Parts, type Refusal, type Refused, type Remark, refuse } from './remark.ts';
export { meet, touches } from './touches.ts';
export { isDay } from './validate.ts';
export { writeNotebook } from './write.ts';
