import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { emptyHistory, type Notebook, writeNotebook } from '../../src/notebook/index.ts';
import { createSession, type Kept, type News, type Place, type Session } from '../../src/session/index.ts';
import { notebookFrom } from '../support/notebook.ts';

/** A notebook of our own: a jumper in three sizes. */
const FILE = `{ "ellwand": 1, "id": "n1", "title": "Kelp jumper", "units": "in",
  "columns": {"heading": "size", "list": [{"id": "c1", "label": "S"}, {"id": "c2", "label": "M"}, {"id": "c3", "label": "L"}]},
  "chosen": {"follow": "size_to_follow"},
  "sections": [
    {"id": "s1", "title": "Gauge", "cells": [
      {"id": "k1", "name": "stitch_gauge", "text": "20 ± 0.5 st / 4 in"},
      {"id": "k2", "name": "chest", "text": "41 in"},
      {"id": "k3", "name": "ease_wanted", "text": "3 1/2 in"},
      {"id": "k4", "name": "body_stitches", "each": {"c1": "198 st", "c2": "220 st", "c3": "242 st"}}]},
    {"id": "s2", "title": "Size", "cells": [
      {"id": "k5", "name": "finished_chest", "text": "body_stitches / stitch_gauge"},
      {"id": "k6", "name": "size_to_follow", "text": "nearest(finished_chest, chest + ease_wanted)"},
      {"id": "k7", "name": "ease", "text": "finished_chest - chest"},
      {"id": "k8", "name": "own_count", "text": "multiple((chest + ease_wanted) * stitch_gauge, 4)"},
      {"id": "k9", "name": "fits", "text": "abs(chosen(ease) - ease_wanted) <= 1 in", "says": {"yes": "{ease} of ease", "no": "{ease} of ease, not {ease_wanted}"}}]}],
  "drawings": [{"id": "d1", "kind": "pullover", "binds": {"chest": "finished_chest"}}],
  "steps": [{"id": "t1", "text": "Cast on {own_count}."}] }`;

function opened(options: { keep?: (kept: Kept) => void; notebook?: Notebook } = {}): Session {
  let seed = 7;
  const random = () => {
    seed = (seed * 16807) % 2147483647;
    return seed / 2147483647;
  };
  const keep = options.keep;
  return createSession({
    notebook: options.notebook ?? notebookFrom(FILE),
    today: 20_000,
    random,
    ...(keep ? { keep } : {}),
  });
}

const at = (cell: string, column: string | null = null): Place => ({ cell, column });
const texts = (session: Session, id: string): string[] => session.row(id).values.map((value) => value.text);

