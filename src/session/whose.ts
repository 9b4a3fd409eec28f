/*
 * Whose progress it is. Where the steps are told for the chosen column, as the wearer or the size, each column has progress
 * of its own; where they are the same whichever is chosen, there is one for all.
 */

import type { Change, Notebook, SetProgress } from '../notebook/index.ts';
import { columnTold } from './begun.ts';
import type { Live } from './live.ts';
import { askedBy, cellsNamed } from './step-text.ts';
import type { StepValues } from './step-values.ts';

/** The column whose progress goes on with what is knitted now; undefined where there is one for all. */
export const columnKnitted = (values: StepValues): string | undefined =>
  columnTold(values) ?? (hasOneEach(values.live) ? (values.live.columns[values.column] ?? '') : undefined);

/** What is done with the needles, as a change of that progress alone. */
export function knitOn(values: StepValues, what: Omit<SetProgress, 'kind'>): SetProgress {
  const column = columnKnitted(values);
  return { kind: 'set_progress', ...what, ...(column === undefined ? {} : { column, names: true }) };
}

/** Whose progress a change is of; undefined where it is of whichever column is chosen. */
export function whose(change: Change | undefined): string | undefined {
  if (change?.kind === 'together') return whose(change.changes[0]);
  return change?.kind === 'set_progress' ? change.column : undefined;
}

const known = new WeakMap<Notebook, boolean>();

/** Whether there are several columns and what is to be knitted hangs on which is chosen. */
function hasOneEach(live: Live): boolean {
  if (live.columns.length < 2) return false;
  const has = known.get(live.notebook) ?? hangsOnColumn(live);
  known.set(live.notebook, has);
  return has;
}

function hangsOnColumn({ sheet, notebook }: Live): boolean {
  const led = new Set(sheet.ledByChoice);
  return notebook.steps
    .filter(({ kind }) => kind !== 'advice')
    .flatMap(({ text, when }) => [...cellsNamed(text), ...(when === undefined ? [] : [askedBy(when).name])])
    .some((name) => {
      const id = sheet.idOf(name);
      return id !== undefined && (sheet.info(id).each || led.has(id));
    });
}
