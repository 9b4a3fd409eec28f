/*
 * The graph of a sheet: which node uses which. It knows nothing of formulas. It is told what each node uses; it
 * keeps an order in which everything comes after what it uses, marks what may have changed, and works nodes out in
 * that order by asking `recompute`, which says whether the node's value changed. Where it did not, the wave stops.
 *
 * Always true after `reorder`:
 * - every living node has one rank, higher than the ranks of what it uses, but for what is in one ring with it;
 * - a node is in a ring exactly when it can be reached from itself; the nodes of a ring have ranks side by side;
 * - `dependents` of a node are exactly the nodes that use it.
 * Always true after `sweep`: no node is dirty or marked.
 */

import type { Wave } from '../formula/index.ts';
import { grown, Lists } from './lists.ts';

/** Goes through a wave: works out every dirty node in order, and marks what hangs on those that changed. */
export type Goes = (wave: Wave, recompute: (node: number) => boolean) => void;

/** The obvious way through a wave. The sheet has a quicker one, for cells whose code it can see. */
function oneByOne(wave: Wave, recompute: (node: number) => boolean): void {
  const { order, dirty, firstDependent, dependents } = wave;
  for (let word = wave.from; word < wave.words; word += 1)
    for (let bits = dirty[word]!; bits !== 0; bits = dirty[word]!) {
      const at = (word << 5) + 31 - Math.clz32(bits & -bits);
      dirty[word]! &= bits - 1;
      if (!recompute(order[at]!)) continue;
      for (let i = firstDependent[at]!; i < firstDependent[at + 1]!; i += 1) {
        const dependent = dependents[i]!;
        // In a ring a dependent may come before: nothing waits for its own turn again.
        if (dependent > at) dirty[dependent >> 5]! |= 1 << dependent;
      }
    }
}

/** Nodes, what they use, and the order to work them out in. Dependents and dirty marks are kept by rank. */
export class Graph {
  private readonly usesOf = new Lists();
  private alive = new Uint8Array(64);
  private count = 0;
  private living = 0;
  private readonly free: number[] = [];

  private order = new Int32Array(0);
  private rank = new Int32Array(64);
  /** By rank: where the ranks of its dependents begin in `dependents`. */
  private firstDependent = new Int32Array(65);
  private dependents = new Int32Array(64);
  private ringOf = new Int32Array(64);
  private rings: number[][] = [];
  private inRings: readonly number[] = [];
  private moved: number[] = [];
  private stale = false;

  /** Nodes marked since the last sweep; by rank, a bit each, which are dirty while sweeping. */
  private marked: number[] = [];
  private dirty = new Int32Array(2);

  /** One past the highest node there ever was. */
  get size(): number {
    return this.count;
  }

  add(): number {
    const node = this.free.pop() ?? this.count++;
    if (node >= this.alive.length) {
      this.alive = grown(this.alive, node + 1);
      this.rank = grown(this.rank, node + 1);
      this.ringOf = grown(this.ringOf, node + 1);
    }
    this.alive[node] = 1;
    this.living += 1;
    this.ringOf[node] = -1;
    this.usesOf.set(node, []);
    this.stale = true;
    return node;
  }

  remove(node: number): void {
    this.usesOf.set(node, []);
    this.alive[node] = 0;
    this.living -= 1;
    this.marked = this.marked.filter((other) => other !== node);
    this.free.push(node);
    this.stale = true;
  }

  isAlive(node: number): boolean {
    return this.alive[node] === 1;
  }

  /** Says what a node uses. Gives whether that is something new. */
  setUses(node: number, uses: readonly number[]): boolean {
    const length = this.usesOf.length(node);
    if (length === uses.length && uses.every((use, i) => this.usesOf.at(node, i) === use)) return false;
    this.usesOf.set(node, uses);
    this.stale = true;
    return true;
  }

  useCount(node: number): number {
    return this.usesOf.length(node);
  }
  use(node: number, i: number): number {
    return this.usesOf.at(node, i);
  }

  /** The nodes that use this one. */
  dependentsOf(node: number): readonly number[] {
    this.freshen();
    const rank = this.rank[node]!;
    const found: number[] = [];
    for (let i = this.firstDependent[rank]!; i < this.firstDependent[rank + 1]!; i += 1)
      found.push(this.order[this.dependents[i]!]!);
    return found;
  }

  /**
   * The shortest ring through a node: the node, what it uses of the ring, and so on round. Undefined where it is in
   * none. Among hundreds that all hang on each other it is not looked for: then it is all of them.
   */
  ring(node: number): readonly number[] | undefined {
    this.freshen();
    const members = this.rings[this.ringOf[node]!];
    return members && (members.length > LONG_RING ? members : this.shortestRing(node));
  }

