// What is remarked beside a value that is taken over the columns: each thing once.
import { expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import { notebookOf } from '../telling/sentences.ts';

const COLUMNS = { heading: 'size', list: ['S', 'M', 'L'].map((label, i) => ({ id: `c${i + 1}`, label })) };

/** What is said beside the spread of two rows, the first without a value for M. */
function saidBeside(spread: string, other: Readonly<Record<string, string>>): string {
  const made = notebookOf({ chest: '', hip: '', spread }, { columns: COLUMNS, chosen: { column: 'c1' } });
  const each = [{ c1: '34 in', c3: '38 in' }, other];
  const sections = made.sections.map((section) => ({
    ...section,
    cells: section.cells.map(({ text = '', ...cell }, i) =>
      i < each.length ? { ...cell, each: each[i] ?? {} } : { ...cell, text },
    ),
  }));
  const session = createSession({ notebook: { ...made, sections }, today: 20_000, random: () => 0.5 });
  return session
    .row(session.live.sheet.idOf('spread') ?? '')
    .values.map(({ says }) => says)
    .join(' | ');
}

test('a column that is empty is said once, however often the formula looks over the columns', () => {
  expect(saidBeside('largest(chest) - smallest(chest)', {})).toBe('without M: nothing there yet');
});

test('columns that differ are each said', () => {
  const said = saidBeside('largest(chest) - smallest(hip)', { c2: '40 in', c3: '42 in' });
  expect(said).toContain('without M: nothing there yet');
  expect(said).toContain('without S: nothing there yet');
});
