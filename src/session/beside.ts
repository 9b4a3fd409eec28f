/*
 * Side by side: the notebook as it stands, what is being tried, trials put aside, and other sizes, each worked out on its
 * own, with what they come to in columns and what differs marked.
 */

import { outcomesIn } from '../doubt/index.ts';
import { spacedName } from '../formula/index.ts';
import type { Notebook } from '../notebook/index.ts';
import { printed } from '../quantity/index.ts';
import { overlayThere } from './aside.ts';
import { Live } from './live.ts';
import { printAt } from './show.ts';
import type { Trial } from './trial.ts';

/** Something that can stand beside something else. */
export interface BesideChoice {
  /** "now", "trial", "aside ID" or "column ID". */
  readonly key: string;
  /** "as it stands", "stitch gauge 18½ sts / 4 in", "size M", or her own name for a trial. */
  readonly title: string;
  /** For a trial with a name: what it changes; "" otherwise. */
  readonly changes: string;
}

/** One cell, in every column. */
export interface BesideRow {
  readonly id: string;
  readonly name: string;
  readonly section: string;
  readonly values: readonly { readonly text: string; readonly differs: boolean }[];
}

/** Two or more side by side. */
export interface BesideView {
  readonly columns: readonly BesideChoice[];
  /** Worked-out cells that differ, in the order of the page. */
  readonly rows: readonly BesideRow[];
  /** How many worked-out cells are the same in all. */
  readonly same: number;
}

/** What one of the columns is worked out from. */
export interface Beside extends BesideChoice {
  readonly trial: Trial | undefined;
  /** The column chosen instead of the notebook's own; absent for that. */
  readonly column?: string;
}

/** Works each of them out and sets them side by side. Some milliseconds each. */
export function besideView(live: Live, besides: readonly Beside[]): BesideView {
  const lives = besides.map((beside) => worked(live, beside));
  const ids = live.sheet.cells.filter((id) => !live.sheet.info(id).typed);
  const outcomes = outcomesIn(
    lives.map((one) => one.sheet),
    ids,
  );
  const sections = new Map(
    live.notebook.sections.flatMap(({ title, cells }) => cells.map((cell) => [cell.id, title] as const)),
  );
  const rows = outcomes.flatMap(({ id, lanes, values, differs }): BesideRow[] => {
    const texts = values.map((value, s) => {
      const [at, lane] = [lives[s], lanes[s]];
      return at && value && lane ? printed(printAt(at, id, lane.column, value)) || 'nothing' : '—';
    });
    const isSeen = differs.some((one, s) => one && texts[s] !== texts[0]);
    if (!isSeen) return [];
    const shown = texts.map((text, s) => ({ text, differs: text !== texts[0] && (differs[s] ?? false) }));
    return [{ id, name: spacedName(live.sheet.nameOf(id)), section: sections.get(id) ?? '', values: shown }];
  });
  return {
    columns: besides.map(({ key, title, changes }) => ({ key, title, changes })),
    rows: inOrder(rows, sections),
    same: ids.length - rows.length,
  };
}

function inOrder(rows: readonly BesideRow[], sections: ReadonlyMap<string, string>): readonly BesideRow[] {
  const at = new Map([...sections.keys()].map((id, i) => [id, i]));
  return rows.toSorted((a, b) => (at.get(a.id) ?? 0) - (at.get(b.id) ?? 0));
}

function worked(live: Live, { trial, column }: Beside): Live {
  const { notebook } = live;
  const chosen: Notebook = column === undefined ? notebook : { ...notebook, chosen: { column } };
  const made = new Live(chosen, Math.round(live.sheet.around.today / 1440));
  if (trial) made.setOverlays([overlayThere(made, trial)]);
  return made;
}
