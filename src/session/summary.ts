/** What a notebook is, in a few numbers: for whoever has been sent one and has not kept it yet. */

import { spacedName } from '../formula/index.ts';
import type { Live } from './live.ts';

export interface Summary {
  readonly cells: number;
  /** "size" and how many there are; "" and 0 without columns. */
  readonly heading: string;
  readonly columns: number;
  /** What nothing else is worked out from: the names of its results, in the order of the page. */
  readonly results: readonly string[];
  /** How many cells have a problem. */
  readonly problems: number;
}

/** The summary of a notebook as it is worked out now. Linear in its values. */
export function summaryOf(live: Live): Summary {
  const { sheet } = live;
  const columns = live.columns.length;
  const isWrong = (id: string) =>
    Array.from({ length: sheet.info(id).each ? Math.max(1, columns) : 1 }, (_, c) => sheet.value(id, c)).some(
      ({ kind }) => kind === 'problem',
    );
  const results = sheet.cells.filter((id) => !sheet.info(id).typed && sheet.usedBy(id).length === 0);
  return {
    cells: sheet.cells.length,
    heading: live.notebook.columns?.heading ?? '',
    columns,
    results: results.map((id) => spacedName(sheet.nameOf(id))),
    problems: sheet.cells.filter(isWrong).length,
  };
}
