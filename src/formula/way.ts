/*
 * The way of a wave, remembered. A knitter nudges one number again and again, and each time the same cells follow, in
 * the same order. The second time they are written down one behind the other, each with its code and the place of its
 * value (`sheet/way.ts`); from then on the wave goes straight along them (`along.ts`). Nothing is looked up, marked or
 * searched for, which takes longer than the arithmetic.
 *
 * It goes so far as every cell changed: then whatever comes next hangs on one that did, and there is nothing to ask. From
 * the first that came out as it was, the wave finds its way by itself again.
 */

/** What follows from one cell, in order. A *step* is one of these cells. */
export interface Way {
  /** By step: its node. */
  readonly nodes: Int32Array;
  /** By step: what `ran` takes where it changed. */
  readonly changes: Int32Array;
  /** The code of every step, with the place of its value behind it. */
  readonly code: Int32Array;
  /** By step: where its code begins, and after the last where it ends. */
  readonly starts: Int32Array;
  /** Steps with one value and steps with one for each column take turns: one value up to the first of these, and so on. */
  readonly turns: readonly number[];
}

/** How far a way has been gone. */
export interface Along {
  readonly way: Way;
  step: number;
  /** The step before which the turn ends. */
  until: number;
}
