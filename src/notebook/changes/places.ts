/** Finding and replacing in a notebook by id. Nothing here changes what it is given. */
import type { Cell, Notebook, Section } from '../document.ts';
import { nameKey } from '../names.ts';
import { type Refused, refuse } from '../remark.ts';

/** A cell and where it stands. */
export interface CellPlace {
  readonly cell: Cell;
  readonly section: Section;
  /** Index in its section. */
  readonly index: number;
}

/** The cell with an id, and its place. */
export function findCell(notebook: Notebook, id: string): CellPlace | undefined {
  for (const section of notebook.sections) {
    const index = section.cells.findIndex((cell) => cell.id === id);
    const cell = section.cells[index];
    if (cell !== undefined) return { cell, section, index };
  }
  return undefined;
}

/** The name of a cell as it is shown, or "a cell" when it is not there. */
export const cellTitle = (notebook: Notebook, id: string): string =>
  findCell(notebook, id)?.cell.name.replaceAll('_', ' ') ?? 'a cell';

/** The notebook with one cell replaced. */
export function withCell(notebook: Notebook, cell: Cell): Notebook {
  return mapSections(notebook, (section) => {
    const index = section.cells.findIndex(({ id }) => id === cell.id);
    return index < 0 ? section : { ...section, cells: section.cells.with(index, cell) };
  });
}

/** The notebook with every cell put through a function; sections whose cells stay the same stay the same. */
export function mapCells(notebook: Notebook, map: (cell: Cell) => Cell): Notebook {
  return mapSections(notebook, (section) => {
    const cells = section.cells.map(map);
    return cells.every((cell, index) => cell === section.cells[index]) ? section : { ...section, cells };
  });
}

/** The notebook with every section put through a function. */
export const mapSections = (notebook: Notebook, map: (section: Section) => Section): Notebook => ({
  ...notebook,
  sections: notebook.sections.map(map),
});

/** All cells, in order. */
export const allCells = (notebook: Notebook): readonly Cell[] =>
  notebook.sections.flatMap((section) => section.cells);

/** Why these cells cannot come in beside those that are there; undefined when they can. */
export function clash(notebook: Notebook, coming: readonly Cell[], leaving?: string): Refused | undefined {
  const ids = new Set(coming.map(({ id }) => id));
  const names = new Map(coming.map(({ name }) => [nameKey(name), name]));
  if (ids.size < coming.length) return refuse('id_taken');
  if (names.size < coming.length) return refuse('name_taken');
  for (const { cells } of notebook.sections) {
    for (const { id, name } of cells) {
      const wanted = id === leaving ? undefined : names.get(nameKey(name));
      if (wanted !== undefined) return refuse('name_taken', { name: wanted, taken: name });
      if (id !== leaving && ids.has(id)) return refuse('id_taken', { id });
    }
  }
  return undefined;
}

/** The list with a member put in at an index; past the end means at the end. */
export const insertAt = <T>(list: readonly T[], index: number, member: T): readonly T[] =>
  list.toSpliced(Math.min(index, list.length), 0, member);

/** The list without the member at an index. */
export const removeAt = <T>(list: readonly T[], index: number): readonly T[] => list.toSpliced(index, 1);

/** The list with the member of an id moved to an index, counted without it; undefined when it is not there. */
export function moveTo<T extends { readonly id: string }>(
  list: readonly T[],
  id: string,
  index: number,
): readonly T[] | undefined {
  const from = list.findIndex((member) => member.id === id);
  const member = list[from];
  return member && insertAt(removeAt(list, from), index, member);
}
