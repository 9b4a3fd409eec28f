/** A column moves among the others; texts by column follow its order. */
import { refuse } from '../remark.ts';
import { inOrder } from '../settle.ts';
import { readId, readIndex } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { mapCells, moveTo } from './places.ts';

export interface MoveColumn extends AnyChange {
  readonly kind: 'move_column';
  readonly column: string;
  /** Index among the columns, counted without it. */
  readonly at: number;
}

export const moveColumn: ChangeKind<MoveColumn> = {
  kind: 'move_column',
  title: ({ column }, old) =>
    `move column ${old.columns?.list.find(({ id }) => id === column)?.label ?? ''}`.trim(),

  apply(old, { column, at }) {
    const list = moveTo(old.columns?.list ?? [], column, at);
    if (old.columns === undefined || list === undefined) return refuse('no_such_column');
    const order = list.map(({ id }) => id);
    const moved = { ...old, columns: { ...old.columns, list } };
    return mapCells(moved, (cell) =>
      cell.each === undefined ? cell : { ...cell, each: inOrder(cell.each, order) },
    );
  },

  invert: (old, change) => ({
    ...change,
    at: Math.max(0, old.columns?.list.findIndex(({ id }) => id === change.column) ?? 0),
  }),

  toJSON: (change) => change,

  fromJSON(shape) {
    const column = readId(shape, 'column');
    const at = readIndex(shape, 'at');
    return column === undefined || at === undefined ? undefined : { kind: 'move_column', column, at };
  },
};
