/*
 * Working formulas out: their code, the machine that runs it, and what is kept of what came of it. Cells of the plain
 * case are worked out by the wave itself (`formula/wave.ts`), which sees the same code and lanes; they come here only
 * where they have no value, to be told why, or where their columns need what the wave leaves to the machine.
 */

import {
  compile,
  createPools,
  EMPTY,
  evaluate,
  type Field,
  Machine,
  type Node,
  walk,
} from '../formula/index.ts';
import * as FLAG from './flags.ts';
import type { Graph } from './graph.ts';
import type { Lanes } from './lanes.ts';
import { Lists } from './lists.ts';
import type { Pins } from './pins.ts';
import type { Setting } from './setting.ts';
import type { Texts } from './texts.ts';

/** Works nodes out by their code, and keeps what came of it. */
export class Working {
  /** By node; none where it is typed, or something is wrong with it. */
  readonly code = new Lists();
  private readonly pools = createPools();
  readonly machine: Machine;
  /** How many numbers wait at once at most. */
  private depth = 8;
  private scratch = new Float64Array(64);

  constructor(
    private readonly graph: Graph,
    private readonly lanes: Lanes,
    private readonly pins: Pins,
    private readonly texts: Texts,
    private readonly setting: Setting,
  ) {
    this.machine = new Machine(this.pools, lanes.store);
  }

  /** Gives a node the code of a formula in which nothing is wrong. */
  compile(node: number, tree: Node): void {
    const { code, depth } = compile(tree, this.setting, this.pools);
    this.code.set(node, code);
    this.depth = Math.max(this.depth, depth);
    this.reserve(Math.max(1, this.lanes.columns.length));
    this.lanes.set(node, FLAG.BRANCHES, isBranching(tree, this.setting));
  }

  /** Whether it is code that a node's values come from. */
  hasCode(node: number): boolean {
    return this.code.length(node) > 0;
  }

  /** Works a node that has code out in all its lanes; gives whether it changed. */
  work(node: number): boolean {
    const { lanes } = this;
    const { values, why } = lanes;
    const at = lanes.offsets[node]!;
    const width = lanes.width(node);
    if (this.scratch.length < width) this.scratch = new Float64Array(width * 2);
    const { scratch } = this;
    this.run(node, lanes.field, scratch, 0);
    const isPinned = lanes.has(node, FLAG.PINNED);
    let changed = false;
    for (let c = 0; c < width; c += 1) {
      const value = scratch[c]!;
      if (Number.isNaN(value)) changed = this.keep(node, c, value, this.why(node, c)) || changed;
      else if (isPinned) changed = this.keep(node, c, value, 0) || changed;
      else if (value !== values[at + c]) {
        values[at + c] = value;
        why[at + c] = 0;
        changed = true;
      }
    }
    return changed;
  }

  /** Runs a node's code on a field, and puts what it gives into `to` from `at` on. */
  run(node: number, field: Field, to: Float64Array, at: number): void {
    const { code } = this;
    this.machine.lanes(code.all, code.start(node), field.values, field, this.lanes.isEach(node), to, at);
  }

  /** Makes room for the formulas there are to be run on so many lanes at once. */
  reserve(lanes: number): void {
    this.machine.reserve(this.depth, lanes);
  }

  /** Keeps what was worked out for a lane, or beside it where it is pinned; gives whether the lane changed. */
  keep(node: number, column: number, value: number, reason: number): boolean {
    const { lanes } = this;
    const pinned = lanes.has(node, FLAG.PINNED) ? this.pins.instead(node, column, value, reason) : undefined;
    const lane = lanes.offsets[node]! + column;
    return pinned === undefined ? lanes.keep(lane, value, reason) : lanes.keep(lane, pinned, 0);
  }

  /** Why a lane came out without a value: the first of its cells that has none, or a look at the formula itself. */
  private why(node: number, column: number): number {
    if (!this.lanes.has(node, FLAG.BRANCHES))
      for (let i = 0; i < this.graph.useCount(node); i += 1) {
        const reason = this.lanes.handedOn(this.graph.use(node, i), column);
        if (reason !== 0) return reason;
      }
    const tree = this.texts.tree(node, 0);
    return tree ? evaluate(tree, column, this.setting).reason : EMPTY;
  }
}

/** Whether which cells matter depends on values: then the reason for no value is found by walking the tree. */
function isBranching(tree: Node, setting: Setting): boolean {
  let branches = false;
  walk(tree, (node) => {
    if (node.kind === 'if' || (node.kind === 'binary' && (node.op === 'and' || node.op === 'or')))
      branches = true;
    if (node.kind === 'call' && ['given', 'run'].includes(setting.spec(node.name)?.kind ?? ''))
      branches = true;
  });
  return branches;
}
