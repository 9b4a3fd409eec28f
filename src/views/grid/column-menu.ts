import type { Desk, MenuItem } from '../desk.ts';
import { addColumn, withArticle, yourColumn } from './column-actions.ts';

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

function removeColumn(desk: Desk, index: number): void {
  const column = desk.notebook.view().columns[index];
  if (!column || !desk.heed(desk.notebook.page.deleteColumn(column.id))) return;
  desk.announce(`${column.label} is gone from every row.`, true);
}
