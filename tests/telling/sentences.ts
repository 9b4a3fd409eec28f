import { formulaName, nameProblem } from '../../src/formula/index.ts';
import type { Cell, Notebook } from '../../src/notebook/index.ts';
import { Live } from '../../src/session/index.ts';
import { problemSentence } from '../../src/telling/index.ts';

/** A notebook of one section with these cells by name; several texts are those of its columns. */
export function notebookOf(
  texts: Readonly<Record<string, string | readonly string[]>>,
  more: Partial<Notebook> = {},
): Notebook {
  const columns = more.columns?.list ?? [];
  const cells = Object.entries(texts).map(([name, text], i): Cell => {
    const id = `k${i + 1}`;
    if (typeof text === 'string') return { id, name, text };
    return { id, name, each: Object.fromEntries(columns.map((column, c) => [column.id, text[c] ?? ''])) };
  });
  return {
    ellwand: 1,
    id: 'n1',
    title: 'A test',
    units: 'in',
    sections: [{ id: 's1', title: 'All', cells }],
    drawings: [],
    steps: [],
    sources: [],
    cautions: [],
    ...more,
  };
}

/** What is told of a formula among these cells: a sentence for each of its problems, none where it works. */
export function sentencesOf(text: string, cells: Readonly<Record<string, string>>): readonly string[] {
  const live = new Live(notebookOf({ ...cells, tested: text }), 0);
  const value = live.sheet.value(live.sheet.idOf('tested') ?? '');
  return value.kind === 'problem' ? [problemSentence(value.problem)] : [];
}

/** What is told of a name for a new cell among these; "" where it may be. */
sentencesOf.ofName = (name: string, cells: Readonly<Record<string, string>>): string => {
  const names = Object.keys(cells);
  const found = nameProblem(formulaName(name), (folded) => names.find((one) => one.toLowerCase() === folded));
  return found ? problemSentence(found) : '';
};
