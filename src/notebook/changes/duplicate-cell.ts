/** A cell is copied under another name, just below itself. */
import type { Section } from '../document.ts';
import { limits } from '../limits.ts';
import { refuse } from '../remark.ts';
import { mayAdd } from './add-cell.ts';
import type { DeleteCell } from './delete-cell.ts';
import { readId } from './keys.ts';
import { type AnyChange, type ChangeKind, spoken } from './kind.ts';
import { cellTitle, findCell, insertAt, mapSections } from './places.ts';

export interface DuplicateCell extends AnyChange {
  readonly kind: 'duplicate_cell';
  readonly cell: string;
  /** The copy's id and name. */
  readonly id: string;
  readonly name: string;
}

export const duplicateCell: ChangeKind<DuplicateCell, DeleteCell> = {
  kind: 'duplicate_cell',
  title: ({ cell }, old) => `copy ${spoken(cellTitle(old, cell))}`,

  apply(old, { cell, id, name }) {
    const place = findCell(old, cell);
    if (place === undefined) return refuse('no_such_cell');
    const copy = { ...place.cell, id, name };
    const put = (section: Section): Section =>
      section === place.section
        ? { ...section, cells: insertAt(section.cells, place.index + 1, copy) }
        : section;
    return mayAdd(old, [copy]) ?? mapSections(old, put);
  },

  invert: (_old, { id }) => ({ kind: 'delete_cell', cell: id }),
  toJSON: (change) => change,

  fromJSON(shape) {
    const cell = readId(shape, 'cell');
    const id = readId(shape, 'id');
    const name = shape.text('name', limits.name);
    if (cell === undefined || id === undefined || name === undefined) return undefined;
    return { kind: 'duplicate_cell', cell, id, name };
  },
};
