/** A column goes, with the texts in it, and the choice of it. */
import type { Notebook } from '../document.ts';
import { own, record, withEntry } from '../record.ts';
import { refuse } from '../remark.ts';
import { present } from '../shape.ts';
import type { AddColumn } from './add-column.ts';
import { readId } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { allCells, mapCells, removeAt } from './places.ts';
import type { SetChosen } from './set-chosen.ts';

export interface DeleteColumn extends AnyChange {
  readonly kind: 'delete_column';
  readonly column: string;
  /** Whether the run of columns goes with its last column; only where that column had made the run. */
  readonly withRun?: boolean;
}

/** The column put back, and chosen again where it had been. */
interface PutBack extends AnyChange {
  readonly kind: 'together';
  readonly changes: readonly (AddColumn | SetChosen)[];
}

export const deleteColumn: ChangeKind<DeleteColumn, AddColumn | DeleteColumn | PutBack> = {
  kind: 'delete_column',
  title: ({ column }, old) =>
    `delete column ${old.columns?.list.find(({ id }) => id === column)?.label ?? ''}`.trim(),

  apply(old, { column: id, withRun }) {
    const { columns, ...bare } = mapCells(withoutChoiceOf(old, id), (cell) => {
      return own(cell.each, id) === undefined ? cell : { ...cell, each: withEntry(cell.each, id, null) };
    });
    const index = columns?.list.findIndex((column) => column.id === id) ?? -1;
    if (columns === undefined || index < 0) return refuse('no_such_column');
    const list = removeAt(columns.list, index);
    return withRun && list.length === 0 ? bare : { ...bare, columns: { ...columns, list } };
  },

  invert(old, change) {
    const at = old.columns?.list.findIndex(({ id }) => id === change.column) ?? -1;
    const column = old.columns?.list[at];
    if (column === undefined) return change;
    const values = record(
      allCells(old).flatMap(({ id, each }) => {
        const text = own(each, column.id);
        return text === undefined ? [] : [[id, text] as const];
      }),
    );
    const heading = change.withRun ? { heading: old.columns?.heading ?? '' } : {};
    const back: AddColumn = { kind: 'add_column', at, column, values, ...heading };
    const { chosen } = old;
    if (chosen === undefined || !('column' in chosen) || chosen.column !== column.id) return back;
    return { kind: 'together', changes: [back, { kind: 'set_chosen', chosen }] };
  },

  toJSON: (change) => change,

  fromJSON(shape) {
    const column = readId(shape, 'column');
    const withRun = shape.value('withRun') === true ? true : undefined;
    return column === undefined
      ? undefined
      : present<DeleteColumn>({ kind: 'delete_column', column, withRun });
  },
};

function withoutChoiceOf(notebook: Notebook, column: string): Notebook {
  const { chosen, ...rest } = notebook;
  return chosen !== undefined && 'column' in chosen && chosen.column === column ? rest : notebook;
}
