import { describe, expect, test } from 'vitest';
import {
  applyChange,
  type Change,
  isRefused,
  type Notebook,
  writeNotebook,
} from '../../src/notebook/index.ts';
import { memoryDisk } from '../../src/storage/disk.ts';
import { openShelf } from '../../src/storage/open-shelf.ts';
import type { Shelf } from '../../src/storage/shelf.ts';
import { memoryTabs } from '../../src/storage/tabs.ts';
import { readShelf, takeIn, writeShelf } from '../../src/storage/whole-shelf.ts';
import { Browser, example, mustOpen, quiet, until } from './worlds.ts';

const DAY = 24 * 3_600_000;

async function made(shelf: Shelf, notebook: Notebook = example(), sameId = true): Promise<string> {
  const result = await shelf.create(notebook, { sameId });
  if (isRefused(result)) throw new Error(JSON.stringify(result));
  return result.id;
}

const titles = async (shelf: Shelf, all = false): Promise<readonly string[]> =>
  (await shelf.list(all)).map(({ title }) => title);

async function change(shelf: Shelf, id: string, ...changes: readonly Change[]): Promise<void> {
  for (const one of changes) expect(await shelf.edit(id, one)).toBeUndefined();
}

describe('the shelf', () => {
  test('makes, lists newest first, duplicates, renames, puts in order', async () => {
    const browser = new Browser();
    const { shelf } = browser.tab('A');
    const first = await made(shelf, { ...example(), title: 'Socks' });
    browser.now += 1000;
    const second = await made(shelf, { ...example(), title: 'Mittens' });
    expect(first).toBe(example().id);
    expect(second).not.toBe(first);
    expect(await titles(shelf)).toEqual(['Mittens', 'Socks']);
    await shelf.reorder([first, second]);
    expect(await titles(shelf)).toEqual(['Socks', 'Mittens']);
    expect(await shelf.rename(first, 'Wool socks')).toBeUndefined();
    browser.now += 1000;
    const copy = await shelf.duplicate(first);
    if (isRefused(copy)) throw new Error('must copy');
    expect(await titles(shelf)).toEqual(['Wool socks (copy)', 'Wool socks', 'Mittens']);
    const copied = await shelf.peek(copy.id);
    expect(copied).toMatchObject({ id: copy.id, sections: example().sections });
    expect(copied).not.toHaveProperty('progress');
    const renamed = await mustOpen(shelf, first);
    expect(renamed.history.done.map(({ title }) => title)).toEqual(['call the notebook Wool socks']);
  });

  test('a notebook put beside one of its title is numbered, when that is asked for', async () => {
    const browser = new Browser();
    const { shelf } = browser.tab('A');
    const socks = { ...example(), title: 'Socks' };
    const first = await made(shelf, socks);
    const put = async (title: string) => {
      const result = await shelf.create({ ...socks, title }, { ownTitle: true });
      const kept = isRefused(result) ? result : await shelf.peek(result.id);
      return isRefused(kept) ? kept.refused.code : kept.title;
    };
    expect(await put('Mittens')).toBe('Mittens');
    expect(await put('Socks')).toBe('Socks 2');
    expect(await put('Socks')).toBe('Socks 3');
    expect(await put('Socks 2')).toBe('Socks 4');
    expect(await put('Cardigan, size 8')).toBe('Cardigan, size 8');
    expect(await put('Cardigan, size 8')).toBe('Cardigan, size 8 2'); // A size is not a number of ours.
    for (let number = 5; number <= 10; number++) expect(await put('Socks')).toBe(`Socks ${number}`);
    expect(await put('Socks 10')).toBe('Socks 11');
    await shelf.duplicate(first);
    await shelf.duplicate(first);
    expect((await titles(shelf)).slice(0, 2)).toEqual(['Socks (copy) 2', 'Socks (copy)']);
    await shelf.delete(first);
    expect(await put('Socks')).toBe('Socks');
    expect(await put('a'.repeat(300))).toBe('a'.repeat(300));
    expect(await put('a'.repeat(300))).toBe(`${'a'.repeat(294)} 2`);
  });

  test('archives and deletes with a way back, and clears away after a month', async () => {
    const browser = new Browser();
    const { shelf } = browser.tab('A');
    const id = await made(shelf);
    await shelf.archive(id);
    expect([await titles(shelf), await titles(shelf, true)]).toEqual([[], ['Saltmarsh pullover']]);
    await shelf.archive(id, false);
    await shelf.delete(id);
    expect(await titles(shelf)).toEqual([]);
    browser.now += 29 * DAY;
    expect(await shelf.purge()).toEqual([]);
    await shelf.restore(id);
    expect(await titles(shelf)).toEqual(['Saltmarsh pullover']);
    expect((await mustOpen(shelf, id)).notebook).toEqual(example());
    await shelf.delete(id);
    browser.now += 31 * DAY;
    expect(await shelf.purge()).toEqual([id]);
    expect(await browser.disk.list('')).toEqual([]);
  });

  test('tells other tabs, and a change by the list reaches an open notebook', async () => {
    const browser = new Browser();
    const { shelf: here } = browser.tab('A');
    const { shelf: there } = browser.tab('B');
    const id = await made(here);
    const opened = await mustOpen(here, id);
    let heard = 0;
    there.onChange(() => heard++);
    await there.rename(id, 'Renamed there');
    await quiet(20);
    expect(opened.keeper.notebook.title).toBe('Renamed there');
    await here.archive(id);
    await until(() => heard >= 2);
  });

  test('a notebook of a later version is not kept', async () => {
    const { shelf } = new Browser().tab('A');
    expect(await shelf.create({ ...example(), ellwand: 2 })).toEqual({
      refused: { code: 'later_version', parts: { version: 2 } },
    });
    expect(await shelf.open('nowhere')).toEqual({
      refused: { code: 'no_such_notebook', parts: { id: 'nowhere' } },
    });
  });
});

