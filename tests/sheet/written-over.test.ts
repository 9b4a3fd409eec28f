// Numbers written over numbers are taken without reading the cell again; a sheet that was written so at once says the same.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { Sheet, type Text } from '../../src/sheet/index.ts';
import { checkSheet, snapshotOf } from '../support/check-sheet.ts';
import { patience, runs } from '../support/runs.ts';

const language = createLanguage(standard);

/** Numbers one would write over each other, and what looks nearly like one. */
const TEXTS = [
  ...['42 in', '41 in', '42.5 in', '0 in', '1234567890 in', '12345678901 in', '0.1 in', '42. in', '.5 in'],
  ...['42', '42 ', '42.5', '0', '7', '42in', '42  in', ' 42 in', '42 in ', '4 1/2 in', '-3 in', '42,5 in'],
  ...['3 st', '3.5 st', '4 st', '3 row', '3 rows', '107 cm', '1 in * 40', '18 st / 4 in', '50%', '7.5 %'],
  ...[
    '€5',
    '$5',
    '2 to 3',
    '42 in ± 1',
    '42 in ± 1 cm',
    '',
    'in',
    '"M"',
    'yes',
    '2026-12-24',
    'a',
    'b + 1',
    '3 (',
  ],
];
const FORMULAS = { c: 'a + b', d: 'whole(a / b)', e: 'a > b ? a : b', f: 'given(c, a, b) - c' };

type Edit =
  | { readonly name: 'a' | 'b'; readonly text: Text }
  | 'settle'
  | 'pin'
  | 'unpin'
  | 'rename'
  | 'money';

const text = (columns: number): fc.Arbitrary<Text> => {
  const one = fc.constantFrom(...TEXTS);
  const alike = fc.tuple(
    ...Array.from({ length: columns }, () => fc.constantFrom('42 in', '41 in', '40.5 in', '')),
  );
  const each = fc.array(one, { minLength: columns, maxLength: columns });
  return columns === 0 ? one : fc.oneof(one, alike, each);
};
const edits = (columns: number): fc.Arbitrary<readonly Edit[]> =>
  fc.array(
    fc.oneof(
      {
        weight: 6,
        arbitrary: fc.record({ name: fc.constantFrom('a' as const, 'b' as const), text: text(columns) }),
      },
      { weight: 4, arbitrary: fc.constant('settle' as const) },
      {
        weight: 1,
        arbitrary: fc.constantFrom('pin' as const, 'unpin' as const, 'rename' as const, 'money' as const),
      },
    ),
    { minLength: 5, maxLength: 30, size: 'max' },
  );

const labels = (columns: number) => Array.from({ length: columns }, (_, c) => `S${c + 1}`);

function sheetOf(columns: number, a: Text, b: Text, money: string): Sheet {
  const sheet = new Sheet({ language, columns: labels(columns), heading: 'size', today: 20_500, money });
  sheet.add('a', 'a', a);
  sheet.add('b', 'b', b);
  for (const [name, formula] of Object.entries(FORMULAS)) sheet.add(name, name, formula);
  return sheet;
}

/** Does the edits, and beside every settled sheet sets one that never held anything else. Gives how often a number was written over. */
function follow(columns: number, all: readonly Edit[]): number {
  const texts: Record<'a' | 'b', Text> = { a: '40 in', b: '2 in' };
  let money = '';
  let pinned = false;
  let over = 0;
  const sheet = sheetOf(columns, texts.a, texts.b, money);
  const pins = new Map([['a', new Map([[0, '39 in']])]]);
  sheet.settle();
  for (const one of [...all, 'settle' as const]) {
    if (typeof one === 'object') {
      sheet.setText(one.name, one.text);
      texts[one.name] = one.text;
      if (sheet['over'].node >= 0) over += 1;
    } else if (one === 'pin' || one === 'unpin') {
      pinned = one === 'pin';
      sheet.setPins(pinned ? pins : new Map());
    } else if (one === 'money') {
      money = money === '' ? '€' : '';
      sheet.setMoney(money);
    } else if (one === 'rename') {
      sheet.rename('b', 'other');
      sheet.rename('b', 'b');
    } else {
      sheet.settle();
      const fresh = sheetOf(columns, texts.a, texts.b, money);
      if (pinned) fresh.setPins(pins);
      fresh.settle();
      expect([...snapshotOf(sheet)]).toEqual([...snapshotOf(fresh)]);
      for (const id of ['a', 'b'])
        for (let c = 0; c < Math.max(1, columns); c += 1)
          expect(sheet.tolerance(id, c)).toBe(fresh.tolerance(id, c));
      checkSheet(sheet);
    }
  }
  return over;
}

describe('numbers written over numbers', () => {
  test.each([0, 1, 3])(
    'say what a sheet says that never held another: %i columns',
    (columns) => {
      let over = 0;
      fc.assert(
        fc.property(edits(columns), (all) => {
          over += follow(columns, all);
        }),
        runs(300, 5000),
      );
      expect(over, 'numbers were written over').toBeGreaterThan(50);
    },
    patience,
  );

  test(
    'of a cell that is written twice before it is settled, the last counts, whichever way each is read',
    () => {
      for (const first of TEXTS)
        for (const second of TEXTS)
          follow(0, [{ name: 'a', text: first }, { name: 'a', text: second }, 'settle']);
    },
    patience,
  );

  test('two cells written at once are both taken', () => {
    const sheet = sheetOf(0, '40 in', '2 in', '');
    sheet.settle();
    sheet.setText('a', '42 in');
    sheet.setText('b', '3 in');
    sheet.settle();
    expect(sheet.value('c')).toMatchObject({ value: 45 * 2540 });
  });
});
