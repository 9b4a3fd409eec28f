// Rows of plain numbers are printed from their numbers alone: what they say is what is said of any value.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { isRefused, type Notebook, readNotebook } from '../../src/notebook/index.ts';
import { createSession, type Session } from '../../src/session/index.ts';
import { valueView } from '../../src/session/rows.ts';

const folder = join(import.meta.dirname, '../../notebooks');
const files = readdirSync(folder).filter((name) => name.endsWith('.ellwand.json'));

function notebookOf(text: string): Notebook {
  const read = readNotebook(text);
  if (isRefused(read)) throw new Error('a notebook that cannot be read');
  return read.notebook;
}

const opened = (notebook: Notebook): Session => createSession({ notebook, today: 20_000, random: () => 0.5 });

const idsOf = (session: Session) => session.page().sections.flatMap(({ cells }) => cells);

/** Nudges each cell that can be nudged, and calls after each nudge. */
function nudgeAll(session: Session, after: () => void): void {
  const [column] = session.page().columns;
  idsOf(session).forEach((id, i) => {
    const { nudges, each } = session.row(id);
    if (!nudges) return;
    session.nudge({ cell: id, column: each ? (column?.id ?? null) : null }, i % 2 === 0 ? 1 : -1);
    after();
  });
}

describe('a plain row says of its values what is said of any value', () => {
  test.each(files)('%s', (file) => {
    const session = opened(notebookOf(readFileSync(join(folder, file), 'utf8')));
    const base = session.live.sheet.freeze();
    const look = (before: typeof base | undefined) => {
      const plain = idsOf(session).filter((id) => session.row(id).plain);
      for (const id of plain) {
        const { values, plain: texts } = session.row(id);
        values.forEach((value, column) => {
          expect(value).toEqual(valueView(session.live, id, column, before));
          expect(texts?.text(column)).toBe(value.text);
          expect(texts?.isMoved(column)).toBe(value.old !== undefined);
          expect(texts?.decided).toBe(value.decided);
          if (!value.old) return;
          expect([texts?.was(column), texts?.difference(column)]).toEqual([
            value.old.text,
            value.old.difference,
          ]);
        });
      }
      return plain.length;
    };
    let moved = 0;
    expect(look(undefined)).toBeGreaterThan(0);
    nudgeAll(session, () => {
      moved += look(base);
    });
    expect(moved).toBeGreaterThan(0);
  });
});

const small = (cells: string) =>
  notebookOf(`{"ellwand": 1, "id": "nplain", "title": "Small", "units": "in",
    "columns": {"heading": "size", "list": [{"id": "c1", "label": "S"}, {"id": "c2", "label": "L"}]},
    "sections": [{"id": "s1", "title": "One", "cells": [${cells}]}]}`);

test('a row is not plain where there is more to say: a sentence, a missing value, what is typed', () => {
  const session = opened(
    small(`{"id": "k1", "name": "a", "each": {"c1": "4 in", "c2": "6 in"}},
      {"id": "k2", "name": "b", "text": "a * 2"},
      {"id": "k3", "name": "c", "text": "a * 3", "says": {"text": "b is {b}"}},
      {"id": "k4", "name": "d", "text": "a / (a - 4 in)"},
      {"id": "k5", "name": "e", "text": "smallest(a)"}`),
  );
  expect(idsOf(session).filter((id) => session.row(id).plain)).toEqual(['k2']);
});

test('the values of a row are of the moment it was asked for, whenever they are read', () => {
  const session = opened(
    small(
      `{"id": "k1", "name": "a", "text": "4 in"}, {"id": "k2", "name": "b", "each": {"c1": "1 in", "c2": "2 in"}},
       {"id": "k3", "name": "c", "text": "a + b"}`,
    ),
  );
  const before = session.row('k3');
  session.nudge({ cell: 'k1', column: null }, 1);
  expect(before.values.map(({ text }) => text)).toEqual(['5', '6']);
  expect(session.row('k3').values.map(({ text }) => text)).toEqual(['5¼', '6¼']);
});
