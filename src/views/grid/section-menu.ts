import type { Desk, MenuItem } from '../desk.ts';
import { addCell, addSection } from './row-actions.ts';

/** Opens the menu of a section's heading. */
export function openSectionMenu(desk: Desk, id: string, from: HTMLElement): void {
  const title = desk.notebook.view().sections.find((section) => section.id === id)?.title ?? '';
  if (desk.notebook.view().readOnly) return;
  desk.openMenu({
    label: `more for ${title || 'this section'}`,
    anchor: from.getBoundingClientRect(),
    items: sectionItems(desk, id),
  });
}

function sectionItems(desk: Desk, id: string): readonly MenuItem[] {
  const { page } = desk.notebook;
  const sections = desk.notebook.view().sections;
  const index = sections.findIndex((section) => section.id === id);
  return [
    { label: 'rename', keys: 'Enter', choose: () => desk.edit({ what: 'section', id, column: null }) },
    { label: 'say a few words about it', choose: () => desk.edit({ what: 'about', id, column: null }) },
    { label: 'add a cell', keys: 'Insert', apart: true, choose: () => addCell(desk, id, null) },
    { label: 'add a section below', choose: () => addSection(desk, id) },
    {
      label: 'move up',
      disabled: index <= 0,
      choose: () => void desk.heed(page.moveSection(id, index - 1)),
    },
    {
      label: 'move down',
      disabled: index >= sections.length - 1,
      choose: () => void desk.heed(page.moveSection(id, index + 1)),
    },
    { label: 'take it away', apart: true, choose: () => removeSection(desk, id) },
  ];
}

function removeSection(desk: Desk, id: string): void {
  const section = desk.notebook.view().sections.find((one) => one.id === id);
  const count = section?.cells.length ?? 0;
  if (!desk.heed(desk.notebook.page.deleteSection(id))) return;
  const cells = count === 0 ? '' : count === 1 ? ', with its one cell' : `, with its ${count} cells`;
  desk.announce(`${section?.title || 'The section'} is gone${cells}.`, true);
}
