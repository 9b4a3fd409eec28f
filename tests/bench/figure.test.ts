// How figures are compared, on figures that were made up: nothing is timed here.
import { describe, expect, test } from 'vitest';
import {
  type Figure,
  isReached,
  type Kept,
  keptOf,
  markdown,
  median,
  ratioOf,
  table,
  worseThan,
} from './figure.ts';
import { exponents, slope } from './growth.ts';

const figure = (ratio: number, more: Partial<Figure> = {}): Figure => ({
  name: 'an edit',
  ratio,
  spread: 0.1,
  better: 'less',
  ...more,
});

const kept = (...figures: readonly Figure[]): Kept =>
  keptOf(figures, { machine: 'a machine', date: '2026-01-02' });

/** What is said of one figure against the one kept before it. */
const told = (now: Figure, before: Figure) => worseThan([now], kept(before));

describe('a figure against the kept one', () => {
  test('fails where it is worse by more than a fifth and three times its spread', () => {
    expect(told(figure(2.6), figure(2))).toEqual(['worse than before: an edit: 2.60 ×, was 2.00 ×']);
    const more = { better: 'more' } as const;
    expect(told(figure(70, more), figure(100, more))).toHaveLength(1);
    expect(
      told(figure(300, { unit: 'bytes', spread: 0 }), figure(200, { unit: 'bytes', spread: 0 })),
    ).toEqual(['worse than before: an edit: 300.0 bytes, was 200.0 bytes']);
  });

  test('passes where it is better, however much', () => {
    expect(told(figure(0.1), figure(2))).toEqual([]);
    expect(told(figure(500, { better: 'more' }), figure(100, { better: 'more' }))).toEqual([]);
  });

  test('passes within a fifth', () => {
    expect(told(figure(2.4, { spread: 0 }), figure(2, { spread: 0 }))).toEqual([]);
    expect(told(figure(2.41, { spread: 0 }), figure(2, { spread: 0 }))).toHaveLength(1);
  });

  test('passes within three times the spread of either', () => {
    expect(told(figure(3, { spread: 0.4 }), figure(2))).toEqual([]);
    expect(told(figure(3), figure(2, { spread: 0.4 }))).toEqual([]);
    expect(told(figure(3, { spread: 0.3 }), figure(2, { spread: 0.3 }))).toHaveLength(1);
  });

  test('that was nothing fails as soon as it is something', () => {
    const cells = { unit: 'cells', spread: 0 };
    expect(told(figure(1, cells), figure(0, cells))).toHaveLength(1);
    expect(told(figure(0, cells), figure(0, cells))).toEqual([]);
  });

  test('is not told where it was not measured, now or then', () => {
    const none = figure(Number.NaN, { spread: Number.NaN });
    expect(told(none, figure(2))).toEqual([]);
    expect(told(figure(2), none)).toEqual([]);
    expect(Object.keys(kept(none).figures)).toEqual([]);
    expect(worseThan([figure(9, { name: 'new' })], kept(figure(1)))).toEqual([]);
  });

  test('is the same after it was written down and read again', () => {
    const before = JSON.parse(JSON.stringify(kept(figure(2, { aim: 3.5, note: 'why' })))) as Kept;
    expect(before).toEqual(kept(figure(2, { aim: 3.5, note: 'why' })));
    expect(worseThan([figure(2.6)], before)).toHaveLength(1);
  });
});

describe('a ratio', () => {
  test('is the median of the blocks, and its spread the median distance from it', () => {
    expect(median([5, 1, 3])).toBe(3);
    expect(ratioOf([2, 4, 90], [1, 1, 10])).toEqual({ ratio: 4, spread: 2 });
  });

  test('reaches its aim from the better side', () => {
    expect(isReached(figure(3.5, { aim: 3.5 }))).toBe(true);
    expect(isReached(figure(3.6, { aim: 3.5 }))).toBe(false);
    expect(isReached(figure(59, { aim: 60, better: 'more' }))).toBe(false);
    expect(isReached(figure(2))).toBeUndefined();
    expect(isReached(figure(Number.NaN, { aim: 2 }))).toBeUndefined();
  });
});

describe('growth', () => {
  test('is 1 along a straight line and 2 where it grows with the square', () => {
    const cost = (power: number) =>
      [100, 1000, 10_000].map((cells) => ({ cells, blocks: [3 * cells ** power, 5 * cells ** power] }));
    for (const power of [0, 1, 2])
      for (const one of exponents(cost(power))) expect(one).toBeCloseTo(power, 9);
    expect(
      slope([
        [0, 1],
        [1, 4],
        [2, 7],
      ]),
    ).toBeCloseTo(3, 12);
  });
});

describe('the tables', () => {
  const figures = [
    figure(2.345, { aim: 2.5 }),
    figure(80, { name: 'a peer', better: 'more', aim: 100 }),
    figure(1.04, { name: 'growth', unit: 'power' }),
    figure(Number.NaN, { name: 'left out', spread: Number.NaN, note: 'takes long' }),
  ];

  test('for a terminal have every figure', () => {
    expect(table(figures).split('\n')).toEqual([
      'an edit   2.35 ×  ± 0.10  ≤ 2.5  reached',
      'a peer    80.0 ×  ± 0.10  ≥ 100  missed',
      'growth    n^1.04  ± 0.10',
      'left out  —                               takes long',
    ]);
  });

  test('for a page have those with an aim, and growth', () => {
    expect(markdown(figures).split('\n')).toEqual([
      '| what | measured | spread | aim | |',
      '| --- | ---: | ---: | ---: | --- |',
      '| an edit | 2.35 × | ± 0.10 | ≤ 2.5 | reached |',
      '| a peer | 80.0 × | ± 0.10 | ≥ 100 | missed |',
      '| growth | n^1.04 | ± 0.10 |  |  |',
    ]);
  });
});