  private shortestRing(start: number): readonly number[] {
    const cameFrom = new Map<number, number>();
    const reached = [start];
    for (const node of reached)
      for (const use of this.usesList(node)) {
        if (use === start) return pathTo(node, cameFrom);
        if (this.ringOf[use] !== this.ringOf[start] || cameFrom.has(use)) continue;
        cameFrom.set(use, node);
        reached.push(use);
      }
    throw new Error(`node ${start} is in no ring`);
  }

  /** Says that a node may have changed. */
  mark(node: number): void {
    if (this.alive[node]) this.marked.push(node);
  }

  /** Works out every dirty node, lowest rank first; `recompute` says whether a node changed. */
  sweep(recompute: (node: number) => boolean, goes: Goes = oneByOne): void {
    this.freshen();
    if (this.marked.length === 0) return;
    const { order, dirty, rank, dependents, firstDependent } = this;
    const words = (order.length + 31) >> 5;
    let from = words;
    for (const node of this.marked) {
      const at = rank[node]!;
      dirty[at >> 5]! |= 1 << at;
      from = Math.min(from, at >> 5);
    }
    this.marked = [];
    goes({ order, dirty, dependents, firstDependent, from, words }, recompute);
  }

  /** Every node and, at once or through others, everything that hangs on it, in order. */
  below(nodes: Iterable<number>): number[] {
    this.freshen();
    const reached = new Uint8Array(this.order.length);
    const found: number[] = [];
    let first = this.order.length;
    for (const node of nodes) {
      first = Math.min(first, this.reach(this.rank[node]!, reached));
    }
    for (let at = first; at < this.order.length; at += 1) {
      if (!reached[at]) continue;
      found.push(this.order[at]!);
      for (let i = this.firstDependent[at]!; i < this.firstDependent[at + 1]!; i += 1)
        if (this.dependents[i]! > at) this.reach(this.dependents[i]!, reached);
    }
    return found;
  }

  /** A node and, at once or through others, everything that it hangs on, in order. */
  above(node: number): number[] {
    this.freshen();
    const reached = new Uint8Array(this.order.length);
    const found: number[] = [];
    const last = this.rank[node]!;
    reached[last] = 1;
    for (let at = last; at >= 0; at -= 1) {
      if (!reached[at]) continue;
      const one = this.order[at]!;
      found.push(one);
      // In a ring a use may come after: nothing in a ring has a value to hand on.
      for (const use of this.usesList(one)) if (this.rank[use]! < at) reached[this.rank[use]!] = 1;
    }
    return found.reverse();
  }

  /** Reaches a rank, with all of its ring; gives the lowest rank reached by that. */
  private reach(at: number, reached: Uint8Array): number {
    const ring = reached[at] ? undefined : this.rings[this.ringOf[this.order[at]!]!];
    reached[at] = 1;
    let lowest = at;
    for (const member of ring ?? []) {
      reached[this.rank[member]!] = 1;
      lowest = Math.min(lowest, this.rank[member]!);
    }
    return lowest;
  }

  /** Every living node in the order of working out. */
  inOrder(): Int32Array {
    this.freshen();
    return this.order;
  }

  /** The nodes that came into a ring or may have come out of one since this was last asked. They are marked. */
  takeMoved(): readonly number[] {
    this.freshen();
    const moved = this.moved;
    if (moved.length > 0) this.moved = [];
    return moved;
  }

  /** Finds the order again where uses have changed. */
  private freshen(): void {
    if (!this.stale) return;
    const before = this.inRings;
    this.reorder();
    this.inRings = this.rings.flat();
    for (const node of [...before, ...this.inRings]) {
      if (!this.alive[node]) continue;
      this.mark(node);
      this.moved.push(node);
    }
  }

  /** Kahn's order, then rings among what is left. Cost: nodes + uses. */
  private reorder(): void {
    this.stale = false;
    this.rings = [];
    this.ringOf.fill(-1, 0, this.count);
    const users = this.usersByNode();
    const waiting = this.usesLeft();
    const order = new Int32Array(this.living);
    let placed = 0;
    for (let node = 0; node < this.count; node += 1)
      if (this.alive[node] && waiting[node] === 0) order[placed++] = node;
    placed = this.drain(order, 0, placed, waiting, users);
    if (placed < this.living) this.breakRings(order, placed, waiting, users);
    this.order = order;
    for (let at = 0; at < order.length; at += 1) this.rank[order[at]!] = at;
    this.dependentsByRank(users);
    if (this.dirty.length * 32 < order.length) this.dirty = new Int32Array((order.length >> 4) + 1);
  }

  /** For each node, the nodes that use it: where they begin, and all of them. */
  private usersByNode(): Users {
    const { count, usesOf } = this;
    const first = new Int32Array(count + 1);
    let total = 0;
    for (let node = 0; node < count; node += 1)
      for (let i = usesOf.length(node) - 1; i >= 0; i -= 1, total += 1) first[usesOf.at(node, i) + 1]! += 1;
    for (let node = 0; node < count; node += 1) first[node + 1]! += first[node]!;
    const next = first.slice(0, count);
    const all = new Int32Array(total);
    for (let node = 0; node < count; node += 1)
      for (let i = 0; i < usesOf.length(node); i += 1) all[next[usesOf.at(node, i)]!++] = node;
    return { first, all };
  }

