/*
 * Ids, names and columns made good over the whole notebook, after its groups have been read. The first to bear an id or a
 * name keeps it; the next gets another and a remark. Work is linear: a file of twenty thousand cells all called `a` settles
 * as fast as any.
 */
import { allCells } from './changes/places.ts';
import type { Cell, Column, Notebook, Section } from './document.ts';
import { firstFreeId, type IdLetter } from './ids.ts';
import { limits } from './limits.ts';
import { isId, isLabel, isName, labelFrom, nameFrom, nameKey, normalName, numbered } from './names.ts';
import { own, record } from './record.ts';
import type { Remarks } from './remark.ts';

/** The notebook with ids and names that can be relied on. The notebook's own id may still be "". */
export function settleNames(read: Notebook, remarks: Remarks): Notebook {
  const notebook = { ...read, id: isId(read.id) ? read.id : '' };
  return matchColumns(settleColumns(settleLists(settleCells(notebook, remarks), remarks), remarks), remarks);
}

/** Gives out ids: the one asked for when it is good and free, else the next free number. */
class Ids {
  readonly #taken = new Set<string>();
  readonly #reserved: ReadonlySet<string>;
  #next = 1;
  readonly #letter: IdLetter;
  readonly #remarks: Remarks;

  constructor(wanted: readonly { readonly id: string }[], letter: IdLetter, remarks: Remarks) {
    this.#letter = letter;
    this.#remarks = remarks;
    // A number that some later member bears is not given to an earlier one.
    this.#reserved = new Set(wanted.map(({ id }) => id));
  }

  settle<T extends { readonly id: string }>(member: T, path: string, parts: Record<string, string>): T {
    if (isId(member.id) && !this.#taken.has(member.id)) {
      this.#taken.add(member.id);
      return member;
    }
    const id = this.#free();
    this.#remarks.add(member.id === '' ? 'no_id' : 'id_made_new', path, {
      ...parts,
      was: member.id.slice(0, 40),
      id,
    });
    return { ...member, id };
  }

  #free(): string {
    let id = firstFreeId(this.#letter, this.#taken, this.#next);
    while (this.#reserved.has(id)) id = firstFreeId(this.#letter, this.#taken, ++this.#next);
    this.#next++;
    this.#taken.add(id);
    return id;
  }
}

/** Gives out names: a good one to the first who bears it, else the nearest free one. */
class Names {
  readonly #taken = new Set<string>();
  readonly #reserved: ReadonlySet<string>;
  readonly #tries = new Map<string, number>();
  readonly #joiner: '_' | ' ';

  constructor(wanted: readonly string[], joiner: '_' | ' ') {
    this.#joiner = joiner;
    this.#reserved = new Set(wanted.map(nameKey));
  }

  /** A name made up for a cell yields to one that another cell really bears. */
  settle(name: string, madeUp: boolean): string {
    const key = nameKey(name);
    const free = this.#taken.has(key) || (madeUp && this.#reserved.has(key)) ? this.#free(name, key) : name;
    this.#taken.add(nameKey(free));
    return free;
  }

