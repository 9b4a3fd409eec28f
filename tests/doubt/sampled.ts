/*
 * A sheet sampled: the uncertain values anywhere between their ends, each as likely as another, everything decided held.
 * For each lane: the least, the most and the standard deviation of what came out. Random numbers by a fixed rule
 * (mulberry32, public domain), so that a failing run can be run again.
 */

import type { Uncertain } from '../../src/doubt/index.ts';
import { keyOf } from '../../src/doubt/index.ts';
import { explore, type Sheet } from '../../src/sheet/index.ts';
import { lanesOf } from './generated.ts';

/** What was sampled of one lane. */
export interface Spread {
  least: number;
  most: number;
  sum: number;
  squares: number;
  count: number;
}

export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const BATCH = 500;

/** Samples all the lanes that hang on the uncertain ones. `held` false is the wrong way, for showing that it is found out. */
export function sampled(
  sheet: Sheet,
  uncertain: readonly Uncertain[],
  samples: number,
  held = true,
): ReadonlyMap<string, Spread> {
  const random = randomFrom(7);
  const fed = new Set(uncertain.flatMap(({ id }) => sheet.feeds(id)));
  const lanes = [...fed].flatMap((id) => lanesOf(sheet, id));
  const base = explore(sheet, [], held);
  const spreads = new Map<string, Spread>();
  for (let done = 0; done < samples; done += BATCH) {
    const points = Array.from({ length: Math.min(BATCH, samples - done) }, () =>
      uncertain.map((one) => ({ ...one, value: one.value + one.off * (2 * random() - 1) })),
    );
    const explored = explore(sheet, points, held);
    for (const { id, column } of lanes) {
      const key = keyOf(id, column);
      const spread = spreads.get(key) ?? { least: Infinity, most: -Infinity, sum: 0, squares: 0, count: 0 };
      spreads.set(key, spread);
      const middle = base.number(id, column, 0);
      for (let v = 1; v < explored.variants; v += 1) take(spread, explored.number(id, column, v), middle);
    }
  }
  return spreads;
}

function take(spread: Spread, number: number, middle: number): void {
  if (Number.isNaN(number) || Number.isNaN(middle)) return;
  spread.least = Math.min(spread.least, number);
  spread.most = Math.max(spread.most, number);
  spread.sum += number - middle;
  spread.squares += (number - middle) ** 2;
  spread.count += 1;
}

/** The standard deviation of what was sampled. */
export function deviation({ sum, squares, count }: Spread): number {
  return Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2));
}
