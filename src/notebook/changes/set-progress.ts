/** Knitting goes on: steps ticked, counts pinned, rows counted. Null frees. Undone by a stack of its own, never with edits. */
import type { Notebook, Progress } from '../document.ts';
import { limits } from '../limits.ts';
import { own, record, withEntry } from '../record.ts';
import { present, type Shape } from '../shape.ts';
import { isEmpty, readPins } from '../validate.ts';
import { readTextOrNull } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';

/** Entries by id; null takes one away. */
type Entries<V> = Readonly<Record<string, V | null>>;

export interface SetProgress extends AnyChange {
  readonly kind: 'set_progress';
  /** The text that each ticked step printed, by step id. */
  readonly ticked?: Entries<string>;
  /** What was knitted, by cell id, then by column id. */
  readonly pinned?: Entries<Readonly<Record<string, string>>>;
  /** Rows done of each step. */
  readonly rows?: Entries<number>;
}

export const setProgress: ChangeKind<SetProgress> = {
  kind: 'set_progress',
  outsideHistory: true,

  title({ ticked, rows }) {
    if (ticked) return Object.values(ticked).every((text) => text === null) ? 'untick a step' : 'tick a step';
    return rows ? 'count rows' : 'change what is on the needles';
  },

  apply(old, change) {
    const before = old.progress ?? { ticked: {}, pinned: {}, rows: {} };
    return withProgress(old, {
      ...before,
      ticked: merged(before.ticked, change.ticked),
      pinned: merged(before.pinned, change.pinned),
      rows: merged(before.rows, change.rows),
    });
  },

  invert({ progress }, { kind, ticked, pinned, rows }) {
    return present<SetProgress>({
      kind,
      ticked: ticked && asItWas(progress?.ticked, ticked),
      pinned: pinned && asItWas(progress?.pinned, pinned),
      rows: rows && asItWas(progress?.rows, rows),
    });
  },

  toJSON: (change) => change,

  fromJSON: (shape) =>
    present<SetProgress>({
      kind: 'set_progress',
      ticked: readEntries(shape.group('ticked'), (group, id) => readTextOrNull(group, id, limits.sentence)),
      pinned: readEntries(shape.group('pinned'), (group, id) =>
        group.value(id) === null ? null : readPins(group.group(id)),
      ),
      rows: readEntries(shape.group('rows'), (group, id) =>
        group.value(id) === null ? null : group.count(id, 0, limits.rows),
      ),
    }),
};

function withProgress(notebook: Notebook, progress: Progress): Notebook {
  const { progress: _before, ...rest } = notebook;
  return isEmpty(progress) ? rest : { ...rest, progress };
}

function merged<V>(
  before: Readonly<Record<string, V>>,
  entries: Entries<V> = {},
): Readonly<Record<string, V>> {
  return Object.entries(entries).reduce<Readonly<Record<string, V>>>(
    (made, [id, value]) => withEntry(made, id, value),
    before,
  );
}

function asItWas<V>(before: Readonly<Record<string, V>> | undefined, entries: Entries<V>): Entries<V> {
  return record(Object.keys(entries).map((id) => [id, own(before, id) ?? null] as const));
}

function readEntries<V>(
  group: Shape | undefined,
  read: (group: Shape, id: string) => V | null | undefined,
): Entries<V> | undefined {
  if (group === undefined) return undefined;
  return record(
    group.entries(limits.progress).flatMap(([id]) => {
      const value = id.length <= limits.id ? read(group, id) : undefined;
      return value === undefined ? [] : [[id, value] as const];
    }),
  );
}