describe('typing', () => {
  test('changes a value and everything that hangs on it', () => {
    const session = opened();
    expect(texts(session, 'k5')).toEqual(['39½', '44', '48½']);
    expect(session.type(at('k1'), '18 st / 4 in')).toEqual({ done: true });
    expect(texts(session, 'k5')).toEqual(['44', '49', '53¾']);
    expect(texts(session, 'k6')).toEqual(['S']);
    expect(session.page().columns.map((column) => column.chosen)).toEqual([true, false, false]);
  });

  test('a bare number takes the unit its cell shows, and keeps how far off it may be', () => {
    const session = opened();
    expect(session.preview(at('k1'), '2')).toEqual([]);
    expect(session.preview(at('k1'), '22')).toEqual([]);
    expect(texts(session, 'k5')).toEqual(['36', '40', '44']);
    session.type(at('k1'), '22');
    expect(session.text(at('k1'))).toBe('22 ± ½ sts / 4 in');
    session.type(at('k1'), '21,5 ± 1/4');
    expect(session.text(at('k1'))).toBe('21.5 ± 1/4 sts / 4 in');
    session.type(at('k1'), '18 sts'); // As a knitter says a gauge.
    expect(session.text(at('k1'))).toBe('18 ± ¼ sts / 4 in');
    session.type(at('k1'), '19 sts / 4 in');
    expect(session.text(at('k1'))).toBe('19 ± ¼ sts / 4 in');
    session.type(at('k1'), '20/4 in');
    expect(session.text(at('k1'))).toBe('20 ± ¼ st / 4 in');
    session.type(at('k1'), '20 sts / 4 in'); // The ± alone was taken out.
    expect(session.text(at('k1'))).toBe('20 sts / 4 in');
    session.type(at('k1'), '20 ± 1/2');
    session.type(at('k1'), '18 ± 0 sts / 4 in');
    session.type(at('k1'), '18 sts / 4 in');
    expect(session.text(at('k1'))).toBe('18 sts / 4 in');
    session.type(at('k1'), '19 ± 1/2 sts / 4 in');
    session.type(at('k1'), '40 sts / 20 cm');
    expect(session.text(at('k1'))).toBe('40 ± 1 sts / 20 cm');
    session.type(at('k1'), '18 ± 0');
    session.type(at('k1'), '18 sts / 4 in');
    session.type(at('k2'), '42 1/2');
    expect(session.text(at('k2'))).toBe('42 1/2 in');
    session.type(at('k2'), '108 cm');
    expect(session.text(at('k2'))).toBe('108 cm');
    session.setUnits('in'); // Shown in inches, so a bare number is inches.
    session.type(at('k2'), '43');
    expect(session.text(at('k2'))).toBe('43 in');
    session.type(at('k4', 'c2'), '210');
    expect(session.text(at('k4', 'c2'))).toBe('210 sts');
    session.type(at('k4', 'c1'), '180 (200, 220)');
    expect(session.text(at('k4', 'c3'))).toBe('220 sts');
    session.paste(at('k4', 'c1'), '181\t201\t221');
    expect(session.text(at('k4', 'c2'))).toBe('201 sts');
    session.type(at('k2'), ''); // An empty cell has no unit to give.
    session.type(at('k2'), '7');
    expect(session.text(at('k2'))).toBe('7');
  });

  test('a size line fills the columns, and one of the wrong length is refused with what to do', () => {
    const session = opened();
    expect(session.type(at('k4', 'c1'), '180 (200, 220) sts').done).toBe(true);
    expect(texts(session, 'k4')).toEqual(['180', '200', '220']);
    const outcome = session.type(at('k4', 'c1'), '180 (200, 220, 240) sts');
    expect(outcome).toMatchObject({ done: false });
    expect(texts(session, 'k4')).toEqual(['180', '200', '220']);
  });

  test('a cell added with a size line fills the columns, makes them where there are none, and is one change', () => {
    const session = opened();
    const added = session.addCell('s1', null, 'neck', '80 (84, 88) sts');
    expect(texts(session, added.id ?? '')).toEqual(['80', '84', '88']);
    session.undo();
    expect(session.addCell('s1', null, 'neck', '80 (84, 88, 92) sts')).toMatchObject({
      done: false,
      sentence:
        'That line has 4 values and there are 3 size columns: add or remove a column, or leave a dash for none.',
    });

    const blank = opened({
      notebook: notebookFrom(
        '{ "ellwand": 1, "id": "n2", "title": "Blank", "units": "cm", "sections": [{"id": "s1", "title": "Gauge", "cells": []}] }',
      ),
    });
    const first = blank.addCell('s1', null, 'neck', '80 (84, 88) sts');
    expect(texts(blank, first.id ?? '')).toEqual(['80', '84', '88']);
    expect(blank.page().columns.map((column) => column.label)).toEqual(['1', '2', '3']);
    blank.undo();
    expect(blank.page().columns).toEqual([]);
    expect(blank.page().sections[0]?.cells).toEqual([]);
  });

  test('a step is added with its cells by either spelling, and one with a cell that is not there is refused', () => {
    const session = opened();
    expect(session.addStep('Join, {own count} in all.').done).toBe(true);
    expect(session.addStep('Join {own_cuont}.')).toEqual({
      done: false,
      sentence: 'There is no cell “own cuont” to fill into the step: see how it is spelt.',
    });
    const last = session.steps().steps.at(-1);
    expect(last?.runs.map((run) => run.text).join('')).toBe('Join, 224 sts in all.');
    session.renameCell('k8', 'round count');
    expect(session.notebook.steps.at(-1)?.text).toBe('Join, {round count} in all.');
    session.undo();
    session.undo();
    expect(session.notebook.steps).toHaveLength(1);
  });

  test('a text that cannot be read leaves the cell as it was', () => {
    const session = opened();
    const outcome = session.type(at('k8'), 'multiple((chest + ease_wanted) * stitch_gauge, 4');
    expect(outcome).toEqual({ done: false, sentence: 'This bracket is never closed.', at: [8, 9] });
    expect(texts(session, 'k8')).toEqual(['224']);
  });

  test('a preview shows what a text would do and leaves no trace', () => {
    const session = opened();
    expect(session.preview(at('k2'), '45 in')).toEqual([]);
    expect(texts(session, 'k8')).toEqual(['244']);
    expect(session.preview(at('k2'), '45 in +')).toHaveLength(1);
    expect(texts(session, 'k8')).toEqual(['244']);
    session.preview(at('k2'), null);
    expect(texts(session, 'k8')).toEqual(['224']);
    expect(session.page().undo).toBe('');
  });

  test('a decimal comma is kept with a point', () => {
    const session = opened();
    session.type(at('k2'), '104,5 cm');
    expect(session.text(at('k2'))).toBe('104.5 cm');
  });
});

