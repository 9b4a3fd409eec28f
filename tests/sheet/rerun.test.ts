// What runs again after an edit, as exact lists: the cells that hang on it and whose inputs really changed, no others.
import { describe, expect, test } from 'vitest';
import { brief, sheetOf } from '../support/cells.ts';
import { checkRerun } from './check-rerun.ts';

const JUMPER = {
  gauge: '20 st / 4 in',
  rows: '28 row / 4 in',
  chest: '41 in',
  ease: '3 in',
  wanted: 'chest + ease',
  exact: 'wanted * gauge',
  cast_on: 'multiple(exact, 8)',
  width: 'cast_on / gauge',
  true_ease: 'width - chest',
  length: '15 in',
  body_rows: 'whole(length * rows)',
};

describe('a typed value', () => {
  test('runs what hangs on it and nothing else', () => {
    checkRerun(sheetOf(JUMPER), (s) => s.setText('length', '16 in'), ['length', 'body_rows']);
  });

  test('stops where a rounded count came out as it was', () => {
    checkRerun(
      sheetOf(JUMPER),
      (s) => s.setText('ease', '3 1/8 in'),
      ['ease', 'wanted', 'exact', 'cast_on'],
      ['ease', 'wanted', 'exact'],
    );
  });

  test('goes on past the count where the gauge itself is used again', () => {
    checkRerun(
      sheetOf(JUMPER),
      (s) => s.setText('gauge', '20.1 st / 4 in'),
      ['gauge', 'exact', 'cast_on', 'width', 'true_ease'],
      ['gauge', 'exact', 'width', 'true_ease'],
    );
  });

  test('written otherwise but equal runs only itself', () => {
    checkRerun(sheetOf(JUMPER), (s) => s.setText('chest', '40 in + 1 in'), ['chest'], []);
  });

  test('that becomes a count of a fraction tells those that use it: nothing is decided any more', () => {
    const sheet = sheetOf({ body: '200 st', more: 'body + 8 st', half: 'more / 2' });
    checkRerun(sheet, (s) => s.setText('body', '200.5 st'), ['body', 'more', 'half']);
    expect(sheet.info('more').type).toMatchObject({ decided: false });
  });

  test('in one column runs each cell that hangs on it once', () => {
    const sheet = sheetOf({
      body: '180 (200, 220) st',
      gauge: '20 st / 4 in',
      width: 'body / gauge',
      far: '2 in',
    });
    checkRerun(sheet, (s) => s.setColumnText('body', 1, '204 st'), ['body', 'width']);
  });

  test('two at once run what hangs on both only once', () => {
    checkRerun(
      sheetOf(JUMPER),
      (s) => {
        s.setText('chest', '44 in');
        s.setText('ease', '0 in');
      },
      ['chest', 'ease', 'wanted', 'true_ease'],
      ['chest', 'ease', 'true_ease'],
    );
  });
});

describe('the chosen column', () => {
  const SIZES = {
    finished: '36 (40, 44) in',
    chest: '38.5 in',
    ease: '2 in',
    follow: 'nearest(finished, chest + ease)',
    your_chest: 'chosen(finished)',
    spare: 'your_chest - chest',
  };

  test('that stays chosen stops the wave', () => {
    const sheet = sheetOf(SIZES, { choice: { follow: 'follow' } });
    checkRerun(sheet, (s) => s.setText('ease', '2 1/2 in'), ['ease', 'follow'], ['ease']);
  });

  test('that becomes another runs what looks at it', () => {
    const sheet = sheetOf(SIZES, { choice: { follow: 'follow' } });
    checkRerun(sheet, (s) => s.setText('ease', '5 in'), ['ease', 'follow', 'your_chest', 'spare']);
    expect(brief(sheet.value('your_chest'))).toBe(brief(sheetOf({ x: '44 in' }).value('x')));
  });

  test('chosen by hand runs only what looks at it', () => {
    const sheet = sheetOf(SIZES, { choice: { column: 0 } });
    checkRerun(sheet, (s) => s.setChoice({ column: 2 }), ['your_chest', 'spare']);
    checkRerun(sheet, (s) => s.setChoice({ column: 2 }), []);
  });
});

describe('the day', () => {
  test('runs only what asks for it', () => {
    const sheet = sheetOf(
      { due: '2026-12-24', left: 'due - today()', n: '3', rate: 'left * n' },
      { today: 20_400 },
    );
    checkRerun(sheet, (s) => s.setToday(20_401), ['left', 'rate']);
    checkRerun(sheet, (s) => s.setToday(20_401), []);
  });
});

describe('a formula', () => {
  test('that is changed runs itself and what hangs on it', () => {
    checkRerun(sheetOf(JUMPER), (s) => s.setText('true_ease', 'width - chest - 1 in'), ['true_ease']);
    checkRerun(sheetOf(JUMPER), (s) => s.setText('cast_on', 'multiple(exact, 4)'), [
      'cast_on',
      'width',
      'true_ease',
    ]);
  });

  test('that is added or removed leaves the others alone', () => {
    const sheet = sheetOf(JUMPER);
    checkRerun(sheet, (s) => s.add('half', 'half', 'width / 2'), ['half']);
    checkRerun(sheet, (s) => s.remove('half'), []);
  });

  test('that loses a cell it uses says so, and finds it again', () => {
    const sheet = sheetOf(JUMPER);
    checkRerun(sheet, (s) => s.remove('length'), ['body_rows']);
    expect(brief(sheet.value('body_rows'))).toBe('problem unknown-name');
    checkRerun(sheet, (s) => s.add('l2', 'length', '15 in'), ['l2', 'body_rows']);
  });

  test('a name that comes makes an unknown name near', () => {
    const sheet = sheetOf({ x: 'chesst * 2' });
    expect(sheet.value('x')).toMatchObject({ problem: { code: 'unknown-name' } });
    checkRerun(sheet, (s) => s.add('chest', 'chest', '40 in'), ['x', 'chest']);
    expect(sheet.value('x')).toMatchObject({
      problem: { code: 'unknown-name-near', parts: { near: 'chest' } },
    });
  });
});
