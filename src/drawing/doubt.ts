/* How far off a number can be: one bar for each uncertain value, all on the scale of the number looked at. */

import { emptyPicture } from './parts.ts';
import type { Bar, Picture } from './picture.ts';

/** What one uncertain value does to the number looked at; `low`, `high` and `at` are in its own measure. */
export interface DoubtRow {
  /** The uncertain value's name, with its tolerance: "stitch gauge ± ½". */
  readonly name: string;
  readonly cell: string;
  readonly low: number;
  readonly high: number;
  readonly at: number;
  readonly lowText: string;
  readonly highText: string;
  /** True where it does nothing to the number. */
  readonly nothing: boolean;
}

/** Bars for a number, "finished chest, size S", from the rows of its doubt. */
export function doubtBars(about: string, rows: readonly DoubtRow[]): Picture {
  const title = `How far off can ${about} be?`;
  const sound = rows.filter((row) => [row.low, row.high, row.at].every(Number.isFinite));
  const leftOut = rows
    .filter((row) => !sound.includes(row))
    .map((row) => `What ${row.name} does cannot be drawn.`);
  const at = sound[0]?.at;
  if (at === undefined) return emptyPicture('doubt', title, leftOut);
  const ends = sound.flatMap(({ low, high }) => [low, high, at]);
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const air = (most - least) * 0.04 || Math.abs(at) * 0.05 || 1;
  return {
    kind: 'doubt',
    title,
    block: {
      kind: 'bars',
      from: least - air,
      to: most + air,
      rows: sound.map(barOf),
      rules: [{ at, text: '', role: 'value' }],
    },
    describe: sound.map(inWords),
    leftOut,
  };
}

function barOf({ name, cell, low, high, at, lowText, highText, nothing }: DoubtRow): Bar {
  const text = nothing ? 'nothing' : `${lowText} to ${highText}`;
  return {
    name: { text: name, cell },
    from: nothing ? at : low,
    to: nothing ? at : high,
    role: 'bar',
    text: { text },
  };
}

function inWords({ name, lowText, highText, nothing }: DoubtRow): string {
  return nothing ? `With ${name} it stays the same.` : `With ${name} it is ${lowText} to ${highText}.`;
}
