/** One column of a row that was worked out by one formula for all: typing there changes that column only. */
import { describe, expect, test } from 'vitest';
import { allCells } from '../../src/notebook/index.ts';
import { createSession, type Place, type Session } from '../../src/session/index.ts';
import { isWorkedOutRow, rowTexts } from '../../src/session/row-texts.ts';
import type { Value } from '../../src/sheet/index.ts';
import { notebookFrom, notebookNames, notebookText } from '../support/notebook.ts';

const FILE = `{ "ellwand": 1, "id": "n1", "title": "Sleeves and body", "units": "in",
  "columns": {"heading": "piece", "list": [{"id": "c1", "label": "body"}, {"id": "c2", "label": "sleeve"}]},
  "sections": [{"id": "s1", "title": "Rows", "cells": [
    {"id": "k1", "name": "row_gauge", "text": "30 row / 4 in"},
    {"id": "k2", "name": "length_wanted", "each": {"c1": "12 1/2 in", "c2": "18 3/4 in"}},
    {"id": "k3", "name": "rows_to_knit", "text": "multiple(length_wanted * row_gauge, 8)", "note": "type the other to take it"},
    {"id": "k4", "name": "length_you_get", "text": "rows_to_knit / row_gauge"},
    {"id": "k5", "name": "is_long", "text": "length_you_get > 15 in"},
    {"id": "k6", "name": "shaping", "text": "shape(40 st, 60 st, rows_to_knit, 2 st, 2)"},
    {"id": "k7", "name": "ready", "text": "date(2026, 12, 1) + rows_to_knit * 1 day / 8 row"},
    {"id": "k8", "name": "odd_length", "text": "length_wanted / 7"},
    {"id": "k9", "name": "twice", "text": "2 * row_gauge"}]}] }`;

const opened = (file = FILE): Session =>
  createSession({ notebook: notebookFrom(file), today: 20_000, random: () => 0.5 });
const at = (cell: string, column: string | null): Place => ({ cell, column });
const texts = (session: Session, id: string): string[] => session.row(id).values.map((value) => value.text);

