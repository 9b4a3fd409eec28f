/*
 * The chosen column: the one that plans and runs look at where a cell has a value for each. It is a node like a cell's,
 * with one lane that holds the column's number, so that whatever looks at it follows when it becomes another.
 */

import { EMPTY, problem } from '../formula/index.ts';
import type { Graph } from './graph.ts';
import { CHOSEN, type Lanes } from './lanes.ts';
import type { Names } from './names.ts';

/** How the chosen column is found: a cell names it, it is fixed (counted from 0), or there is none. */
export type Choice = { readonly follow: string } | { readonly column: number } | undefined;

/** Finds the chosen column. */
export class Chosen {
  constructor(
    public choice: Choice,
    private readonly graph: Graph,
    private readonly names: Names,
    private readonly lanes: Lanes,
  ) {}

  /** Its number, or −1. */
  get column(): number {
    const column = this.lanes.values[this.lanes.lane(CHOSEN, 0)] as number;
    return Number.isNaN(column) ? -1 : column;
  }

  /** The name of the cell it follows. */
  get follows(): string | undefined {
    return this.choice && 'follow' in this.choice ? this.choice.follow : undefined;
  }

  /** The node of that cell; undefined where there is none. */
  get followed(): number | undefined {
    const name = this.follows;
    return name === undefined ? undefined : this.names.named(name);
  }

  /** Says to the graph what it hangs on. */
  link(): void {
    const { followed } = this;
    this.graph.setUses(CHOSEN, followed === undefined ? [] : [followed]);
  }

  /** Finds it anew; gives whether it is another. */
  work(): boolean {
    const { choice, followed, lanes } = this;
    let column = -1;
    let reason = EMPTY;
    if (this.graph.ring(CHOSEN)) reason = lanes.reasons.broken(problem('circle', { ring: [] }));
    else if (choice && 'column' in choice) column = choice.column < lanes.columns.length ? choice.column : -1;
    else if (followed !== undefined && lanes.types[followed]?.kind === 'label' && !lanes.isEach(followed)) {
      column = lanes.columnOf(lanes.values[lanes.lane(followed, 0)] as number);
      reason = lanes.handedOn(followed, 0) || EMPTY;
    }
    const isThere = column >= 0;
    return lanes.keep(lanes.lane(CHOSEN, 0), isThere ? column : Number.NaN, isThere ? 0 : reason);
  }
}
