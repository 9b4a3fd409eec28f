/*
 * The keys of the sheet, as in any grid: arrows move, Enter writes, Esc leaves and goes back on what is tried. A key that is not listed here and
 * makes a character begins a new text with it. The editor hears its own keys; nothing of this is asked while she writes.
 */
import type { Desk } from '../desk.ts';
import { openColumnMenu, openRowMenu, openSectionMenu } from './open-menu.ts';
import {
  addBelow,
  addCell,
  askWhatWouldChange,
  clearValue,
  moveBy,
  nudge,
  remove,
  toggleWorkings,
  writeValue,
} from './row-actions.ts';

/** So many rows are passed over by Page Up and Page Down. */
const pageRows = 12;

/** Does what a key asks for where she stands. True when the key meant something here. */
export function hearGridKey(event: KeyboardEvent, desk: Desk): boolean {
  if (event.isComposing) return false;
  if (!BEGINS_NUMBER.test(event.key) && event.key !== 'Shift') minus.delete(desk);
  return leaveInside(event, desk) ?? (move(event, desk) || arrange(event, desk) || act(event, desk));
}

/** Inside a cell (on a button in it) only Esc and sideways arrows are ours. Undefined when she is on the cell itself. */
function leaveInside(event: KeyboardEvent, desk: Desk): boolean | undefined {
  const target = event.target as HTMLElement;
  if (target.dataset['part'] !== undefined || target === document.body) return undefined;
  if (event.key === 'Escape') {
    desk.standAt(desk.stand(), true);
    return true;
  }
  const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
  if (step === 0 || target.tagName !== 'BUTTON') return false;
  const buttons = buttonsIn(target.closest('[data-part]'));
  buttons[buttons.indexOf(target as HTMLButtonElement) + step]?.focus();
  return true;
}

function buttonsIn(part: Element | null | undefined): readonly HTMLButtonElement[] {
  return [...(part?.querySelectorAll('button') ?? [])];
}

function move(event: KeyboardEvent, desk: Desk): boolean {
  const step = event.key === 'ArrowUp' ? -1 : event.key === 'ArrowDown' ? 1 : 0;
  if (event.altKey || (event.metaKey && step === 0)) return false;
  const { row, part } = desk.stand();
  const order = desk.order();
  const last = Math.max(desk.columnCount(), 1) + 1;
  const go = (rowIndex: number, toPart: number) => {
    const index = Math.max(0, Math.min(rowIndex, order.length - 1));
    const key = order[index] ?? row;
    if (event.shiftKey && event.key.startsWith('Arrow'))
      mark(desk, ...order.slice(Math.min(at, index), Math.max(at, index) + 1));
    else desk.marked.replace([]);
    desk.standAt({ row: key, part: Math.max(0, Math.min(toPart, last)) }, true);
    // The heads are in sight wherever the sheet was scrolled to, and do not take it along.
    if (index === 0) desk.elementOf(key)?.closest('.sheet-body')?.scrollIntoView();
    return true;
  };
  const at = order.indexOf(row);
  if (step !== 0 && (event.ctrlKey || event.metaKey)) {
    go(headingFrom(order, at, step), part);
    desk.elementOf(desk.stand().row)?.scrollIntoView();
    return true;
  }
  if (step !== 0) return go(at + step, part);
  const wide = isWide(desk, row);
  switch (event.key) {
    case 'ArrowLeft':
      return go(at, wide && part <= last - 1 ? 0 : part - 1);
    case 'ArrowRight':
      return go(at, wide && part >= 1 ? last : part + 1);
    case 'Home':
      return go(event.ctrlKey ? 0 : at, 0);
    case 'End':
      return go(event.ctrlKey ? order.length - 1 : at, last);
    case 'PageUp':
      return go(at - pageRows, part);
    case 'PageDown':
      return go(at + pageRows, part);
    default:
      return false;
  }
}

/** The next section's heading above or below a row; where there is none, the first or the last row. */
function headingFrom(order: readonly string[], at: number, step: -1 | 1): number {
  let index = at + step;
  while (index > 0 && index < order.length - 1 && !order[index]?.startsWith('s:')) index += step;
  return index;
}

/** True where a row has one value, so that the parts between its name and its workings are one. */
function isWide(desk: Desk, row: string): boolean {
  return row !== 'head' && (!row.startsWith('k:') || !desk.notebook.row(row.slice(2)).each);
}

/** Shift and an arrow mark the rows that are passed, for copying. */
function mark(desk: Desk, ...rows: readonly string[]): void {
  for (const row of rows) if (row.startsWith('k:')) desk.marked.set(row.slice(2), true);
}

/** Keys that add, move and take away, and those that open a menu. */
function arrange(event: KeyboardEvent, desk: Desk): boolean {
  const { row } = desk.stand();
  const id = row.startsWith('k:') ? row.slice(2) : undefined;
  if (id && event.key === 'Enter' && event.altKey && !desk.notebook.row(id).typed) {
    askWhatWouldChange(desk, id);
    return true;
  }
  if (event.key === 'ContextMenu' || (event.key === 'F10' && event.shiftKey)) return openMenuAt(desk, row);
  if (desk.notebook.view().readOnly) return false;
  if (event.key === 'Insert' || (event.key === 'Enter' && event.ctrlKey)) {
    if (id) addBelow(desk, id);
    else if (row.startsWith('s:')) addCell(desk, row.slice(2), null);
    return id !== undefined || row.startsWith('s:');
  }
  if (!id || !event.altKey) return false;
  if (event.key === 'ArrowUp') moveBy(desk, id, -1);
  else if (event.key === 'ArrowDown') moveBy(desk, id, 1);
  else return false;
  return true;
}

