/* The steps of a prebuilt notebook as the page prints them, with some cells set. */

import type { Notebook } from '../../src/notebook/index.ts';
import { createSession } from '../../src/session/index.ts';
import { openNotebook, type Sets, TEST_DAY } from './notebook.ts';

function withSets(notebook: Notebook, sets: Sets): Notebook {
  const sections = notebook.sections.map((section) => ({
    ...section,
    cells: section.cells.map((cell) => {
      const text = sets[cell.name];
      if (text === undefined) return cell;
      const { each: _each, ...rest } = cell;
      return { ...rest, text };
    }),
  }));
  return { ...notebook, sections };
}

/** The steps that apply, numbered, one to a line, for a column (the chosen one where none is named). */
export function printedSteps(name: string, sets: Sets = {}, column?: string): string {
  const opened = withSets(openNotebook(name), sets);
  const id = opened.columns?.list.find(({ label }) => label === column)?.id;
  const notebook = id === undefined ? opened : { ...opened, chosen: { column: id } };
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const steps = session.steps().steps.filter(({ applies }) => applies);
  const problems = steps.flatMap((step) => step.problems);
  if (problems.length > 0) throw new Error(problems.join('\n'));
  return steps.map(({ number, text }) => `${number}. ${text}`).join('\n');
}
