/*
 * A notebook opened for reading only, with some cells set: what the terminal door needs.
 */

import { formulaName } from '../formula/index.ts';
import { isRefused, type Notebook, type Refusal, type Remark, readNotebook } from '../notebook/index.ts';
import { refusalSentence, type TableSection } from '../telling/index.ts';
import { hasProblem, toJSON } from './json.ts';
import { dayOf, Live } from './live.ts';
import { unknownName } from './show.ts';
import { toTable } from './table.ts';
import { asFormula } from './written.ts';

/** What cannot be done, in one line. */
export interface Stop {
  readonly stop: string;
}

/** A notebook worked out, to be printed. */
export interface Asked {
  readonly title: string;
  readonly columns: readonly string[];
  readonly chosen: string | undefined;
  readonly sections: readonly TableSection[];
  readonly json: unknown;
  readonly hasProblem: boolean;
  readonly remarks: readonly Remark[];
}

export interface Asking {
  /** What is to be set, as `name=formula`, split at the first `=`. */
  readonly sets: readonly string[];
  readonly column?: string;
  /** The day `today()` gives, "2026-12-24". */
  readonly today?: string;
  /** Today's day number. */
  readonly day: number;
}

/** Why a file could not be read, in one line. */
export function refusalLine(refusal: Refusal): string {
  return refusalSentence(refusal);
}

function withText(notebook: Notebook, id: string, text: string): Notebook {
  const sections = notebook.sections.map((section) => ({
    ...section,
    cells: section.cells.map((cell) => {
      if (cell.id !== id) return cell;
      const { each: _each, ...rest } = cell;
      return { ...rest, text };
    }),
  }));
  return { ...notebook, sections };
}

function setOne(notebook: Notebook, live: Live, set: string): Notebook | Stop {
  const at = set.indexOf('=');
  if (at < 1) return { stop: `--set needs name=formula, not “${set}”` };
  const name = formulaName(set.slice(0, at));
  const id = live.sheet.idOf(name);
  if (id === undefined) return { stop: unknownName(live, name) };
  const text = asFormula(live, set.slice(at + 1).trim(), { cell: id, column: null });
  return withText(notebook, id, text);
}

function choose(notebook: Notebook, label: string): Notebook | Stop {
  const columns = notebook.columns?.list ?? [];
  const column = columns.find((one) => one.label.toLowerCase() === label.toLowerCase());
  if (column) return { ...notebook, chosen: { column: column.id } };
  const labels = columns.map((one) => one.label).join(', ');
  return {
    stop: labels ? `there is no column ${label}: there are ${labels}` : 'this notebook has no columns',
  };
}

/** Works a notebook file out with some cells set. */
export function ask(file: string | Uint8Array, asking: Asking): Asked | Stop {
  const read = readNotebook(file);
  if (isRefused(read)) return { stop: refusalLine(read.refused) };
  let notebook: Notebook | Stop = read.notebook;
  if (asking.today !== undefined) {
    if (dayOf(asking.today) === undefined)
      return { stop: `${asking.today} is not a day: write it as 2026-12-24` };
    notebook = { ...notebook, today: asking.today };
  }
  const plain = new Live(read.notebook, asking.day);
  for (const set of asking.sets) {
    notebook = setOne(notebook, plain, set);
    if ('stop' in notebook) return notebook;
  }
  if (asking.column !== undefined) notebook = choose(notebook, asking.column);
  if ('stop' in notebook) return notebook;
  const live = new Live(notebook, asking.day);
  return {
    title: notebook.title,
    columns: live.sheet.columnLabels,
    chosen: live.sheet.columnLabels[live.sheet.chosenColumn],
    sections: toTable(live),
    json: toJSON(live),
    hasProblem: hasProblem(live),
    remarks: read.remarks,
  };
}
