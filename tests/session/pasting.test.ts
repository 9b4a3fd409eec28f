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

  test('a formula may begin with the sign of a spreadsheet', () => {
    const session = opened(BLANK);
    expect(session.paste(at('k2'), 'length\t10 cm\nedge\t=length*stitch_gauge\n').done).toBe(true);
    expect(sheet(session)?.slice(2)).toEqual(['length: 10', 'edge: 20.0']);
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

describe('a first column of words', () => {
  const ROWS = `{ "ellwand": 1, "id": "n1", "title": "Rows", "units": "cm",
    "sections": [{"id": "s1", "title": "Gauge", "cells": [{"id": "k1", "name": "row_gauge", "text": "30 rows / 10 cm"}]}] }`;

  test('is names, whatever signs stand in them; a unit in brackets is the row’s', () => {
    const session = opened(ROWS);
    const table =
      'Measure\tAnna\tBen\t\nChest (cm)\t92\t104,5\t\nWaist\t78 cm\t90 cm\t\n' +
      'Neck-to-waist [in]\t16\t17 1/2\t\n2. Back (half)\t20 cm\t–\t\nRows\t12\t14\t';
    expect(session.paste(at('k1'), table)).toEqual({ done: true, note: '2 columns were made.' });
    expect(labels(session)).toEqual(['Anna', 'Ben']);
    expect(session.page().heading).toBe('Measure');
    expect(sheet(session)).toEqual([
      'row gauge: 30',
      'Chest: 92 104.5',
      'Waist: 78 90',
      'Neck to waist: 40.6 44.5',
      'Back half: 20 ',
      'Rows wanted: 12 14',
    ]);
    const [, chest = '', , neck = ''] = session.page().sections[0]?.cells ?? [];
    const [, ben = ''] = session.page().columns.map(({ id }) => id);
    expect(session.text(at(chest, ben))).toBe('104.5 cm');
    expect(session.text(at(neck, ben))).toBe('17 1/2 in');
  });

  test('finds the cells there are, in capitals or with signs, and leaves the others alone', () => {
    const session = opened(TWO);
    session.paste(at('k3'), '\tgrown-up\tchild\nHead (cm)\t61\t51\n\t3 cm\t4 cm\nhead-brim\t1 cm\t2 cm');
    expect(sheet(session)).toEqual([
      'head: 51 61',
      'brim: 5.1 6.1',
      'plain: 4',
      'new cell: 4 3',
      'head brim: 2 1',
    ]);
  });

  test('a head with a column that is not there is refused', () => {
    const session = opened(TWO);
    expect(session.paste(at('k3'), 'size\tchild\tBen\nwrist\t15 cm\t17 cm')).toEqual({
      done: false,
      sentence:
        'There is no size “Ben” here: add it, or rename a column, or copy the table without its head. Nothing was pasted.',
    });
  });

  test('values that are formulas of cells are no names', () => {
    const session = opened(TWO);
    session.paste(at('k1'), 'head / 10\nplain * 2');
    expect(session.notebook.sections[0]?.cells.map(({ name }) => name)).toEqual(['head', 'brim', 'plain']);
    session.paste(at('k3'), '52 cm\t58 cm');
    expect(sheet(session)?.[2]).toBe('plain: 52 58');
  });
});

describe('where no cell stands', () => {
  test('a table makes cells below a section’s heading, or at its end', () => {
    const session = opened(TWO);
    session.paste({ section: 's1', atEnd: false }, 'Wrist (cm)\t15\t17\nankle\t20 cm\t22 cm');
    session.paste({ section: 's1', atEnd: true }, '3 cm');
    session.paste({ section: 's1', atEnd: true }, '5 (6) cm');
    const names = sheet(session) ?? [];
    expect(names.slice(0, 2)).toEqual(['Wrist: 15 17', 'ankle: 20 22']);
    expect(names.slice(-2)).toEqual(['new cell: 3', 'new cell 2: 5 6']);
    expect(session.paste({ section: 'gone', atEnd: false }, 'a1\t3 cm')).toEqual({
      done: false,
      sentence: 'A table is pasted on a cell, or on a section’s heading: stand there first.',
    });
  });

  test('so it does in a notebook with nothing in it', () => {
    const session = opened(`{ "ellwand": 1, "id": "n1", "title": "None", "units": "cm", "sections": [] }`);
    session.paste({ section: '', atEnd: false }, '\tAnna\tBen\nChest (cm)\t92\t104\n');
    expect(sheet(session)).toEqual(['Chest: 92 104']);
    expect(labels(session)).toEqual(['Anna', 'Ben']);
  });
});