describe('the first length of a notebook', () => {
  test('says in which units it is shown, and undo takes both back', () => {
    const session = createSession({
      notebook: { ...opened().notebook, units: 'cm', sections: [{ id: 's1', title: 'Gauge', cells: [] }] },
      today: 20_000,
      random: () => 0.5,
    });
    const { id = '' } = session.addCell('s1', null, 'gauge');
    session.type(at(id), '22 sts / 4 in');
    expect(session.row(id).values[0]).toMatchObject({ text: '22', unit: 'sts / 4 in' });
    const { id: second = '' } = session.addCell('s1', id, 'head');
    session.type(at(second), '56 cm');
    expect(session.notebook.units).toBe('in');
    session.undo();
    session.undo();
    session.undo();
    expect(session.notebook.units).toBe('cm');
  });
});

describe('what cannot be read', () => {
  test('is refused at Enter, and kept as it was written where the cell is only left', () => {
    const session = opened();
    const unread = 'stitch_gauge * (chest';
    expect(session.type(at('k6'), unread).done).toBe(false);
    expect(session.type(at('k6'), unread, { unread: true }).done).toBe(true);
    expect(session.text(at('k6'))).toBe(unread);
    expect(session.row('k6').values[0]?.tone).toBe('problem');
    session.undo();
    expect(texts(session, 'k6')).toEqual(['M']);
  });

  test('a function called as in other sheets is told by its name here', () => {
    const session = opened();
    session.type(at('k6'), 'round(chest)');
    expect(session.row('k6').values[0]?.says).toContain('did you mean whole(…)?');
  });
});

