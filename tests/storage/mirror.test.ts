import { describe, expect, test } from 'vitest';
import { isRefused } from '../../src/notebook/index.ts';
import { type Copies, memoryCopies } from '../../src/storage/copies.ts';
import { type Disk, memoryDisk } from '../../src/storage/disk.ts';
import { Mirror } from '../../src/storage/mirror.ts';
import { openShelf } from '../../src/storage/open-shelf.ts';
import { memoryTabs } from '../../src/storage/tabs.ts';
import { example, mustOpen } from './worlds.ts';

const shelfOn = (disk: Disk, copies: Copies) =>
  openShelf({
    tabs: memoryTabs().tab(),
    openDisk: () => Promise.resolve(disk),
    openCopies: () => Promise.resolve(copies),
  });

const copyCount = async (copies: Copies): Promise<number> => (await copies.names('')).length;

describe('a database that the browser has thrown away', () => {
  test('is put back: notebooks, their order, history, trials and versions', async () => {
    const copies = memoryCopies();
    const shelf = await shelfOn(memoryDisk(), copies);
    expect(shelf.putBack).toEqual([]);
    await shelf.create(example(), { sameId: true });
    const other = await shelf.create({ ...example(), title: 'Socks' });
    if (isRefused(other)) throw new Error('must create');
    await shelf.archive(other.id);
    const { keeper } = await mustOpen(shelf, example().id);
    await keeper.nameVersion('before');
    keeper.saveTrials([1]);
    await shelf.edit(example().id, { kind: 'set_text', cell: 'k1', text: '18 st / 4 in' });
    await keeper.settled();
    // Two notebooks, a version, and the second slot of what changed later.
    await new Promise((resolve) => setTimeout(resolve, 400));
    expect(await copyCount(copies)).toBeGreaterThanOrEqual(3);
    const again = await shelfOn(memoryDisk(), copies);
    expect([...again.putBack].sort()).toEqual([example().id, other.id].sort());
    expect((await again.list(true)).map(({ title, archived }) => [title, archived])).toEqual([
      ['Socks', true],
      ['Saltmarsh pullover', false],
    ]);
    const opened = await mustOpen(again, example().id);
    expect(opened.notebook).toEqual(keeper.notebook);
    expect(opened.history.done.map(({ title }) => title)).toEqual(['change stitch gauge']);
    expect(opened.trials).toEqual([1]);
    const [version] = await again.versions(example().id);
    expect(version?.name).toBe('before');
    const read = await again.readVersion(example().id, version?.id ?? '');
    expect(isRefused(read) ? read : read.notebook).toEqual(example());
  });

  test('a disk that is as we left it is left alone', async () => {
    const [disk, copies] = [memoryDisk(), memoryCopies()];
    const shelf = await shelfOn(disk, copies);
    await shelf.create(example(), { sameId: true });
    await new Promise((resolve) => setTimeout(resolve, 300));
    await disk.write({ delete: [`page:${example().id}`, `about:${example().id}`] });
    expect((await shelfOn(disk, copies)).putBack).toEqual([]);
  });

  test('what was deleted for good does not come back', async () => {
    const copies = memoryCopies();
    const mirror = new Mirror(memoryDisk(), copies);
    await mirror.write({ put: [['page:n1', { number: 0, text: '' }]] });
    await mirror.write({
      put: [
        ['vtext:n1:v1', ''],
        ['vmeta:n1:v1', { id: 'v1' }],
      ],
    });
    await mirror.copied();
    expect(await copyCount(copies)).toBe(2);
    await mirror.write({ delete: ['page:n1', 'vtext:n1:v1', 'vmeta:n1:v1'] });
    await mirror.copied();
    expect(await copyCount(copies)).toBe(0);
  });

  test('a copy that was being written when the browser was killed leaves the one before', async () => {
    const copies = memoryCopies();
    const mirror = new Mirror(memoryDisk(), copies);
    for (const number of [1, 2, 3]) {
      await mirror.write({ put: [['page:n1', { number }]] });
      await mirror.copied();
      await new Promise((resolve) => setTimeout(resolve, 2));
    }
    expect(await copies.names('')).toEqual(['book n1 0', 'book n1 1']);
    await copies.put('book n1 0', '{"stamp": 99999999999999, "entr');
    const disk = memoryDisk();
    expect(await new Mirror(disk, copies).putBack()).toEqual(['n1']);
    expect(await disk.get('page:n1')).toEqual({ number: 2 });
    // And the next copy goes over the broken one, not over the good one.
    const next = new Mirror(disk, copies);
    await next.write({ put: [['page:n1', { number: 4 }]] });
    await next.copied();
    expect(JSON.parse((await copies.get('book n1 0')) ?? '')).toMatchObject({
      entries: [['page:n1', { number: 4 }]],
    });
  });

  test('what is tried is a copy of its own, which counts until the notebook is copied again', async () => {
    const [disk, copies] = [memoryDisk(), memoryCopies()];
    const mirror = new Mirror(disk, copies);
    const back = async () => {
      const empty = memoryDisk();
      await new Mirror(empty, copies).putBack();
      return [await empty.get('page:n1'), await empty.get('trials:n1')];
    };
    const put = async (...entries: readonly (readonly [string, unknown])[]) => {
      await mirror.write({ put: entries });
      await mirror.copied();
    };
    await put(['page:n1', 'first'], ['trials:n1', 'one']);
    expect(await copies.names('')).toEqual(['book n1 0']);
    await put(['trials:n1', 'two']);
    expect(await copies.names('')).toEqual(['book n1 0', 'tried n1 0']);
    expect(await back()).toEqual(['first', 'two']);
    await put(['trials:n1', 'three']);
    expect(await back()).toEqual(['first', 'three']);
    // A copy of what is tried that was cut short leaves the one before.
    await copies.put('tried n1 1', '{"stamp": 9999999');
    expect(await back()).toEqual(['first', 'two']);
    await put(['page:n1', 'second'], ['trials:n1', 'none']);
    expect(await back()).toEqual(['second', 'none']);
    await put(['trials:n1', 'four']);
    expect(await back()).toEqual(['second', 'four']);
    await mirror.write({ delete: ['page:n1', 'trials:n1'] });
    await mirror.copied();
    expect(await copies.names('')).toEqual([]);
  });

  test('a change that is kept while what is tried is being copied goes with the notebook, as one', async () => {
    const [disk, copies] = [memoryDisk(), memoryCopies()];
    const keep = { put: [['page:n1', 'kept'] as const, ['trials:n1', 'none'] as const] };
    let isKept = false;
    const mirror: Mirror = new Mirror(
      {
        ...disk,
        get: async (key) => {
          if (isKept) await mirror.write(keep);
          return disk.get(key);
        },
      },
      copies,
    );
    await mirror.write({ put: [['page:n1', 'before']] });
    await mirror.write({ put: [['trials:n1', 'tried']] });
    await mirror.copied();
    await mirror.write({ put: [['trials:n1', 'tried more']] });
    isKept = true;
    await mirror.copied();
    isKept = false;
    const [book = ''] = [await copies.get('book n1 0')];
    expect(book).toContain('before');
    expect(await copies.names('tried')).toEqual([]);
    await mirror.copied();
    const empty = memoryDisk();
    await new Mirror(empty, copies).putBack();
    expect([await empty.get('page:n1'), await empty.get('trials:n1')]).toEqual(['kept', 'none']);
  });

  test('a copy is of one moment, however much is written meanwhile', async () => {
    const [disk, copies] = [memoryDisk(), memoryCopies()];
    let moment = 0;
    const write = () => {
      moment++;
      const entry = (kind: string) => [`${kind}:n1`, moment] as const;
      const row = ['log:n1:000001', moment] as const;
      return disk.write({ put: [entry('page'), entry('about'), entry('trials'), row] });
    };
    /** Each reading is followed by a write, before the next one. */
    const restless =
      <Asked extends unknown[], Given>(read: (...asked: Asked) => Promise<Given>) =>
      async (...asked: Asked) => {
        const given = await read(...asked);
        await write();
        return given;
      };
    const mirror = new Mirror(
      { get: restless(disk.get), list: restless(disk.list), look: restless(disk.look), write: disk.write },
      copies,
    );
    await mirror.write({ put: [['page:n1', 0]] });
    await write();
    await mirror.copied();
    const { entries } = JSON.parse((await copies.get('book n1 0')) ?? (await copies.get('book n1 1')) ?? '');
    expect(entries).toHaveLength(4);
    expect(new Set(entries.map(([, value]: [string, number]) => value)).size).toBe(1);
  });

  test('writes without a pause do not put the copy off', async () => {
    const copies = memoryCopies();
    const mirror = new Mirror(memoryDisk(), copies);
    for (const end = Date.now() + 600; Date.now() < end; ) {
      await mirror.write({ put: [['page:n1', { number: Date.now() }]] });
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    expect(await copyCount(copies)).toBeGreaterThan(0);
  });

  test('what the browser did not live to copy is copied at the next opening, at once', async () => {
    const [disk, copies] = [memoryDisk(), memoryCopies()];
    await new Mirror(disk, memoryCopies()).putBack();
    await disk.write({
      put: [
        ['page:n1', 1],
        ['about:n1', { changedAt: Date.now() - 2_000 }],
      ],
    });
    await disk.write({
      put: [
        ['page:n2', 1],
        ['about:n2', { changedAt: Date.now() - 100_000_000 }],
      ],
    });
    expect(await new Mirror(disk, copies).putBack()).toEqual([]);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(await copies.names('')).toEqual(['book n1 0']);
  });

  test('copies that fail delay and spoil nothing', async () => {
    const failing: Copies = {
      put: () => Promise.reject(new Error('no room')),
      get: () => Promise.reject(new Error('no room')),
      names: () => Promise.reject(new Error('no room')),
      remove: () => Promise.reject(new Error('no room')),
    };
    const shelf = await shelfOn(memoryDisk(), failing);
    expect(shelf.trouble).toBeUndefined();
    await shelf.create(example(), { sameId: true });
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect((await mustOpen(shelf, example().id)).notebook).toEqual(example());
  });
});
