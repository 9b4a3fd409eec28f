// Two notebooks side by side: what is said of each difference, taking them one by one, and which values come out otherwise.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyChange, isRefused, type Notebook, writeNotebook } from '../../src/notebook/index.ts';
import { compareWith, createSession, summaryOf, takingAll, takingOf } from '../../src/session/index.ts';
import { TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const opened = (notebook: Notebook) => createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
const mine = notebookOf({
  gauge: '20 st / 4 in',
  chest: '40 in',
  count: 'whole(gauge * chest)',
  neck: '8 in',
});

/** What is said of `theirs` beside `mine`, a line a part: "kind where: what (label) mine → theirs". */
function said(theirs: Notebook): readonly string[] {
  return compareWith(opened(mine).live, opened(theirs).live).differences.flatMap(({ kind, what, parts }) =>
    parts.map((part) => `${kind}: ${what} (${part.label}) ${part.mine} → ${part.theirs}`),
  );
}

const theirs = (change: Parameters<typeof applyChange>[1]): Notebook => {
  const after = applyChange(mine, change);
  if (isRefused(after)) throw new Error(JSON.stringify(after));
  return after;
};
/** A notebook of these cells, in which a cell of one name is always the same cell. */
function byName(texts: Readonly<Record<string, string>>): Notebook {
  const notebook = notebookOf(texts);
  const sections = notebook.sections.map((section) => ({
    ...section,
    cells: section.cells.map((cell) => ({ ...cell, id: `k${cell.name}` })),
  }));
  return { ...notebook, sections };
}

const idOf = (name: string) =>
  mine.sections.flatMap(({ cells }) => cells).find((cell) => cell.name === name)?.id ?? '';

describe('two notebooks', () => {
  test('that are the same: nothing', () => {
    expect(compareWith(opened(mine).live, opened(mine).live)).toEqual({
      differences: [],
      moved: [],
      column: '',
    });
  });

  test('a text, and what follows from it', () => {
    const other = theirs({ kind: 'set_text', cell: idOf('gauge'), text: '18 st / 4 in' });
    expect(said(other)).toEqual(['changed: gauge (value) 20 st / 4 in → 18 st / 4 in']);
    expect(compareWith(opened(mine).live, opened(other).live).moved).toEqual([
      { name: 'count', mine: '200 sts', theirs: '180 sts' },
    ]);
  });

  test('a cell of theirs, a cell of ours, a title, a value that is no value', () => {
    const cell = { id: 'knew', name: 'cuff_width', text: '9 in' };
    const section = mine.sections[0]?.id ?? '';
    expect(said(theirs({ kind: 'add_cell', section, at: 0, cell }))).toEqual([
      'added: cuff width (value)  → 9 in',
    ]);
    expect(said(theirs({ kind: 'delete_cell', cell: idOf('neck') }))).toEqual([
      'removed: neck (value) 8 in → ',
    ]);
    expect(said(theirs({ kind: 'set_notebook', fields: { title: 'For Wren' } }))).toEqual([
      `changed: title () ${mine.title} → For Wren`,
    ]);
    const broken = theirs({ kind: 'set_text', cell: idOf('chest'), text: '40 st' });
    expect(compareWith(opened(mine).live, opened(broken).live).moved).toEqual([
      { name: 'count', mine: '200 sts', theirs: 'a problem' },
    ]);
  });

  test('of a cell of which more differs, each part is taken on its own', () => {
    const other = theirs({
      kind: 'together',
      title: 'try',
      changes: [
        { kind: 'set_text', cell: idOf('chest'), text: '42 in' },
        { kind: 'set_cell', cell: idOf('chest'), fields: { note: 'over a shirt' } },
      ],
    });
    const session = opened(mine);
    const [only] = compareWith(session.live, opened(other).live).differences;
    const change = takingOf(session.notebook, other, only?.key ?? '', 'note');
    if (!change) throw new Error('must be there to take');
    expect(session.do(change)).toEqual({ done: true });
    expect(said(session.notebook)).toEqual(['changed: chest (note)  → over a shirt']);
    expect(takingOf(session.notebook, session.notebook, only?.key ?? '')).toBeUndefined();
  });

  test('whatever differs, taken one by one or all at once, gives theirs; and undo gives ours again', () => {
    const texts = fc.dictionary(fc.constantFrom('a', 'b', 'c', 'd', 'e'), fc.constantFrom('1', '2', '3'));
    fc.assert(
      fc.property(texts, texts, (one, other) => {
        const [ours, others] = [byName(one), byName(other)];
        const session = opened(ours);
        const start = writeNotebook(session.notebook);
        let taken = 0;
        for (; taken < 40; taken += 1) {
          const [first] = compareWith(session.live, opened(others).live).differences;
          if (!first) break;
          const change = takingOf(session.notebook, others, first.key);
          if (!change) throw new Error(`nothing to take: ${first.key}`);
          expect(session.do(change)).toEqual({ done: true });
        }
        const byOne = writeNotebook(session.notebook);
        expect(byOne).toBe(writeNotebook({ ...others, id: ours.id }));
        for (; taken > 0; taken -= 1) session.undo();
        expect(writeNotebook(session.notebook)).toBe(start);
        session.do(takingAll(session.notebook, others, 'take all'));
        expect(writeNotebook(session.notebook)).toBe(byOne);
      }),
    );
  });
});

test('what a notebook is, in a few numbers', () => {
  expect(summaryOf(opened(mine).live)).toEqual({
    cells: 4,
    heading: '',
    columns: 0,
    results: ['count'],
    problems: 0,
  });
  const broken = notebookOf({ a: '1', b: 'a + c', d: 'a * 2' });
  expect(summaryOf(opened(broken).live)).toMatchObject({ results: ['b', 'd'], problems: 1 });
});