describe('trying a change', () => {
  test('− and + that come back to where they began try nothing any more, and say so', () => {
    const session = opened();
    const said: string[] = [];
    session.listen(({ aloud }) => void said.push(aloud));
    session.nudge(at('k1'), -1);
    session.nudge(at('k3'), 1);
    session.nudge(at('k3'), -1);
    expect(session.page().trial?.cells.map((cell) => cell.id)).toEqual(['k1']);
    session.nudge(at('k1'), 1);
    expect(session.page().trial).toBeUndefined();
    expect(session.row('k5').values[0]?.old).toBeUndefined();
    expect(said.at(-1)).toMatch(/^stitch gauge 20 stitches/);
    session.nudge(at('k4', 'c2'), 1);
    expect(session.page().trial).toBeDefined();
    session.nudge(at('k4', 'c2'), -1);
    expect(session.page().trial).toBeUndefined();
  });

  test('a nudge moves by half a stitch, says what was, and keeping it is one change', () => {
    const session = opened();
    session.nudge(at('k1'), -1);
    session.nudge(at('k1'), -1);
    session.nudge(at('k1'), -1);
    expect(session.text(at('k1'))).toBe('18½ ± 0.5 st / 4 in');
    expect(session.row('k6').values[0]).toMatchObject({ text: 'S', old: { text: 'M' } });
    expect(session.row('k5').values[0]?.old).toEqual({ text: '39½', difference: '+3¼' });
    // (41 + 3½) in at 18½ and at 20 sts to 4 in: 205.8 and 222.5 sts, to multiples of 4; the step tells them.
    expect(session.page().trial?.outcome).toBe(
      'size to follow: M → S; fits: yes → no; own count: 20 sts fewer; finished chest: 39½ in → 42¾ in',
    );
    expect(session.page().trial?.chosen).toBe('M');
    session.keepTrial();
    expect(session.page().trial).toBeUndefined();
    expect(session.row('k6').values[0]?.old).toBeUndefined();
    expect(texts(session, 'k1')).toEqual(['18½']);
    session.undo();
    expect(texts(session, 'k1')).toEqual(['20']);
    expect(texts(session, 'k6')).toEqual(['M']);
  });

  test('one of several values tried is kept by itself, and the others go on being tried', () => {
    const session = opened();
    session.nudge(at('k1'), -1);
    session.nudge(at('k3'), 1);
    session.keepFromTrial('k1');
    expect(session.page().trial?.cells.map((cell) => cell.id)).toEqual(['k3']);
    expect(session.row('k1').values[0]?.old).toBeUndefined();
    expect(texts(session, 'k1')).toEqual(['19½']);
    session.keepFromTrial('k3');
    expect(session.page().trial).toBeUndefined();
    session.undo();
    session.undo();
    expect(texts(session, 'k1')).toEqual(['20']);
  });

  test('undo inside a trial steps back through its nudges and then out of it', () => {
    const session = opened();
    session.nudge(at('k1'), 1);
    session.nudge(at('k1'), 1);
    session.undo();
    expect(texts(session, 'k1')).toEqual(['20½']);
    session.redo();
    expect(texts(session, 'k1')).toEqual(['21']);
    session.undo();
    session.undo();
    expect(session.page().trial).toBeUndefined();
    expect(texts(session, 'k1')).toEqual(['20']);
  });

  test('typing joins a trial that is open; a change of a formula goes to the notebook', () => {
    const session = opened();
    session.nudge(at('k1'), 1);
    session.type(at('k2'), '43 in');
    expect(session.page().trial?.cells.map((cell) => [cell.name, cell.was, cell.tried])).toEqual([
      ['stitch gauge', '20', '20½'],
      ['chest', '41', '43'],
    ]);
    session.type(at('k8'), 'multiple((chest + ease_wanted) * stitch_gauge, 8)');
    session.dropTrial();
    expect(session.text(at('k2'))).toBe('41 in');
    expect(session.text(at('k8'))).toContain(', 8)');
  });

  test('a formula that is written where a value is tried ends the trial of that cell, and of no other', () => {
    const session = opened();
    session.nudge(at('k1'), 1);
    session.nudge(at('k2'), 1);
    expect(session.type(at('k1'), '=800 st / chest').done).toBe(true);
    expect(session.page().trial?.cells.map(({ id }) => id)).toEqual(['k2']);
    expect(session.text(at('k1'))).toBe('800 st / chest');
    expect(session.type(at('k2'), 'abs(41 in)').done).toBe(true);
    expect(session.page().trial).toBeUndefined();
  });

  test('a trial is handed on to be kept beside the notebook and can be taken up again', () => {
    const kept: Kept[] = [];
    opened({ keep: (one) => kept.push(one) }).nudge(at('k1'), -3);
    const trial = kept.at(-1)?.trial;
    expect(kept.at(-1)?.notebook).toEqual(notebookFrom(FILE));
    const again = createSession({ notebook: notebookFrom(FILE), trial, today: 20_000, random: Math.random });
    expect(again.row('k6').values[0]).toMatchObject({ text: 'S', old: { text: 'M' } });
  });

  test('a kept trial that says what the notebook says by now is none: what is undone is seen', () => {
    const kept: Kept[] = [];
    const session = opened({ keep: (one) => kept.push(one) });
    session.nudge(at('k1'), -3);
    const trial = kept.at(-1)?.trial;
    session.keepTrial();
    const { notebook } = session;
    const again = createSession({
      notebook,
      history: kept.at(-1)?.history ?? emptyHistory,
      trial,
      today: 20_000,
      random: Math.random,
    });
    expect(again.page().trial).toBeUndefined();
    expect(texts(again, 'k1')).toEqual(texts(session, 'k1'));
    again.undo();
    expect(texts(again, 'k1')).toEqual(texts(opened(), 'k1'));
  });

  test('what the notebook says is not tried, and its preview leaves nothing behind', () => {
    const session = opened();
    const before = texts(session, 'k3');
    session.nudge(at('k1'), 0);
    expect(session.page().trial).toBeUndefined();
    session.nudge(at('k1'), -1);
    const was = session.text(at('k2'));
    session.preview(at('k2'), '50 in');
    session.preview(at('k2'), was);
    session.type(at('k2'), was);
    expect(session.page().trial?.cells.map((cell) => cell.id)).toEqual(['k1']);
    session.preview(at('k2'), '50 in');
    session.type(at('k2'), was);
    session.dropTrial();
    expect(texts(session, 'k3')).toEqual(before);
  });

  test('a trial ends where another tab keeps the same', () => {
    const session = opened();
    const other = opened();
    for (const one of [session, other]) one.nudge(at('k1'), -3);
    other.keepTrial();
    session.takeForeign(other.notebook, 'change stitch gauge');
    expect(session.page().trial).toBeUndefined();
    expect(texts(session, 'k1')).toEqual(texts(other, 'k1'));
  });

  test('in centimetres a nudge moves to the next half centimetre of what is shown', () => {
    const session = opened();
    session.setUnits('cm');
    expect(texts(session, 'k2')).toEqual(['104.1']);
    session.nudge(at('k2'), 1);
    expect(session.text(at('k2'))).toBe('104.5 cm');
    session.nudge(at('k2'), 1);
    expect(session.text(at('k2'))).toBe('105 cm');
  });
});

