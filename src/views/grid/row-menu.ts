import type { Desk, MenuItem } from '../desk.ts';
import { fetchStepField } from '../later.ts';
import {
  addBelow,
  askWhatWouldChange,
  copyRows,
  duplicate,
  moveBy,
  remove,
  showHowFarOff,
  toggleWorkings,
  writeValue,
} from './row-actions.ts';

/** Opens the menu of a cell's row, hanging from an element of it. */
export function openRowMenu(desk: Desk, id: string, from: HTMLElement): void {
  const name = desk.notebook.row(id).name;
  desk.openMenu({
    label: `more for ${name}`,
    anchor: from.getBoundingClientRect(),
    items: rowItems(desk, id),
  });
}

function rowItems(desk: Desk, id: string): readonly MenuItem[] {
  const row = desk.notebook.row(id);
  const locked = desk.notebook.view().readOnly;
  const hasColumns = desk.notebook.view().columns.length > 0;
  const items: MenuItem[] = [
    { label: 'how it’s worked out', keys: 'Space', choose: () => toggleWorkings(desk, id) },
    { label: 'copy as a table', keys: 'Ctrl C', choose: () => void putOnClipboard(copyRows(desk, id)) },
  ];
  if (!row.typed)
    items.push({
      label: 'what would have to change',
      keys: 'Alt Enter',
      choose: () => askWhatWouldChange(desk, id),
    });
  items.push({ label: 'how far off it can be', choose: () => showHowFarOff(desk, id) });
  if (locked) return items;
  fetchStepField().catch(() => undefined); // It is asked for again when a step is written.
  items.push(
    {
      label: 'change',
      keys: 'Enter',
      apart: true,
      choose: () => writeValue(desk, id, desk.stand().part || 1),
    },
    { label: 'rename', choose: () => desk.edit({ what: 'name', id, column: null }) },
    {
      label: row.note ? 'change the note' : 'write a note',
      choose: () => desk.edit({ what: 'note', id, column: null }),
    },
    {
      label: 'write a step with it',
      choose: () => desk.edit({ what: 'step', id, column: null, start: `{${row.name}} ` }),
    },
    { label: 'add a cell below', keys: 'Insert', apart: true, choose: () => addBelow(desk, id) },
    { label: 'make a copy', choose: () => duplicate(desk, id) },
    { label: 'move up', keys: 'Alt up', choose: () => moveBy(desk, id, -1) },
    { label: 'move down', keys: 'Alt down', choose: () => moveBy(desk, id, 1) },
  );
  if (row.typed && hasColumns) {
    const label = row.each
      ? 'one value for all'
      : `one value for each ${desk.notebook.view().heading || 'column'}`;
    items.push({
      label,
      apart: true,
      choose: () => void desk.heed(desk.notebook.page.setEach(id, !row.each)),
    });
  }
  items.push({ label: 'take it away', apart: true, choose: () => remove(desk, id) });
  return items;
}

/** Puts a text on the clipboard, where the browser allows it. */
export async function putOnClipboard(text: string): Promise<void> {
  await navigator.clipboard?.writeText(text).catch(() => undefined);
}
