import { describe, expect, test } from 'vitest';
import { limits, writeNotebook } from '../../src/notebook/index.ts';
import { fileName, readFile } from '../../src/storage/file.ts';
import { askToPersist, fileIsDue, persistence } from '../../src/storage/persist.ts';
import type { Listed } from '../../src/storage/shelf.ts';
import { outgrown, type Version } from '../../src/storage/versions.ts';
import { example } from './worlds.ts';

describe('names of files', () => {
  const cases: readonly [string, string][] = [
    ['Saltmarsh pullover', 'Saltmarsh pullover.ellwand.json'],
    ['größe/ärmel: 3"', 'größe ärmel 3.ellwand.json'],
    ['../../etc/passwd', 'etc passwd.ellwand.json'],
    ['свитер', 'свитер.ellwand.json'],
    ['  ', 'notebook.ellwand.json'],
    ['\u202egnp.exe', 'gnp.exe.ellwand.json'],
    ['x'.repeat(300), `${'x'.repeat(80)}.ellwand.json`],
  ];
  test.each(cases)('%j', (title, name) => expect(fileName(title)).toBe(name));
});

describe('opening a file', () => {
  const file = (content: string | Uint8Array, name = 'a.json'): File => new File([content as BlobPart], name);

  test('a notebook', async () => {
    const opened = await readFile(file(writeNotebook(example()), 'mine.ellwand.json'));
    expect(opened).toMatchObject({
      name: 'mine.ellwand.json',
      notebook: { notebook: example(), remarks: [] },
    });
  });

  test('a whole shelf', async () => {
    const text = `{ "ellwand_shelf": 1, "notebooks": [{"notebook": ${writeNotebook(example())}}, 7] }`;
    expect(await readFile(file(text))).toMatchObject({
      shelf: { lost: 1, cut: false, notebooks: [{ archived: false }] },
    });
  });

  test('what is neither, by name', async () => {
    expect(await readFile(file('PK\u0003\u0004'))).toMatchObject({ refused: { code: 'another_kind' } });
    expect(await readFile(file(''))).toMatchObject({ refused: { code: 'empty_file' } });
  });

  test('one that is too big is not loaded', async () => {
    let loaded = false;
    const big = Object.assign(new Blob(['{}']), {
      arrayBuffer: () => {
        loaded = true;
        return Promise.reject(new Error('must not be loaded'));
      },
    });
    Object.defineProperty(big, 'size', { value: limits.bytes + 1 });
    expect(await readFile(big)).toMatchObject({ refused: { code: 'too_big' } });
    expect(loaded).toBe(false);
  });

  test('one that cannot be read (moved, or no permission)', async () => {
    const gone = Object.assign(new Blob(['{}']), {
      arrayBuffer: () => Promise.reject(new Error('NotReadableError')),
    });
    expect(await readFile(gone)).toMatchObject({ refused: { code: 'unreadable_file' } });
  });
});

describe('what the browser promises', () => {
  const means = (kept: boolean) => ({
    persist: () => Promise.resolve(kept),
    persisted: () => Promise.resolve(kept),
  });

  test('granted, not granted, not there, failing', async () => {
    expect(await askToPersist(means(true))).toBe('kept');
    expect(await persistence(means(false))).toBe('not_kept');
    expect(await persistence(undefined)).toBe('unknown');
    const failing = { ...means(true), persist: () => Promise.reject(new Error('no')) };
    expect(await askToPersist(failing)).toBe('unknown');
  });

  test('a file is due after a day’s changes, unless kept or saved since', () => {
    const DAY = 86_400_000;
    const listed: Listed = {
      id: 'n1',
      title: '',
      about: '',
      cells: 1,
      number: 3,
      madeAt: 0,
      changedAt: DAY / 2,
      order: 0,
      archived: false,
    };
    expect(fileIsDue(listed, 'not_kept', DAY)).toBe(true);
    expect(fileIsDue(listed, 'not_kept', DAY - 1)).toBe(false);
    expect(fileIsDue(listed, 'kept', DAY)).toBe(false);
    expect(fileIsDue({ ...listed, fileAt: DAY * 0.6 }, 'not_kept', 3 * DAY)).toBe(false);
    expect(fileIsDue({ ...listed, number: 0 }, 'not_kept', DAY)).toBe(false);
  });
});

describe('thinning of versions', () => {
  const HOUR = 3_600_000;
  const now = 1000 * 24 * HOUR;
  const version = (age: number, name?: string): Version => ({
    id: `v${age}`,
    at: now - age,
    number: 1,
    size: 10,
    ...(name === undefined ? {} : { name }),
  });
  const ages = (versions: readonly Version[]): readonly number[] =>
    versions.map(({ at }) => (now - at) / HOUR);

  test('all of the last hour, one an hour for a day, one a day for a month, one a month after; named ones always', () => {
    const within = [0.1, 0.5, 0.9].map((age) => version(age * HOUR));
    expect(outgrown(within, now)).toEqual([]);
    const hours = [5.2, 5.4, 5.6, 6.5].map((age) => version(age * HOUR));
    expect(ages(outgrown(hours, now))).toEqual([5.4, 5.6]);
    const days = [49, 50, 80].map((age) => version(age * HOUR));
    expect(ages(outgrown(days, now))).toEqual([50]);
    const named = [49, 50, 51].map((age) => version(age * HOUR, 'keep'));
    expect(outgrown(named, now)).toEqual([]);
  });

  test('and not more than there is room for, the newest first', () => {
    const big = [0.1, 0.2, 0.3].map((age) => ({ ...version(age * HOUR), size: 3_000_000 }));
    expect(ages(outgrown(big, now))).toEqual([0.3]);
  });
});