describe('versions', () => {
  test('one is named, looked at, brought back by a change, and undone', async () => {
    const browser = new Browser();
    const { shelf } = browser.tab('A');
    const id = await made(shelf);
    const { keeper } = await mustOpen(shelf, id);
    const version = await keeper.nameVersion('before I ripped back');
    await change(shelf, id, { kind: 'delete_section', section: 's1' });
    expect(keeper.notebook.sections).toEqual([]);
    const [newest] = await shelf.versions(id);
    expect(newest).toMatchObject({ id: version.id, name: 'before I ripped back' });
    const read = await shelf.readVersion(id, version.id);
    if (isRefused(read)) throw new Error('must read');
    expect(read.notebook).toEqual(example());
    await change(shelf, id, { kind: 'replace_notebook', notebook: read.notebook, why: 'bring back' });
    expect(keeper.notebook).toEqual(example());
    await shelf.deleteVersion(id, version.id);
    expect(await shelf.readVersion(id, version.id)).toEqual({
      refused: { code: 'no_such_version', parts: {} },
    });
  });

  test('automatic ones are made at most every ten minutes, before a change, and thinned with age', async () => {
    const browser = new Browser();
    const { shelf } = browser.tab('A');
    const id = await made(shelf);
    const { keeper } = await mustOpen(shelf, id);
    const rename = (title: string): Promise<void> =>
      change(shelf, id, { kind: 'set_notebook', fields: { title } });
    await rename('one');
    expect(await shelf.versions(id)).toEqual([]);
    await rename('two');
    await rename('three');
    await keeper.settled();
    expect((await shelf.versions(id)).map(({ number }) => number)).toEqual([1]);
    for (let tick = 0; tick < 48; tick++) {
      browser.now += 15 * 60_000;
      await rename(`tick ${tick}`);
    }
    await keeper.settled();
    const versions = await shelf.versions(id);
    // Twelve hours: four in the last hour, one an hour before that.
    expect(versions.length).toBeGreaterThanOrEqual(14);
    expect(versions.length).toBeLessThanOrEqual(17);
    const texts = await browser.disk.list(`vtext:${id}`);
    expect(texts).toHaveLength(versions.length);
  });
});

