// Bounds on formulas: whatever the sheet works out for values inside ranges lies in the bounds for these ranges.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  Bounds,
  between,
  isNothing,
  keyOf,
  laneOf,
  lanesTo,
  mayBe,
  only,
  type Range,
} from '../../src/doubt/index.ts';
import { explore, type Sheet } from '../../src/sheet/index.ts';
import { sheetOf } from '../support/cells.ts';
import { liveNotebook, notebookNames } from '../support/notebook.ts';
import { LONG, patience, runs } from '../support/runs.ts';
import { lanesOf, sheetFrom, sheets } from './generated.ts';

interface Ends {
  readonly id: string;
  readonly column: number;
  readonly from: number;
  readonly to: number;
}

/** What is wrong with a number against its bounds; undefined where it lies inside. */
function outside(sheet: Sheet, range: Range, number: number): string | undefined {
  if (Number.isNaN(number))
    return range.lacks ? undefined : 'there is no value, and the bounds say there is one';
  if (range.labels)
    return range.labels.some((label) => sheet.around.store.sameLabel(label, number))
      ? undefined
      : 'another label';
  return mayBe(range, number)
    ? undefined
    : `${number} is not in ${range.least} to ${range.most} ${range.few ?? ''}`;
}

/** What is wrong where counts and sizes are taken one by one; undefined where one of the turns holds the number. */
function missed(
  sheet: Sheet,
  bounds: Bounds,
  ranges: ReadonlyMap<string, Range>,
  number: number,
): string | undefined {
  return bounds.may(ranges, (range) => outside(sheet, range, number) === undefined)
    ? undefined
    : `${number} is not in any of the bounds taken one by one`;
}

/** Tries points of a box and gives the first number that lies outside the bounds told for it. */
function firstOutside(
  sheet: Sheet,
  box: readonly Ends[],
  shares: readonly (readonly number[])[],
  held: boolean,
  told = (ends: Ends): Range => between(ends.from, ends.to),
): string | undefined {
  const points = shares.map((share) =>
    box.map(({ id, column, from, to }, k) => ({ id, column, value: from + (to - from) * (share[k] ?? 0) })),
  );
  const explored = explore(sheet, points, held);
  const ranges = new Map(box.map((ends) => [keyOf(ends.id, ends.column), told(ends)]));
  for (const id of sheet.cells)
    for (const lane of sheet.info(id).typed ? [] : lanesOf(sheet, id)) {
      const bounds = new Bounds(sheet, lane, box, held);
      const { range } = bounds.of(ranges);
      for (let v = 1; v < explored.variants; v += 1) {
        const number = explored.number(id, lane.column, v);
        const wrong = outside(sheet, range, number) ?? missed(sheet, bounds, ranges, number);
        if (wrong) return `${id}, column ${lane.column} (${sheet.textOf(id)}): ${wrong}`;
      }
    }
  return undefined;
}

const MOVED = ['chest', 'ease', 'girths', 'gauge', 'tight', 'share', 'few', 'odd'];
const ends = fc.record({
  cell: fc.constantFrom(...MOVED),
  column: fc.nat(3),
  below: fc.constantFrom(0, 0.01, 0.3, 1, 1.2),
  above: fc.constantFrom(0, 0.02, 0.5, 3),
});
const share = fc.array(fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 1, 0.5)), {
  minLength: 3,
  maxLength: 3,
});

function boxOf(
  sheet: Sheet,
  moved: readonly { cell: string; column: number; below: number; above: number }[],
): Ends[] {
  const seen = new Map<string, Ends>();
  for (const { cell, column, below, above } of moved) {
    const lane = laneOf(sheet, cell, column);
    const value = sheet.value(lane.id, lane.column);
    const now = value.kind === 'quantity' ? value.value : 500;
    const size = Math.abs(now) || 500;
    seen.set(keyOf(lane.id, lane.column), { ...lane, from: now - size * below, to: now + size * above });
  }
  return [...seen.values()];
}