describe('written as one writes', () => {
  const blank = () => createSession({ notebook: notebookFrom(FILE), today: 20_000, random: Math.random });
  const add = (session: Session, name: string, text: string) => {
    const outcome = session.addCell('s1', null, name, text);
    expect(outcome).toMatchObject({ done: true });
    return at(outcome.id ?? '');
  };

  test.each([
    ['20 Dec 2026', '2026-12-20'],
    ['20. december 2026', '2026-12-20'],
    ['Dec 20, 2026', '2026-12-20'],
    ['3rd Sept 2026', '2026-09-03'],
    ['20/12/2026', '2026-12-20'],
    ['12/20/2026', '2026-12-20'],
    ['7.7.2026', '2026-07-07'],
  ])('%s is a day', (typed, day) => {
    const session = blank();
    const place = add(session, 'by', '');
    expect(session.preview(place, typed)).toEqual([]);
    expect(session.type(place, typed)).toEqual({ done: true });
    expect(session.text(place)).toBe(day);
    expect(session.row(place.cell).values[0]?.kind).toBe('date');
  });

  test.each(['5/6/2026', '05.06.2026'])('%s could be two: it is asked about', (typed) => {
    const session = blank();
    const place = add(session, 'by', '');
    expect(session.type(place, typed)).toEqual({
      done: false,
      sentence: `Which day is ${typed}? Write it as 20 Dec 2026.`,
    });
    expect(session.text(place)).toBe('');
  });

  test.each(['31 Feb 2026', '20 De 2026', '20 Decem 20'])('%s is no day', (typed) => {
    const session = blank();
    expect(session.type(add(session, 'by', ''), typed).done).toBe(false);
  });

  test('names with their spaces are those of cells; what else is wrong is told as it is written', () => {
    const session = blank();
    const place = add(session, 'half of it', '');
    expect(session.preview(place, 'finished chest / 2 + stitch gauge * 0')).toHaveLength(1);
    expect(session.preview(place, 'finished chest / 2')).toEqual([]);
    expect(session.type(place, 'finished chest / 2')).toEqual({ done: true });
    expect(session.text(place)).toBe('finished_chest / 2');
    expect(session.type(place, 'finished chest / nothing like this').done).toBe(false);
  });

  test('a value typed over a formula is said to be one, with what brings the formula back', () => {
    const session = blank();
    const place = add(session, 'half of it', 'finished_chest / 2');
    const outcome = session.type(place, '20 in');
    expect(outcome).toEqual({
      done: true,
      note: 'half of it was worked out, and is now what you typed. Undo brings its formula back.',
    });
    expect(session.type(place, '21 in')).toEqual({ done: true });
    session.undo();
    session.undo();
    expect(session.text(place)).toBe('finished_chest / 2');
    expect(session.type(place, 'finished_chest / 3')).toEqual({ done: true });
  });

  test('“head = 56 cm” in the place of a name says name and value', () => {
    const session = blank();
    const { id = '' } = session.addCell('s1', null, 'head = 56 cm');
    expect(session.row(id).name).toBe('head');
    expect(session.text(at(id))).toBe('56 cm');
    expect(session.addCell('s1', null, 'a >= b').done).toBe(false);
    const place = add(session, 'new cell', '');
    expect(session.renameCell(place.cell, 'brim = 5 cm')).toEqual({ done: true });
    expect([session.row(place.cell).name, session.text(place)]).toEqual(['brim', '5 cm']);
  });
});