  private dependentsByRank({ first, all }: Users): void {
    const { order, rank } = this;
    if (this.firstDependent.length < order.length + 1)
      this.firstDependent = new Int32Array(Math.ceil(order.length * 1.5) + 1);
    if (this.dependents.length < all.length) this.dependents = new Int32Array(Math.ceil(all.length * 1.5));
    let end = 0;
    for (let at = 0; at < order.length; at += 1) {
      const node = order[at]!;
      this.firstDependent[at] = end;
      for (let i = first[node]!; i < first[node + 1]!; i += 1) this.dependents[end++] = rank[all[i]!]!;
    }
    this.firstDependent[order.length] = end;
  }

  private usesLeft(): Int32Array {
    const left = new Int32Array(this.count);
    for (let node = 0; node < this.count; node += 1) left[node] = this.usesOf.length(node);
    return left;
  }

  private drain(
    order: Int32Array,
    from: number,
    to: number,
    waiting: Int32Array,
    { first, all }: Users,
  ): number {
    let placed = to;
    for (let at = from; at < placed; at += 1) {
      const node = order[at]!;
      for (let i = first[node]!; i < first[node + 1]!; i += 1) {
        const user = all[i]!;
        waiting[user]! -= 1;
        if (waiting[user] === 0 && this.ringOf[user] === -1) order[placed++] = user;
      }
    }
    return placed;
  }

  /** What is left over is in a ring or hangs on one. Each ring comes after those it hangs on; what it holds up drains after it. */
  private breakRings(order: Int32Array, from: number, waiting: Int32Array, users: Users): void {
    const left: number[] = [];
    for (let node = 0; node < this.count; node += 1)
      if (this.alive[node] && waiting[node]! > 0) left.push(node);
    let placed = from;
    let drained = from;
    for (const members of ringsAmong(left, (node) => this.usesList(node), waiting)) {
      for (const node of members) {
        this.ringOf[node] = this.rings.length;
        order[placed++] = node;
      }
      this.rings.push(members);
      const end = this.drain(order, drained, placed, waiting, users);
      drained = placed = end;
    }
  }

  private usesList(node: number): number[] {
    return Array.from({ length: this.usesOf.length(node) }, (_, i) => this.usesOf.at(node, i));
  }
}

/** Rings up to this many nodes are told by the shortest way round. */
const LONG_RING = 200;

function pathTo(end: number, cameFrom: ReadonlyMap<number, number>): readonly number[] {
  const path: number[] = [];
  for (let node: number | undefined = end; node !== undefined; node = cameFrom.get(node)) path.push(node);
  return path.reverse();
}

/** The nodes that use each node: those of `node` are `all` from `first[node]` to before `first[node + 1]`. */
interface Users {
  readonly first: Int32Array;
  readonly all: Int32Array;
}

/** Groups of nodes that reach each other (Tarjan's algorithm, without recursion), those used first; lone nodes only if they use themselves. */
function ringsAmong(
  nodes: readonly number[],
  uses: (node: number) => readonly number[],
  waiting: Int32Array,
): number[][] {
  const index = new Map<number, number>();
  const low = new Map<number, number>();
  const onStack = new Set<number>();
  const stack: number[] = [];
  const rings: number[][] = [];
  for (const root of nodes) {
    if (index.has(root)) continue;
    const work: { node: number; uses: readonly number[]; next: number }[] = [];
    const enter = (node: number) => {
      index.set(node, index.size);
      low.set(node, index.get(node) as number);
      stack.push(node);
      onStack.add(node);
      work.push({ node, uses: uses(node).filter((use) => (waiting[use] as number) > 0), next: 0 });
    };
    enter(root);
    while (work.length > 0) {
      const frame = work[work.length - 1] as (typeof work)[number];
      const { node } = frame;
      if (frame.next < frame.uses.length) {
        const use = frame.uses[frame.next++] as number;
        if (!index.has(use)) enter(use);
        else if (onStack.has(use)) low.set(node, Math.min(low.get(node) as number, index.get(use) as number));
        continue;
      }
      work.pop();
      const above = work[work.length - 1];
      if (above) low.set(above.node, Math.min(low.get(above.node) as number, low.get(node) as number));
      if (low.get(node) !== index.get(node)) continue;
      const members = stack.splice(stack.lastIndexOf(node));
      for (const member of members) onStack.delete(member);
      if (members.length > 1 || uses(node).includes(node)) rings.push(members.sort((a, b) => a - b));
    }
  }
  return rings;
}
