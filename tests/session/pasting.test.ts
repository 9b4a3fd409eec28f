/** Tables pasted in: each value finds its column, or nothing is pasted and it is said why. */
import { describe, expect, test } from 'vitest';
import { createSession, type Place, type Session } from '../../src/session/index.ts';
import { notebookFrom } from '../support/notebook.ts';

const BLANK = `{ "ellwand": 1, "id": "n1", "title": "Blank", "units": "cm",
  "sections": [{"id": "s1", "title": "", "cells": [{"id": "k1", "name": "stitch_gauge", "text": "20 st / 10 cm"}, {"id": "k2", "name": "around", "text": "stitch_gauge * 2 cm"}]}] }`;
const TWO = `{ "ellwand": 1, "id": "n1", "title": "Two", "units": "cm",
  "columns": {"heading": "size", "list": [{"id": "c1", "label": "child"}, {"id": "c2", "label": "grown-up"}]},
  "sections": [{"id": "s1", "title": "", "cells": [
    {"id": "k1", "name": "head", "each": {"c1": "52 cm", "c2": "58 cm"}},
    {"id": "k2", "name": "brim", "text": "head / 10"},
    {"id": "k3", "name": "plain", "text": "4 cm"}]}] }`;

function opened(file: string): Session {
  let seed = 7;
  const random = () => {
    seed = (seed * 16807) % 2147483647;
    return seed / 2147483647;
  };
  return createSession({ notebook: notebookFrom(file), today: 20_000, random });
}

const at = (cell: string, column: string | null = null): Place => ({ cell, column });
const labels = (session: Session) => session.page().columns.map(({ label }) => label);
const sheet = (session: Session) =>
  session.page().sections[0]?.cells.map((id) => {
    const { name, values } = session.row(id);
    return `${name}: ${values.map(({ text }) => text).join(' ')}`;
  });

describe('where there are no columns', () => {
  test('lines with several values make them, as a size line does, in one change', () => {
    const session = opened(BLANK);
    const outcome = session.paste(at('k2'), 'head\t52 cm\t58 cm\nbrim\t5 cm\t6 cm\nsections\t8\n');
    expect(outcome).toEqual({
      done: true,
      note: '2 columns were made, and numbered: touch a number to name it.',
    });
    expect(labels(session)).toEqual(['1', '2']);
    expect(sheet(session)?.slice(2)).toEqual(['head: 52 58', 'brim: 5 6', 'sections: 8']);
    session.undo();
    expect(labels(session)).toEqual([]);
    expect(sheet(session)).toHaveLength(2);
  });

  test('a first line of words names them', () => {
    const session = opened(BLANK);
    expect(session.paste(at('k2'), 'size\tSmall child\tadult\nhead\t52\t58\ndepth\t18\t21\n')).toEqual({
      done: true,
      note: '2 columns were made.',
    });
    expect(labels(session)).toEqual(['Small child', 'adult']);
    expect(session.page().heading).toBe('size');
    expect(sheet(session)?.slice(2)).toEqual(['head: 52 58', 'depth: 18 21']);
  });

  test('so does a first line with nothing in its first field; a name twice is told apart', () => {
    const session = opened(BLANK);
    session.paste(at('k2'), '\t36\t36\t\nwrist\t15\t–\t17\n');
    expect(labels(session)).toEqual(['36', '36 2', '3']);
    expect(sheet(session)?.slice(2)).toEqual(['wrist: 15  17']);
  });
});

describe('where there are columns', () => {
  test('more values than columns are refused, and nothing is pasted', () => {
    const session = opened(TWO);
    const before = session.notebook;
    expect(session.paste(at('k3'), 'wrist\t15\t16\t17\n')).toEqual({
      done: false,
      sentence:
        'A line of that table has 3 values and there are 2 size columns: add a column first, or copy less. Nothing was pasted.',
    });
    expect(session.paste(at('k1', 'c2'), '52 cm\t58 cm')).toMatchObject({
      sentence:
        'A line of that table has 2 values and there are 2 size columns, and you stand in grown-up: add a column first, or copy less. Nothing was pasted.',
    });
    expect(session.notebook).toBe(before);
    expect(session.paste(at('k3'), 'wrist\t15\t16\t\t\n').done).toBe(true); // Empty fields ask for no column.
    expect(sheet(session)?.[3]).toBe('wrist: 15 16');
  });

  test('a line that names them says which value is whose, in whatever order', () => {
    const session = opened(TWO);
    session.paste(at('k1'), '\tGrown-up\tchild\nhead\t60 cm\t50 cm\nwrist\t17\t13');
    expect(sheet(session)?.slice(0, 1)).toEqual(['head: 50 60']);
    expect(sheet(session)?.[1]).toBe('wrist: 13 17');
    session.paste(at('k1'), 'size\tgrown-up\nhead\t61 cm');
    expect(session.text(at('k1', 'c2'))).toBe('61 cm');
    expect(session.text(at('k1', 'c1'))).toBe('50 cm');
  });

  test('what is pasted over a formula is said to be, and undo brings it back', () => {
    const session = opened(TWO);
    expect(session.paste(at('k1'), 'brim\t5 cm\t6 cm')).toEqual({
      done: true,
      note: 'brim was worked out, and is now what you pasted. Undo brings its formula back.',
    });
    expect(sheet(session)).toEqual(['head: 52 58', 'brim: 5 6', 'plain: 4']);
    session.undo();
    expect(session.text(at('k2'))).toBe('head / 10');
  });

  test('a column of values goes down its column, and on into new cells', () => {
    const session = opened(TWO);
    session.paste(at('k1', 'c2'), '59 cm\n6 cm\n5 cm\n1 cm\n2 cm');
    expect(sheet(session)).toEqual([
      'head: 52 59',
      'brim: 5.2 6',
      'plain: 5',
      'new cell: 1',
      'new cell 2: 2',
    ]);
  });
});
