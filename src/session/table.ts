/*
 * A worked-out notebook as a plain table: a line a cell, its values as printed, what is said beside it, and its note.
 */

import { spacedName } from '../formula/index.ts';
import type { Cell } from '../notebook/index.ts';
import { printed } from '../quantity/index.ts';
import type { Table, TableRow, TableSection, TableStep } from '../telling/index.ts';
import type { Live } from './live.ts';
import type { StepsView, StepView } from './page.ts';
import { printAt, printTolerance, saysAt } from './show.ts';

function rowOf(live: Live, { id, note = '' }: Cell): TableRow {
  const columns = live.sheet.info(id).each ? live.columns.length : 1;
  const values = Array.from({ length: columns }, (_, c) => {
    const value = live.sheet.value(id, c);
    const off = printTolerance(live, id, c, value);
    return printed(printAt(live, id, c, value)) + (off === '' ? '' : ` ${off}`);
  });
  const says = Array.from({ length: columns }, (_, c) => saysAt(live, id, c, live.sheet.value(id, c)));
  return {
    name: spacedName(live.sheet.nameOf(id)),
    values,
    says: [...new Set(says)].filter((s) => s !== ''),
    note,
  };
}

/** The notebook's sections as rows of text. */
export function toTable(live: Live): readonly TableSection[] {
  return live.notebook.sections.map((section) => ({
    title: section.title,
    rows: section.cells.map((cell) => rowOf(live, cell)),
  }));
}

/** The notebook as a table for other programs, with its notes and, where they are given, the steps that apply. */
export function tableFor(live: Live, { steps }: Pick<StepsView, 'steps'> = { steps: [] }): Table {
  const { title, columns } = live.notebook;
  return {
    title,
    heading: columns?.heading ?? '',
    columns: live.sheet.columnLabels,
    sections: toTable(live),
    steps: steps.filter(({ applies }) => applies).map(stepOf),
  };
}

function stepOf({ number, advice, runs, lines, sums, remarks }: StepView): TableStep {
  return {
    number: advice ? '' : `${number}`,
    words: runs.map(({ text }) => text).join(''),
    lines: [
      ...lines.map(({ label, text, after }) =>
        [label, text, after && `(${after})`].filter(Boolean).join(' '),
      ),
      ...sums,
      ...remarks,
    ],
  };
}