describe('bounds', () => {
  test(
    'hold whatever the sheet works out inside them',
    () => {
      const law = fc.property(
        sheets,
        fc.array(ends, { minLength: 1, maxLength: 3 }),
        fc.array(share, { minLength: 4, maxLength: 12 }),
        fc.boolean(),
        (data, moved, shares, held) => {
          const sheet = sheetFrom(data);
          expect(firstOutside(sheet, boxOf(sheet, moved), shares, held)).toBeUndefined();
        },
      );
      fc.assert(law, runs(400, 20_000));
    },
    patience,
  );

  test('that are too narrow are found out by the same test', () => {
    const sheet = sheetFrom([[2, 0, 0, 0, 0]]);
    const box = [{ id: 'gauge', column: 0, from: 0.0017, to: 0.0018 }];
    const shares = [[0], [0.5], [1]];
    expect(firstOutside(sheet, box, shares, false)).toBeUndefined();
    const narrow = ({ from, to }: Ends) => between(from + (to - from) * 0.1, to);
    expect(firstOutside(sheet, box, shares, false, narrow)).toMatch(/is not in/);
  });

  test(
    'of one number are that number',
    () => {
      const law = fc.property(sheets, fc.boolean(), (data, held) => {
        const sheet = sheetFrom(data);
        for (const id of sheet.cells)
          for (const lane of sheet.info(id).typed ? [] : lanesOf(sheet, id)) {
            const box = new Map(
              lanesTo(sheet, lane, held)
                .filter((one) => sheet.info(one.id).typed)
                .map(({ id: from, column, key }) => [
                  key,
                  only(explore(sheet, [], held).number(from, column, 0)),
                ]),
            );
            const { range } = new Bounds(sheet, lane, [], held).of(box);
            const number = explore(sheet, [], held).number(id, lane.column, 0);
            if (Number.isNaN(number)) expect(isNothing(range)).toBe(true);
            else if (!range.labels) expect([range.least, range.most]).toEqual([number, number]);
          }
      });
      fc.assert(law, runs(60, 2_000));
    },
    patience,
  );

  test.each(notebookNames)(
    'hold in %s, wherever its typed values go',
    (name) => {
      const { sheet } = liveNotebook(name);
      const typed = sheet.cells.filter(
        (id) => sheet.info(id).typed && sheet.info(id).type.kind === 'quantity',
      );
      const shares = [0, 0.13, 0.5, 0.77, 1].map((at) => [at]);
      const tried = LONG ? typed : typed.filter((_, i) => i % 7 === 0);
      for (const id of tried) {
        const value = sheet.value(id, Math.max(0, sheet.chosenColumn));
        if (value.kind !== 'quantity') continue;
        const lane = laneOf(sheet, id, Math.max(0, sheet.chosenColumn));
        for (const [less, more] of [
          [0, 4],
          [0.95, 1.05],
        ] as const) {
          const box = [{ ...lane, from: value.value * less, to: value.value * more }];
          for (const held of [false, true])
            expect(firstOutside(sheet, box, shares, held), id).toBeUndefined();
        }
      }
    },
    patience,
  );
});

describe('counts in bounds', () => {
  const around = (text: string, typed: string, from: number, to: number): Range => {
    const sheet = sheetOf({ x: typed, y: text });
    const box = new Map([[keyOf('x', 0), between(from, to)]]);
    return new Bounds(sheet, { id: 'y', column: 0 }, [{ id: 'x', column: 0 }], false).of(box).range;
  };

  test('are whole: between two multiples there is nothing', () => {
    const range = around('multiple(x, 8)', '200.5 st', 195, 210);
    expect(range.few).toEqual([192, 200, 208]);
    expect(mayBe(range, 203)).toBe(false);
  });

  test('stay apart when more is worked out from them', () => {
    expect(around('2 * whole(x) + 1 st', '3.5 st', 2.9, 4.2).few).toEqual([7, 9]);
    expect(around('x > 3 st ? 10 st : 20 st', '3.5 st', 2, 4).few).toEqual([10, 20]);
  });

  test('what is divided by what may be nothing goes on for ever on one side', () => {
    const range = around('10 st / x', '2', 0, 4);
    expect([range.least, range.most, range.lacks]).toEqual([
      expect.closeTo(2.5, 9),
      Number.POSITIVE_INFINITY,
      true,
    ]);
  });
});

