/** A cell moves, within its section or to another. */
import { refuse } from '../remark.ts';
import { readId, readIndex } from './keys.ts';
import { type AnyChange, type ChangeKind, spoken } from './kind.ts';
import { cellTitle, findCell, insertAt, mapSections, removeAt } from './places.ts';

export interface MoveCell extends AnyChange {
  readonly kind: 'move_cell';
  readonly cell: string;
  readonly section: string;
  /** Index in the section, counted without the cell. */
  readonly at: number;
}

export const moveCell: ChangeKind<MoveCell> = {
  kind: 'move_cell',
  title: ({ cell }, old) => `move ${spoken(cellTitle(old, cell))}`,

  apply(old, { cell: id, section: to, at }) {
    const place = findCell(old, id);
    if (place === undefined) return refuse('no_such_cell');
    if (!old.sections.some((section) => section.id === to)) return refuse('no_such_section');
    return mapSections(old, (section) => {
      const cells = section === place.section ? removeAt(section.cells, place.index) : section.cells;
      if (section.id === to) return { ...section, cells: insertAt(cells, at, place.cell) };
      return cells === section.cells ? section : { ...section, cells };
    });
  },

  invert(old, change) {
    const place = findCell(old, change.cell);
    return place ? { ...change, section: place.section.id, at: place.index } : change;
  },

  toJSON: (change) => change,

  fromJSON(shape) {
    const cell = readId(shape, 'cell');
    const section = readId(shape, 'section');
    const at = readIndex(shape, 'at');
    if (cell === undefined || section === undefined || at === undefined) return undefined;
    return { kind: 'move_cell', cell, section, at };
  },
};
