/*
 * The shelf: all notebooks of this browser. What stands on it is read from the disk each time it is asked for; other tabs are
 * told when it changes. Deleting only marks, so that it can be undone; a month later the notebook goes for good.
 */
import {
  type Change,
  FORMAT,
  isRecord,
  isRefused,
  limits,
  type Notebook,
  newId,
  type Read,
  type Refused,
  readNotebook,
  refuse,
  writeNotebook,
} from '../notebook/index.ts';
import type { Disk, DiskTrouble } from './disk.ts';
import { type Keeper, type Opened, openKeeper } from './keeper.ts';
import {
  type About,
  aboutKey,
  aboutOf,
  logPrefix,
  metaKey,
  pageKey,
  placeKey,
  textKey,
  trialsKey,
} from './log.ts';
import { loadState } from './state.ts';
import type { Channel } from './tabs.ts';
import { freeTitle } from './title.ts';
import { newestFirst, type Version, versionFromJSON } from './versions.ts';
import type { World } from './world.ts';

/** Where a notebook stands. */
interface Place {
  readonly order: number;
  readonly archived: boolean;
  /** When it was deleted, in milliseconds since 1970. */
  readonly deletedAt?: number;
  /** When a file of it was last saved. */
  readonly fileAt?: number;
}

/** A notebook in the list. */
export interface Listed extends About, Place {}

/** How the shelf was found. */
interface Standing {
  readonly trouble?: DiskTrouble | undefined;
  readonly putBack?: readonly string[];
  /** Remembers what is still being written, for the next page. */
  readonly part?: () => void;
}

const MONTH = 30 * 24 * 3_600_000;

export class Shelf {
  /** What is wrong with keeping here, from the start: `none` when nothing outlives the page. */
  readonly trouble: DiskTrouble | undefined;
  /** Ids of notebooks that the browser had lost and that were put back from their copies as the shelf was opened. */
  readonly putBack: readonly string[];
  readonly #world: World;
  readonly #part: () => void;
  readonly #channel: Channel;
  readonly #open = new Map<string, Keeper>();
  readonly #hearers = new Set<() => void>();

  constructor(world: World, { trouble, putBack = [], part = () => undefined }: Standing = {}) {
    this.#world = world;
    this.#part = part;
    this.trouble = trouble;
    this.putBack = putBack;
    this.#channel = world.tabs.join('ellwand shelf', () => this.#hear());
  }

