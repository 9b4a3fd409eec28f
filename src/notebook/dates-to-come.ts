/*
 * Days that a notebook gives as an example go by: a gift for last December is late before it is begun. All the days
 * typed in it are moved on together, by as many years as it takes, so that what lies between them stays.
 *
 * The days of one cell come together, one for each column, and the first of them counts. The last cell's day is the one
 * that must not have gone by: a baby may have been born, but what is knitted for it is still to be worn.
 */

import { allCells } from './changes/places.ts';
import type { Cell, Notebook } from './document.ts';
import { isDay } from './validate.ts';

/** A notebook with its days moved on by whole years, the fewest after which its last is not before `today`, a day number. */
export function withDatesToCome(notebook: Notebook, today: number): Notebook {
  const last = allCells(notebook).map(firstDay).sort().at(-1) ?? '';
  if (last === '') return notebook;
  const begun = textOfDay(today * 86_400_000);
  let years = 0;
  while (yearsOn(last, years) < begun) years += 1;
  if (years === 0) return notebook;
  const sections = notebook.sections.map((section) => ({
    ...section,
    cells: section.cells.map((cell) => movedOn(cell, years)),
  }));
  return { ...notebook, sections };
}

const textsOf = ({ text, each }: Cell): readonly string[] => [text ?? '', ...Object.values(each ?? {})];

/** The first day typed in a cell, "2026-12-24"; "" where it holds none. */
const firstDay = (cell: Cell): string => textsOf(cell).filter(isDay).sort()[0] ?? '';

const textOfDay = (time: number): string => new Date(time).toISOString().slice(0, 10);

/** The same day so many years later; 29 February is 1 March where there is none. Any other text stays. */
function yearsOn(text: string, years: number): string {
  if (!isDay(text)) return text;
  const day = new Date(text);
  return textOfDay(day.setUTCFullYear(day.getUTCFullYear() + years));
}

function movedOn(cell: Cell, years: number): Cell {
  if (firstDay(cell) === '') return cell;
  const { text, each } = cell;
  return {
    ...cell,
    ...(text === undefined ? {} : { text: yearsOn(text, years) }),
    ...(each && { each: Object.fromEntries(Object.entries(each).map(([c, t]) => [c, yearsOn(t, years)])) }),
  };
}
