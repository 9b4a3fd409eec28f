import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import {
  isRefused,
  limits,
  type Read,
  type Refused,
  readNotebook,
  writeNotebook,
} from '../../src/notebook/index.ts';
import { EXAMPLE } from './notebooks.ts';
import { patience, runs } from './runs.ts';

vi.setConfig({ testTimeout: patience });

const files = join(dirname(fileURLToPath(import.meta.url)), '..', 'files');

interface Expected {
  readonly refused?: string;
  readonly cells?: number;
  readonly remarks?: readonly string[];
  readonly readOnly?: boolean;
}

const table = JSON.parse(readFileSync(join(files, 'broken.json'), 'utf8')) as Record<string, Expected>;
const broken = (file: string): Uint8Array => readFileSync(join(files, 'broken', file));

/** What came of a file, in the words of the table. */
function outcome(read: Read | Refused): Expected {
  if (isRefused(read)) return { refused: read.refused.code };
  const cells = read.notebook.sections.reduce((sum, section) => sum + section.cells.length, 0);
  const remarks = read.remarks.map(({ code }) => code);
  return { cells, remarks, ...(read.readOnly ? { readOnly: true } : {}) };
}

/** Whatever was rescued is a good notebook: written, it reads without a remark, as itself. */
function expectGood(read: Read | Refused): void {
  if (isRefused(read) || read.readOnly) return;
  const text = writeNotebook(read.notebook);
  const again = readNotebook(text);
  expect(again).toEqual({ notebook: read.notebook, remarks: [], readOnly: false, migrated: [] });
  expect(Object.getOwnPropertyNames(Object.prototype)).not.toContain('polluted');
}

describe('broken files', () => {
  test('there are at least sixty, each in the table and each with its file', () => {
    expect(readdirSync(join(files, 'broken')).sort()).toEqual(Object.keys(table).sort());
    expect(Object.keys(table).length).toBeGreaterThanOrEqual(60);
  });

  test.each(Object.entries(table))('%s', (file, expected) => {
    const read = readNotebook(broken(file));
    expect(outcome(read)).toEqual(expected);
    expectGood(read);
  });

  test('a cut or broken file says where', () => {
    const read = readNotebook(broken('cut-in-cell.json'));
    expect(isRefused(read) ? read : read.remarks).toEqual([
      { code: 'cut_off', path: '', parts: { line: 9, column: 54 } },
    ]);
    expect(readNotebook(broken('csv.json'))).toEqual({
      refused: { code: 'not_json', parts: { line: 1, column: 1 } },
    });
  });

  test('another kind of file is named', () => {
    const kinds = ['zip.json', 'png.json', 'pdf.json', 'web-page.json', 'heic.json'].map((file) => {
      const read = readNotebook(broken(file));
      return isRefused(read) ? read.refused.parts['kind'] : undefined;
    });
    expect(kinds).toEqual(['zip', 'picture', 'pdf', 'web_page', 'picture']);
  });

  test('reading the same broken file twice gives the same notebook', () => {
    for (const file of ['no-id.json', 'id-twice.json', 'name-twice.json', 'columns-lost.json']) {
      expect(readNotebook(broken(file))).toEqual(readNotebook(broken(file)));
    }
  });

  test('a second cell of a name keeps its text under the next name', () => {
    const read = readNotebook(broken('name-in-capitals.json'));
    const names = isRefused(read)
      ? []
      : read.notebook.sections.flatMap(({ cells }) => cells.map(({ name }) => name));
    expect(names).toEqual(['gauge', 'hand', 'GAUGE_2', 'größe_ok']);
  });
});

describe('too much', () => {
  const cells = (count: number, cell: (number: number) => string): string =>
    `{"ellwand":1,"id":"n1","title":"x","units":"cm","sections":[{"id":"s","title":"","cells":[${Array.from(
      { length: count },
      (_, number) => cell(number),
    ).join(',')}]}]}`;

  test('50 MB are refused by their size, unread', () => {
    expect(readNotebook(new Uint8Array(50_000_000))).toEqual({
      refused: { code: 'too_big', parts: { size: 50_000_000, limit: limits.bytes } },
    });
    expect(outcome(readNotebook(' '.repeat(limits.bytes + 1)))).toEqual({ refused: 'too_big' });
  });

  test('a million cells: as many as are allowed', () => {
    const text = cells(1_000_000, () => '{}');
    const read = readNotebook(text);
    expect(outcome(read).cells).toBe(limits.cells);
    expectGood(read);
  });

  test('twenty thousand cells of one name get a name each', () => {
    const read = readNotebook(cells(20_000, (number) => `{"id":"k${number}","name":"a","text":"1"}`));
    const names = isRefused(read)
      ? []
      : read.notebook.sections.flatMap((one) => one.cells.map(({ name }) => name));
    expect(new Set(names).size).toBe(20_000);
    expect(names.slice(0, 3)).toEqual(['a', 'a_2', 'a_3']);
  });

  test('twenty thousand names that are none', () => {
    const read = readNotebook(cells(20_000, (number) => `{"id":"k","name":"${number}"}`));
    expect(outcome(read).cells).toBe(20_000);
    expectGood(read);
  });
});

describe('random breaking', () => {
  const source = Buffer.from(EXAMPLE);
  const bite = fc.record({
    at: fc.nat(source.length - 1),
    length: fc.nat(30),
    bytes: fc.oneof(
      fc.uint8Array({ maxLength: 4 }),
      fc
        .constantFrom('"', '{', '}', '[', ']', ',', ':', '\\', 'null', '"__proto__":')
        .map((text) => Buffer.from(text)),
      fc.nat(source.length - 20).map((from) => source.subarray(from, from + 20)),
    ),
  });

  test('any mutation is opened, rescued or refused by name, and what is rescued is good', () => {
    fc.assert(
      fc.property(fc.array(bite, { minLength: 1, maxLength: 4 }), (bites) => {
        const mutated = bites.reduce(
          (text, { at, length, bytes }) =>
            Buffer.concat([text.subarray(0, at), bytes, text.subarray(Math.min(text.length, at + length))]),
          source,
        );
        const read = readNotebook(mutated);
        if (isRefused(read)) expect(read.refused.code).toMatch(/^[a-z_]+$/);
        expectGood(read);
      }),
      runs(500, 10_000),
    );
  });

  test('cut at any byte, the cells that stood whole before the cut are there', () => {
    const names = [...EXAMPLE.matchAll(/"name": "(\w+)".*\}/g)];
    for (let at = 1; at < source.length; at++) {
      const read = readNotebook(source.subarray(0, at));
      const whole = names.filter((match) => Buffer.byteLength(EXAMPLE.slice(0, lineEnd(match.index))) <= at);
      const found = isRefused(read)
        ? []
        : read.notebook.sections.flatMap((one) => one.cells.map(({ name }) => name));
      expect(found.slice(0, whole.length)).toEqual(whole.map(([, name]) => name));
    }
  });

  function lineEnd(from: number): number {
    return EXAMPLE.indexOf('\n', from);
  }
});
