/** Tabs, disks and clocks in memory, for tests of keeping. */
import { isRefused, type Notebook, readNotebook } from '../../src/notebook/index.ts';
import { type Disk, memoryDisk } from '../../src/storage/disk.ts';
import type { Opened } from '../../src/storage/keeper.ts';
import { Shelf } from '../../src/storage/shelf.ts';
import { type MemoryTab, memoryTabs } from '../../src/storage/tabs.ts';
import type { World } from '../../src/storage/world.ts';
import { EXAMPLE } from '../notebook/notebooks.ts';

/** One browser: a disk, its tabs, a clock that can be put forward, and random numbers that repeat. */
export class Browser {
  disk: Disk;
  now = Date.UTC(2026, 9, 3, 12);
  readonly #tabs = memoryTabs();
  readonly #held = new Map<string, MemoryTab>();
  #seed: number;

  constructor(disk: Disk = memoryDisk(), seed = 7) {
    this.#seed = seed;
    this.disk = disk;
  }

  readonly random = (): number => {
    this.#seed = (this.#seed * 48_271) % 2_147_483_647;
    return this.#seed / 2_147_483_647;
  };

  /** A tab of a name. One of the same name as a living one is not allowed. */
  tab(name: string): { readonly world: World; readonly tab: MemoryTab; readonly shelf: Shelf } {
    const tab = this.#tabs.tab();
    this.#held.set(name, tab);
    const mayBe = (other: string): Promise<boolean> => Promise.resolve(!this.#held.has(other));
    const disk = this.disk;
    const world: World = { disk, tabs: tab, tab: name, mayBe, now: () => this.now, random: this.random };
    return { world, tab, shelf: new Shelf(world) };
  }

  /** The tab is gone: its name may be taken over. */
  gone(name: string): void {
    this.#held.get(name)?.kill();
    this.#held.delete(name);
  }
}

export function example(): Notebook {
  const read = readNotebook(EXAMPLE);
  if (isRefused(read)) throw new Error('the example must read');
  return read.notebook;
}

/** Opens what must be there. */
export async function mustOpen(shelf: Shelf, id: string): Promise<Opened> {
  const opened = await shelf.open(id);
  if (isRefused(opened)) throw new Error(JSON.stringify(opened));
  return opened;
}

/** Until everything that is on its way has come. */
export const quiet = (milliseconds = 5): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Waits until it holds; fails after two seconds. */
export async function until(holds: () => boolean): Promise<void> {
  const end = Date.now() + 4_000;
  while (!holds()) {
    if (Date.now() > end) throw new Error('it never came about');
    await quiet();
  }
}
