/** The shelf of this browser, opened: its disk, its tabs, who this tab is, and the writing as the page goes. */
import { newId } from '../notebook/index.ts';
import { browserCopies, type Copies } from './copies.ts';
import { openDatabase } from './database.ts';
import { type Disk, type DiskTrouble, memoryDisk, troubleOf } from './disk.ts';
import { Mirror } from './mirror.ts';
import { type Memory, PartingDisk } from './parting.ts';
import { Shelf } from './shelf.ts';
import { browserTabs, type Tabs } from './tabs.ts';
import type { World } from './world.ts';

/** What may be put in place of the browser's own. */
export interface Means {
  readonly openDisk?: () => Promise<Disk>;
  /** The second place for what is kept; undefined for none. */
  readonly openCopies?: () => Promise<Copies | undefined>;
  readonly tabs?: Tabs;
  readonly now?: () => number;
  readonly random?: () => number;
  /** Where this tab's id is remembered over a reload. */
  readonly remembered?: Pick<Storage, 'getItem' | 'setItem'> | undefined;
  /** Where what is being written as the page goes waits for the next. */
  readonly memory?: Memory | undefined;
}

/** Opens the shelf. Where nothing can be kept it is one in memory, and its `trouble` says why. Never rejects. */
export async function openShelf({
  openDisk = openDatabase,
  openCopies = browserCopies,
  tabs = browserTabs(),
  now = Date.now,
  random = cryptoRandom,
  remembered = storageNamed('sessionStorage'),
  memory = storageNamed('localStorage'),
}: Means = {}): Promise<Shelf> {
  const { disk: kept, trouble, putBack } = await openOrMemory(openDisk, openCopies);
  const disk = new PartingDisk(kept, trouble ? undefined : memory, newId(random, 'r'));
  await disk.takeUp();
  const ids = new TabIds(tabs);
  const tab = await ids.settle(remembered, random);
  const world: World = { disk, tabs, tab, mayBe: (other) => ids.take(other), now, random };
  const shelf = new Shelf(world, { trouble, putBack, part: () => disk.part() });
  shelf.purge().catch(() => undefined);
  return shelf;
}

/** Writes what waits when the page is hidden or left; gives what stops it. */
export function watchLeaving(shelf: Pick<Shelf, 'part'>): () => void {
  const part = (): void => shelf.part();
  const hidden = (): void => {
    if (document.visibilityState === 'hidden') part();
  };
  window.addEventListener('pagehide', part);
  document.addEventListener('visibilitychange', hidden);
  return () => {
    window.removeEventListener('pagehide', part);
    document.removeEventListener('visibilitychange', hidden);
  };
}

interface OpenDisk {
  readonly disk: Disk;
  readonly trouble: DiskTrouble | undefined;
  readonly putBack: readonly string[];
}

async function openOrMemory(
  openDisk: () => Promise<Disk>,
  openCopies: () => Promise<Copies | undefined>,
): Promise<OpenDisk> {
  try {
    const [disk, copies] = await Promise.all([openDisk(), openCopies().catch(() => undefined)]);
    // Reading shows whether what has been opened can be used at all.
    await disk.get('about:');
    if (copies === undefined) return { disk, trouble: undefined, putBack: [] };
    const mirror = new Mirror(disk, copies);
    return { disk: mirror, trouble: undefined, putBack: await mirror.putBack() };
  } catch (error) {
    return { disk: memoryDisk(), trouble: troubleOf(error) === 'full' ? 'full' : 'none', putBack: [] };
  }
}

/** Ids of tabs: each is held by one living tab, so that a duplicated tab, which remembers the same one, gets another. */
class TabIds {
  readonly #tabs: Tabs;
  readonly #held = new Set<string>();

  constructor(tabs: Tabs) {
    this.#tabs = tabs;
  }

  async settle(remembered: Means['remembered'], random: () => number): Promise<string> {
    const before = recall(remembered);
    const tab = before !== undefined && (await this.#takeSoon(before)) ? before : newId(random, 'r');
    await this.take(tab);
    remember(remembered, tab);
    return tab;
  }

  /** Takes an id if no other tab holds it. */
  async take(tab: string): Promise<boolean> {
    if (this.#held.has(tab)) return true;
    const taken = await this.#tabs.claim(`ellwand tab ${tab}`);
    if (taken) this.#held.add(tab);
    return taken !== undefined;
  }

  /** After a reload the page that was may hold it a moment longer. */
  async #takeSoon(tab: string): Promise<boolean> {
    for (let tries = 0; tries < 4; tries++) {
      if (await this.take(tab)) return true;
      await new Promise((resolve) => setTimeout(resolve, 40));
    }
    return false;
  }
}

const KEY = 'ellwand tab';

function recall(remembered: Means['remembered']): string | undefined {
  try {
    return remembered?.getItem(KEY) ?? undefined;
  } catch {
    return undefined;
  }
}

function remember(remembered: Means['remembered'], tab: string): void {
  try {
    remembered?.setItem(KEY, tab);
  } catch {
    // Without a memory each reload is a new tab; the history is then taken over from the last one.
  }
}

/** A small memory of the browser, where it may be touched at all. */
function storageNamed(name: 'sessionStorage' | 'localStorage'): Storage | undefined {
  try {
    return globalThis[name];
  } catch {
    return undefined;
  }
}

function cryptoRandom(): number {
  return (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) / 2 ** 32;
}
