/* Beginning a notebook: from one that comes with the app, each a file that is fetched when asked for, or from nothing. */

import { isRefused, type Notebook, readNotebook, withDatesToCome } from '../notebook/index.ts';
import { chosenUnits } from './chosen-units.ts';
import { begunFrom, versionOf } from './prebuilt.ts';
import { todayHere } from './today.ts';

const files = import.meta.glob('../../notebooks/*.ellwand.json', {
  query: '?raw',
  import: 'default',
}) as Record<string, () => Promise<string>>;

/** Fetches a prebuilt notebook as it comes. Rejects where there is none or it cannot be fetched. */
export async function fetchPrebuilt(name: string): Promise<Notebook> {
  const load = files[`../../notebooks/${name}.ellwand.json`];
  if (!load) throw new Error(`there is no prebuilt notebook ${name}`);
  const read = readNotebook(await load());
  if (isRefused(read)) throw new Error(`prebuilt notebook ${name}: ${read.refused.code}`);
  return read.notebook;
}

/**
 * A prebuilt notebook as the beginning of one's own, in the units chosen last, its days still to come. Rejects as
 * `fetchPrebuilt` does.
 */
export async function beginFrom(name: string): Promise<Notebook> {
  const notebook = begunFrom(name, withDatesToCome(await fetchPrebuilt(name), todayHere()));
  return { ...notebook, units: chosenUnits() ?? notebook.units };
}

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
    units: chosenUnits() ?? (inchesHere() ? 'in' : 'cm'),
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
