/*
 * What was knitted. A lane that is *pinned*, on the needles, holds what was knitted, whatever its text gives; what it would
 * hold otherwise is kept beside it. Where a text has come to give another kind of thing, what was knitted says nothing.
 */

import type { Type, Worked } from '../formula/index.ts';
import * as FLAG from './flags.ts';
import type { Lanes } from './lanes.ts';
import { isAlike } from './value.ts';

/** The lanes that are pinned. A node with any has the flag PINNED. */
export class Pins {
  /** By node: what was knitted, by column. */
  private readonly knitted = new Map<number, Map<number, number>>();
  /** By node: the kind of what was knitted. */
  private readonly types = new Map<number, Type>();
  /** By lane: what it would hold; meaningful only while it is pinned. */
  private readonly wouldBe = new Map<number, Worked>();

  constructor(private readonly lanes: Lanes) {}

  get nodes(): readonly number[] {
    return [...this.knitted.keys()];
  }

  set(node: number, column: number, value: number, type: Type): void {
    const values = this.knitted.get(node) ?? new Map<number, number>();
    this.knitted.set(node, values.set(column, value));
    this.types.set(node, type);
    this.lanes.set(node, FLAG.PINNED, true);
  }

  remove(node: number): void {
    this.knitted.delete(node);
    this.types.delete(node);
    this.lanes.set(node, FLAG.PINNED, false);
  }

  /** The kind of what was knitted, for when the text gives none any more. */
  typeOf(node: number): Type | undefined {
    return this.types.get(node);
  }

  /** What was knitted of a cell, by column; not where its text has come to give another kind of thing. */
  of(node: number): ReadonlyMap<number, number> | undefined {
    if (!this.lanes.has(node, FLAG.PINNED)) return undefined;
    const type = this.types.get(node);
    return type && isAlike(type, this.lanes.types[node] as Type) ? this.knitted.get(node) : undefined;
  }

  /** What a lane holds instead of what was worked out, which is kept beside it; undefined where it is not pinned. */
  instead(node: number, column: number, value: number, reason: number): number | undefined {
    const pinned = this.of(node)?.get(column);
    if (pinned !== undefined) this.wouldBe.set(this.lanes.lane(node, column), { value, reason });
    return pinned;
  }

  /** What a pinned lane would hold if it were not pinned; undefined for any other. */
  otherwise(node: number, column: number): Worked | undefined {
    const lane = this.lanes.lane(node, column);
    return this.isPinned(node, column) ? this.wouldBe.get(lane) : undefined;
  }

  isPinned(node: number, column: number): boolean {
    return this.of(node)?.has(this.lanes.isEach(node) ? column : 0) ?? false;
  }
}