  #free(name: string, key: string): string {
    for (let number = this.#tries.get(key) ?? 2; ; number++) {
      const free = numbered(name, number, this.#joiner);
      this.#tries.set(key, number + 1);
      if (!this.#taken.has(nameKey(free)) && !this.#reserved.has(nameKey(free))) return free;
    }
  }
}

function settleCells(notebook: Notebook, remarks: Remarks): Notebook {
  const cells = allCells(notebook);
  const sectionIds = new Ids(notebook.sections, 's', remarks);
  const cellIds = new Ids(cells, 'k', remarks);
  const names = new Names(
    cells.map(({ name }) => name.slice(0, limits.name)),
    '_',
  );
  const sections = notebook.sections.map((section, s): Section => {
    const settled = sectionIds.settle(section, `sections.${s}`, { title: section.title.slice(0, 40) });
    return {
      ...settled,
      cells: section.cells.map((cell, c) => {
        const path = `sections.${s}.cells.${c}`;
        return settleName(cellIds.settle(cell, path, { name: cell.name.slice(0, 40) }), names, path, remarks);
      }),
    };
  });
  return { ...notebook, sections };
}

function settleName(cell: Cell, names: Names, path: string, remarks: Remarks): Cell {
  const composed = normalName(cell.name.slice(0, 4 * limits.name));
  const good = isName(composed) ? composed : nameFrom(composed);
  const name = names.settle(good, good !== composed);
  const was = composed.slice(0, 40);
  if (good !== composed) remarks.add(composed === '' ? 'no_name' : 'not_a_name', path, { was, name });
  else if (name !== composed) remarks.add('name_taken', path, { was, name });
  return name === cell.name ? cell : { ...cell, name };
}

function settleLists(notebook: Notebook, remarks: Remarks): Notebook {
  const drawingIds = new Ids(notebook.drawings, 'd', remarks);
  const stepIds = new Ids(notebook.steps, 't', remarks);
  return {
    ...notebook,
    drawings: notebook.drawings.map((drawing, i) => drawingIds.settle(drawing, `drawings.${i}`, {})),
    steps: notebook.steps.map((step, i) => stepIds.settle(step, `steps.${i}`, {})),
  };
}

/** Columns with good ids and labels; where texts by column have lost their columns, those are made from the ids. */
function settleColumns(notebook: Notebook, remarks: Remarks): Notebook {
  const columns = notebook.columns ?? { heading: '', list: [] };
  const list = columns.list.length > 0 ? columns.list : lostColumns(notebook, remarks);
  if (list.length === 0) return notebook;
  const ids = new Ids(list, 'c', remarks);
  const labels = new Names(
    list.map(({ label }) => label),
    ' ',
  );
  const settled = list.map((column, i) => {
    const path = `columns.list.${i}`;
    return settleLabel(ids.settle(column, path, { label: column.label.slice(0, 40) }), labels, path, remarks);
  });
  return { ...notebook, columns: { ...columns, list: settled } };
}

function settleLabel(column: Column, labels: Names, path: string, remarks: Remarks): Column {
  const good = isLabel(column.label) ? column.label : labelFrom(column.label);
  const label = labels.settle(good, good !== column.label);
  if (label !== column.label) {
    const code = good === column.label ? 'label_taken' : 'not_a_label';
    remarks.add(code, path, { was: column.label.slice(0, 40), label });
  }
  return label === column.label ? column : { ...column, label };
}

function lostColumns(notebook: Notebook, remarks: Remarks): readonly Column[] {
  const ids = new Set<string>();
  for (const section of notebook.sections) {
    for (const cell of section.cells)
      for (const id of Object.keys(cell.each ?? {})) if (isId(id)) ids.add(id);
  }
  const list = [...ids].slice(0, limits.columns).map((id) => ({ id, label: id.slice(0, limits.label) }));
  if (list.length > 0) remarks.add('columns_made', 'columns', { count: list.length });
  return list;
}

/** Texts in the order of the columns; texts of unknown columns, and a choice of one, are left out with a remark. */
function matchColumns(notebook: Notebook, remarks: Remarks): Notebook {
  const order = (notebook.columns?.list ?? []).map(({ id }) => id);
  const known = new Set(order);
  const sections = notebook.sections.map((section, s) => ({
    ...section,
    cells: section.cells.map((cell, c) =>
      matchCell(cell, order, known, `sections.${s}.cells.${c}.each`, remarks),
    ),
  }));
  const { chosen, ...rest } = { ...notebook, sections };
  if (chosen === undefined || 'follow' in chosen || known.has(chosen.column))
    return { ...notebook, sections };
  remarks.add('no_such_column', 'chosen.column', { column: chosen.column });
  return rest;
}

function matchCell(
  cell: Cell,
  order: readonly string[],
  known: ReadonlySet<string>,
  path: string,
  remarks: Remarks,
): Cell {
  if (cell.each === undefined) return cell;
  for (const [id, text] of Object.entries(cell.each)) {
    if (!known.has(id))
      remarks.add('no_such_column', `${path}.${id.slice(0, 40)}`, {
        column: id.slice(0, 40),
        name: cell.name,
        text: text.slice(0, 40),
      });
  }
  return { ...cell, each: inOrder(cell.each, order) };
}

/** The texts of the columns that are there, in the columns' order; empty ones are left out. */
export function inOrder(
  each: Readonly<Record<string, string>>,
  order: readonly string[],
): Readonly<Record<string, string>> {
  return record(
    order.flatMap((id) => {
      const text = own(each, id) ?? '';
      return text === '' ? [] : [[id, text] as const];
    }),
  );
}
