import fc from 'fast-check';
import { createRoot, createSignal } from 'solid-js';
import { describe, expect, test } from 'vitest';
import { createBlocks, ROWS_IN_BLOCK, regrouped } from '../../src/views/grid/blocks.ts';

const names = (count: number, from = 0) => Array.from({ length: count }, (_, i) => `k${from + i}`);
const idsOf = (old: readonly (readonly string[])[], ids: readonly string[]) =>
  regrouped(old, ids).map((group) => group.ids);

describe('rows in blocks', () => {
  test('blocks are filled in order', () => {
    const groups = idsOf([], names(2 * ROWS_IN_BLOCK + 3));
    expect(groups.map((group) => group.length)).toEqual([ROWS_IN_BLOCK, ROWS_IN_BLOCK, 3]);
  });

  test('rows that come at the end fill the last block first', () => {
    const groups = idsOf([names(5)], names(ROWS_IN_BLOCK + 2));
    expect(groups.map((group) => group.length)).toEqual([ROWS_IN_BLOCK, 2]);
  });

  test('a row put in between moves no other row to another block', () => {
    const old = idsOf([], names(3 * ROWS_IN_BLOCK));
    const now = names(3 * ROWS_IN_BLOCK).toSpliced(4, 0, 'new');
    expect(idsOf(old, now)).toEqual([old[0]?.toSpliced(4, 0, 'new'), old[1], old[2]]);
  });

  test('whatever comes, goes or moves: every row once, in order, in blocks of a bounded size', () => {
    const list = fc.uniqueArray(fc.integer({ min: 0, max: 150 }).map(String), { maxLength: 120 });
    fc.assert(
      fc.property(list, list, list, (first, second, third) => {
        let groups: readonly (readonly string[])[] = [];
        for (const ids of [first, second, third]) {
          groups = idsOf(groups, ids);
          expect(groups.flat()).toEqual(ids);
          for (const group of groups) {
            expect(group.length).toBeGreaterThan(0);
            expect(group.length).toBeLessThanOrEqual(3 * ROWS_IN_BLOCK);
          }
        }
      }),
    );
  });

  test('a block stays the same object while rows come and go in it', () => {
    createRoot((end) => {
      const [ids, setIds] = createSignal(names(2 * ROWS_IN_BLOCK));
      const blocks = createBlocks(ids);
      const before = blocks();
      setIds((old) => old.toSpliced(3, 1));
      expect(blocks()).toHaveLength(2);
      expect(blocks()[0]).toBe(before[0]);
      expect(blocks()[1]).toBe(before[1]);
      expect(blocks()[0]?.ids()).toEqual(names(ROWS_IN_BLOCK).toSpliced(3, 1));
      end();
    });
  });
});