describe('counts taken one by one', () => {
  /** Whether `y` may be a value while `x` is anywhere between two ends. */
  const mayCome = (cells: Readonly<Record<string, string>>, from: number, to: number, value: number) => {
    const sheet = sheetOf(cells);
    const bounds = new Bounds(sheet, { id: 'y', column: 0 }, [{ id: 'x', column: 0 }], false);
    const box = new Map([[keyOf('x', 0), between(from, to)]]);
    return {
      byRange: mayBe(bounds.of(box).range, value),
      oneByOne: bounds.may(box, (range) => mayBe(range, value)),
    };
  };

  test('a count is the same wherever it stands', () => {
    const halves = { x: '200 st', half: 'whole(x / 2)', y: '2 * half == half + half' };
    expect(mayCome(halves, 190, 204, 0)).toEqual({ byRange: true, oneByOne: false });
    expect(mayCome(halves, 190, 204, 1)).toEqual({ byRange: true, oneByOne: true });
  });

  test('so is a yes or no', () => {
    const ways = { x: '40 in', big: 'x > 40 in', y: '(big ? 3 st : 2 st) - (big ? 1 st : 2 st)' };
    expect(mayCome(ways, 90_000, 110_000, 1)).toEqual({ byRange: true, oneByOne: false });
    for (const value of [0, 2])
      expect(mayCome(ways, 90_000, 110_000, value)).toEqual({ byRange: true, oneByOne: true });
  });

  test('a size and whatever is read by it go together', () => {
    const sheet = sheetOf(
      {
        x: '41 in',
        made: '36 (40, 44) in',
        cast_on: '180 (200, 220) st',
        size: 'nearest(made, x)',
        y: 'at(cast_on, size) / at(made, size)',
      },
      { columns: ['S', 'M', 'L'] },
    );
    const bounds = new Bounds(sheet, { id: 'y', column: 0 }, [{ id: 'x', column: 0 }], false);
    const box = new Map([[keyOf('x', 0), between(30 * 2540, 50 * 2540)]]);
    const to = (stitches: number, inches: number) =>
      bounds.may(box, (range) => mayBe(range, stitches / (inches * 2540)));
    // Source: arithmetic. All three sizes come to 5 st to the inch; 220 st on 36 in would be another gauge.
    expect([to(5, 1), to(220, 36), to(4.9, 1)]).toEqual([true, false, false]);
  });
});

describe('counts too many to name', () => {
  const range = (text: string): Range => {
    const sheet = sheetOf({ x: '100 st', y: text });
    const box = new Map([[keyOf('x', 0), between(0, 4000)]]);
    return new Bounds(sheet, { id: 'y', column: 0 }, [{ id: 'x', column: 0 }], false).of(box).range;
  };

  test('are whole, whatever is added or taken, and whatever a stitch weighs', () => {
    expect(mayBe(range('whole(x)'), 1234)).toBe(true);
    expect(mayBe(range('whole(x)'), 1234.5)).toBe(false);
    expect([1234, 1235, 1236].map((value) => mayBe(range('multiple(x, 4) - 2 st'), value))).toEqual([
      true,
      false,
      false,
    ]);
    expect([7.5, 7.6].map((value) => mayBe(range('0.3 g * whole(x) / 1 st'), value))).toEqual([true, false]);
    expect([-7, -7.5].map((value) => mayBe(range('-whole(x)'), value))).toEqual([true, false]);
    expect([301, 300.5].map((value) => mayBe(range('max(whole(x), 300 st)'), value))).toEqual([true, false]);
    expect([301, 300.5].map((value) => mayBe(range('max(whole(x), 300.5 st)'), value))).toEqual([true, true]);
  });
});

describe('the smallest of columns', () => {
  test('is one of them, not something between', () => {
    const sheet = sheetOf(
      { made: '36 (40, 44) in', x: '41 in', y: 'largest(made <= x ? made : smallest(made))' },
      { columns: ['S', 'M', 'L'] },
    );
    const bounds = new Bounds(sheet, { id: 'y', column: 0 }, [{ id: 'x', column: 0 }], false);
    const box = new Map([[keyOf('x', 0), between(38 * 2540, 42 * 2540)]]);
    const may = (inches: number) => bounds.may(box, (range) => mayBe(range, inches * 2540));
    expect([36, 40, 38, 44].map(may)).toEqual([true, true, false, false]);
  });
});

describe('a slope in bounds', () => {
  test('is moved by the ends, not by the one in the middle', () => {
    const sheet = sheetOf(
      { needle: '3 (4, 5) mm', gauge: '24 (22, 20) st', y: 'slope(gauge, needle)' },
      { columns: ['a', 'b', 'c'] },
    );
    const by = (column: number) => {
      const bounds = new Bounds(sheet, { id: 'y', column: 0 }, [{ id: 'gauge', column }], false);
      const { least, most } = bounds.of(new Map([[keyOf('gauge', column), between(10, 30)]])).range;
      return [least * 100, most * 100];
    };
    // Source: arithmetic. (20 − 10) and (20 − 30) st over 2 mm; b's own needle is the mean of all.
    expect(by(0)).toEqual([expect.closeTo(-5, 9), expect.closeTo(5, 9)]);
    expect(by(1)).toEqual([expect.closeTo(-2, 9), expect.closeTo(-2, 9)]);
  });
});
