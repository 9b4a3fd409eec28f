/** The chosen column is set: one that a cell names, a fixed one, or none. */
import type { Chosen } from '../document.ts';
import { refuse } from '../remark.ts';
import { readChosen } from '../validate.ts';
import { chosenToJSON } from '../write.ts';
import type { AnyChange, ChangeKind } from './kind.ts';

export interface SetChosen extends AnyChange {
  readonly kind: 'set_chosen';
  readonly chosen: Chosen | null;
}

export const setChosen: ChangeKind<SetChosen> = {
  kind: 'set_chosen',

  title({ chosen }, old) {
    if (chosen === null) return `choose no ${old.columns?.heading || 'column'}`;
    if ('follow' in chosen) return `follow ${chosen.follow.replaceAll('_', ' ')}`;
    return `choose ${old.columns?.list.find(({ id }) => id === chosen.column)?.label ?? 'a column'}`;
  },

  apply(old, { chosen }) {
    const { chosen: _before, ...rest } = old;
    if (chosen === null) return rest;
    const known = 'follow' in chosen || old.columns?.list.some(({ id }) => id === chosen.column);
    return known ? { ...old, chosen } : refuse('no_such_column');
  },

  invert: (old) => ({ kind: 'set_chosen', chosen: old.chosen ?? null }),
  toJSON: ({ kind, chosen }) => ({ kind, chosen: chosen && chosenToJSON(chosen) }),

  fromJSON(shape) {
    if (shape.value('chosen') === null) return { kind: 'set_chosen', chosen: null };
    const chosen = readChosen(shape.group('chosen'));
    return chosen && { kind: 'set_chosen', chosen };
  },
};
