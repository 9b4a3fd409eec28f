/** A column comes in, with the texts that cells have in it. */
import type { Column, Columns, Notebook } from '../document.ts';
import { limits } from '../limits.ts';
import { isId, isLabel, nameKey } from '../names.ts';
import { own, withEntry } from '../record.ts';
import { type Refused, refuse } from '../remark.ts';
import { inOrder } from '../settle.ts';
import { present } from '../shape.ts';
import { readLoneColumn } from '../validate.ts';
import { columnToJSON } from '../write.ts';
import type { DeleteColumn } from './delete-column.ts';
import { readIndex, readTexts } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { insertAt, mapCells } from './places.ts';

export interface AddColumn extends AnyChange {
  readonly kind: 'add_column';
  readonly at: number;
  readonly column: Column;
  /** Texts by cell id; a cell that has no texts by column is passed over. */
  readonly values?: Readonly<Record<string, string>>;
  /** The heading of the run, when this is its first column. */
  readonly heading?: string;
}

export const addColumn: ChangeKind<AddColumn, DeleteColumn> = {
  kind: 'add_column',
  title: ({ column }) => `add column ${column.label}`,

  apply(old, { at, column, values = {}, heading = '' }) {
    const run: Columns = old.columns ?? { heading, list: [] };
    const columns = { ...run, list: insertAt(run.list, at, column) };
    const order = columns.list.map(({ id }) => id);
    return mayBear(run.list, column) ?? withValues({ ...old, columns }, column.id, order, values);
  },

  invert: (old, { column }) => ({
    kind: 'delete_column',
    column: column.id,
    ...(old.columns === undefined ? { withRun: true } : {}),
  }),

  toJSON: (change) => ({ ...change, column: columnToJSON(change.column) }),

  fromJSON(shape) {
    const at = readIndex(shape, 'at');
    const column = readLoneColumn(shape.value('column'), shape.remarks);
    if (at === undefined || column === undefined) return undefined;
    const values = readTexts(shape.group('values'), limits.cells);
    return present<AddColumn>({
      kind: 'add_column',
      at,
      column,
      values,
      heading: shape.text('heading', limits.word),
    });
  },
};

/** Why a column cannot stand among these; undefined when it can. */
export function mayBear(list: readonly Column[], { id, label }: Column): Refused | undefined {
  if (list.length >= limits.columns) return refuse('too_many', { limit: limits.columns });
  if (!isId(id)) return refuse('not_an_id', { id });
  if (!isLabel(label)) return refuse('not_a_label', { label });
  if (list.some((column) => column.id === id)) return refuse('id_taken', { id });
  const taken = list.find((column) => nameKey(column.label) === nameKey(label));
  return taken && refuse('label_taken', { label, taken: taken.label });
}

function withValues(
  notebook: Notebook,
  column: string,
  order: readonly string[],
  values: Readonly<Record<string, string>>,
): Notebook {
  return mapCells(notebook, (cell) => {
    const text = own(values, cell.id);
    if (cell.each === undefined || text === undefined) return cell;
    return { ...cell, each: inOrder(withEntry(cell.each, column, text), order) };
  });
}