describe('a cell that is added', () => {
  test('and named is one thing to undo, filling it the second', () => {
    const session = opened();
    const before = session.notebook;
    const { id = '' } = session.addCell('s1', null);
    session.renameCell(id, 'ankle');
    session.type(at(id), '92 cm');
    session.undo();
    expect(session.text(at(id))).toBe('');
    expect(session.row(id).name).toBe('ankle');
    expect(session.page().undo).toBe('add ankle');
    session.undo();
    expect(session.notebook).toEqual(before);
    session.redo();
    expect(session.row(id).name).toBe('ankle');
    session.renameCell(id, 'calf'); // Later on it is a change of its own.
    session.undo();
    expect(session.row(id).name).toBe('ankle');
  });

  test('is taken away again while it is neither named nor filled', () => {
    const session = opened();
    const before = session.notebook;
    const { id = '' } = session.addCell('s1', null);
    expect(session.unadd(id)).toBe(true);
    expect(session.notebook).toEqual(before);
    expect(session.page().undo).toBe('');
    const { id: named = '' } = session.addCell('s1', null);
    session.renameCell(named, 'ankle');
    const { id: filled = '' } = session.addCell('s1', named);
    session.type(at(filled), '3 cm');
    const { id: called = '' } = session.addCell('s1', null, 'wrist');
    for (const one of [named, filled, called, 'gone']) expect(session.unadd(one)).toBe(false);
    expect(session.notebook.sections[0]?.cells).toHaveLength((before.sections[0]?.cells.length ?? 0) + 3);
  });
});

describe('names', () => {
  test('renaming reaches formulas, what is said, steps, drawings and what is followed; one undo takes it back', () => {
    const session = opened();
    expect(session.renameCell('k7', 'ease you get').done).toBe(true);
    expect(session.text(at('k9'))).toBe('abs(chosen(ease_you_get) - ease_wanted) <= 1 in');
    expect(session.row('k9').values[0]?.says).toBe('3 in of ease');
    session.renameCell('k8', 'cast on');
    expect(session.notebook.steps[0]?.text).toBe('Cast on {cast_on}.');
    session.renameCell('k6', 'my size');
    expect(session.page().follows).toBe('my size');
    session.renameCell('k5', 'round the chest');
    expect(session.notebook.drawings[0]?.binds).toEqual({ chest: 'round_the_chest' });
    for (let i = 0; i < 4; i += 1) session.undo();
    expect(writeNotebook(session.notebook)).toBe(writeNotebook(notebookFrom(FILE)));
  });

  test('a name that is a unit, a word, or taken is refused with what to call it', () => {
    const session = opened();
    expect(session.renameCell('k1', 'g')).toEqual({
      done: false,
      sentence: '“g” is grams here: call it gauge.',
    });
    expect(session.renameCell('k1', 'Chest')).toEqual({
      done: false,
      sentence: 'There is a cell called “chest” already: choose another name.',
    });
    expect(session.renameCell('k1', 'total').done).toBe(true);
  });

  test('renaming a column rewrites labels in quotes', () => {
    const session = opened();
    session.type(at('k2'), 'at(finished_chest, "M")');
    session.renameColumn('c2', 'Medium');
    expect(session.text(at('k2'))).toBe('at(finished_chest, "Medium")');
    expect(texts(session, 'k2')).toEqual(['44']);
  });
});

