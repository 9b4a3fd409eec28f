/*
 * A disk that is copied as it is written, and put back from the copies when it is found empty. What belongs to one notebook is
 * one copy (its page, rows, place and trials), what belongs to one version another. What is tried moves at every nudge, and a whole
 * notebook need not be copied for it: trials alone are a copy of their own, which counts while it is later than the
 * notebook's. Both have two slots, written in turn, so that one is always whole; the later stamp counts. Copies follow the
 * disk within half a second, and never delay it.
 */
import { isRecord } from '../notebook/index.ts';
import type { Copies } from './copies.ts';
import type { Batch, Disk } from './disk.ts';
import { aboutKey, logPrefix, metaKey, pageKey, placeKey, textKey, trialsKey } from './log.ts';

type Entries = readonly (readonly [key: string, value: unknown])[];

/** Says that the disk is one we have written before: an empty one has lost what the copies hold. */
const SIGN = 'sign';

/** Milliseconds from a write to its copy, at least. */
const WAIT = 250;

/** Milliseconds within which a change may have been the last before the browser went. */
const RECENT = 3_600_000;

/** A disk with its copies. */
export class Mirror implements Disk {
  readonly #disk: Disk;
  readonly #copies: Copies;
  readonly #now: () => number;
  readonly #slots = new Map<string, number>();
  #stale = new Set<string>();
  #copying: Promise<void> | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #wait = WAIT;
  #stamp = 0;

  constructor(disk: Disk, copies: Copies, now: () => number = Date.now) {
    this.#disk = disk;
    this.#copies = copies;
    this.#now = now;
  }

  get(key: string): Promise<unknown> {
    return this.#disk.get(key);
  }

  list(prefix: string, after?: string): Promise<Entries> {
    return this.#disk.list(prefix, after);
  }

  look(keys: readonly string[], prefix?: string): ReturnType<Disk['look']> {
    return this.#disk.look(keys, prefix);
  }

  write(batch: Batch): Promise<void> {
    return this.#disk.write(batch).then(() => this.#follow(batch));
  }

  /** Puts back what an emptied disk has lost; gives the ids of the notebooks. Rejects with a `DiskError`. */
  async putBack(): Promise<readonly string[]> {
    if ((await this.#disk.get(SIGN)) !== undefined) {
      this.#catchUp().catch(() => undefined);
      return [];
    }
    const names = await this.#copies.names('').catch(() => []);
    const groups = new Set(names.map(groupNamed));
    const back: string[] = [];
    for (const group of groups) {
      const entries = group.startsWith('tried ') ? [] : await this.#wholeOf(group);
      if (entries.length > 0) await this.#disk.write({ put: entries });
      if (entries.length > 0 && group.startsWith('book ')) back.push(group.slice(5));
    }
    await this.#disk.write({ put: [[SIGN, true]] });
    return back;
  }

  /** What was written in the last moments before the browser went has no copy yet: that is made good at once. */
  async #catchUp(): Promise<void> {
    for (const [key, about] of await this.#disk.list('about:')) {
      const changedAt = isRecord(about) ? about['changedAt'] : undefined;
      if (typeof changedAt === 'number' && this.#now() - changedAt < RECENT) this.#stale.add(groupOf(key));
    }
    if (this.#stale.size > 0 && this.#copying === undefined) this.#copyNow();
  }

  /** When all that was written has been copied, or could not be. */
  async copied(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    await this.#copying;
    await this.#copy();
  }

  /** Notes what a write has made stale, and takes away copies of what it has deleted. */
  #follow({ add = [], put = [], delete: gone = [] }: Batch): void {
    for (const [key] of [...add, ...put]) this.#stale.add(groupOf(key));
    for (const key of gone) if (!key.startsWith('log:')) this.#stale.add(groupOf(key));
    this.#stale.delete('');
    if (this.#copying === undefined && this.#stale.size > 0) this.#copyLater();
  }

  /** Soon after the first write, however many follow. */
  #copyLater(): void {
    this.#timer ??= setTimeout(() => {
      this.#timer = undefined;
      this.#copyNow();
    }, this.#wait);
  }

