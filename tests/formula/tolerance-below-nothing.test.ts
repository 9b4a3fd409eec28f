// A tolerance on a value below nothing is read like any other: negative ease is measured too.

import { expect, test } from 'vitest';
import { brief, sheetOf } from '../support/cells.ts';

test.each([
  ['-1.5 ± 0.25 in', -3810, 635],
  ['-1.5 in ± 0.25', -3810, 635],
  ['−4 ± ½ cm', -4000, 500],
])('%s', (text, value, off) => {
  const sheet = sheetOf({ ease: text });
  expect(brief(sheet.value('ease'))).toBe(`${value} #1`);
  expect(sheet.tolerance('ease')).toBeCloseTo(off, 9);
});
