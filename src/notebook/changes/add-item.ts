/** A step or a drawing comes in. */
import { isId } from '../names.ts';
import { refuse } from '../remark.ts';
import type { DeleteItem } from './delete-item.ts';
import { called, type Item, itemToJSON, members, most, readItem, withMembers } from './items.ts';
import { readIndex } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { insertAt } from './places.ts';

export type AddItem = AnyChange & { readonly kind: 'add_item'; readonly at: number } & Item;

export const addItem: ChangeKind<AddItem, DeleteItem> = {
  kind: 'add_item',
  title: ({ list }) => `add ${called(list)}`,

  apply(old, { list, at, item }) {
    const before = members(old, list);
    if (!isId(item.id)) return refuse('not_an_id', { id: item.id });
    if (before.some(({ id }) => id === item.id)) return refuse('id_taken', { id: item.id });
    if (before.length >= most(list)) return refuse('too_many', { limit: most(list) });
    return withMembers(old, list, insertAt(before, at, item));
  },

  invert: (_old, { list, item }) => ({ kind: 'delete_item', list, id: item.id }),
  toJSON: (change) => ({ ...change, item: itemToJSON(change) }),

  fromJSON(shape) {
    const at = readIndex(shape, 'at');
    const item = readItem(shape);
    return at === undefined || item === undefined ? undefined : { kind: 'add_item', at, ...item };
  },
};
