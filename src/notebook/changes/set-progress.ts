/**
 * Knitting goes on: steps ticked, counts pinned, rows counted, of one column or of whichever is chosen. Null frees. Undone
 * by a stack of its own, never with edits. What is knitted of one column never touches what is of another.
 */
import type { Knitted, Notebook, Progress } from '../document.ts';
import { partOf } from '../knitted.ts';
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
  /** The column it is of ("" while none is chosen); absent: of whichever is chosen. */
  readonly column?: string;
  /** Whether progress that is of no column is of this one from now on; false: of none again. */
  readonly names?: boolean;
}

const NOTHING: Knitted = { ticked: {}, pinned: {}, rows: {} };

export const setProgress: ChangeKind<SetProgress> = {
  kind: 'set_progress',
  outsideHistory: true,

  title({ ticked, rows }) {
    if (ticked) return Object.values(ticked).every((text) => text === null) ? 'untick a step' : 'tick a step';
    return rows ? 'count rows' : 'change what is on the needles';
  },

  apply(old, change) {
    const before: Progress = old.progress ?? NOTHING;
    const { column, names } = change;
    const part = partOf(before, column, names === true);
    if (column !== undefined && part !== before)
      return withProgress(old, withOther(before, column, knitOn(part ?? NOTHING, change)));
    const { of: was, ...first } = knitOn(before, change);
    const of = names === false ? undefined : (was ?? column);
    return withProgress(old, present<Progress>({ ...first, of }));
  },

  invert({ progress }, { kind, ticked, pinned, rows, column, names }) {
    const knitted = progress && partOf(progress, column, names === true);
    const wasNamed = progress?.of === column ? true : progress?.of === undefined ? false : undefined;
    return present<SetProgress>({
      kind,
      ticked: ticked && asItWas(knitted?.ticked, ticked),
      pinned: pinned && asItWas(knitted?.pinned, pinned),
      rows: rows && asItWas(knitted?.rows, rows),
      column,
      names: column === undefined ? undefined : wasNamed,
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
      column: shape.text('column', limits.id),
      names: readTruth(shape.value('names')),
    }),
};

function knitOn<K extends Knitted>(before: K, { ticked, pinned, rows }: SetProgress): K {
  return {
    ...before,
    ticked: merged(before.ticked, ticked),
    pinned: merged(before.pinned, pinned),
    rows: merged(before.rows, rows),
  };
}

function withOther({ others: before, ...first }: Progress, column: string, knitted: Knitted): Progress {
  const others = withEntry(before, column, isEmpty(knitted) ? null : knitted);
  return Object.keys(others).length > 0 ? { ...first, others } : first;
}

/** Where nothing is left of the first part, it is of no column. */
function withProgress(notebook: Notebook, progress: Progress): Notebook {
  const { progress: _before, ...rest } = notebook;
  if (!isEmpty(progress)) return { ...rest, progress };
  const { of: _of, ...others } = progress;
  return others.others ? { ...rest, progress: others } : rest;
}

const readTruth = (value: unknown): boolean | undefined => (typeof value === 'boolean' ? value : undefined);

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
