// The shapes of the formulas of prebuilt notebooks, each with how the parser groups it, for the built page: with them
// the first sheet does not wait for the parser. Each notebook is opened and its numbers are nudged, so that what nudging
// writes is among them.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { seen, writeGrouping } from '../src/formula/grouping.ts';
import { isRefused, readNotebook } from '../src/notebook/index.ts';
import { createSession, type Session } from '../src/session/index.ts';

const ENDING = '.ellwand.json';

/**
 * The shapes met in the notebooks of a folder, all of them or the one of that name, written as the page reads them.
 * Throws where a notebook cannot be read.
 */
export function knownShapes(folder: string, only?: string): Readonly<Record<string, string>> {
  for (const name of readdirSync(folder)) {
    if (!name.endsWith(ENDING) || (only !== undefined && name !== only + ENDING)) continue;
    const read = readNotebook(readFileSync(join(folder, name), 'utf8'));
    if (isRefused(read)) throw new Error(`${name}: ${read.refused.code}`);
    use(createSession({ notebook: read.notebook, today: 20_000, random: () => 0.5 }));
  }
  const known = [...seen()].map(([shape, grouping]) => [shape, writeGrouping(grouping)] as const);
  return Object.fromEntries(known.sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** Looks at everything the page shows of a notebook, then moves each typed number a little both ways. */
function use(session: Session): void {
  const { sheet } = session.live;
  const look = () => [
    session.page(),
    session.steps(),
    session.drawings(),
    sheet.cells.map((id) => session.row(id)),
  ];
  look();
  for (const cell of sheet.cells) {
    const column = session.live.cell(cell)?.each ? (session.live.columns[0] ?? null) : null;
    for (const by of [1, -1, -1]) session.nudge({ cell, column }, by);
  }
  look();
}
