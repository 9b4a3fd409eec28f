/*
 * The order of a graph, kept right while uses come and go, at a cost that grows with what must move rather than with
 * the sheet. (Found anew it is in `sort.ts`.)
 *
 * The words: a *rank* is a place in the order; a *gap* is a rank whose node is gone; the *dependents* of a node are
 * those that use it, kept by rank and as ranks, because that is how a wave goes through them.
 *
 * A use that comes is harmless where what is used already stands before its user. Where it stands behind, just what
 * lies between them and hangs together must move (Pearce and Kelly, "A dynamic topological sort algorithm for
 * directed acyclic graphs", 2006): what hangs on the user and what the used one hangs on share out the ranks that they
 * have among them, the latter first. Worked example: a b c d stand in this order, b uses a, d uses c, and now a comes
 * to use d. On a hangs b; d hangs on c; the ranks 0 to 3 go to c d a b.
 *
 * All lists of dependents lie in one array. A free slot in it holds FREE and belongs to nobody: a list grows into a
 * free slot right behind it, or else moves to the end, with some room, and leaves free slots behind.
 *
 * Always true, but within rings: a node's rank is higher than the ranks of what it uses.
 */

import { grown, type Lists } from './lists.ts';
import type { Users } from './sort.ts';

const FREE = -1;
const GAP = -1;

/** Nodes in order. What it cannot do, or not cheaply, it says by giving false: then all must be found anew. */
export class Order {
  /** By node. */
  private ranks: Int32Array = new Int32Array(64);
  private end = 0;
  private gaps = 0;
  private used = 0;
  /** How many nodes and dependents were looked at since the last `rest`. */
  private effort = 0;
  private nodesByRank: Int32Array = new Int32Array(64);
  private spansByRank: Int32Array = new Int32Array(128);
  private lists: Int32Array = new Int32Array(256).fill(FREE);

  /** `uses` are what each node uses; whoever changes them says so here. */
  constructor(private readonly uses: Lists) {}

  /** One past the highest rank. */
  get length(): number {
    return this.end;
  }
  rank(node: number): number {
    return this.ranks[node]!;
  }
  /** By rank: its node, or GAP. Only to be read, like those below, and until the next edit. */
  get nodes(): Int32Array {
    return this.nodesByRank;
  }
  /** By rank, two numbers: where its dependents begin in `dependents`, and where they end. */
  get spans(): Int32Array {
    return this.spansByRank;
  }
  /** The ranks of dependents, and what is FREE. */
  get dependents(): Int32Array {
    return this.lists;
  }
  /** Every node in order. */
  all(): Int32Array {
    const nodes = this.nodes.subarray(0, this.end);
    return this.gaps === 0 ? nodes : nodes.filter((node) => node !== GAP);
  }
  /** The ranks of what uses the node at a rank. */
  dependentsAt(rank: number): Int32Array {
    return this.dependents.subarray(this.spans[2 * rank]!, this.spans[2 * rank + 1]!);
  }

  /** Takes over an order found anew, of nodes below `count`. */
  renew(order: Int32Array, count: number, { first, all }: Users): void {
    this.nodesByRank = order;
    this.end = order.length;
    this.gaps = 0;
    if (this.ranks.length < count) this.ranks = new Int32Array(count);
    for (let at = 0; at < order.length; at += 1) this.ranks[order[at]!] = at;
    if (this.spans.length < 2 * order.length) this.spansByRank = new Int32Array(2 * order.length);
    const room = Math.ceil(all.length * 1.2) + 64;
    if (this.dependents.length < room) this.lists = new Int32Array(room);
    let to = 0;
    for (let at = 0; at < order.length; at += 1) {
      const node = order[at]!;
      const end = first[node + 1]!;
      this.spans[2 * at] = to;
      for (let i = first[node]!; i < end; i += 1) this.dependents[to++] = this.ranks[all[i]!]!;
      this.spans[2 * at + 1] = to;
    }
    this.used = to;
    this.dependents.fill(FREE, to);
    this.rest();
  }

  /** Says that what was looked at up to now is nobody's business any more. */
  rest(): void {
    this.effort = 0;
  }

  /** A new node without uses, last. */
  append(node: number): void {
    const at = this.end++;
    if (at >= this.nodes.length) {
      this.nodesByRank = grown(this.nodes, this.end);
      this.spansByRank = grown(this.spans, 2 * this.end);
    }
    if (node >= this.ranks.length) this.ranks = grown(this.ranks, node + 1);
    this.nodes[at] = node;
    this.ranks[node] = at;
    this.spans[2 * at] = this.spans[2 * at + 1] = this.used;
  }

  /** Takes a node without uses away. Not where something uses it still, nor where half of the order is gaps. */
  drop(node: number): boolean {
    const at = this.ranks[node]!;
    if (this.spans[2 * at] !== this.spans[2 * at + 1]) return false;
    this.nodes[at] = GAP;
    this.gaps += 1;
    for (; this.end > 0 && this.nodes[this.end - 1] === GAP; this.gaps -= 1) this.end -= 1;
    return this.gaps * 2 <= this.end;
  }

