// What is offered as a usual doubt: to what is measured with a tape, not to yarn told on a label or on a needle.
import { describe, expect, test } from 'vitest';
import { usualTolerances } from '../../src/doubt/index.ts';
import { Live } from '../../src/session/index.ts';
import { notebookOf } from '../telling/sentences.ts';

describe('usual doubts of a length (common practice)', () => {
  test.each([
    ['100 cm', 500],
    ['40 in', 635],
    ['4 cm', 200],
    ['900 m', undefined],
    ['1000 yd', undefined],
    ['4 mm', undefined],
  ])('%s', (text, off) => {
    const live = new Live(notebookOf({ length: text }), 0);
    const [usual] = usualTolerances(live.sheet, { id: 'k1', column: 0 });
    expect(usual?.off).toBe(off);
  });
});
