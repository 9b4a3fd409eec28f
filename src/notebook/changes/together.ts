/** Several changes as one: all of them, or none. */
import type { Notebook } from '../document.ts';
import { isRecord } from '../record.ts';
import { isRefused, type Refused, refuse } from '../remark.ts';
import { present, Shape } from '../shape.ts';
import type { AnyChange, ChangeKind } from './kind.ts';

/** A list of changes, each applied to what the one before it left. */
export interface Together<C extends AnyChange> extends AnyChange {
  readonly kind: 'together';
  readonly changes: readonly C[];
  /** What they come to, in the knitter's words; absent: what the first does. */
  readonly title?: string;
}

/** What is known of every kind of change, this one included. */
export type AllKinds<C extends AnyChange> = Pick<
  ChangeKind<C, C>,
  'title' | 'apply' | 'invert' | 'toJSON' | 'fromJSON'
>;

/** The most changes in one, and how deep they may be nested. */
const MOST = 50_000;
const DEEPEST = 8;

/** The kind, given what is known of the others. */
export function makeTogether<C extends AnyChange>(all: AllKinds<C>): ChangeKind<Together<C>> {
  /** The notebook before each change, for as long as they can be applied. */
  function befores(old: Notebook, changes: readonly C[]): readonly Notebook[] {
    const list: Notebook[] = [];
    let now: Notebook | Refused = old;
    for (const change of changes) {
      if (isRefused(now)) break;
      list.push(now);
      now = all.apply(now, change);
    }
    return list;
  }

  return {
    kind: 'together',
    title: ({ title, changes }, old) => title ?? (changes[0] ? all.title(changes[0], old) : 'change nothing'),

    apply: (old, { changes }) =>
      changes.reduce<Notebook | Refused>(
        (now, change) => (isRefused(now) ? now : all.apply(now, change)),
        old,
      ),

    invert(old, { kind, changes, title }) {
      const backs = befores(old, changes).flatMap((before, index) => {
        const change = changes[index];
        return change === undefined ? [] : [all.invert(before, change)];
      });
      return present<Together<C>>({ kind, changes: backs.reverse(), title });
    },

    toJSON: ({ changes, ...rest }) => ({ ...rest, changes: changes.map(all.toJSON) }),

    fromJSON(shape) {
      const title = shape.text('title', 200);
      if (shape.path.split('.').length > 2 * DEEPEST)
        return shape.wrong(shape.path, 'fewer changes in changes', undefined);
      const changes = shape.list('changes', MOST).map((value, index) => {
        const path = `${shape.at('changes')}.${index}`;
        return isRecord(value) ? all.fromJSON(new Shape(value, path, shape.remarks)) : undefined;
      });
      const known = changes.filter((change) => change !== undefined);
      return known.length < changes.length
        ? undefined
        : present<Together<C>>({ kind: 'together', changes: known, title });
    },
  };
}

/** What applying gives where a change is of no kind that is known. */
export const unknownKind = (kind: string): Refused => refuse('no_such_change', { kind });
