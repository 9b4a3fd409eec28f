import type { Desk } from '../desk.ts';

/** Fetches what the menus of rows, sections and columns offer. Rejects where it cannot be fetched. */
export const fetchMenus = () => import('./menus.ts');

/** Opens a menu as soon as what it offers is here. */
function open(desk: Desk, openOne: (menus: typeof import('./menus.ts')) => void): void {
  void fetchMenus().then(openOne, () => desk.announce('The menu could not be fetched: try again.', false));
}

/** Opens the menu of a cell's row, hanging from an element of it. */
export function openRowMenu(desk: Desk, id: string, from: HTMLElement): void {
  open(desk, (menus) => menus.openRowMenu(desk, id, from));
}

/** Opens the menu of a section's heading. */
export function openSectionMenu(desk: Desk, id: string, from: HTMLElement): void {
  open(desk, (menus) => menus.openSectionMenu(desk, id, from));
}

/** Opens the menu of a column's head; `index` from 0. A place that is no column offers only to add one. */
export function openColumnMenu(desk: Desk, index: number, from: HTMLElement): void {
  open(desk, (menus) => menus.openColumnMenu(desk, index, from));
}

/** Prints; where there are several columns, a menu asks first which. */
export function openPrintMenu(desk: Desk): void {
  open(desk, (menus) => menus.askToPrint(desk));
}
