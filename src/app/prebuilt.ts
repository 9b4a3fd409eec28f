/* What the list says of the notebooks that come with the app. They themselves are fetched when asked for (`begin.ts`). */

import type { Notebook } from '../notebook/index.ts';

/** What the list says of a prebuilt notebook. */
export interface Prebuilt {
  /** Its file name without the ending: "resize-sweater". */
  readonly name: string;
  readonly title: string;
}

/** The order of the list, by how often a knitter needs each, and what it says. */
const TITLES: readonly (readonly [string, string])[] = [
  ['resize-sweater', 'Resize a sweater'],
  ['fit-sock', 'Fit a sock'],
  ['edge-shawl', 'Edge a shawl'],
  ['shape-sleeve', 'Shape a sleeve'],
  ['count-yarn', 'Count the yarn'],
  ['compare-swatches', 'Compare swatches'],
  ['adapt-length', 'Change a length'],
  ['round-yoke', 'Knit a round yoke'],
  ['raglan', 'Knit a raglan'],
  ['catch-floats', 'Catch the floats'],
  ['grow-shawl', 'Grow a shawl'],
  ['baby-set', 'Knit for a baby'],
  ['plan-gifts', 'Plan the gifts'],
  ['tally-season', 'Tally the season'],
];

/** The prebuilt notebooks there are. */
export const prebuilt: readonly Prebuilt[] = TITLES.map(([name, title]) => ({ name, title }));

/** The one a first visit begins with. */
export const FIRST = 'resize-sweater';

/** A prebuilt notebook says its version where it says what it is; 1 unless said. */
export const versionOf = (notebook: Notebook): number => notebook.from?.version ?? 1;

/** A prebuilt notebook as the beginning of one's own: it remembers what it was made from. */
export function begunFrom(name: string, notebook: Notebook): Notebook {
  return { ...notebook, from: { notebook: name, version: versionOf(notebook) } };
}
