/** The shelf's list as signals: read again whenever the shelf, here or in another tab, may have changed. */

import { type Accessor, createMemo, createSignal, onCleanup } from 'solid-js';
import type { Listed, Shelf } from '../storage/index.ts';

export interface Library {
  /** In the knitter's order. */
  readonly inUse: Accessor<readonly Listed[]>;
  readonly away: Accessor<readonly Listed[]>;
  /** The last deleted first. */
  readonly deleted: Accessor<readonly Listed[]>;
  find(id: string): Listed | undefined;
  /** Reads the list again, soon; many calls make one reading. */
  refresh(): void;
  /** Reads the list now. */
  read(): Promise<readonly Listed[]>;
}

/** Milliseconds between two readings. */
const PAUSE = 250;

export function createLibrary(shelf: Shelf): Library {
  const [all, setAll] = createSignal<readonly Listed[]>([]);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const read = async () => {
    const list = await shelf.list(true).catch(() => undefined);
    if (list) setAll(list);
    return list ?? all();
  };
  const refresh = () => {
    timer ??= setTimeout(() => {
      timer = undefined;
      void read();
    }, PAUSE);
  };
  void read();
  onCleanup(shelf.onChange(() => void read()));
  onCleanup(() => clearTimeout(timer));
  const here = createMemo(() => all().filter(({ deletedAt }) => deletedAt === undefined));
  return {
    inUse: createMemo(() => here().filter(({ archived }) => !archived)),
    away: createMemo(() => here().filter(({ archived }) => archived)),
    deleted: createMemo(() =>
      all()
        .filter(({ deletedAt }) => deletedAt !== undefined)
        .sort((a, b) => (b.deletedAt ?? 0) - (a.deletedAt ?? 0)),
    ),
    find: (id) => all().find((one) => one.id === id),
    refresh,
    read,
  };
}
