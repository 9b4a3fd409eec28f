/* What a page says of the notebook's own texts, which no value moves: worked out once for each state of a notebook. */

import { spacedName } from '../formula/index.ts';
import { allCells, type Notebook } from '../notebook/index.ts';
import type { SectionView } from './page.ts';

/** What a page says that stays while only values move. */
export interface Unmoved {
  readonly sections: readonly SectionView[];
  /** The cell the chosen column can go back to following: the last it followed, or the first that names a column. */
  readonly couldFollow: string;
  /** Where each cell stands in the notebook, from 0. */
  readonly places: ReadonlyMap<string, number>;
}

/** The same answer for the same notebook, so that who compares can stop at once. */
export function unmovedOf(notebook: Notebook): Unmoved {
  let unmoved = known.get(notebook);
  if (!unmoved) {
    const places = new Map([...allCells(notebook)].map(({ id }, place) => [id, place]));
    unmoved = { sections: sectionsOf(notebook), couldFollow: couldFollow(notebook), places };
    known.set(notebook, unmoved);
  }
  return unmoved;
}

const known = new WeakMap<Notebook, Unmoved>();

function sectionsOf(notebook: Notebook): readonly SectionView[] {
  return notebook.sections.map(({ id, title, about = '', cells }) => ({
    id,
    title,
    about,
    cautions: notebook.cautions.filter((caution) => caution.for === id).map(({ text }) => text),
    cells: cells.map((cell) => cell.id),
  }));
}

function couldFollow(notebook: Notebook): string {
  if (!notebook.columns?.list.length) return '';
  const cells = [...allCells(notebook)].filter(({ text }) => /^\s*nearest\s*\(/.test(text ?? ''));
  const first = cells.find(({ name }) => name === 'size_to_follow') ?? cells[0];
  return first === undefined ? '' : spacedName(first.name);
}