describe('the whole shelf', () => {
  test('out, and into an empty one, is the same shelf', async () => {
    const { shelf } = new Browser().tab('A');
    await made(shelf);
    await made(shelf, { ...example(), id: 'nsocks', title: 'Socks' });
    await shelf.archive('nsocks');
    const file = readShelf(new TextEncoder().encode(await writeShelf(shelf)));
    if (isRefused(file)) throw new Error('must read');
    expect([file.lost, file.cut]).toEqual([0, false]);
    const elsewhere = new Browser();
    elsewhere.now += 5 * DAY;
    const { shelf: other } = elsewhere.tab('A');
    const taken = await takeIn(other, file, 'from the file');
    expect(taken).toMatchObject({
      added: ['Socks', 'Saltmarsh pullover'],
      updated: [],
      kept: [],
      refused: [],
    });
    expect((await other.list(true)).map(({ id, archived }) => [id, archived])).toEqual([
      ['nsocks', true],
      ['n7f3k2', false],
    ]);
    expect(await other.peek('n7f3k2')).toEqual(example());
    expect(await takeIn(other, file, 'again')).toMatchObject({
      added: [],
      unchanged: ['Socks', 'Saltmarsh pullover'],
    });
    // Each is as old there as it was here.
    const ages = async (of: Shelf) => (await of.list(true)).map(({ changedAt }) => changedAt);
    expect(await ages(other)).toEqual(await ages(shelf));
    // What has been deleted meanwhile comes back.
    await other.delete('n7f3k2');
    expect(await takeIn(other, file, 'once more')).toMatchObject({ added: ['Saltmarsh pullover'] });
    expect((await other.list()).map(({ id }) => id)).toEqual(['n7f3k2']);
  });

  test('merging: the later of two stands, the other is kept as a version, the change can be undone', async () => {
    const browser = new Browser();
    const { shelf } = browser.tab('A');
    const id = await made(shelf);
    browser.now += DAY;
    const later = readShelf(new TextEncoder().encode(await writeShelf(shelf)));
    if (isRefused(later)) throw new Error('must read');
    const theirs = applyChange(example(), { kind: 'set_text', cell: 'k1', text: '18 st / 4 in' });
    if (isRefused(theirs)) throw new Error('must apply');
    const [only] = later.notebooks;
    if (only === undefined) throw new Error('one expected');
    const file = (changedAt: number) => ({
      ...later,
      notebooks: [{ ...only, changedAt, read: { ...only.read, notebook: theirs } }],
    });
    expect((await takeIn(shelf, file(browser.now - 5 * DAY), 'from the old phone')).kept).toHaveLength(1);
    expect(await shelf.peek(id)).toEqual(example());
    expect((await takeIn(shelf, file(browser.now), 'from the new phone')).updated).toHaveLength(1);
    expect(await shelf.peek(id)).toEqual(theirs);
    const names = (await shelf.versions(id)).map(({ name }) => name);
    expect(names.sort()).toEqual(['from the new phone', 'from the old phone']);
    expect((await mustOpen(shelf, id)).history.done.map(({ title }) => title)).toEqual([
      'from the new phone',
    ]);
  });

  test('a shelf file that is cut gives the notebooks before the cut; one that is none is refused', async () => {
    const { shelf } = new Browser().tab('A');
    await made(shelf);
    await made(shelf, { ...example(), id: 'nsocks', title: 'Socks' });
    const text = await writeShelf(shelf);
    const file = readShelf(new TextEncoder().encode(text.slice(0, text.length - 700)));
    if (isRefused(file)) throw new Error('must read');
    expect(file.cut).toBe(true);
    expect(file.notebooks[0]?.read.notebook).toEqual({ ...example(), id: 'nsocks', title: 'Socks' });
    const bytes = (words: string): Uint8Array => new TextEncoder().encode(words);
    expect(readShelf(bytes('{"ellwand_shelf": 2}'))).toEqual({ refused: { code: 'not_a_shelf', parts: {} } });
    expect(readShelf(bytes('mittens'))).toMatchObject({ refused: { code: 'not_json' } });
    expect(readShelf(new Uint8Array(70_000_000))).toMatchObject({ refused: { code: 'too_big' } });
  });
});

