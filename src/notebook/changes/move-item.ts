/** A step or a drawing moves among the others. */
import { refuse } from '../remark.ts';
import { called, type ListName, members, readListName, withMembers } from './items.ts';
import { readId, readIndex } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { moveTo } from './places.ts';

export interface MoveItem extends AnyChange {
  readonly kind: 'move_item';
  readonly list: ListName;
  readonly id: string;
  /** Index in the list, counted without it. */
  readonly at: number;
}

export const moveItem: ChangeKind<MoveItem> = {
  kind: 'move_item',
  title: ({ list }) => `move ${called(list)}`,

  apply(old, { list, id, at }) {
    const moved = moveTo(members(old, list), id, at);
    return moved ? withMembers(old, list, moved) : refuse('no_such_item', { list });
  },

  invert: (old, change) => ({
    ...change,
    at: Math.max(
      0,
      members(old, change.list).findIndex(({ id }) => id === change.id),
    ),
  }),

  toJSON: (change) => change,

  fromJSON(shape) {
    const list = readListName(shape);
    const id = readId(shape, 'id');
    const at = readIndex(shape, 'at');
    if (list === undefined || id === undefined || at === undefined) return undefined;
    return { kind: 'move_item', list, id, at };
  },
};