/** Opens the menu of a row, a section or a column. */
export function openMenuAt(desk: Desk, row: string): boolean {
  const part = desk.partOf(row, desk.stand().part);
  if (!part) return false;
  if (row.startsWith('k:')) openRowMenu(desk, row.slice(2), part);
  else if (row.startsWith('s:')) openSectionMenu(desk, row.slice(2), part);
  else if (row === 'head') openColumnMenu(desk, desk.stand().part - 1, part);
  return true;
}

/** What Enter, the nudging keys and plain characters do in a row. */
function act(event: KeyboardEvent, desk: Desk): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const { row, part } = desk.stand();
  if (event.key === 'Escape') return leaveTrial(desk, row);
  if (row.startsWith('k:')) return actOnCell(event, desk, row.slice(2), part);
  if (event.key !== 'Enter' && event.key !== 'F2' && event.key !== ' ') return false;
  if (row === 'head') return actOnHead(desk, part);
  if (row.startsWith('s:')) {
    // A space begins no writing: words typed on a heading would lose their first and write the rest over its note.
    if (event.key !== ' ')
      desk.edit({ what: part > 0 ? 'about' : 'section', id: row.slice(2), column: null });
  } else buttonsIn(desk.partOf(row, 0))[0]?.click();
  return true;
}

/** Esc goes back on what is tried: on the one value, or of several on the one where she stands. */
function leaveTrial(desk: Desk, row: string): boolean {
  const cells = desk.notebook.view().trial?.cells ?? [];
  const cell = cells.length === 1 ? cells[0] : cells.find(({ id }) => row === `k:${id}`);
  if (cell) desk.notebook.page.dropFromTrial(cell.id);
  return cell !== undefined;
}

function actOnHead(desk: Desk, part: number): boolean {
  const column = desk.notebook.view().columns[part - 1];
  if (column) desk.heed(desk.notebook.page.choose(column.id));
  else buttonsIn(desk.partOf('head', part))[0]?.click();
  return true;
}

function actOnCell(event: KeyboardEvent, desk: Desk, id: string, part: number): boolean {
  const locked = desk.notebook.view().readOnly;
  const isHow = part > Math.max(desk.columnCount(), 1);
  if (event.key === ' ') toggleWorkings(desk, id);
  else if (locked) return false;
  else if (event.key === 'Enter' || event.key === 'F2') open(desk, id, part, isHow);
  else if (event.key === 'Delete' || event.key === 'Backspace') clear(event, desk, id, part, isHow);
  else if (part > 0 && !isHow && desk.notebook.row(id).nudges && stepsOf(event) !== 0) {
    nudge(desk, id, stepsOf(event));
    if (stepsOf(event) === -1 && !event.repeat) minus.set(desk, { id, at: event.timeStamp });
  } else if (event.key.length === 1) write(desk, id, part, isHow, signed(event, desk, id) + event.key);
  else return false;
  return true;
}

/** The minus that was just pressed in a cell, and when. */
const minus = new WeakMap<Desk, { readonly id: string; readonly at: number }>();

/** A key that begins a number. */
const BEGINS_NUMBER = /^[\d.½¼¾⅓⅔]$/u;

/** So soon after a minus a digit belongs to it. */
const SIGN_MS = 1000;

/** "-" where a digit follows a minus at once, as −4 is written: that minus was a sign, and its step is taken back. */
function signed(event: KeyboardEvent, desk: Desk, id: string): '-' | '' {
  const last = minus.get(desk);
  minus.delete(desk);
  const isSign = last?.id === id && event.timeStamp - last.at < SIGN_MS && BEGINS_NUMBER.test(event.key);
  if (!isSign || !canBeBelowZero(desk, id)) return '';
  desk.notebook.page.undo();
  return '-';
}

/** A length or a plain number may be less than nothing; a gauge is not, and neither is a day. */
function canBeBelowZero(desk: Desk, id: string): boolean {
  return desk.notebook.row(id).values.every(({ kind, unit }) => kind === 'quantity' && !unit.includes('/'));
}

/** The steps a key stands for. Where + itself needs Shift (the key is Equal) it is one step; else Shift makes ten. */
function stepsOf(event: KeyboardEvent): number {
  const tenfold = event.shiftKey && event.code !== 'Equal' ? 10 : 1;
  if (event.key === '+') return tenfold;
  if (event.key === '-' || event.key === '−') return -tenfold;
  if (event.key === '_') return -10;
  if (event.key === '*' && event.shiftKey && event.code === 'BracketRight') return 10; // + with Shift, on some keyboards
  return 0;
}

function open(desk: Desk, id: string, part: number, isHow: boolean): void {
  if (part === 0) desk.edit({ what: 'name', id, column: null });
  else if (!isHow) writeValue(desk, id, part);
  else if (desk.notebook.row(id).tried) buttonsIn(desk.partOf(`k:${id}`, part))[0]?.focus();
  else if (desk.notebook.row(id).typed) desk.edit({ what: 'note', id, column: null });
  else toggleWorkings(desk, id);
}

function clear(event: KeyboardEvent, desk: Desk, id: string, part: number, isHow: boolean): void {
  if (isHow) desk.heed(desk.notebook.page.setNote(id, ''));
  else if (part > 0) clearValue(desk, id);
  else if (event.key === 'Delete') remove(desk, id);
}

function write(desk: Desk, id: string, part: number, isHow: boolean, start: string): void {
  if (part > 0 && !isHow) writeValue(desk, id, part, start);
  else desk.edit({ what: isHow ? 'note' : 'name', id, column: null, start });
}
