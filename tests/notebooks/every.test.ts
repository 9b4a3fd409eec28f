// What every prebuilt notebook keeps: its file is written as the writer writes it, everything it names is there,
// nothing in it is broken as it opens, and its values are those that were last read and approved.

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { drawingKind } from '../../src/drawing/index.ts';
import { isDecided } from '../../src/formula/index.ts';
import { allCells, type Notebook, writeNotebook } from '../../src/notebook/index.ts';
import type { Live } from '../../src/session/index.ts';
import { printTable } from '../../src/terminal/print.ts';
import {
  checkSettled,
  liveNotebook,
  notebookNames,
  notebookText,
  openNotebook,
  workOut,
} from '../support/notebook.ts';

const golden = (name: string): string => join(import.meta.dirname, '../golden/notebooks', `${name}.txt`);

/** The names in braces in a text. */
function namesIn(text: string): readonly string[] {
  return [...text.matchAll(/\{([^{}]+)\}/gu)].map(([, name = '']) => name.trim().replace(/\s+/g, '_'));
}

/** Every text of a notebook that may name cells in braces, with where it stands. */
function speaking(notebook: Notebook): readonly (readonly [place: string, text: string])[] {
  const said = allCells(notebook).flatMap(({ name, says }) =>
    [says?.yes, says?.no, says?.text].map((text) => [`says of ${name}`, text ?? ''] as const),
  );
  return [...said, ...notebook.steps.map(({ id, text }) => [`step ${id}`, text] as const)];
}

const typeOf = (live: Live, name: string) => {
  const id = live.sheet.idOf(name);
  return id === undefined ? undefined : live.sheet.info(id).type;
};

/** Whether a step may print a cell: a count to be knitted must be decided. */
function printable(live: Live, name: string): boolean {
  const type = typeOf(live, name);
  if (type?.kind !== 'quantity') return type !== undefined;
  const counts = ['st', 'row', 'rnd', 'ridge', 'skein', 'ball'];
  const label = type.shown?.label ?? '';
  return isDecided(type) || !counts.includes(label);
}

describe.each(notebookNames)('%s', (name) => {
  const notebook = openNotebook(name);
  const live = liveNotebook(name);

  test('its file is just as the writer would write it', () => {
    expect(writeNotebook(notebook)).toBe(notebookText(name));
  });

  test('opens without a problem', () => {
    const worked = workOut(name);
    expect(worked.faults()).toEqual([]);
    expect(worked.asked.remarks).toEqual([]);
    checkSettled(worked);
  });

  test('every name in what it says, in its steps and under its drawings is a cell', () => {
    const known = new Set(allCells(notebook).map((cell) => cell.name));
    const unknown = speaking(notebook).flatMap(([place, text]) =>
      namesIn(text)
        .filter((cell) => !known.has(cell))
        .map((cell) => `${place}: ${cell}`),
    );
    const bound = notebook.drawings.flatMap(({ id, binds }) =>
      Object.values(binds)
        .filter((cell) => !known.has(cell))
        .map((cell) => `drawing ${id}: ${cell}`),
    );
    expect([...unknown, ...bound]).toEqual([]);
  });

  test('its drawings are of known kinds, with parts that they know', () => {
    for (const { kind, binds } of notebook.drawings) {
      const known = drawingKind(kind);
      expect(known, kind).toBeDefined();
      const many = (known?.many ?? []).map(({ name }) => name);
      for (const bound of Object.keys(binds)) {
        const part = bound.replace(/^each_(.+)$/, '$1_');
        const knows =
          known?.parts.some((spec) => spec.name === part) || many.some((start) => part.startsWith(start));
        expect(knows, `${kind}: ${part}`).toBeTruthy();
      }
    }
  });

  test('a step prints only decided counts, and happens when a yes or no says so', () => {
    for (const step of notebook.steps) {
      for (const cell of namesIn(step.text)) expect(printable(live, cell), `${step.id}: ${cell}`).toBe(true);
      if (step.when !== undefined)
        expect(typeOf(live, step.when.replace(/^not /, ''))?.kind, `${step.id}: when`).toBe('truth');
    }
  });

  test('what is said before the knitting stands before it', () => {
    const kinds = notebook.steps.map(({ kind }) => kind === 'advice');
    if (kinds.includes(true)) expect(kinds.lastIndexOf(true)).toBeLessThan(kinds.indexOf(false));
  });

  test('what is shown in a unit only sometimes is so when a yes or no says it', () => {
    for (const { name: cell, shown } of allCells(notebook)) {
      const when = / when (.*)$/.exec(shown ?? '')?.[1];
      if (when !== undefined) expect(typeOf(live, when)?.kind, `${cell}: ${shown}`).toBe('truth');
    }
  });

  test('sources and cautions stand beside something that is there', () => {
    const ids = new Set([...notebook.sections, ...allCells(notebook)].map((one) => one.id));
    for (const { for: at } of [...notebook.sources, ...notebook.cautions])
      if (at !== undefined) expect(ids.has(at), at).toBe(true);
    expect(notebook.sources.length).toBeGreaterThan(0);
    expect(notebook.how?.length ?? 0).toBeGreaterThan(200);
  });

  test('ends by saying what it does not work out', () => {
    const last = notebook.sections.at(-1);
    expect(`${last?.title} ${last?.about}`).toMatch(/not worked out here/i);
  });

  test('its values are those last approved', () => {
    const table = printTable(workOut(name).asked);
    if (process.env['GOLDEN']) writeFileSync(golden(name), table);
    expect(existsSync(golden(name)), `${golden(name)}: record it with npm run golden`).toBe(true);
    expect(table).toBe(readFileSync(golden(name), 'utf8'));
  });
});
