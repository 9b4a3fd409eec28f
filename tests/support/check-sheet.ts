import { expect } from 'vitest';
import type { Sheet, Value } from '../../src/sheet/index.ts';

/** What a cell holds in every column, and what is known of it: everything a page can show of it. */
export interface Snapshot {
  readonly name: string;
  readonly typed: boolean;
  readonly each: boolean;
  readonly type: unknown;
  readonly values: readonly Value[];
}

/** Snapshots of every cell, by id. */
export function snapshotOf(sheet: Sheet): Map<string, Snapshot> {
  const columns = Math.max(1, sheet.columnLabels.length);
  return new Map(
    sheet.cells.map((id) => {
      const { type, each, typed } = sheet.info(id);
      const values = Array.from({ length: each ? columns : 1 }, (_, c) => sheet.value(id, c));
      return [id, { name: sheet.nameOf(id), typed, each, type, values }];
    }),
  );
}

function checkValue(sheet: Sheet, id: string, value: Value): void {
  const { type } = sheet.info(id);
  if (value.kind === 'quantity') {
    expect(Number.isFinite(value.value), `${id} is a number`).toBe(true);
    expect(type.kind).toBe('quantity');
  } else if (value.kind !== 'problem' && value.kind !== 'waiting' && value.kind !== 'empty')
    expect(type.kind, `${id} holds what its kind says`).toBe(value.kind);
  if (value.kind === 'waiting' && value.name !== '')
    expect(sheet.idOf(value.name), 'waits for a cell there is').toBeDefined();
}

/** Asserts what is always true of a settled sheet. */
export function checkSheet(sheet: Sheet): void {
  const { cells } = sheet;
  for (const id of cells) {
    expect(sheet.idOf(sheet.nameOf(id))).toBe(id);
    const width = sheet.info(id).each ? sheet.columnLabels.length : 1;
    for (let c = 0; c < width; c += 1) checkValue(sheet, id, sheet.value(id, c));
    if (!sheet.info(id).each) expect(sheet.value(id, 3)).toEqual(sheet.value(id, 0));
    for (const use of sheet.uses(id)) expect(sheet.usedBy(use)).toContain(id);
    for (const user of sheet.usedBy(id)) expect(sheet.uses(user)).toContain(id);
    const fed = new Set(sheet.feeds(id));
    for (const user of sheet.usedBy(id))
      if (user !== id) expect(fed.has(user), `${id} feeds ${user}`).toBe(true);
    expect(fed.has(id)).toBe(false);
  }
  expect(sheet.chosenColumn).toBeLessThan(sheet.columnLabels.length);
  const again = sheet.settle();
  expect([again.changed, again.ran], 'settling twice does nothing').toEqual([[], []]);
}
