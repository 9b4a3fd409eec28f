// Circles, empty and broken columns, functions over the columns, columns that come and go, names that come and go,
// pins and tolerances.
import { describe, expect, test } from 'vitest';
import { nearestColumns, runAt } from '../../src/formula/index.ts';
import type { Sheet } from '../../src/sheet/index.ts';
import { brief, type Given, sheetOf } from '../support/cells.ts';
import { checkSheet } from '../support/check-sheet.ts';

const briefs = (sheet: Sheet, name: string, columns = 3): readonly string[] =>
  Array.from({ length: columns }, (_, c) => brief(sheet.value(name, c)));

/** What texts come to on a sheet of their own, in the same words. */
const like = (...texts: string[]): readonly string[] =>
  texts.map((text) =>
    text.includes(' for ') || text.startsWith('problem') || text === 'empty'
      ? text
      : brief(sheetOf({ it: text }).value('it')),
  );

describe('circles', () => {
  const ring = (sheet: Sheet, name: string) => {
    const value = sheet.value(name);
    return value.kind === 'problem' ? value.problem.parts['ring'] : brief(value);
  };

  test('of three tell the ring in order, each from itself on', () => {
    const sheet = sheetOf({
      cast_on: 'width',
      width: 'ease + 1 in',
      ease: 'cast_on',
      apart: '2 in',
      after: 'ease + apart',
    });
    expect(ring(sheet, 'cast_on')).toEqual(['cast_on', 'width', 'ease', 'cast_on']);
    expect(ring(sheet, 'width')).toEqual(['width', 'ease', 'cast_on', 'width']);
    expect(brief(sheet.value('after'))).toBe('waiting for ease');
    expect(briefs(sheet, 'apart', 1)).toEqual(like('2 in'));
    checkSheet(sheet);
    sheet.setText('ease', '3 in');
    sheet.settle();
    expect(briefs(sheet, 'after', 1)).toEqual(like('5 in'));
    expect(briefs(sheet, 'cast_on', 1)).toEqual(like('4 in'));
  });

  test('of one', () => {
    expect(ring(sheetOf({ chest: 'chest + 1 in' }), 'chest')).toEqual(['chest', 'chest']);
  });

  test('through the chosen size name it', () => {
    const sheet = sheetOf(
      { widths: '36 (40, 44) in', extra: 'chosen(widths) / 10', follow: 'nearest(widths, 40 in + extra)' },
      { choice: { follow: 'follow' } },
    );
    expect(ring(sheet, 'follow')).toEqual(['follow', 'extra', 'the chosen size', 'follow']);
    expect(ring(sheet, 'extra')).toEqual(['extra', 'the chosen size', 'follow', 'extra']);
    expect(sheet.chosenColumn).toBe(-1);
    sheet.setChoice({ column: 2 });
    sheet.settle();
    expect(briefs(sheet, 'follow', 1)).toEqual(['"3"']);
    checkSheet(sheet);
  });

  test('two that share a cell each tell their own way round', () => {
    const sheet = sheetOf({ hub: 'left + right', left: 'hub * 2', right: 'hub * 3' });
    expect(ring(sheet, 'left')).toEqual(['left', 'hub', 'left']);
    expect(ring(sheet, 'right')).toEqual(['right', 'hub', 'right']);
  });
});

describe('nothing typed', () => {
  test('waits calmly for the cell that is empty, however far off', () => {
    const sheet = sheetOf({ wrist: '', cuff: 'wrist + 1 in', rows: 'cuff * 2', there: 'given(wrist)' });
    expect([
      briefs(sheet, 'wrist', 1),
      briefs(sheet, 'cuff', 1),
      briefs(sheet, 'rows', 1),
      briefs(sheet, 'there', 1),
    ]).toEqual([['empty'], ['waiting for wrist'], ['waiting for wrist'], ['no']]);
    sheet.setText('wrist', '6 in');
    sheet.settle();
    expect(briefs(sheet, 'rows', 1)).toEqual(like('14 in'));
  });

  test('a problem is told once, and waited for', () => {
    const sheet = sheetOf({
      repeat: '0 in',
      width: '200 in * 1 in / repeat',
      half: 'width / 2',
      there: 'given(width)',
    });
    expect(sheet.value('width')).toMatchObject({ problem: { code: 'division-by-nothing' } });
    expect([briefs(sheet, 'half', 1), briefs(sheet, 'there', 1)]).toEqual([['waiting for width'], ['no']]);
  });

  test('an arm that is not taken is not waited for', () => {
    const sheet = sheetOf({
      own: '',
      theirs: '20 rows',
      rows: 'given(own) ? own : theirs',
      both: 'yes or own > 3 rows',
    });
    expect(briefs(sheet, 'rows', 1)).toEqual(like('20 rows'));
    expect(briefs(sheet, 'both', 1)).toEqual(['yes']);
  });
});

