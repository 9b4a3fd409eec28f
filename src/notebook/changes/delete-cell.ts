/** A cell goes. What used it will say so; nothing else is touched. */
import { refuse } from '../remark.ts';
import type { AddCell } from './add-cell.ts';
import { readId } from './keys.ts';
import { type AnyChange, type ChangeKind, spoken } from './kind.ts';
import { cellTitle, findCell, mapSections, removeAt } from './places.ts';

export interface DeleteCell extends AnyChange {
  readonly kind: 'delete_cell';
  readonly cell: string;
}

export const deleteCell: ChangeKind<DeleteCell, AddCell | DeleteCell> = {
  kind: 'delete_cell',
  title: ({ cell }, old) => `delete ${spoken(cellTitle(old, cell))}`,

  apply(old, { cell: id }) {
    const place = findCell(old, id);
    if (place === undefined) return refuse('no_such_cell');
    return mapSections(old, (section) =>
      section === place.section ? { ...section, cells: removeAt(section.cells, place.index) } : section,
    );
  },

  invert(old, change) {
    const place = findCell(old, change.cell);
    return place
      ? { kind: 'add_cell', section: place.section.id, at: place.index, cell: place.cell }
      : change;
  },

  toJSON: (change) => change,

  fromJSON(shape) {
    const cell = readId(shape, 'cell');
    return cell === undefined ? undefined : { kind: 'delete_cell', cell };
  },
};
