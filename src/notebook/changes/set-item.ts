/** A step or a drawing is changed: the whole of it is replaced, under the same id. */
import { refuse } from '../remark.ts';
import { called, type Item, itemToJSON, members, readItem, withMembers } from './items.ts';
import type { AnyChange, ChangeKind } from './kind.ts';

export type SetItem = AnyChange & { readonly kind: 'set_item' } & Item;

export const setItem: ChangeKind<SetItem> = {
  kind: 'set_item',
  title: ({ list }) => `change ${called(list)}`,

  apply(old, { list, item }) {
    const before = members(old, list);
    const index = before.findIndex(({ id }) => id === item.id);
    return index < 0 ? refuse('no_such_item', { list }) : withMembers(old, list, before.with(index, item));
  },

  invert: (old, change) => {
    const item = members(old, change.list).find(({ id }) => id === change.item.id) ?? change.item;
    return { ...change, item } as SetItem;
  },

  toJSON: (change) => ({ ...change, item: itemToJSON(change) }),

  fromJSON(shape) {
    const item = readItem(shape);
    return item && { kind: 'set_item', ...item };
  },
};
