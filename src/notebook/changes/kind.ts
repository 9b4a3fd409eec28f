/*
 * A change is data: its kind and what it does, in ids and texts. Each kind has a file of its own with its whole life:
 *   apply   the new notebook, or why it cannot be (another tab may have taken the cell away meanwhile);
 *   invert  the change that takes it back, told from the notebook *before* it;
 *   toJSON, fromJSON  as it is kept and sent to other tabs;
 *   title   what it does, in the knitter's words: "change stitch gauge".
 * `apply` only ever sees changes that have passed through `fromJSON`, so that whatever is applied can be kept and read back.
 * Places are clamped: "at 7" in a list of three is at its end.
 */
import type { Notebook } from '../document.ts';
import type { Refused } from '../remark.ts';
import type { Shape } from '../shape.ts';

/** Any change, known by its kind. */
export interface AnyChange {
  readonly kind: string;
}

/** One kind of change. `I` is the kind that takes it back. */
export interface ChangeKind<C extends AnyChange, I extends AnyChange = C> {
  readonly kind: C['kind'];
  readonly title: (change: C, old: Notebook) => string;
  readonly apply: (old: Notebook, change: C) => Notebook | Refused;
  readonly invert: (old: Notebook, change: C) => I;
  readonly toJSON: (change: C) => unknown;
  /** Undefined where a key is missing; a key of the wrong kind makes a remark, which refuses the change. */
  readonly fromJSON: (shape: Shape) => C | undefined;
  /** Ticks and counters: not undone with the edits. */
  readonly outsideHistory?: true;
}

/** A name as it is shown: "stitch gauge". */
export const spoken = (name: string): string => name.replaceAll('_', ' ');
