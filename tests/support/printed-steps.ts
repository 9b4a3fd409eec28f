/* The steps of a prebuilt notebook as the page prints them, with some cells set. */

import { createSession } from '../../src/session/index.ts';
import { openNotebook, type Sets, TEST_DAY, withSets } from './notebook.ts';

/**
 * The steps that apply, numbered, one to a line, for a column (the chosen one where none is named). None of them may
 * hold back, unless it was said before the first what is wrong.
 */
export function printedSteps(name: string, sets: Sets = {}, column?: string): string {
  const opened = withSets(openNotebook(name), sets);
  const id = opened.columns?.list.find(({ label }) => label === column)?.id;
  const notebook = id === undefined ? opened : { ...opened, chosen: { column: id } };
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const steps = session.steps().steps.filter(({ applies }) => applies);
  const problems = steps.flatMap((step) => step.problems);
  if (problems.length > 0 && !steps[0]?.advice) throw new Error(problems.join('\n'));
  return steps.map(({ number, text }) => `${number}. ${text}`).join('\n');
}
