import type { Desk, MenuItem } from '../desk.ts';

/** Opens the menu of a column's head; `index` from 0. A place that is no column offers only to add one. */
export function openColumnMenu(desk: Desk, index: number, from: HTMLElement): void {
  const view = desk.notebook.view();
  if (view.readOnly) return;
  const column = view.columns[index];
  const label = column ? `more for ${column.label}` : 'columns';
  const items = column ? columnItems(desk, index) : [adding(desk, null)];
  desk.openMenu({ label, anchor: from.getBoundingClientRect(), items });
}

function columnItems(desk: Desk, index: number): readonly MenuItem[] {
  const { page } = desk.notebook;
  const { columns } = desk.notebook.view();
  const { id, chosen } = columns[index] ?? { id: '', chosen: false };
  return [
    {
      label: yourColumn(desk.notebook.view().heading),
      disabled: chosen,
      choose: () => void desk.heed(page.choose(id)),
    },
    { label: 'rename', apart: true, choose: () => desk.edit({ what: 'column', id, column: null }) },
    {
      label: 'move left',
      disabled: index === 0,
      choose: () => void desk.heed(page.moveColumn(id, index - 1)),
    },
    {
      label: 'move right',
      disabled: index === columns.length - 1,
      choose: () => void desk.heed(page.moveColumn(id, index + 1)),
    },
    adding(desk, id),
    { label: 'take it away', apart: true, choose: () => removeColumn(desk, index) },
  ];
}

function adding(desk: Desk, after: string | null): MenuItem {
  const word = desk.notebook.view().heading || 'column';
  return { label: `add ${withArticle(word)}`, choose: () => addColumn(desk, after) };
}

/** "a size", "an age". */
export function withArticle(word: string): string {
  return `${/^([aeio]|hour|u(?!ni|s))/i.test(word) ? 'an' : 'a'} ${word}`;
}

/** Adds a column after another one, or last when `after` is null, and asks for its label. */
export function addColumn(desk: Desk, after: string | null): void {
  const { columns, heading } = desk.notebook.view();
  const word = heading || 'size';
  const taken = new Set(columns.map((column) => column.label.toLowerCase()));
  let number = columns.length + 1;
  while (taken.has(`${word} ${number}`)) number += 1;
  const outcome = desk.notebook.page.addColumn(`${word} ${number}`, after ?? columns.at(-1)?.id ?? null);
  if (!desk.heed(outcome) || outcome.id === undefined) return;
  const index = desk.notebook.view().columns.findIndex((column) => column.id === outcome.id);
  desk.standAt({ row: 'head', part: index + 1 }, true);
  desk.edit({ what: 'column', id: outcome.id, column: null });
}

function removeColumn(desk: Desk, index: number): void {
  const column = desk.notebook.view().columns[index];
  if (!column || !desk.heed(desk.notebook.page.deleteColumn(column.id))) return;
  desk.announce(`${column.label} is gone from every row.`, true);
}

/** What the chosen column is called: "your size", "this pair". */
export function yourColumn(heading: string): string {
  return heading === 'size' || heading === '' ? 'your size' : `this ${heading}`;
}