describe('opening the shelf', () => {
  const memory = (): Pick<Storage, 'getItem' | 'setItem'> & { readonly entries: Map<string, string> } => {
    const entries = new Map<string, string>();
    return {
      entries,
      getItem: (key) => entries.get(key) ?? null,
      setItem: (key, value) => void entries.set(key, value),
    };
  };

  test('where nothing can be kept, the shelf is in memory and says so', async () => {
    const tabs = memoryTabs().tab();
    const shelf = await openShelf({ tabs, openDisk: () => Promise.reject(new Error('private window')) });
    expect(shelf.trouble).toBe('none');
    const id = await made(shelf);
    await change(shelf, id, { kind: 'set_notebook', fields: { title: 'Still works' } });
    expect(await titles(shelf)).toEqual(['Still works']);
  });

  test('a disk that opens but cannot be read is none', async () => {
    const disk = memoryDisk(() => 'failed');
    const shelf = await openShelf({ tabs: memoryTabs().tab(), openDisk: () => Promise.resolve(disk) });
    expect(shelf.trouble).toBe('none');
  });

  test('a tab keeps its history over a reload; a duplicated tab gets its own', async () => {
    const disk = memoryDisk();
    const all = memoryTabs();
    const [remembered, tab] = [memory(), all.tab()];
    const open = (remember = remembered, tabs = tab) =>
      openShelf({ tabs, remembered: remember, openDisk: () => Promise.resolve(disk) });
    const first = await open();
    const id = await made(first);
    const { keeper } = await mustOpen(first, id);
    await change(first, id, { kind: 'set_notebook', fields: { title: 'Mine' } });
    await keeper.settled();
    const copied = memory();
    for (const [key, value] of remembered.entries) copied.setItem(key, value);
    const second = await open(copied, all.tab());
    expect([...copied.entries.values()]).not.toEqual([...remembered.entries.values()]);
    expect((await mustOpen(second, id)).history.done).toEqual([]);
    await second.leave();
    tab.kill();
    const reloaded = await open(remembered, all.tab());
    expect((await mustOpen(reloaded, id)).history.done.map(({ title }) => title)).toEqual([
      'call the notebook Mine',
    ]);
  });

  test('what waits is written in the very turn in which the page goes', async () => {
    const browser = new Browser();
    const { shelf } = browser.tab('A');
    const id = await made(shelf);
    const { keeper, notebook } = await mustOpen(shelf, id);
    for (const title of ['one', 'two', 'three']) {
      keeper.save({ change: { kind: 'set_notebook', fields: { title } }, title, role: 'do' });
    }
    shelf.part();
    // No turn has passed: a page that is left now has handed everything over.
    expect(writeNotebook(keeper.notebook)).not.toBe(writeNotebook(notebook));
    expect((await browser.disk.list(`log:${id}:`)).length).toBe(3);
  });
});

describe('shelf operations on a disk that fails', () => {
  const scene = async (shelf: Shelf): Promise<void> => {
    const id = await made(shelf);
    await shelf.duplicate(id);
    await shelf.rename(id, 'Renamed');
    await shelf.archive(id);
    await shelf.delete(id);
    await shelf.restore(id);
  };

  test('at each operation in turn: every notebook is whole, or not there', async () => {
    for (let failing = 1; failing < 100; failing++) {
      let failed = false;
      let over = false;
      const disk = memoryDisk((operation) => {
        if (operation !== failing || over) return undefined;
        failed = true;
        return 'failed';
      });
      const browser = new Browser(disk);
      await scene(browser.tab('A').shelf).catch(() => undefined);
      over = true;
      browser.gone('A');
      const { shelf } = browser.tab('B');
      for (const { id, title } of await shelf.list(true)) {
        const notebook = await shelf.peek(id);
        if (isRefused(notebook)) throw new Error(`${id} ${JSON.stringify(notebook)}`);
        expect(notebook.title).toBe(title);
        expect(notebook.sections).toEqual(example().sections);
      }
      const keys = (await disk.list('')).map(([key]) => key.split(':')[1] ?? '');
      const listed = (await shelf.list(true)).map(({ id }) => id);
      expect([...new Set(keys)].sort()).toEqual([...listed].sort());
      if (!failed) return;
    }
    throw new Error('it never succeeded');
  });
});
