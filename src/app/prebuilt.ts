/*
 * The notebooks that come with the app. Each is a file of its own that is fetched when it is asked for; only what
 * the list says of it is here.
 */

import { isRefused, type Notebook, readNotebook } from '../notebook/index.ts';

const files = import.meta.glob('../../notebooks/*.ellwand.json', {
  query: '?raw',
  import: 'default',
}) as Record<string, () => Promise<string>>;

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

const pathOf = (name: string) => `../../notebooks/${name}.ellwand.json`;

/** The prebuilt notebooks there are. */
export const prebuilt: readonly Prebuilt[] = TITLES.filter(([name]) => pathOf(name) in files).map(
  ([name, title]) => ({ name, title }),
);

/** The one a first visit begins with. */
export const FIRST: string | undefined = prebuilt[0]?.name;

/** Fetches a prebuilt notebook as it comes. Rejects where there is none or it cannot be fetched. */
export async function fetchPrebuilt(name: string): Promise<Notebook> {
  const load = files[pathOf(name)];
  if (!load) throw new Error(`there is no prebuilt notebook ${name}`);
  const read = readNotebook(await load());
  if (isRefused(read)) throw new Error(`prebuilt notebook ${name}: ${read.refused.code}`);
  return read.notebook;
}

/** A prebuilt notebook as the beginning of one's own: it remembers what it was made from. */
export async function beginFrom(name: string): Promise<Notebook> {
  const notebook = await fetchPrebuilt(name);
  return { ...notebook, from: { notebook: name, version: versionOf(notebook) } };
}

/** A prebuilt notebook says its version where it says what it is; 1 unless said. */
const versionOf = (notebook: Notebook): number => notebook.from?.version ?? 1;

/** The prebuilt notebook of that name and version, for links that grow from it; undefined where there is none. */
export async function findPrebuilt(name: string, version: number): Promise<Notebook | undefined> {
  const notebook = await fetchPrebuilt(name).catch(() => undefined);
  return notebook && versionOf(notebook) === version ? notebook : undefined;
}

/** A notebook with nothing in it but a section to begin in. */
export function blankNotebook(): Notebook {
  return {
    ellwand: 1,
    id: 'blank',
    title: 'A new notebook',
    units: inchesHere() ? 'in' : 'cm',
    sections: [{ id: 's1', title: 'Gauge', about: 'Knit a square, wash it, then count.', cells: [] }],
    drawings: [],
    steps: [],
    sources: [],
    cautions: [],
  };
}

/** Whether inches are usual where the browser says it is. */
function inchesHere(): boolean {
  return /-(US|LR|MM)$/i.test(globalThis.navigator?.language ?? '');
}
