import type { Desk } from '../desk.ts';

/** Fetches what a row's menu offers. Rejects where it cannot be fetched. */
export const fetchRowMenu = () => import('./row-menu.ts');

/** Opens the menu of a cell's row, hanging from an element of it, as soon as what it offers is here. */
export function openRowMenu(desk: Desk, id: string, from: HTMLElement): void {
  void fetchRowMenu().then(
    (menu) => menu.openRowMenu(desk, id, from),
    () => desk.announce('The menu could not be fetched just now: try again in a moment.', false),
  );
}