describe('columns', () => {
  const GAPS: Given = { body: '180 (, 220) st', repeat: '5 (0, 5) in' };

  test('an empty one waits by itself', () => {
    const sheet = sheetOf({ ...GAPS, width: 'body / (20 st / 4 in)' });
    expect(briefs(sheet, 'width')).toEqual(like('36 in', 'waiting for body', '44 in'));
  });

  test('a gauge is more than nothing, in each column', () => {
    const sheet = sheetOf({
      gauge: '20 (0, -20) st / 4 in',
      width: '200 st / gauge',
      less: 'gauge - 30 st / 4 in',
    });
    const broken = 'problem gauge-of-nothing';
    expect(briefs(sheet, 'gauge')).toEqual(like('20 st / 4 in', broken, broken));
    expect(briefs(sheet, 'width')).toEqual(like('40 in', 'waiting for gauge', 'waiting for gauge'));
    expect(sheet.value('less', 0)).toMatchObject({ kind: 'quantity' });
    sheet.setText('gauge', ['20 st / 4 in', '25 st / 4 in', '20 ± 1 st / 4 in']);
    sheet.settle();
    expect(briefs(sheet, 'width')).toEqual(like('40 in', '32 in', '40 in'));
  });

  test('a broken one is a problem by itself', () => {
    const sheet = sheetOf({ ...GAPS, width: '200 in * 1 in / repeat' });
    expect(briefs(sheet, 'width')).toEqual(like('40 in', 'problem division-by-nothing', '40 in'));
  });

  test('one that cannot be read leaves the others', () => {
    const sheet = sheetOf({ more: 'body + 8 st', body: '180 st' });
    sheet.setColumns(['S', 'M', 'L'], [-1, -1, -1]);
    sheet.setText('body', ['180 st', '12 stiches', '3 in']);
    sheet.settle();
    expect(briefs(sheet, 'body')).toEqual(like('180 st', 'problem unknown-unit', 'problem column-kind'));
    expect(briefs(sheet, 'more')).toEqual(like('188 st', 'waiting for body', 'waiting for body'));
    sheet.setText('body', ['180 st', 'more', '220 st']);
    sheet.settle();
    expect(brief(sheet.value('body', 1))).toBe('problem formula-in-column');
  });

  test('functions over them pass over the empty ones', () => {
    const sheet = sheetOf({
      ...GAPS,
      sum: 'total(body)',
      mean: 'average(body)',
      least: 'smallest(body)',
      running: 'total_up_to(body)',
      near: 'nearest(body, 210 st)',
      second: 'at(body, "2")',
      rate: 'slope(body, body * 2)',
    });
    expect(briefs(sheet, 'sum', 1)).toEqual(like('400 st'));
    expect(briefs(sheet, 'mean', 1)).toEqual(like('200 st'));
    expect(briefs(sheet, 'least', 1)).toEqual(like('180 st'));
    expect(briefs(sheet, 'running')).toEqual(like('180 st', '180 st', '400 st'));
    expect(briefs(sheet, 'near', 1)).toEqual(['"3"']);
    expect(briefs(sheet, 'second', 1)).toEqual(['waiting for body']);
    expect(briefs(sheet, 'rate', 1)).toEqual(like('0.5'));
  });

  test('functions over them name the one that is broken; those that look at one look only there', () => {
    const sheet = sheetOf({
      ...GAPS,
      width: '200 in * 1 in / repeat',
      sum: 'total(width)',
      third: 'at(width, "3")',
      second: 'at(width, "2")',
    });
    expect(sheet.value('sum')).toMatchObject({ problem: { code: 'broken-column', parts: { column: '2' } } });
    expect(briefs(sheet, 'third', 1)).toEqual(like('40 in'));
    expect(briefs(sheet, 'second', 1)).toEqual(['waiting for width']);
  });

  test('all of them empty are waited for', () => {
    const sheet = sheetOf({ body: '1 (2, 3) st', sum: 'total(body)', near: 'nearest(body, 1 st)' });
    sheet.setText('body', ['', '', '']);
    sheet.settle();
    expect([briefs(sheet, 'sum', 1), briefs(sheet, 'near', 1)]).toEqual([
      ['waiting for body'],
      ['waiting for body'],
    ]);
  });

  test.each([
    ['inches', '36 (40, 44) in', '38 in'],
    ['centimetres', '91.44 (101.6; 111.76) cm', '96.52 cm'],
    ['inches and centimetres', '36 (40, 44) in', '96.52 cm'],
    ['inches worked out', '36 (40, 44) in', '(12.7 in / 3 + 12.7 in / 3 + 12.7 in / 3) * (38 / 12.7)'],
    ['metres of yarn', '3600.1 (3600.3; 4000) m', '3600.2 m'],
  ])('a tie in nearest is the first, and is said to be one, in %s', (_, widths, target) => {
    const sheet = sheetOf({ widths, target, follow: 'nearest(widths, target)' });
    expect(briefs(sheet, 'follow', 1)).toEqual(['"1"']);
    const tree = sheet.tree('follow');
    const spec = sheet.spec('nearest');
    if (tree?.kind !== 'call' || spec?.kind !== 'run') throw new Error('not a call');
    expect(nearestColumns(runAt(spec, tree, 0, sheet.around).run)).toEqual([0, 1]);
  });

  test('come, go and change places with their values', () => {
    const sheet = sheetOf({
      body: '180 (200, 220) st',
      width: 'body / (20 st / 4 in)',
      your: 'chosen(width)',
      best: 'nearest(width, 40 in)',
    });
    sheet.setColumns(['L', 'S', 'new', 'M'], [2, 0, -1, 1]);
    sheet.settle();
    expect(briefs(sheet, 'width', 4)).toEqual(like('44 in', '36 in', 'waiting for body', '40 in'));
    expect(briefs(sheet, 'best', 1)).toEqual(['"M"']);
    expect(sheet.textOf('body')).toEqual(['220 st', '180 st', '', '200 st']);
    checkSheet(sheet);
    sheet.setColumns(['only'], [3]);
    sheet.settle();
    expect(briefs(sheet, 'width', 1)).toEqual(like('40 in'));
    sheet.setColumns([], []);
    sheet.settle();
    expect(brief(sheet.value('body'))).toBe('empty');
    expect(brief(sheet.value('best'))).toBe('problem no-columns');
    checkSheet(sheet);
  });

  test('a follow cell without a usable label chooses none, and chosen() waits', () => {
    const given = { widths: '36 (40, 44) in', pick: '"2"', your: 'chosen(widths)' };
    const sheet = sheetOf(given, { choice: { follow: 'pick' } });
    expect(sheet.chosenColumn).toBe(1);
    for (const text of ['"huge"', '', '3 in']) {
      sheet.setText('pick', text);
      sheet.settle();
      expect(sheet.chosenColumn).toBe(-1);
      expect(brief(sheet.value('your'))).toMatch(/^waiting for (pick)?$/);
    }
    sheet.setText('pick', '"3"');
    sheet.settle();
    expect(briefs(sheet, 'your', 1)).toEqual(like('44 in'));
  });
});

