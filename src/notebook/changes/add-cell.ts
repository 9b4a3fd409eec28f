/** A cell comes in: a new one, or one that had been deleted. */
import type { Cell, Notebook, Section } from '../document.ts';
import { limits } from '../limits.ts';
import { isId, isName } from '../names.ts';
import { type Refused, refuse } from '../remark.ts';
import { inOrder } from '../settle.ts';
import { readLoneCell } from '../validate.ts';
import { cellToJSON } from '../write.ts';
import type { DeleteCell } from './delete-cell.ts';
import { readId, readIndex } from './keys.ts';
import { type AnyChange, type ChangeKind, spoken } from './kind.ts';
import { allCells, clash, insertAt, mapSections } from './places.ts';

export interface AddCell extends AnyChange {
  readonly kind: 'add_cell';
  readonly section: string;
  /** Index in the section. */
  readonly at: number;
  readonly cell: Cell;
}

export const addCell: ChangeKind<AddCell, DeleteCell> = {
  kind: 'add_cell',
  title: ({ cell }) => `add ${spoken(cell.name)}`,

  apply(old, { section: id, at, cell }) {
    if (!old.sections.some((section) => section.id === id)) return refuse('no_such_section');
    const fitted = fitCell(old, cell);
    const put = (section: Section): Section =>
      section.id === id ? { ...section, cells: insertAt(section.cells, at, fitted) } : section;
    return mayAdd(old, [cell]) ?? mapSections(old, put);
  },

  invert: (_old, { cell }) => ({ kind: 'delete_cell', cell: cell.id }),
  toJSON: (change) => ({ ...change, cell: cellToJSON(change.cell) }),

  fromJSON(shape) {
    const section = readId(shape, 'section');
    const at = readIndex(shape, 'at');
    const cell = readLoneCell(shape.value('cell'), shape.remarks);
    return section === undefined || at === undefined || !cell
      ? undefined
      : { kind: 'add_cell', section, at, cell };
  },
};

/** The cell with its texts in the order of the notebook's columns. */
export function fitCell(notebook: Notebook, cell: Cell): Cell {
  if (cell.each === undefined) return cell;
  return {
    ...cell,
    each: inOrder(
      cell.each,
      (notebook.columns?.list ?? []).map(({ id }) => id),
    ),
  };
}

/** Why these cells cannot come in; undefined when they can. */
export function mayAdd(notebook: Notebook, cells: readonly Cell[]): Refused | undefined {
  const count = allCells(notebook).length + cells.length;
  if (count > limits.cells) return refuse('too_many', { count, limit: limits.cells });
  for (const { id, name } of cells) {
    if (!isName(name)) return refuse('not_a_name', { name });
    if (!isId(id)) return refuse('not_an_id', { id });
  }
  return clash(notebook, cells);
}