  /** `node` uses `use` no longer. That is always possible. */
  unlink(node: number, use: number): void {
    const list = this.dependentsAt(this.ranks[use]!);
    this.effort += list.length;
    const last = list.length - 1;
    list[list.indexOf(this.ranks[node]!)] = list[last]!;
    list[last] = FREE;
    this.spans[2 * this.ranks[use]! + 1]! -= 1;
  }

  /** `node` uses `use` from now on. Not where that makes a ring, nor where it costs as much as finding all anew. */
  link(node: number, use: number): boolean {
    const [low, high] = [this.ranks[node]!, this.ranks[use]!];
    if (low === high || this.isTooMuch()) return false;
    if (low < high && !this.moveBehind(low, high)) return false;
    return this.note(this.ranks[use]!, this.ranks[node]!);
  }

  /** Puts a rank among the dependents of another. */
  private note(at: number, dependent: number): boolean {
    const { spans } = this;
    let end = spans[2 * at + 1]!;
    if (this.dependents[end] !== FREE) {
      if (!this.moveList(at)) return false;
      end = spans[2 * at + 1]!;
    }
    this.dependents[end] = dependent;
    spans[2 * at + 1] = end + 1;
    this.used = Math.max(this.used, end + 1);
    return true;
  }

  /** Moves a list to the end, with room to grow. */
  private moveList(at: number): boolean {
    const { spans, dependents, used } = this;
    const [start, end] = [spans[2 * at]!, spans[2 * at + 1]!];
    const length = end - start;
    const room = length + (length >> 1) + 4;
    this.effort += length;
    if (used + room > dependents.length) return false;
    dependents.copyWithin(used, start, end);
    dependents.fill(FREE, start, end);
    spans[2 * at] = used;
    spans[2 * at + 1] = used + length;
    this.used = used + room;
    return true;
  }

  /** Moves the node at `low` and what hangs on it behind the one at `high`, within the ranks between. */
  private moveBehind(low: number, high: number): boolean {
    const after = this.hangingOn(low, high);
    const before = after && this.hungOnBy(high, low);
    if (!before) return false;
    const moved = [...before.sort(byNumber), ...after.sort(byNumber)];
    this.shareOut(moved, Int32Array.from(moved).sort(), low, high);
    return true;
  }

  /** Ranks up to `high` that hang on the one at `low`, itself with them. Undefined where `high` does: that is a ring. */
  private hangingOn(low: number, high: number): number[] | undefined {
    const seen = new Uint8Array(high - low);
    const found = [low];
    for (const at of found)
      for (const dependent of this.dependentsAt(at)) {
        if (dependent === high || this.isTooMuch()) return undefined;
        if (dependent > high || seen[dependent - low] === 1) continue;
        seen[dependent - low] = 1;
        found.push(dependent);
      }
    return found;
  }

  /** Ranks from `low` on that the one at `high` hangs on, itself with them. */
  private hungOnBy(high: number, low: number): number[] | undefined {
    const seen = new Uint8Array(high - low);
    const found = [high];
    for (const at of found) {
      const node = this.nodes[at]!;
      for (let i = this.uses.length(node) - 1; i >= 0; i -= 1) {
        const used = this.ranks[this.uses.at(node, i)]!;
        if (this.isTooMuch()) return undefined;
        if (used < low || seen[used - low] === 1) continue;
        seen[used - low] = 1;
        found.push(used);
      }
    }
    return found;
  }

  /** Counts one thing looked at; gives whether all could have been found anew for that. */
  private isTooMuch(): boolean {
    this.effort += 1;
    return this.effort > this.end + 64;
  }

  /** Gives the nodes at the ranks `from` the ranks `to`, one for one; all lie from `low` to `high`. */
  private shareOut(from: readonly number[], to: Int32Array, low: number, high: number): void {
    const { nodes, ranks, spans } = this;
    const moved = from.map((at) => [nodes[at]!, spans[2 * at]!, spans[2 * at + 1]!] as const);
    /** By rank from `low` on: one more than the rank it becomes; 0 where it stays. */
    const becomes = new Int32Array(high - low + 1);
    const used = new Set<number>();
    moved.forEach(([node, start, end], i) => {
      const at = to[i]!;
      becomes[from[i]! - low] = at + 1;
      nodes[at] = node;
      ranks[node] = at;
      spans[2 * at] = start;
      spans[2 * at + 1] = end;
      for (let k = this.uses.length(node) - 1; k >= 0; k -= 1) used.add(this.uses.at(node, k));
    });
    for (const use of used) this.renumber(this.dependentsAt(ranks[use]!), becomes, low);
  }

  private renumber(list: Int32Array, becomes: Int32Array, low: number): void {
    this.effort += list.length;
    for (let i = 0; i < list.length; i += 1) {
      const at = list[i]! - low;
      if (at >= 0 && at < becomes.length && becomes[at]! > 0) list[i] = becomes[at]! - 1;
    }
  }
}

const byNumber = (a: number, b: number): number => a - b;