describe('tables', () => {
  test('cells copy as a table and paste back as cells', () => {
    const session = opened();
    expect(session.copy(['k2', 'k4'])).toBe(
      '\tS\tM\tL\nchest\t41 in\nbody stitches\t198 sts\t220 sts\t242 sts',
    );
    expect(session.paste(at('k2'), 'chest\t43 in\nhem depth\t2 in\nyoke rows\t60\t64\t68').done).toBe(true);
    expect(texts(session, 'k2')).toEqual(['43']);
    const added = session.page().sections[0]?.cells.map((id) => session.row(id).name);
    expect(added).toEqual([
      'stitch gauge',
      'chest',
      'hem depth',
      'yoke rows',
      'ease wanted',
      'body stitches',
    ]);
  });

  test('a pasted size line may have slashes and dashes', () => {
    const session = opened();
    session.paste(at('k4', 'c1'), '180/200/220 sts');
    expect(texts(session, 'k4')).toEqual(['180', '200', '220']);
    session.paste(at('k4', 'c1'), '180 [–, 220] sts');
    expect(texts(session, 'k4')).toEqual(['180', '', '220']);
  });

  test('a size line where there are no columns makes them', () => {
    const session = opened({
      notebook: notebookFrom(
        '{"ellwand":1,"id":"n2","title":"x","units":"in","sections":[{"id":"s1","title":"","cells":[{"id":"k1","name":"body","text":""}]}]}',
      ),
    });
    session.type(at('k1'), '176 (198, 220) sts');
    expect(session.page().columns.map((column) => column.label)).toEqual(['1', '2', '3']);
    expect(texts(session, 'k1')).toEqual(['176', '198', '220']);
  });
});

/** One thing a knitter might do, from a few numbers. */
type Deed = readonly [kind: number, a: number, b: number];
const TEXTS = [
  '18 st / 4 in',
  '22 st / 4 in',
  '38 in',
  '',
  '40 in',
  'chest * 2',
  '12 st',
  'finished_chest',
  '2 in +',
  'yes',
  '3 (4, 5) in',
  'stitch_gauge + 1',
];
const DEEDS: readonly ((session: Session, a: number, b: number) => unknown)[] = [
  (s, a, b) => s.type(place(s, a), TEXTS[b % TEXTS.length] ?? ''),
  (s, a, b) => s.nudge(place(s, a), (b % 5) - 2),
  (s) => s.undo(),
  (s) => s.redo(),
  (s) => s.keepTrial(),
  (s) => s.dropTrial(),
  (s, a, b) => s.renameCell(cellAt(s, a), `thing ${b % 4}`),
  (s, a) => s.deleteCell(cellAt(s, a)),
  (s, a, b) => s.addCell(s.page().sections[a % 2]?.id ?? '', null, `new ${b % 3}`, TEXTS[b % TEXTS.length]),
  (s, a) => s.duplicateCell(cellAt(s, a)),
  (s, a, b) => s.moveCell(cellAt(s, a), s.page().sections[b % 2]?.id ?? '', b % 3),
  (s, a, b) => (b % 3 === 0 ? s.choose('follow') : s.choose(s.page().columns[a % 3]?.id ?? '')),
  (s, a) => s.addColumn(`col ${a % 3}`, null),
  (s, a) => s.deleteColumn(s.page().columns[a % 4]?.id ?? ''),
  (s, a, b) => s.renameColumn(s.page().columns[a % 3]?.id ?? '', `size ${b % 4}`),
  (s, a) => s.setUnits(a % 2 === 0 ? 'in' : 'cm'),
  (s, a, b) => s.preview(place(s, a), b % 4 === 0 ? null : (TEXTS[b % TEXTS.length] ?? '')),
  (s, a, b) => s.setEach(cellAt(s, a), b % 2 === 0),
  (s, a, b) => s.setNote(cellAt(s, a), b % 2 === 0 ? 'a note' : ''),
  (s, a, b) => s.paste(place(s, a), TABLES[b % TABLES.length] ?? ''),
];
const TABLES = [
  '40 in\n12 st',
  'head\t52 cm\t58 cm',
  '\tS\tL\nchest\t40 in\t44 in',
  'ease\t2 in',
  '1\t2\t3\t4\t5\t6',
];

