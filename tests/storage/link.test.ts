import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import {
  applyChange,
  type Change,
  isRefused,
  type Notebook,
  type Refused,
} from '../../src/notebook/index.ts';
import { crc32 } from '../../src/storage/checksum.ts';
import { isLink, linkTo, readLink } from '../../src/storage/link.ts';
import { squeeze, unsqueeze } from '../../src/storage/squeeze.ts';
import { notebook as anyNotebook } from '../notebook/notebooks.ts';
import { patience, runs } from '../notebook/runs.ts';
import { example } from './worlds.ts';

vi.setConfig({ testTimeout: patience });

const page = 'https://example.org/ellwand/';
const none = (): Promise<undefined> => Promise.resolve(undefined);

/** A prebuilt notebook that any notebook of the tests may come from. */
const prebuilt = (notebook: Notebook) => (name: string, version: number) =>
  Promise.resolve(name === 'resize-sweater' && version === 1 ? notebook : undefined);

async function fragmentOf(
  notebook: Notebook,
  findPrebuilt = none as Parameters<typeof readLink>[1],
): Promise<string> {
  const link = await linkTo(notebook, { page, findPrebuilt, withProgress: true });
  if (isRefused(link)) throw new Error(JSON.stringify(link));
  return new URL(link.address).hash;
}

const code = (result: object): string => (isRefused(result) ? (result as Refused).refused.code : 'read');

function edited(start: Notebook, ...changes: readonly Change[]): Notebook {
  return changes.reduce((now, change) => {
    const next = applyChange(now, change);
    if (isRefused(next)) throw new Error(JSON.stringify(next));
    return next;
  }, start);
}

describe('squeezing', () => {
  test('any text comes back, by the browser or by hand, whoever squeezed it', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.string({ unit: 'grapheme', maxLength: 300 }),
        fc.boolean(),
        fc.boolean(),
        async (text, a, b) => {
          expect(await unsqueeze(await squeeze(text, a), b)).toBe(text);
        },
      ),
      runs(100, 2000),
    );
  });

  test('the checksum is the published CRC-32: its check value for "123456789" is CBF43926', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });

  test('one wrong letter, or an end that is missing, is found out', async () => {
    const letters = await squeeze('Cast on 88 sts. '.repeat(20) + Math.PI);
    for (const byBrowser of [true, false]) {
      for (let at = 0; at < letters.length; at++) {
        const wrong = letters[at] === 'A' ? 'B' : 'A';
        const outcome = await unsqueeze(letters.slice(0, at) + wrong + letters.slice(at + 1), byBrowser);
        expect(['link_cut', 'link_damaged', 'link_too_big', 'unchanged']).toContain(
          typeof outcome === 'string' ? 'unchanged' : code(outcome),
        );
        // The last letter's spare bits may differ: then the text is the same, never another.
        if (typeof outcome === 'string') expect(outcome).toBe('Cast on 88 sts. '.repeat(20) + Math.PI);
        expect(code(Object(await unsqueeze(letters.slice(0, at), byBrowser)))).toMatch(/^link_/);
      }
    }
  });

  test('letters that unfold to fifty megabytes are stopped at two', async () => {
    const letters = await squeeze('0'.repeat(50_000_000));
    expect(letters.length).toBeLessThan(100_000);
    for (const byBrowser of [true, false]) {
      expect(code(Object(await unsqueeze(letters, byBrowser)))).toBe('link_too_big');
    }
  });

  test('what is no letter is refused', async () => {
    expect(code(Object(await unsqueeze('<script>')))).toBe('link_letters');
    expect(code(Object(await unsqueeze('')))).toBe('link_cut');
  });
});

