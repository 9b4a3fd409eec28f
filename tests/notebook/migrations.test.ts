import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { FORMAT, isRefused, readNotebook } from '../../src/notebook/index.ts';
import { migrations } from '../../src/notebook/migrations/index.ts';
import { chain, type Migration, migrate } from '../../src/notebook/migrations/migrate.ts';

const versions = join(dirname(fileURLToPath(import.meta.url)), '..', 'files', 'versions');
const kept = readdirSync(versions);

describe('files of every version', () => {
  test('one is kept for each version there has been', () => {
    const expected = Array.from({ length: FORMAT }, (_, index) => `version-${index + 1}.ellwand.json`);
    expect(kept.sort()).toEqual(expected.sort());
  });

  test('each reads whole, without a remark, and together they run every migration', () => {
    const ran = new Set<number>();
    for (const file of kept) {
      const read = readNotebook(readFileSync(join(versions, file)));
      if (isRefused(read)) throw new Error(`${file}: ${read.refused.code}`);
      expect(read.remarks).toEqual([]);
      expect(read.notebook.sections.flatMap(({ cells }) => cells).length).toBeGreaterThan(5);
      for (const version of read.migrated) ran.add(version);
    }
    expect([...ran].sort()).toEqual(migrations.map(({ from }) => from));
  });
});

describe('the chain of migrations', () => {
  /** A made-up past: version 1 called the title "name", version 2 kept one section only. */
  const past: readonly Migration[] = [
    { from: 1, title: 'name becomes title', migrate: ({ name, ...rest }) => ({ ...rest, title: name }) },
    {
      from: 2,
      title: 'many sections',
      migrate: ({ section, ...rest }) => ({ ...rest, sections: [section] }),
    },
  ];
  const old = {
    ellwand: 1,
    id: 'n1',
    name: 'Cap',
    units: 'cm',
    section: { id: 's1', title: 'Crown', cells: [] },
  };

  test('takes a file of any version through every later step, and no other', () => {
    expect(migrate(old, 1, past)).toMatchObject({ file: { ellwand: 3, title: 'Cap' }, ran: [1, 2] });
    expect(migrate({ ...old, title: 'Hood' }, 2, past)).toMatchObject({ file: { title: 'Hood' }, ran: [2] });
    expect(migrate(old, 3, past)).toEqual({ file: old, ran: [] });
    expect(migrate(old, 9, past)).toEqual({ file: old, ran: [] });
  });

  test('runs inside the reader', () => {
    const read = readNotebook(JSON.stringify(old), past);
    if (isRefused(read)) throw new Error(read.refused.code);
    expect(read.migrated).toEqual([1, 2]);
    expect(read.notebook).toMatchObject({ title: 'Cap', sections: [{ id: 's1', title: 'Crown' }] });
  });

  test('must be contiguous and lead to the format', () => {
    expect(chain(past, 3)).toBe(past);
    expect(() => chain([...past].reverse(), 3)).toThrow(
      'migration "many sections" takes version 2, expected 1',
    );
    expect(() => chain(past, 2)).toThrow('2 migrations lead to version 3, not 2');
  });
});