  /** The notebooks in their order: those in use, or with `all` also the archived and the deleted. Rejects with a `DiskError`. */
  async list(all: boolean = false): Promise<readonly Listed[]> {
    const [abouts, places] = await Promise.all([this.#disk.list('about:'), this.#disk.list('place:')]);
    const byKey = new Map(places);
    const listed = abouts.flatMap(([, value]) => readAbout(value, byKey));
    const shown = all
      ? listed
      : listed.filter(({ archived, deletedAt }) => !archived && deletedAt === undefined);
    return shown.sort((a, b) => a.order - b.order || a.madeAt - b.madeAt);
  }

  /** Opens a notebook. Refused with `no_such_notebook` or why it cannot be read; rejects with a `DiskError`. */
  async open(id: string): Promise<Opened | Refused> {
    const opened = await openKeeper(this.#world, id);
    if (!isRefused(opened)) this.#open.set(id, opened.keeper);
    return opened;
  }

  /** Lets a notebook go, all of it written. */
  async close(keeper: Keeper): Promise<void> {
    if (this.#open.get(keeper.id) === keeper) this.#open.delete(keeper.id);
    await keeper.close();
    this.#told();
  }

  /** Hands all that waits to the disk in this turn, for a page that may be going: call it on `pagehide`, and when it is hidden. */
  part(): void {
    for (const keeper of this.#open.values()) keeper.flush();
    this.#part();
  }

  /** Whether a notebook stands on the shelf, archived and deleted ones too. */
  async has(id: string): Promise<boolean> {
    return (await this.#disk.get(pageKey(id))) !== undefined;
  }

  /**
   * Puts a notebook on the shelf, first in the list, and gives its id: its own where that is free and `sameId` is asked for,
   * else a new one. `changedAt` is when it was last changed, where that is known to be earlier. With `ownTitle` a second one
   * of a title is numbered. Refused with `later_version`; rejects with a `DiskError`.
   */
  async create(
    notebook: Notebook,
    { sameId = false, changedAt = Number.POSITIVE_INFINITY, ownTitle = false } = {},
  ): Promise<{ readonly id: string } | Refused> {
    if (notebook.ellwand > FORMAT) return refuse('later_version', { version: notebook.ellwand });
    const keeps = sameId && !(await this.has(notebook.id));
    const id = keeps ? notebook.id : newId(this.#world.random, 'n');
    const now = this.#world.now();
    const place = { order: await this.#firstPlace(), archived: false };
    const title = ownTitle ? await this.#freeTitle(notebook.title) : notebook.title;
    await this.#put({ ...notebook, id, title }, place, now, Math.min(changedAt, now));
    this.#told();
    return { id };
  }

  /** A copy of a notebook as it is on the disk, under a new id; what was knitted is not copied. Refused as `open` is. */
  async duplicate(
    id: string,
    title: (old: string) => string = (old) => `${old} (copy)`,
  ): Promise<{ readonly id: string } | Refused> {
    const notebook = await this.peek(id);
    if (isRefused(notebook)) return notebook;
    const { progress: _progress, ...copied } = notebook;
    return this.create({ ...copied, title: title(copied.title) }, { ownTitle: true });
  }

  /** Gives a notebook another title, as a change that can be undone in it. Refused as `open` is. */
  rename(id: string, title: string): Promise<Refused | undefined> {
    return this.edit(id, { kind: 'set_notebook', fields: { title } });
  }

  /** Does one change in a notebook, open in this tab or not. */
  async edit(id: string, change: Change): Promise<Refused | undefined> {
    const here = this.#open.get(id);
    const opened = here ?? (await openKeeper(this.#world, id));
    if (isRefused(opened)) return opened;
    const keeper = 'keeper' in opened ? opened.keeper : opened;
    const refused = keeper.edit(change);
    if (here === undefined) await keeper.close();
    this.#told();
    return refused;
  }

  /** Puts the notebooks in this order. */
  async reorder(ids: readonly string[]): Promise<void> {
    const places = await Promise.all(ids.map((id) => this.#placeOf(id)));
    const put = ids.map((id, order) => [placeKey(id), { ...places[order], order }] as const);
    await this.#disk.write({ put });
    this.#told();
  }

  /** Puts a notebook away, or takes it out again. */
  archive(id: string, archived: boolean = true): Promise<void> {
    return this.#move(id, { archived });
  }

  /** Marks a notebook as deleted; `restore` takes that back for a month. */
  delete(id: string): Promise<void> {
    return this.#move(id, { deletedAt: this.#world.now() });
  }

  /** Takes the deleting of a notebook back. */
  restore(id: string): Promise<void> {
    return this.#move(id, { deletedAt: undefined });
  }

  /** Notes that a file of the notebook has been saved just now. */
  noteFile(id: string): Promise<void> {
    return this.#move(id, { fileAt: this.#world.now() });
  }

  /** Takes away for good what was deleted more than a month ago; each notebook wholly or not at all. */
  async purge(): Promise<readonly string[]> {
    const before = this.#world.now() - MONTH;
    const gone = (await this.list(true)).filter(
      ({ deletedAt }) => deletedAt !== undefined && deletedAt < before,
    );
    for (const { id } of gone) await this.#disk.write({ delete: await this.#keysOf(id) });
    return gone.map(({ id }) => id);
  }

  /** The versions of a notebook, the newest first. */
  async versions(id: string): Promise<readonly Version[]> {
    const entries = await this.#disk.list(metaKey(id, ''));
    return newestFirst(
      entries.map(([, value]) => versionFromJSON(value)).filter((version) => version !== undefined),
    );
  }

  /** A version, read. Refused with `no_such_version`, or with why it cannot be read. */
  async readVersion(id: string, version: string): Promise<Read | Refused> {
    const text = await this.#disk.get(textKey(id, version));
    return typeof text === 'string' ? readNotebook(text) : refuse('no_such_version');
  }

  /** Takes a version away. */
  async deleteVersion(id: string, version: string): Promise<void> {
    await this.#disk.write({ delete: [metaKey(id, version), textKey(id, version)] });
  }

  /** Keeps a notebook's state, here or from elsewhere, as a named version of the notebook on the shelf. */
  async addVersion(id: string, name: string, notebook: Notebook): Promise<void> {
    const text = writeNotebook(notebook);
    const version = {
      id: newId(this.#world.random, 'v'),
      at: this.#world.now(),
      name,
      number: 0,
      size: text.length,
    };
    await this.#disk.write({
      put: [
        [metaKey(id, version.id), version],
        [textKey(id, version.id), text],
      ],
    });
  }

  /** A notebook as it stands now, with what could not be written yet; without opening it. */
  async peek(id: string): Promise<Notebook | Refused> {
    const here = this.#open.get(id);
    if (here) return here.notebook;
    const state = await loadState(this.#disk, id);
    return isRefused(state) ? state : state.notebook;
  }

  /** Hears when the list may have changed, here or in another tab; gives what stops it. */
  onChange(hear: () => void): () => void {
    this.#hearers.add(hear);
    return () => void this.#hearers.delete(hear);
  }

  /** Lets everything go, all of it written. */
  async leave(): Promise<void> {
    await Promise.all([...this.#open.values()].map((keeper) => keeper.close()));
    this.#channel.close();
  }

  get #disk(): Disk {
    return this.#world.disk;
  }

  async #put(notebook: Notebook, place: Place, now: number, changedAt: number): Promise<void> {
    const { id } = notebook;
    await this.#disk.write({
      add: [[pageKey(id), { number: 0, text: writeNotebook(notebook) }]],
      put: [
        [aboutKey(id), aboutOf(notebook, 0, now, changedAt)],
        [placeKey(id), place],
      ],
    });
  }

  /** Before all that stand on the shelf. */
  async #firstPlace(): Promise<number> {
    const places = await this.#disk.list('place:');
    return places.reduce((first, [, value]) => Math.min(first, readPlace(value).order - 1), 0);
  }

  /** A title that no other notebook has which can be opened: "Socks", or "Socks 2". */
  async #freeTitle(title: string): Promise<string> {
    const others = (await this.list(true)).filter(({ deletedAt }) => deletedAt === undefined);
    return freeTitle(title, new Set(others.map((one) => one.title)), limits.title);
  }

  async #placeOf(id: string): Promise<Place> {
    return readPlace(await this.#disk.get(placeKey(id)));
  }

  async #move(id: string, fields: { readonly [K in keyof Place]?: Place[K] | undefined }): Promise<void> {
    await this.#disk.write({ put: [[placeKey(id), { ...(await this.#placeOf(id)), ...fields }]] });
    this.#told();
  }

  async #keysOf(id: string): Promise<readonly string[]> {
    const lists = [logPrefix(id), metaKey(id, ''), textKey(id, '')].map((prefix) => this.#disk.list(prefix));
    const listed = (await Promise.all(lists)).flat().map(([key]) => key);
    return [pageKey(id), aboutKey(id), placeKey(id), trialsKey(id), ...listed];
  }

  #told(): void {
    this.#channel.post({ type: 'shelf' });
    this.#hear();
  }

  #hear(): void {
    for (const hear of this.#hearers) hear();
  }
}

function readPlace(value: unknown): Place {
  const { order, archived, deletedAt, fileAt } = isRecord(value) ? value : {};
  return {
    order: typeof order === 'number' ? order : 0,
    archived: archived === true,
    ...(typeof deletedAt === 'number' ? { deletedAt } : {}),
    ...(typeof fileAt === 'number' ? { fileAt } : {}),
  };
}

function readAbout(value: unknown, places: ReadonlyMap<string, unknown>): readonly Listed[] {
  if (!isRecord(value) || typeof value['id'] !== 'string') return [];
  const text = (key: string): string => (typeof value[key] === 'string' ? value[key] : '');
  const count = (key: string): number => (typeof value[key] === 'number' ? value[key] : 0);
  const id = value['id'];
  return [
    {
      id,
      title: text('title'),
      about: text('about'),
      cells: count('cells'),
      number: count('number'),
      madeAt: count('madeAt'),
      changedAt: count('changedAt'),
      ...readPlace(places.get(placeKey(id))),
    },
  ];
}