describe('links', () => {
  test('any notebook comes back from its link', async () => {
    await fc.assert(
      fc.asyncProperty(anyNotebook, anyNotebook, fc.boolean(), async (made, base, grown) => {
        const shared: Notebook = grown ? { ...made, from: { notebook: 'resize-sweater', version: 1 } } : made;
        const find = prebuilt(base);
        const link = await linkTo(shared, { page, findPrebuilt: find, withProgress: true });
        if (isRefused(link)) return expect(code(link)).toBe('link_too_long');
        const read = await readLink(new URL(link.address).hash, find);
        expect(isRefused(read) ? read : read.notebook).toEqual(shared);
      }),
      runs(60, 1000),
    );
  });

  test('a notebook grown from a prebuilt one is short enough for a picture', async () => {
    const base = example();
    const grown = edited(
      { ...base, id: 'nmine' },
      { kind: 'set_text', cell: 'k1', text: '18 st / 4 in' },
      { kind: 'set_notebook', fields: { title: 'For Ada' } },
    );
    const link = await linkTo(grown, { page, findPrebuilt: prebuilt(base) });
    if (isRefused(link)) throw new Error('must fit');
    expect(link.fitsPicture).toBe(true);
    expect(link.address.length).toBeLessThan(330);
    const read = await readLink(new URL(link.address).hash, prebuilt(base));
    const { progress: _progress, ...shared } = grown;
    expect(isRefused(read) ? read : read.notebook).toEqual(shared);
  });

  test('what was knitted stays at home unless asked', async () => {
    const link = await linkTo(example(), { page, findPrebuilt: none });
    if (isRefused(link)) throw new Error('must fit');
    const read = await readLink(new URL(link.address).hash, none);
    expect(isRefused(read) ? read : read.notebook).not.toHaveProperty('progress');
  });

  test('a page that nobody else can open, or too long a notebook: say so, for the file', async () => {
    const from = (where: string) => linkTo(example(), { page: where, findPrebuilt: none });
    expect(code(await from('http://localhost:4173/'))).toBe('local_page');
    expect(code(await from('http://127.0.0.1/'))).toBe('local_page');
    expect(code(await from('file:///home/ada/ellwand.html'))).toBe('local_page');
    const how = Array.from({ length: 3000 }, (_, index) => Math.sin(index).toString(36)).join(' ');
    expect(code(await linkTo({ ...example(), how }, { page, findPrebuilt: none }))).toBe('link_too_long');
    expect(code(await linkTo({ ...example(), ellwand: 2 }, { page, findPrebuilt: none }))).toBe(
      'later_version',
    );
  });

  test('a link cut in the middle, a prebuilt notebook that is not known, a link of something else', async () => {
    const grown = { ...example(), from: { notebook: 'resize-sweater', version: 1 }, title: 'Mine' };
    const fragment = await fragmentOf(grown, prebuilt(example()));
    expect(code(await readLink(fragment.slice(0, fragment.length / 2), none))).toBe('link_cut');
    expect(await readLink(fragment, none)).toEqual({
      refused: { code: 'no_such_prebuilt', parts: { notebook: 'resize-sweater', version: 1 } },
    });
    expect(code(await readLink(`#n=${await squeeze('n{"ellwand": 1')}`, none))).not.toBe('read');
    expect(code(await readLink(`#n=${await squeeze('x')}`, none))).toBe('link_damaged');
    const from = { notebook: 'resize-sweater', version: 1 };
    const wild = [{ kind: 'set_text', cell: 'k1', text: 5 }];
    const forged = await squeeze(`c${JSON.stringify({ from, id: 'n1', changes: wild })}`);
    expect(code(await readLink(`#n=${forged}`, prebuilt(example())))).toBe('prebuilt_changed');
    const shapeless = await squeeze(`c${JSON.stringify({ from, id: 'n1', changes: {} })}`);
    expect(code(await readLink(`#n=${shapeless}`, prebuilt(example())))).toBe('link_damaged');
  });

  test('a prebuilt notebook that was mended since, under the same version: the link says so, and shows no other numbers', async () => {
    const base = example();
    const from = { notebook: 'resize-sweater', version: 1 };
    const grown = edited(
      { ...base, id: 'nmine', from },
      { kind: 'set_text', cell: 'k1', text: '18 st / 4 in' },
    );
    const fragment = await fragmentOf(grown, prebuilt(base));
    expect(code(await readLink(fragment, prebuilt(base)))).toBe('read');
    const mended = edited(base, { kind: 'set_text', cell: 'k4', text: 'smallest(finished_chest)' });
    expect(await readLink(fragment, prebuilt(mended))).toEqual({
      refused: { code: 'prebuilt_changed', parts: { notebook: base.title } },
    });
    // Where her own change covers what was mended, the same notebook comes out.
    const covered = edited(base, { kind: 'set_text', cell: 'k1', text: '19 st / 4 in' });
    expect(code(await readLink(fragment, prebuilt(covered)))).toBe('read');
  });

  test('only what begins as a link is taken for one', () => {
    expect([isLink('#n=abc'), isLink('#section-2'), isLink('')]).toEqual([true, false, false]);
  });
});
