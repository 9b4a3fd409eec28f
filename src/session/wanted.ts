/*
 * What is wanted of a value, read as a knitter says it: a bare number in the unit the cell is shown in, a label with or
 * without quotes.
 */

import type { Lane, Wanted } from '../doubt/index.ts';
import { spacedName } from '../formula/index.ts';
import { printed, type Shown } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { problemSentence } from '../telling/index.ts';
import type { Live } from './live.ts';
import { meant } from './meant.ts';
import { printAt, unitAt } from './show.ts';

/** The unit a lane is shown in, by its kind where it holds nothing. */
export function unitIn(live: Live, lane: Lane, value: Value): Shown | undefined {
  const { type } = live.sheet.info(lane.id);
  if (type.kind !== 'quantity') return undefined;
  return unitAt(
    live,
    lane.id,
    lane.column,
    value.kind === 'quantity' ? value : { kind: 'quantity', value: 0, type },
  );
}

/** What was read, or a sentence that says how to say it. */
export type ReadWanted = Wanted | { readonly kind: 'refused'; readonly sentence: string };

/** Reads what is wanted: a bare number in the unit the cell is shown in, a label with or without quotes. */
export function wantedFrom(live: Live, lane: Lane, text: string): ReadWanted {
  const { type } = live.sheet.info(lane.id);
  const bare = text.trim();
  if (bare === '') return { kind: 'refused', sentence: 'Say what it is to be.' };
  if (type.kind === 'label') {
    const label = bare.replace(/^["“'](.*)["”']$/u, '$1');
    return { kind: 'label', value: live.sheet.around.store.label(label) };
  }
  const shown = unitIn(live, lane, live.sheet.value(lane.id, lane.column));
  const { parsed, checked } = live.sheet.look(meant(live, bare, shown && { shown, off: 0 }));
  if (parsed.kind === 'problem') return { kind: 'refused', sentence: problemSentence(parsed.problem) };
  if (parsed.kind === 'empty' || !parsed.typed || !checked)
    return { kind: 'refused', sentence: 'Say it as a value, not as a formula.' };
  const value = live.sheet.workOut(parsed.tree, 0);
  if (type.kind === 'truth' && value.kind === 'truth') return { kind: 'number', value: value.truth ? 1 : 0 };
  if (type.kind === 'date' && value.kind === 'date') return { kind: 'number', value: value.day * 1440 };
  if (type.kind === 'quantity' && value.kind === 'quantity' && value.type.dimension === type.dimension)
    return { kind: 'number', value: value.value };
  const like = printed(printAt(live, lane.id, lane.column, live.sheet.value(lane.id, lane.column)));
  const name = spacedName(live.sheet.nameOf(lane.id));
  return { kind: 'refused', sentence: `“${bare}” is not what ${name} is: say it like ${like}.` };
}