function cellAt(session: Session, a: number): string {
  const cells = session.page().sections.flatMap((section) => section.cells);
  return cells[a % Math.max(1, cells.length)] ?? 'gone';
}

function place(session: Session, a: number): Place {
  const cell = cellAt(session, a);
  const columns = session.page().columns;
  const { sheet } = session.live;
  const each = sheet.has(cell) && sheet.info(cell).each && columns.length > 0; // Worked out or typed, as the page has it.
  return at(cell, each ? (columns[a % columns.length]?.id ?? null) : null);
}

const deeds = fc.array(fc.tuple(fc.nat(DEEDS.length - 1), fc.nat(40), fc.nat(40)), { maxLength: 14 });
const run = (session: Session, [kind, a, b]: Deed) => DEEDS[kind]?.(session, a, b);
const runs = process.env['LONG'] ? 3000 : 150;
const patience = process.env['LONG'] ? 600_000 : 30_000;

describe('laws', { timeout: patience }, () => {
  test('whatever row changes is named in the news, and the page is told of whatever it shows', () => {
    fc.assert(
      fc.property(deeds, fc.boolean(), (list, isBegun) => {
        const session = opened();
        if (isBegun) session.tick('t1');
        const news: News[] = [];
        session.listen((one) => news.push(one));
        for (const deed of list) {
          const before = new Map(
            session
              .page()
              .sections.flatMap((s) => s.cells)
              .map((id) => [id, JSON.stringify(session.row(id))]),
          );
          const shape = JSON.stringify({ ...session.page(), trial: undefined });
          news.length = 0;
          run(session, deed);
          const named = new Set(news.flatMap((one) => [...one.rows]));
          const fresh = session.page().sections.flatMap((s) => s.cells);
          for (const id of fresh) {
            const row = JSON.stringify(fullRow(session, id));
            if (before.get(id) !== row && !named.has(id) && before.has(id))
              throw new Error(`${deed}: ${session.row(id).name} changed unsaid\n${before.get(id)}\n${row}`);
          }
          if (JSON.stringify({ ...session.page(), trial: undefined }) !== shape)
            expect(news.some((one) => one.page)).toBe(true);
        }
      }),
      { numRuns: runs },
    );
  });

  test('a session equals one opened afresh with what it keeps', () => {
    fc.assert(
      fc.property(deeds, (list) => {
        let kept: Kept | undefined;
        const session = opened({ keep: (one) => (kept = one) });
        for (const deed of list) run(session, deed);
        session.preview(at('k1'), null);
        if (!kept) return;
        const again = createSession({
          notebook: kept.notebook,
          history: kept.history,
          trial: kept.trial,
          today: 20_000,
          random: Math.random,
        });
        for (const id of session.page().sections.flatMap((s) => s.cells))
          expect(again.row(id)).toEqual(fullRow(session, id));
        expect({ ...again.page(), undo: '', redo: '' }).toEqual({ ...session.page(), undo: '', redo: '' });
      }),
      {
        numRuns: runs,
        // What a trial does was told in the order in which cells came to be, and a copied cell comes last.
        examples: [
          [
            [
              [1, 0, 0],
              [0, 28, 0],
              [9, 24, 0],
            ],
          ],
        ],
      },
    );
  });

  test('undoing everything gives the notebook it began with; doing it all again gives the end', () => {
    fc.assert(
      fc.property(deeds, (list) => {
        const session = opened();
        const start = writeNotebook(session.notebook);
        for (const deed of list) run(session, deed);
        session.dropTrial();
        while (session.page().redo !== '') session.redo();
        const end = writeNotebook(session.notebook);
        let steps = 0;
        while (session.page().undo !== '') {
          expect(session.undo().done).toBe(true);
          steps += 1;
        }
        expect(writeNotebook(session.notebook)).toBe(start);
        for (let i = 0; i < steps; i += 1) session.redo();
        expect(writeNotebook(session.notebook)).toBe(end);
      }),
      { numRuns: runs },
    );
  });
});

/** A row asked for with nothing remembered. */
function fullRow(session: Session, id: string) {
  (session as unknown as { rows: Map<string, unknown> }).rows.delete(id);
  return session.row(id);
}
