// What was being written as a page went is there for the next page, once, whether or not the disk had got it.
import { describe, expect, test } from 'vitest';
import { type Batch, type Disk, memoryDisk } from '../../src/storage/disk.ts';
import { openShelf } from '../../src/storage/open-shelf.ts';
import type { Shelf } from '../../src/storage/shelf.ts';
import { memoryTabs } from '../../src/storage/tabs.ts';
import { example, mustOpen, quiet } from './worlds.ts';

/** A small memory, as the browser's. */
function memoryOf(): Storage {
  const kept = new Map<string, string>();
  return {
    get length() {
      return kept.size;
    },
    key: (i) => [...kept.keys()][i] ?? null,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, text) => void kept.set(key, text),
    removeItem: (key) => void kept.delete(key),
    clear: () => kept.clear(),
  };
}

/** What a browser does with writes that are under way as the page goes. */
type Fate = 'written' | 'dropped' | 'written, and nobody told' | 'late';

/** A browser whose disk can be told what becomes of the writes from now on. */
function browserOf() {
  const disk = memoryDisk();
  let fate: Fate = 'written';
  const never = new Promise<void>(() => undefined);
  const late: (() => void)[] = [];
  const write = (batch: Batch): Promise<void> => {
    if (fate === 'dropped') return never;
    if (fate === 'late') return new Promise<void>((done) => late.push(() => done(disk.write(batch))));
    const written = disk.write(batch);
    return fate === 'written' ? written : never;
  };
  const memory = memoryOf();
  const tabs = memoryTabs();
  const page = async () => {
    const tab = tabs.tab();
    const seen: Disk = { ...disk, write: (batch) => write(batch) };
    const means = { tabs: tab, memory, remembered: undefined, openCopies: () => Promise.resolve(undefined) };
    return { tab, shelf: await openShelf({ ...means, openDisk: () => Promise.resolve(seen) }) };
  };
  const willBe = (next: Fate) => {
    fate = next;
  };
  const catchUp = () => {
    for (const write of late.splice(0)) write();
  };
  return { memory, page, willBe, catchUp };
}

const retitled = (title: string) => ({
  change: { kind: 'set_notebook' as const, fields: { title } },
  title,
  role: 'do' as const,
});

async function begun(shelf: Shelf): Promise<string> {
  const made = await shelf.create(example(), { sameId: true });
  if (!('id' in made)) throw new Error('the example must be taken');
  return made.id;
}

const titleOn = async (shelf: Shelf, id: string) => (await mustOpen(shelf, id)).notebook.title;

describe('a page that goes', () => {
  test.each<Fate>(['written', 'dropped', 'written, and nobody told'])(
    'leaves its last change, once: it is %s',
    async (fate) => {
      const { memory, page, willBe } = browserOf();
      const first = await page();
      const id = await begun(first.shelf);
      const { keeper } = await mustOpen(first.shelf, id);
      await quiet();
      willBe(fate);
      keeper.save({ ...retitled('The last word'), trials: { now: { texts: { a: '1' } }, aside: [] } });
      first.shelf.part();
      first.tab.kill();
      willBe('written');
      const second = await page();
      const opened = await mustOpen(second.shelf, id);
      expect(opened.notebook.title).toBe('The last word');
      expect(opened.history.done.map(({ title }) => title)).toEqual(['The last word']);
      expect(opened.trials).toEqual({ now: { texts: { a: '1' } }, aside: [] });
      await quiet();
      expect(memory.length).toBe(0);
    },
  );

  test('and comes back has left nothing: what it goes on to write is what counts', async () => {
    const { memory, page } = browserOf();
    const { shelf } = await page();
    const id = await begun(shelf);
    const { keeper } = await mustOpen(shelf, id);
    keeper.save(retitled('hidden'));
    shelf.part();
    expect(memory.length).toBe(1);
    await quiet();
    expect(memory.length).toBe(0);
    keeper.save(retitled('shown again'));
    await quiet();
    expect(await titleOn((await page()).shelf, id)).toBe('shown again');
  });

  test('and is only hidden while another page opens goes on: its write, done already by the other, is its own', async () => {
    const { memory, page, willBe, catchUp } = browserOf();
    const { shelf } = await page();
    const id = await begun(shelf);
    const { keeper } = await mustOpen(shelf, id);
    await quiet();
    willBe('late');
    keeper.save(retitled('hidden'));
    shelf.part();
    willBe('written');
    const other = (await page()).shelf;
    expect(await titleOn(other, id)).toBe('hidden');
    catchUp();
    await quiet();
    expect(keeper.saved).toBe(true);
    keeper.save(retitled('shown again'));
    await quiet(50);
    expect(keeper.notebook.title).toBe('shown again');
    const third = await mustOpen((await page()).shelf, id);
    expect(third.notebook.title).toBe('shown again');
    expect(memory.length).toBe(0);
  });

  test('what cannot be read there is passed over', async () => {
    const { memory, page } = browserOf();
    memory.setItem('ellwand left a', '{"add":');
    memory.setItem('ellwand left b', '[{"add":[[7,{}]]},{"put":"x"},null,{"add":[["kept",1]],"delete":[]}]');
    const { shelf } = await page();
    expect(await begun(shelf)).toBe(example().id);
    expect(memory.length).toBe(0);
  });
});