  #copyNow(): void {
    this.#copying = this.#copy().finally(() => {
      this.#copying = undefined;
      if (this.#stale.size > 0) this.#copyLater();
    });
  }

  /** Copies what is stale; what cannot be copied now stays as it was until its next change. */
  async #copy(): Promise<void> {
    const groups = [...this.#stale];
    this.#stale = new Set();
    const began = this.#now();
    for (const group of groups)
      if (!groups.includes(bookOf(group))) await this.#copyGroup(group).catch(() => undefined);
    // A big notebook is copied less often, so that copying takes a fifth of the time at most.
    this.#wait = Math.min(5_000, Math.max(WAIT, 4 * (this.#now() - began)));
  }

  async #copyGroup(group: string): Promise<void> {
    const entries = await this.#entriesOf(group);
    if (entries.length === 0) return this.#removeCopies(group);
    // A change was kept as the trials were read: they may be without what it took from them, and go with the notebook.
    if (this.#stale.has(bookOf(group))) return;
    const slot = isVersion(group) ? '' : ` ${await this.#olderSlot(group)}`;
    await this.#copies.put(group + slot, JSON.stringify({ stamp: this.#nextStamp(), entries }));
    if (slot !== '') this.#slots.set(group, slot === ' 0' ? 1 : 0);
  }

  /** Later than all before it, within one millisecond too. */
  #nextStamp(): number {
    this.#stamp = Math.max(this.#now(), this.#stamp + 1);
    return this.#stamp;
  }

  async #removeCopies(group: string): Promise<void> {
    const gone = [group, triedOf(group)];
    const names = await this.#copies.names('');
    for (const name of names) if (gone.includes(groupNamed(name))) await this.#copies.remove(name);
  }

  /** What the disk has of a group, all of one moment; nothing once its page, or its text, is gone. */
  async #entriesOf(group: string): Promise<Entries> {
    const [kind, id = '', version = ''] = group.split(' ');
    if (kind === 'tried') {
      const trials = await this.#disk.get(trialsKey(id));
      return trials === undefined ? [] : [[trialsKey(id), trials]];
    }
    const isBook = kind === 'book';
    const keys = isBook
      ? [pageKey(id), aboutKey(id), placeKey(id), trialsKey(id)]
      : [textKey(id, version), metaKey(id, version)];
    const { values, entries } = await this.#disk.look(keys, isBook ? logPrefix(id) : undefined);
    if (values[0] === undefined) return [];
    const there = keys
      .map((key, index) => [key, values[index]] as const)
      .filter(([, value]) => value !== undefined);
    return [...there, ...entries];
  }

  async #olderSlot(group: string): Promise<number> {
    const known = this.#slots.get(group);
    if (known !== undefined) return known;
    return (await this.#newest(group)).slot === 0 ? 1 : 0;
  }

  /** What the copies have of a notebook or a version: of a notebook with what was tried since. */
  async #wholeOf(group: string): Promise<Entries> {
    const { stamp, entries } = await this.#newest(group);
    if (isVersion(group) || entries.length === 0) return entries;
    const tried = await this.#newest(triedOf(group));
    return tried.stamp > stamp ? [...new Map([...entries, ...tried.entries])] : entries;
  }

  async #newest(group: string): Promise<Copy> {
    const slots = isVersion(group) ? [''] : [' 0', ' 1'];
    const texts = await Promise.all(
      slots.map((slot) => this.#copies.get(group + slot).catch(() => undefined)),
    );
    return texts
      .map(readCopy)
      .reduce(
        (best, { stamp, entries }, slot) => (stamp > best.stamp ? { stamp, entries, slot } : best),
        NOTHING,
      );
  }
}

interface Copy {
  readonly stamp: number;
  readonly entries: Entries;
  /** Which slot it stands in; −1 when there is none. */
  readonly slot: number;
}

const NOTHING: Copy = { stamp: -1, entries: [], slot: -1 };

/** The group that a copy is of, by its name. */
const groupNamed = (name: string): string => name.replace(/ [01]$/, '');

const isVersion = (group: string): boolean => group.startsWith('version ');

/** The group of a notebook whose trials these are; "" for any other group. */
const bookOf = (group: string): string => (group.startsWith('tried ') ? group.replace('tried', 'book') : '');

/** The group of a notebook's trials alone; "" for any other group. */
const triedOf = (group: string): string => (group.startsWith('book ') ? group.replace('book', 'tried') : '');

/** The group that a key belongs to: "book ID", "tried ID" or "version ID VID"; "" for none. */
function groupOf(key: string): string {
  const [kind = '', id = '', version = ''] = key.split(':');
  if (kind === 'trials') return `tried ${id}`;
  if (['page', 'log', 'about', 'place'].includes(kind)) return `book ${id}`;
  return kind === 'vmeta' || kind === 'vtext' ? `version ${id} ${version}` : '';
}

function readCopy(text: string | undefined): Copy {
  try {
    const json: unknown = JSON.parse(text ?? '');
    if (!isRecord(json) || typeof json['stamp'] !== 'number' || !Array.isArray(json['entries']))
      return NOTHING;
    const entries = json['entries'].filter((entry) => Array.isArray(entry) && typeof entry[0] === 'string');
    return { stamp: json['stamp'], entries: entries as unknown as Entries, slot: -1 };
  } catch {
    return NOTHING;
  }
}
