// A unit is not said again after a name that ends with it: on the sheet, aloud and on paper. And what is a gauge on
// paper is known by its kind, whatever the cell is called.
import { describe, expect, test } from 'vitest';
import { createSession, type Session } from '../../src/session/index.ts';
import { notebookOf } from '../telling/sentences.ts';

const COLUMNS = { heading: 'size', list: ['S', 'M'].map((label, i) => ({ id: `c${i + 1}`, label })) };

function opened(cells: Readonly<Record<string, string>>): Session {
  const made = notebookOf(cells, { columns: COLUMNS, chosen: { column: 'c1' } });
  const sections = made.sections.map((section) => ({
    ...section,
    cells: section.cells.map(({ text = '', ...cell }) =>
      text.includes('|')
        ? { ...cell, each: Object.fromEntries(text.split('|').map((one, i) => [`c${i + 1}`, one.trim()])) }
        : { ...cell, text },
    ),
  }));
  return createSession({ notebook: { ...made, sections }, today: 20_000, random: () => 0.5 });
}

describe('a unit after a name that ends with it', () => {
  test.each([
    ['yoke_rows', '60 row | 63 row', ''],
    ['yoke_rows', '60 rnd | 63 rnd', ''],
    ['foot_rounds', '60 rnd | 63 rnd', ''],
    ['body_stitches', '184 st | 204 st', ''],
    ['cast_on', '184 st | 204 st', 'sts'],
    ['foot_rounds', '60 row | 63 row', 'rows'],
    ['chest', '34 in | 36 in', 'in'],
  ])('%s of %s is labelled with “%s”', (name, text, unit) => {
    expect(opened({ [name]: text }).row('k1').unit).toBe(unit);
  });

  test('on paper', () => {
    const rows = opened({ sleeve_rows: '107 row', cast_on: '200 st' })
      .paper()
      .sections.flatMap((section) => section.rows.map((row) => `${row.name}: ${row.value}`));
    expect(rows).toEqual(['sleeve rows: 107', 'cast on: 200 sts']);
  });

  test('aloud', () => {
    const session = opened({ sleeve_rows: '107 row', twice: 'sleeve_rows * 2' });
    const news: string[] = [];
    session.listen((one) => news.push(one.aloud));
    session.nudge({ cell: 'k1', column: null }, 1);
    expect(news.join(' ')).toContain('sleeve rows 108');
    expect(news.join(' ')).not.toContain('108 rows');
  });
});

test('on paper a gauge is what has stitches or rows to a length', () => {
  const { gauge, sections } = opened({
    my_square: '20 st / 4 in',
    rows_of_it: '28 row / 4 in',
    gauge_of_wire: '2 mm',
    off_by: '1/2 st / 4 in',
    half: 'my_square / 2',
  }).paper();
  expect(gauge.map(({ name }) => name)).toEqual(['my square', 'rows of it']);
  expect(sections.flatMap(({ rows }) => rows.map(({ name }) => name))).toEqual([
    'gauge of wire',
    'off by',
    'half',
  ]);
});
