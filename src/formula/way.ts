/*
 * The way of a wave, remembered. A knitter nudges one number again and again, and each time the same cells follow, in
 * the same order. The second time they are written down one behind the other, each with its code and the place of its
 * value (`sheet/way.ts`); from then on the wave goes straight along them (`along.ts`). Nothing is looked up, marked or
 * searched for, which takes longer than the arithmetic.
 *
 * It stops where a wave of `wave.ts` would. As long as every cell changed there is nothing to ask: whatever comes next
 * hangs on one that did. From the first that came out as it was, each step asks whether any that it uses changed.
 */

/** What follows from one cell, in order. A *step* is one of these cells. */
export interface Way {
  /** By step: its node. */
  readonly nodes: Int32Array;
  /** The code of every step, with the place of its value behind it. */
  readonly code: Int32Array;
  /** By step: where its code begins, and after the last where it ends. */
  readonly starts: Int32Array;
  /** By step: where the steps it uses begin in `uses`, and after the last where they end. */
  readonly spans: Int32Array;
  /** Steps counted from 1; 0 is the cell that all follow from. */
  readonly uses: Int32Array;
  /** Steps with one value and steps with one for each column take turns: one value up to the first of these, and so on. */
  readonly turns: readonly number[];
  /** Of steps counted so, which changed; written and read only while it is gone along. */
  readonly changed: Uint8Array;
}

/** How far a way has been gone. */
export interface Along {
  readonly way: Way;
  step: number;
  /** The step before which the turn ends. */
  until: number;
  /** Whether every step up to now changed. */
  all: boolean;
}

/** Whether any step that this one uses changed. */
export function follows({ spans, uses, changed }: Way, step: number): boolean {
  const end = spans[step + 1]!;
  for (let i = spans[step]!; i < end; i += 1) if (changed[uses[i]!] === 1) return true;
  return false;
}

/** Says that this step is the first that came out as it was. */
export function stays({ changed }: Way, step: number): void {
  changed.fill(1, 0, step + 1).fill(0, step + 1);
}
