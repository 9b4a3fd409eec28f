// The same sheet at other values in one sweep, held against a copy in which those values were typed.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Explored, explore, exploring, type Replaced, type Sheet } from '../../src/sheet/index.ts';
import { anything, CELLS } from '../formula/expressions.ts';
import { type Given, sheetOf } from '../support/cells.ts';
import { patience, runs } from '../support/runs.ts';

/** Other texts for the typed cells. */
const OTHERS: Readonly<Record<string, readonly string[]>> = {
  chest: ['44 in', '30 in'],
  ease: ['0 in', '-1 in'],
  none: ['1 in'],
  body: ['180 (201, 240) st', '160 (198.5, 220) st'],
  widths: ['36 (41, 44) in', '38 (40, 50) in'],
  gauge: ['17.5 st / 4 in', '0 st / 4 in'],
  gauges: ['18 (20, 22) st / 4 in'],
  n: ['4', '0'],
};

/** A typed cell and another text for it. */
const change = fc
  .constantFrom(...Object.keys(OTHERS))
  .chain((id) => fc.record({ id: fc.constant(id), text: fc.constantFrom(...(OTHERS[id] ?? [])) }));

/** What `explore` is told for a cell that has another text: its lanes, in base units. */
function replaced(id: string, text: string): readonly Replaced[] {
  const sheet = sheetOf({ it: text });
  const width = sheet.info('it').each ? 3 : 1;
  return Array.from({ length: width }, (_, column) => {
    const value = sheet.value('it', column);
    return { id, column, value: value.kind === 'quantity' ? value.value : Number.NaN };
  });
}

const FOLLOW = 'nearest(widths, chest + ease)';

function sheetWith(formulas: readonly string[], given: Given): Sheet {
  const named = Object.fromEntries(formulas.map((text, i) => [`f${i}`, text]));
  return sheetOf({ ...given, follow: FOLLOW, ...named }, { choice: { follow: 'follow' } });
}

/** A lane as a number, with labels, truths and what has no value told apart. */
function plainly(sheet: Sheet, id: string, column: number): unknown {
  const value = sheet.value(id, column);
  if (value.kind === 'quantity') return value.value;
  if (value.kind === 'label') return value.text;
  return value.kind === 'truth' ? value.truth : Number.NaN;
}

function explored(value: ReturnType<Explored['value']>): unknown {
  if (value.kind === 'quantity') return value.value;
  if (value.kind === 'label') return value.text;
  return value.kind === 'truth' ? value.truth : Number.NaN;
}

describe('exploring', () => {
  test(
    'gives in each variant what typing the values would, and leaves the sheet as it is',
    () => {
      const texts = fc.array(anything, { minLength: 1, maxLength: 4 });
      fc.assert(
        fc.property(texts, fc.array(change, { minLength: 1, maxLength: 3 }), (formulas, changes) => {
          const sheet = sheetWith(formulas, CELLS);
          const before = sheet.cells.map((id) => [0, 1, 2].map((c) => plainly(sheet, id, c)));
          const asked = explore(
            sheet,
            changes.map(({ id, text }) => replaced(id, text)),
            false,
          );
          expect(sheet.cells.map((id) => [0, 1, 2].map((c) => plainly(sheet, id, c)))).toEqual(before);
          expect(asked.variants).toBe(changes.length + 1);
          changes.forEach(({ id, text }, v) => {
            const copy = sheetWith(formulas, { ...CELLS, [id]: text });
            for (const cell of sheet.cells)
              for (let c = 0; c < (sheet.info(cell).each ? 3 : 1); c += 1)
                expect(
                  explored(asked.value(cell, c, v + 1)),
                  `${cell}, column ${c}, ${id} = ${text}`,
                ).toEqual(plainly(copy, cell, c));
          });
          sheet.cells.forEach((id, i) => {
            const now = [0, 1, 2].map((c) => explored(asked.value(id, sheet.info(id).each ? c : 0, 0)));
            expect(now, `${id} as it is`).toEqual(before[i]);
          });
        }),
        runs(150, 5000),
      );
    },
    patience,
  );

  test(
    'in a room that was used before says the same, of everything or of what one cell hangs on',
    () => {
      const texts = fc.array(anything, { minLength: 1, maxLength: 4 });
      const changes = fc.array(change, { minLength: 1, maxLength: 4 });
      fc.assert(
        fc.property(texts, changes, changes, fc.boolean(), (formulas, first, then, held) => {
          const sheet = sheetWith(formulas, CELLS);
          const points = (list: typeof first) => list.map(({ id, text }) => replaced(id, text));
          for (const toward of [undefined, ...formulas.map((_, i) => `f${i}`)]) {
            const asked = explore(sheet, points(then), held, toward);
            exploring(sheet, points(first), held, undefined, () => undefined);
            const cells = toward === undefined ? sheet.cells : sheet.above(toward);
            const lanes = cells.flatMap((id) =>
              (sheet.info(id).each ? [0, 1, 2] : [0]).map((c) => ({ id, c })),
            );
            exploring(sheet, points(then), held, toward, (again) => {
              expect(again.variants).toBe(asked.variants);
              for (const { id, c } of lanes)
                for (let v = 0; v < asked.variants; v += 1)
                  expect([id, c, v, again.number(id, c, v)]).toEqual([id, c, v, asked.number(id, c, v)]);
            });
          }
        }),
        runs(60, 2000),
      );
    },
    patience,
  );

  test('several values at once', () => {
    const given = { a: '3 in', b: '4 in', sum: 'a + b' };
    const asked = explore(sheetOf(given), [[...replaced('a', '5 in'), ...replaced('b', '6 in')]], false);
    expect(asked.number('sum', 0, 1)).toBe(11 * 2540);
    expect(asked.number('sum', 0, 0)).toBe(7 * 2540);
  });

  test('on a pinned count changes nothing', () => {
    const sheet = sheetOf({ gauge: '18 st / 4 in', cast_on: 'whole(40 in * gauge)', half: 'cast_on / 2' });
    sheet.setPins(new Map([['cast_on', new Map([[0, '176 st']])]]));
    sheet.settle();
    expect(explore(sheet, [replaced('gauge', '20 st / 4 in')], false).number('half', 0, 1)).toBe(88);
  });
});

