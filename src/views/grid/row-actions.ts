/** What can be done to a row, from its keys and from its menu alike. */
import type { Desk } from '../desk.ts';

/** Adds an empty cell under a cell, and asks for its name. */
export function addBelow(desk: Desk, id: string): void {
  const section = sectionOf(desk, id);
  if (section) addCell(desk, section, id);
}

/** Adds an empty cell after another one, or first in its section when `after` is null, and asks for its name. */
export function addCell(desk: Desk, section: string, after: string | null): void {
  const outcome = desk.notebook.page.addCell(section, after);
  if (desk.heed(outcome) && outcome.id !== undefined) nameNew(desk, outcome.id);
}

function nameNew(desk: Desk, id: string): void {
  desk.standAt({ row: `k:${id}`, part: 0 }, true);
  desk.edit({ what: 'name', id, column: null });
}

/** Adds a section after another, or first, and asks for its title. */
export function addSection(desk: Desk, after: string | null): void {
  const outcome = desk.notebook.page.addSection(after, '');
  if (!desk.heed(outcome) || outcome.id === undefined) return;
  desk.standAt({ row: `s:${outcome.id}`, part: 0 }, true);
  desk.edit({ what: 'section', id: outcome.id, column: null });
}

/** Copies a cell below itself, and asks for the copy's name. */
export function duplicate(desk: Desk, id: string): void {
  const outcome = desk.notebook.page.duplicateCell(id);
  if (desk.heed(outcome) && outcome.id !== undefined) nameNew(desk, outcome.id);
}

/** Moves a cell one row up (−1) or down (1), over into the next section at a section's end. */
export function moveBy(desk: Desk, id: string, rows: -1 | 1): void {
  const sections = desk.notebook.view().sections;
  const at = sections.findIndex((section) => section.cells.includes(id));
  const index = (sections[at]?.cells.indexOf(id) ?? 0) + rows;
  const isInside = index >= 0 && index < (sections[at]?.cells.length ?? 0);
  const target = sections[isInside ? at : at + rows];
  if (!target) return;
  const targetIndex = isInside ? index : rows < 0 ? target.cells.length : 0;
  if (!desk.heed(desk.notebook.page.moveCell(id, target.id, targetIndex))) return;
  desk.standAt(desk.stand(), true);
}

/** Takes a cell away, says who used it, and offers to undo. */
export function remove(desk: Desk, id: string): void {
  const { page } = desk.notebook;
  const name = desk.notebook.row(id).name;
  const users = page.workings(id, null).feeds.map((user) => desk.notebook.row(user).name);
  if (desk.heed(page.deleteCell(id))) tellGone(desk, name, users);
}

function tellGone(desk: Desk, name: string, users: readonly string[]): void {
  const used = users.length > 0 ? ` ${listOf(users)} used it.` : '';
  desk.tell({ sentence: `${name} is gone.${used}`, canUndo: true });
  desk.notebook.say(`${name} is gone.${used} Undo brings it back.`);
}

function listOf(names: readonly string[]): string {
  const [last, ...others] = [...names].reverse();
  if (names.length > 4) return `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;
  return others.length > 0 ? `${others.reverse().join(', ')} and ${last}` : (last ?? '');
}

/** Takes a new name over. After Enter or Tab on an empty cell the value is written next. */
export function renameCell(desk: Desk, id: string, name: string, by: 'enter' | 'tab' | 'blur'): boolean {
  const { page } = desk.notebook;
  const row = desk.notebook.row(id);
  if (name.trim() !== row.name && !desk.heed(page.renameCell(id, name.trim()))) {
    if (by === 'blur') desk.leave(false);
    return by === 'blur';
  }
  desk.leave(by !== 'blur');
  if (by !== 'blur' && row.values.every((value) => value.kind === 'empty')) writeValue(desk, id, 1);
  return true;
}

/** Begins to write a cell's text at a part of its row; `start` replaces what is there. */
export function writeValue(desk: Desk, id: string, part: number, start?: string): void {
  if (desk.notebook.view().readOnly) return;
  desk.standAt({ row: `k:${id}`, part }, true);
  const { column } = desk.placeOf(id);
  const inPlace = desk.notebook.row(id).typed;
  desk.edit({ what: 'text', id, column, inPlace, ...(start === undefined ? {} : { start }) });
}

/** Empties the value where she stands. */
export function clearValue(desk: Desk, id: string): void {
  desk.heed(desk.notebook.page.type(desk.placeOf(id), ''));
}

/** Moves the value where she stands by so many of its steps. */
export function nudge(desk: Desk, id: string, steps: number): void {
  desk.tell(undefined);
  desk.heed(desk.notebook.page.nudge(desk.placeOf(id), steps));
}

/** Stands in a cell's row: where she stands already, or else at its first value. */
function standInRow(desk: Desk, id: string, focus = false): void {
  const { row, part } = desk.stand();
  desk.standAt({ row: `k:${id}`, part: row === `k:${id}` ? part : 1 }, focus);
}

/** Unfolds how a cell is worked out, or folds it again. */
export function toggleWorkings(desk: Desk, id: string): void {
  const opening = !desk.open.list().includes(id);
  desk.open.set(id, opening);
  standInRow(desk, id, true);
  if (!opening) return;
  const { lines, roundings } = desk.notebook.page.workings(id, desk.placeOf(id).column);
  desk.notebook.say([...lines.map((line) => line.text), ...roundings].join('; '));
}

/** Asks under a worked-out cell's row what would have to change for it to come to something else. */
export function askWhatWouldChange(desk: Desk, id: string): void {
  if (desk.notebook.row(id).typed) return;
  standInRow(desk, id);
  desk.askBack(id);
}

/** Shows beside the sheet how far off a cell can be. */
export function showHowFarOff(desk: Desk, id: string): void {
  standInRow(desk, id);
  desk.showPanel('doubt');
}

/** Copies the marked cells, or the one she stands in, as a table for a spreadsheet. */
export function copyRows(desk: Desk, id: string): string {
  const marked = desk.marked.list();
  return desk.notebook.page.copy(marked.length > 0 ? inOrder(desk, marked) : [id]);
}

function inOrder(desk: Desk, ids: readonly string[]): readonly string[] {
  const wanted = new Set(ids);
  return desk.notebook.view().sections.flatMap((section) => section.cells.filter((id) => wanted.has(id)));
}

function sectionOf(desk: Desk, id: string): string | undefined {
  return desk.notebook.view().sections.find((section) => section.cells.includes(id))?.id;
}
