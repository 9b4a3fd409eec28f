import { expect } from 'vitest';
import type { Sheet } from '../../src/sheet/index.ts';

/** Does one edit, settles, and checks the exact list of cells that were worked out, in the order of their ranks. */
export function checkRerun(
  sheet: Sheet,
  edit: (sheet: Sheet) => void,
  ran: readonly string[],
  changed: readonly string[] = ran,
): void {
  edit(sheet);
  const settled = sheet.settle();
  expect([...settled.ran].sort(), 'what ran').toEqual([...ran].sort());
  expect([...settled.changed].sort(), 'what changed').toEqual([...changed].sort());
}
