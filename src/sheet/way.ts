/*
 * Which way is remembered: that of the cell which was edited alone and twice running, one at a time, for about 32 bytes a
 * cell that follows from it. It is laid when the wave has gone it, and holds until something moves: a cell, a use, a
 * formula, a kind. Where a cell on it is not plain there is none, and the wave finds its way as ever.
 */

import { type Cells, fetchWays, type Way, ways } from '../formula/index.ts';
import type { Graph } from './graph.ts';
import type { Lists } from './lists.ts';

/** What is remembered of the edits before. */
export class Trodden {
  /** The cell that was edited last, −1 where several were. */
  private last = -1;
  private source = -1;
  private version = -1;
  private way: Way | undefined;

  constructor(
    private readonly graph: Graph,
    private readonly cells: Cells,
    private readonly codes: Lists,
  ) {}

  /** The way from a node, where one is remembered and holds. */
  from(node: number): Way | undefined {
    return this.knows(node) ? this.way : undefined;
  }

  /** Says that a wave has gone from this node alone; from several, or where no way can hold, −1. */
  gone(node: number): void {
    const again = node >= 0 && node === this.last;
    this.last = node;
    if (!again || this.knows(node)) return;
    const along = ways();
    if (!along) return void fetchWays().catch(() => undefined); // Without it edits take a little longer.
    this.source = node;
    this.version = this.graph.version;
    this.way = wayFrom(node, this.graph, this.cells, this.codes, along.columnCode);
  }

  /** Says that something moved that no version tells of: a formula or a kind is another. */
  forget(): void {
    this.source = -1;
    this.way = undefined;
  }

  /** Whether it is known where the way from a node goes, or that there is none. */
  private knows(node: number): boolean {
    return node === this.source && this.version === this.graph.version;
  }
}

/** The way that follows from a node; undefined where something on it is not plain. */
function wayFrom(
  source: number,
  graph: Graph,
  cells: Cells,
  codes: Lists,
  columnCode: (code: readonly number[]) => readonly number[],
): Way | undefined {
  const nodes = new Int32Array(graph.below([source])).subarray(1);
  const { flags, slow, each, places } = cells;
  if (nodes.some((node) => (flags[node]! & slow) !== 0)) return undefined;
  const code: number[] = [];
  const starts = new Int32Array(nodes.length + 1);
  const turns: number[] = [];
  nodes.forEach((node, step) => {
    const isEach = (flags[node]! & each) !== 0;
    if (isEach !== (turns.length % 2 === 1)) turns.push(step);
    const own = Array.from({ length: codes.length(node) }, (_, i) => codes.at(node, i));
    code.push(...(isEach ? columnCode(own) : own));
    starts[step + 1] = code.push(places[node]!);
  });
  const changes = nodes.map((node) => 2 * node + 1);
  return { nodes, changes, code: new Int32Array(code), starts, turns: [...turns, nodes.length] };
}
