// What a printed sentence names in quotes is a cell one looks for: it is on the same paper, for one column and for all.
import { describe, expect, test } from 'vitest';
import { spacedName } from '../../src/formula/index.ts';
import { createSession, type PaperView } from '../../src/session/index.ts';
import { notebookNames, openNotebook, TEST_DAY } from '../support/notebook.ts';

/** Every sentence on the paper. */
function sentences({ about, gauge, sections, withNotes, steps, findings, cautions, notes }: PaperView) {
  const rows = [...gauge, ...(withNotes ? sections.flatMap((section) => section.rows) : [])];
  const told = steps.steps
    .filter(({ applies }) => applies)
    .flatMap((step) => [step.text, ...step.lines.map(({ text }) => text), ...step.remarks, ...step.problems]);
  return [about, ...rows.map(({ note }) => note), ...told, ...findings, ...cautions, ...notes];
}

describe.each(notebookNames)('%s', (name) => {
  test.each([false, true])('every column at once: %s', (allSizes) => {
    const session = createSession({ notebook: openNotebook(name), today: TEST_DAY, random: () => 0.5 });
    const names = session.live.sheet.cells.map((id) => spacedName(session.live.sheet.nameOf(id)));
    const paper = session.paper({ allSizes });
    const printed = [...paper.gauge, ...paper.sections.flatMap(({ rows }) => rows)].map((row) => row.name);
    const quoted = sentences(paper).flatMap((text) =>
      [...text.matchAll(/[“‘"]([^“”‘’"]+)[”’"]/g)].map(([, inside = '']) => inside),
    );
    expect(quoted.filter((one) => names.includes(one) && !printed.includes(one))).toEqual([]);
  });
});
