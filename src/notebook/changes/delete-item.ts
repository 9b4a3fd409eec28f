/** A step or a drawing goes. */
import { refuse } from '../remark.ts';
import type { AddItem } from './add-item.ts';
import { called, type ListName, members, readListName, withMembers } from './items.ts';
import { readId } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { removeAt } from './places.ts';

export interface DeleteItem extends AnyChange {
  readonly kind: 'delete_item';
  readonly list: ListName;
  readonly id: string;
}

export const deleteItem: ChangeKind<DeleteItem, AddItem | DeleteItem> = {
  kind: 'delete_item',
  title: ({ list }) => `delete ${called(list)}`,

  apply(old, { list, id }) {
    const before = members(old, list);
    const index = before.findIndex((item) => item.id === id);
    return index < 0 ? refuse('no_such_item', { list }) : withMembers(old, list, removeAt(before, index));
  },

  invert(old, change) {
    const at = members(old, change.list).findIndex(({ id }) => id === change.id);
    const item = members(old, change.list)[at];
    return item ? ({ kind: 'add_item', list: change.list, at, item } as AddItem) : change;
  },

  toJSON: (change) => change,

  fromJSON(shape) {
    const list = readListName(shape);
    const id = readId(shape, 'id');
    return list === undefined || id === undefined ? undefined : { kind: 'delete_item', list, id };
  },
};