describe('a plain value in one column of a worked-out row', () => {
  test('changes that column only; the note says what stood there, and undo brings it back', () => {
    const session = opened();
    expect(texts(session, 'k3')).toEqual(['96', '144']);
    expect(session.type(at('k3', 'c1'), '88')).toEqual({
      done: true,
      note: 'rows to knit was worked out as “multiple(length_wanted * row_gauge, 8)”. Now it is typed in each column: body is 88 rows, the others stay as they were. Undo brings the formula back.',
    });
    expect(texts(session, 'k3')).toEqual(['88', '144']);
    expect(session.row('k3')).toMatchObject({ typed: true, each: true });
    expect(session.text(at('k3', 'c2'))).toBe('144 rows');
    expect(texts(session, 'k4')).toEqual(['11¾', '19¼']);
    expect(session.row('k6').values.every((value) => value.kind === 'plan')).toBe(true);
    expect(session.type(at('k3', 'c2'), '136 rows')).toEqual({ done: true });
    session.undo();
    session.undo();
    expect(session.text(at('k3', null))).toBe('multiple(length_wanted * row_gauge, 8)');
    expect(texts(session, 'k3')).toEqual(['96', '144']);
  });

  test('is shown in that column only while it is written', () => {
    const session = opened();
    session.preview(at('k3', 'c1'), 'row_gauge * 4 in'); // A formula is one for all.
    expect(texts(session, 'k3')).toEqual(['30.0']);
    session.preview(at('k3', 'c1'), '8');
    session.preview(at('k3', 'c1'), '88');
    expect(texts(session, 'k3')).toEqual(['88', '144']);
    expect(session.type(at('k3', 'c1'), '88').done).toBe(true);
    expect(texts(session, 'k3')).toEqual(['88', '144']);
  });

  test('keeps truths, days and lengths of the others exactly; what is emptied is empty in that column', () => {
    const session = opened();
    session.type(at('k5', 'c1'), 'yes');
    expect(texts(session, 'k5')).toEqual(['yes', 'yes']);
    session.type(at('k7', 'c1'), '5 Dec 2026');
    expect(texts(session, 'k7')).toEqual(['5 Dec 2026', '19 Dec 2026']);
    const exact = session.live.sheet.value('k8', 1);
    session.type(at('k8', 'c1'), '');
    expect(session.row('k8').values[0]?.kind).toBe('empty');
    const now = session.live.sheet.value('k8', 1);
    expect(isNear(exact, now)).toBe(true);
  });

  test('joins the change that is tried, and goes with it', () => {
    const session = opened();
    session.nudge(at('k1', null), 4); // 32 rows to 4 in
    expect(texts(session, 'k3')).toEqual(['104', '152']);
    session.type(at('k3', 'c1'), '96');
    expect(texts(session, 'k3')).toEqual(['96', '152']);
    session.nudge(at('k3', 'c1'), 1);
    expect(texts(session, 'k3')).toEqual(['97', '152']);
    session.dropTrial();
    expect(texts(session, 'k3')).toEqual(['96', '144']);
    expect(session.row('k3').typed).toBe(false);
  });

  test('is the same when it is pasted, in one row or down several', () => {
    const session = opened();
    session.paste(at('k3', 'c2'), '136');
    expect(texts(session, 'k3')).toEqual(['96', '136']);
    session.undo();
    session.paste(at('k3', 'c2'), '136 rows\n18 in');
    expect(texts(session, 'k3')).toEqual(['96', '136']);
    expect(texts(session, 'k4')).toEqual(['12.8', '18']);
  });

  test('a formula there is one for all; so is one where every column is empty; a plan is not typed', () => {
    const session = opened();
    session.type(at('k3', 'c1'), 'whole(length_wanted * row_gauge)');
    expect(texts(session, 'k3')).toEqual(['94', '141']);
    session.type(at('k2', null), '');
    session.setEach('k2', true);
    session.type(at('k2', 'c2'), 'rows_to_knit / row_gauge'); // A ring, but it is written for all.
    expect(session.text(at('k2', null))).toBe('rows_to_knit / row_gauge');
    session.undo();
    expect(session.type(at('k6', 'c1'), '88')).toMatchObject({ done: false });
    expect(session.type(at('k9', null), '61')).toMatchObject({
      note: expect.stringContaining('what you typed'),
    });
  });
});

/** Equal but for the last digits of a text. */
function isNear(a: Value, b: Value | undefined): boolean {
  if (a.kind === 'quantity' && b?.kind === 'quantity')
    return Math.abs(a.value - b.value) <= 1e-10 * Math.max(1, Math.abs(a.value));
  return a.kind === b?.kind && JSON.stringify(a) === JSON.stringify(b);
}

describe('typing what a column holds already moves nothing', () => {
  test.each(notebookNames)('%s', (name) => {
    const session = opened(notebookText(name));
    const { live } = session;
    const { sheet, columns } = live;
    const values = () =>
      sheet.cells.map((id) => columns.map((_, c) => sheet.value(id, sheet.info(id).each ? c : 0)));
    const before = values();
    const [first = null] = columns;
    for (const cell of allCells(session.notebook)) {
      if (!isWorkedOutRow(live, cell.id)) continue;
      const texts = rowTexts(live, cell);
      const outcome = session.type(
        at(cell.id, first),
        typeof texts === 'object' ? (texts[first ?? ''] ?? '') : '1',
      );
      expect(outcome.done, cell.name).toBe(texts !== 'plans');
      if (!outcome.done) continue;
      const now = values();
      const moved = sheet.cells.filter((_, i) => !now[i]?.every((value, c) => isNear(value, before[i]?.[c])));
      expect(moved.map((id) => `${cell.name} moved ${sheet.nameOf(id)}`)).toEqual([]);
      session.undo();
    }
  });
});