describe('exploring with counts held', () => {
  const JUMPER: Given = {
    gauge: '18 ± 0.5 st / 4 in',
    rows: '24 ± 0.5 row / 4 in',
    chest: '42 ± 1 in',
    ease: '2 in',
    cast_on: 'multiple((chest + ease) * gauge, 8)',
    width: 'cast_on / gauge',
    true_ease: 'width - chest',
    length_rows: 'whole(15 in * rows)',
    length: 'length_rows / rows',
    stepped: 'to_nearest(chest, 1/4 in)',
  };

  /** Half of what one uncertain value moves a cell by, in inches: (at its upper end − at its lower) / 2. */
  function effect(cell: string, of: string, low: string, high: string): number {
    const asked = explore(sheetOf(JUMPER), [replaced(of, low), replaced(of, high)], true);
    return (asked.number(cell, 0, 2) - asked.number(cell, 0, 1)) / 2 / 2540;
  }

  // By hand: 200 st at 17.5 and 18.5 st / 4 in are 45.714 and 43.243 in, half the difference of which is 1.2355 in.
  test.each([
    ['width', 'gauge', '17.5 st / 4 in', '18.5 st / 4 in', (200 / 18.5 - 200 / 17.5) * 2],
    ['width', 'chest', '41 in', '43 in', 0],
    ['true_ease', 'chest', '41 in', '43 in', -1],
    ['length', 'rows', '23.5 row / 4 in', '24.5 row / 4 in', (90 / 24.5 - 90 / 23.5) * 2],
    ['stepped', 'chest', '41 in', '43 in', 1],
    ['stepped', 'chest', '41.9 in', '42.1 in', 0.1],
  ])('%s moves with %s from %s to %s by %d in', (cell, of, low, high, inches) => {
    expect(effect(cell, of, low, high)).toBeCloseTo(inches, 9);
  });

  test('the count itself stays', () => {
    const asked = explore(sheetOf(JUMPER), [replaced('gauge', '17.5 st / 4 in')], true);
    expect([asked.number('cast_on', 0, 0), asked.number('cast_on', 0, 1)]).toEqual([200, 200]);
  });

  test('the chosen size and what nearest chose stay', () => {
    const given = {
      widths: '36 (40, 44) in',
      want: '40 in',
      follow: 'nearest(widths, want)',
      yours: 'chosen(widths)',
    };
    const sheet = sheetOf(given, { choice: { follow: 'follow' } });
    const held = explore(sheet, [replaced('want', '44 in')], true);
    const free = explore(sheet, [replaced('want', '44 in')], false);
    expect([held.number('yours', 0, 1), free.number('yours', 0, 1)]).toEqual([40 * 2540, 44 * 2540]);
    expect([held.value('follow', 0, 1), free.value('follow', 0, 1)]).toEqual([
      { kind: 'label', text: '2' },
      { kind: 'label', text: '3' },
    ]);
  });

  test(
    'is the same as not held where nothing is rounded or chosen',
    () => {
      fc.assert(
        fc.property(anything, change, (text, { id, text: other }) => {
          if (/whole|multiple|to_nearest|nearest|chosen/.test(text)) return;
          const sheet = sheetWith([text], CELLS);
          const [held, free] = [true, false].map((hold) => explore(sheet, [replaced(id, other)], hold));
          for (let c = 0; c < (sheet.info('f0').each ? 3 : 1); c += 1)
            expect(held?.number('f0', c, 1)).toBe(free?.number('f0', c, 1));
        }),
        runs(150, 5000),
      );
    },
    patience,
  );
});
