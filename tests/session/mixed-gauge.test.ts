// Stitches by a row gauge, and rows by a stitch gauge: common practice, and the commonest slip of all; 96 sts at 24 to
// 10 cm are 40 cm, and by the row gauge they are nothing.
import { expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import { TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const CELLS = {
  pattern_stitch_gauge: '22 st / 10 cm',
  stitch_gauge: '24 st / 10 cm',
  row_gauge: '32 row / 10 cm',
  hat_stitches: '96 st',
  hat_rows: '64 row',
  around: '',
};

/** What is said when a text is typed for the width; undefined where nothing is. */
function said(text: string, cells: Readonly<Record<string, string>> = CELLS): string | undefined {
  const notebook = notebookOf(cells, { units: 'cm' });
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const outcome = session.type({ cell: session.live.sheet.idOf('around') ?? '', column: null }, text);
  expect(outcome.done).toBe(true);
  return outcome.done ? outcome.note : outcome.sentence;
}

test('one kind of count by the gauge of the other is kept, and the gauge that is likely meant is asked', () => {
  expect(said('hat_stitches / row_gauge')).toBe(
    'That divides stitches by a row gauge, which makes no length: did you mean “stitch gauge”?',
  );
  expect(said('hat rows / stitch gauge')).toMatch(/rows by a stitch gauge, .* did you mean “row gauge”\?$/);
  expect(said('hat_rows / pattern_stitch_gauge')).toMatch(/did you mean “row gauge”\?$/);
  const { stitch_gauge: _, pattern_stitch_gauge: _too, ...none } = CELLS;
  expect(said('hat_stitches / row_gauge', none)).toMatch(/did you mean a stitch gauge\?$/);
});

test('what makes a length or a count is not asked about', () => {
  expect(said('hat_stitches / stitch_gauge')).toBeUndefined();
  expect(said('hat_rows / row_gauge')).toBeUndefined();
  // An edging takes two rows for a stitch.
  expect(said('hat_stitches / row_gauge * 2 row / 1 st')).toBeUndefined();
  expect(said('hat_stitches / hat_rows')).toBeUndefined();
});
