/* Lanes in words: where one stands on the page, and what it is called there. */

import type { Lane } from '../doubt/index.ts';
import { spacedName } from '../formula/index.ts';
import type { Live } from './live.ts';
import type { Place } from './page.ts';

/** The place of a lane, as the page addresses it. */
export function placeOf(live: Live, { id, column }: Lane): Place {
  return { cell: id, column: live.sheet.info(id).each ? (live.columns[column] ?? null) : null };
}

/** A lane in words: "girth, M". */
export function laneName(live: Live, { id, column }: Lane): string {
  const name = spacedName(live.sheet.nameOf(id));
  return live.sheet.info(id).each ? `${name}, ${live.sheet.columnLabels[column] ?? ''}` : name;
}