describe('names', () => {
  test('a cell renamed leaves its users without it; removed and added again it is found', () => {
    const sheet = sheetOf({ chest: '40 in', half: 'chest / 2' });
    sheet.rename('chest', 'bust');
    sheet.settle();
    expect(brief(sheet.value('half'))).toBe('problem unknown-name');
    sheet.setText('half', 'bust / 2');
    sheet.settle();
    expect(briefs(sheet, 'half', 1)).toEqual(like('20 in'));
    sheet.remove('chest');
    sheet.settle();
    expect(brief(sheet.value('half'))).toBe('problem unknown-name');
    sheet.add('again', 'bust', '44 in');
    sheet.settle();
    expect(briefs(sheet, 'half', 1)).toEqual(like('22 in'));
    checkSheet(sheet);
  });

  test('what waits for a renamed cell is told to have changed: it shows the new name', () => {
    const sheet = sheetOf({ wrist: '', cuff: 'wrist * 2', rows: 'cuff + 1 in' });
    sheet.rename('wrist', 'own_wrist');
    sheet.setText('cuff', 'own_wrist * 2');
    const { changed } = sheet.settle();
    expect(brief(sheet.value('rows'))).toBe('waiting for own_wrist');
    expect(changed).toContain('rows');
  });
});

describe('on the needles', () => {
  const SOCK: Given = {
    gauge: '8 st / in',
    round: '8 in',
    cast_on: 'multiple(round * gauge, 4)',
    half: 'cast_on / 2',
  };

  test('a pinned count stays whatever the gauge says, and what would be is known', () => {
    const sheet = sheetOf(SOCK);
    sheet.setPins(new Map([['cast_on', new Map([[0, '64 st']])]]));
    sheet.setText('gauge', '9 st / in');
    sheet.settle();
    expect(briefs(sheet, 'half', 1)).toEqual(like('32 st'));
    expect(sheet.isPinned('cast_on')).toBe(true);
    expect(brief(sheet.unpinned('cast_on'))).toBe(like('72 st')[0]);
    sheet.setPins(new Map());
    sheet.settle();
    expect(briefs(sheet, 'half', 1)).toEqual(like('36 st'));
    checkSheet(sheet);
  });

  test('a pinned count stays when its formula breaks or waits', () => {
    const sheet = sheetOf(SOCK);
    sheet.setPins(new Map([['cast_on', new Map([[0, '64 st']])]]));
    for (const text of ['multiple(round * gauge, 0)', 'round +', 'nowhere * 2', '']) {
      sheet.setText('cast_on', text);
      sheet.settle();
      expect(briefs(sheet, 'cast_on', 1), text).toEqual(like('64 st'));
      expect(briefs(sheet, 'half', 1), text).toEqual(like('32 st'));
    }
    sheet.setText('cast_on', 'multiple(round * gauge, 4)');
    sheet.setText('round', '');
    sheet.settle();
    expect(briefs(sheet, 'half', 1)).toEqual(like('32 st'));
  });

  test('one column may be pinned', () => {
    const sheet = sheetOf({
      widths: '7 (8, 9) in',
      cast_on: 'multiple(widths * 8 st / 1 in, 4)',
      half: 'cast_on / 2',
    });
    sheet.setPins(new Map([['cast_on', new Map([[1, '60 st']])]]));
    sheet.settle();
    expect(briefs(sheet, 'half')).toEqual(like('28 st', '30 st', '36 st'));
    expect([0, 1, 2].map((c) => sheet.isPinned('cast_on', c))).toEqual([false, true, false]);
  });
});

describe('tolerance', () => {
  test('is known by column and goes with the text', () => {
    const sheet = sheetOf({ gauge: '18 ± 0.5 st / 4 in', width: '200 st / gauge', widths: '36 (40, 44) in' });
    expect(sheet.tolerance('gauge')).toBeCloseTo(0.5 / 10_160, 12);
    expect(sheet.tolerance('width')).toBe(0);
    sheet.setText('widths', ['36 ± 1 in', '40 in', '44 ± 5% in']);
    sheet.settle();
    expect([sheet.tolerance('widths', 0), sheet.tolerance('widths', 1)]).toEqual([2540, 0]);
    sheet.setText('gauge', '18 st / 4 in');
    sheet.settle();
    expect(sheet.tolerance('gauge')).toBe(0);
  });
});
