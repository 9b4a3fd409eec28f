/*
 * The graph of a sheet: which node uses which. It knows nothing of formulas. It is told what each node uses; it
 * keeps an order in which everything comes after what it uses, marks what may have changed, and works nodes out in
 * that order by asking `recompute`, which says whether the node's value changed. Where it did not, the wave stops.
 *
 * An order that is there is kept right while uses come and go (`order.ts`). Where that cannot be done, because a ring
 * comes or may go, or not cheaply, as in the first reading of a notebook, the order is *stale*: all of it is found anew
 * (`sort.ts`) when it is next asked for.
 *
 * Always true after `freshen`:
 * - every living node has one rank, higher than the ranks of what it uses, but for what is in one ring with it;
 * - a node is in a ring exactly when it can be reached from itself;
 * - the dependents of a node are exactly the nodes that use it.
 * Always true after `sweep`: no node is dirty or marked.
 */

import type { Wave } from '../formula/index.ts';
import { grown, Lists } from './lists.ts';
import { Order } from './order.ts';
import { sorted } from './sort.ts';

/** Goes through a wave: works out every dirty node in order, and marks what hangs on those that changed. */
export type Goes = (wave: Wave, recompute: (node: number) => boolean) => void;

/** The obvious way through a wave. The sheet has a quicker one, for cells whose code it can see. */
function oneByOne(wave: Wave, recompute: (node: number) => boolean): void {
  const { order, dirty, spans, dependents } = wave;
  for (let word = wave.from; word < wave.words; word += 1)
    for (let bits = dirty[word]!; bits !== 0; bits = dirty[word]!) {
      const at = (word << 5) + 31 - Math.clz32(bits & -bits);
      dirty[word]! &= bits - 1;
      if (!recompute(order[at]!)) continue;
      for (let i = spans[2 * at]!; i < spans[2 * at + 1]!; i += 1) {
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
  private readonly free: number[] = [];

  private readonly order = new Order(this.usesOf);
  /** By node: the ring that it is in. */
  private readonly ringOf = new Map<number, readonly number[]>();
  private moved: number[] = [];
  private stale = false;

  /** Nodes marked since the last sweep; by rank, a bit each, which are dirty while sweeping. */
  private marked: number[] = [];
  private dirty = new Int32Array(2);
  private moves = 0;

  /** One past the highest node there ever was. */
  get size(): number {
    return this.count;
  }

  /** Another number whenever nodes or uses come or go, or the order is another. */
  get version(): number {
    return this.moves;
  }

  /** The only node that is marked; −1 where there are several, or none. */
  get alone(): number {
    return this.marked.length === 1 ? this.marked[0]! : -1;
  }

  add(): number {
    this.moves += 1;
    const node = this.free.pop() ?? this.count++;
    if (node >= this.alive.length) this.alive = grown(this.alive, node + 1);
    this.alive[node] = 1;
    this.usesOf.set(node, []);
    if (!this.stale) this.order.append(node);
    return node;
  }

  remove(node: number): void {
    this.moves += 1;
    this.setUses(node, []);
    this.alive[node] = 0;
    this.marked = this.marked.filter((other) => other !== node);
    this.free.push(node);
    this.stale ||= !this.order.drop(node);
  }

  isAlive(node: number): boolean {
    return this.alive[node] === 1;
  }

  /** Says what a node uses. Gives whether that is something new. */
  setUses(node: number, uses: readonly number[]): boolean {
    const length = this.usesOf.length(node);
    if (length === uses.length && uses.every((use, i) => this.usesOf.at(node, i) === use)) return false;
    this.moves += 1;
    const old = this.usesOf.list(node);
    this.usesOf.set(node, uses);
    this.stale ||= !this.mends(node, old, uses);
    return true;
  }

  /** Mends the order where a node uses something else than before; gives whether that could be done. */
  private mends(node: number, old: readonly number[], uses: readonly number[]): boolean {
    const gone = old.filter((use) => !uses.includes(use));
    const come = uses.filter((use) => !old.includes(use));
    if (this.ringOf.size > 0 && !this.sparesRings(node, gone, come)) return false;
    for (const use of gone) this.order.unlink(node, use);
    return come.every((use) => this.order.link(node, use));
  }

  /** Whether rings stay what they are, and their nodes where they are, when a node's uses go and come. */
  private sparesRings(node: number, gone: readonly number[], come: readonly number[]): boolean {
    const ring = this.ringOf.get(node);
    const within = (use: number) => ring !== undefined && this.ringOf.get(use) === ring;
    const behind = (use: number) => this.order.rank(use) >= this.order.rank(node);
    return !gone.some(within) && !come.some((use) => within(use) || behind(use));
  }

  useCount(node: number): number {
    return this.usesOf.length(node);
  }
  use(node: number, i: number): number {
    return this.usesOf.at(node, i);
  }

  /** The nodes that use this one, by number. */
  dependentsOf(node: number): readonly number[] {
    this.freshen();
    const { nodes } = this.order;
    return [...this.order.dependentsAt(this.order.rank(node))].map((at) => nodes[at]!).sort(byNumber);
  }

  /**
   * The shortest ring through a node: the node, what it uses of the ring, and so on round. Undefined where it is in
   * none. Among hundreds that all hang on each other it is not looked for: then it is all of them.
   */
  ring(node: number): readonly number[] | undefined {
    this.freshen();
    const members = this.ringOf.get(node);
    return members && (members.length > LONG_RING ? members : this.shortestRing(node));
  }

  private shortestRing(start: number): readonly number[] {
    const cameFrom = new Map<number, number>();
    const reached = [start];
    for (const node of reached)
      for (const use of this.usesOf.list(node)) {
        if (use === start) return pathTo(node, cameFrom);
        if (this.ringOf.get(use) !== this.ringOf.get(start) || cameFrom.has(use)) continue;
        cameFrom.set(use, node);
        reached.push(use);
      }
    throw new Error(`node ${start} is in no ring`);
  }

  /** Says that a node may have changed. */
  mark(node: number): void {
    if (this.alive[node]) this.marked.push(node);
  }

  /** Takes every mark away: who says so has worked out what was marked. */
  unmark(): void {
    if (this.marked.length === 1) this.marked.pop();
    else this.marked = [];
  }

  /** Marks what hangs on a node and comes after another in the order. */
  markBeyond(node: number, last: number): void {
    const { nodes, spans, dependents } = this.order;
    const [at, from] = [this.order.rank(node), this.order.rank(last)];
    const end = spans[2 * at + 1]!;
    for (let i = spans[2 * at]!; i < end; i += 1)
      if (dependents[i]! > from) this.marked.push(nodes[dependents[i]!]!);
  }

  /** Works out every dirty node, lowest rank first; `recompute` says whether a node changed. */
  sweep(recompute: (node: number) => boolean, goes: Goes = oneByOne): void {
    this.freshen();
    if (this.marked.length === 0) return;
    const { order } = this;
    const words = (order.length + 31) >> 5;
    if (this.dirty.length < words) this.dirty = grown(this.dirty, words);
    const { dirty } = this;
    let from = words;
    for (const node of this.marked) {
      const at = order.rank(node);
      dirty[at >> 5]! |= 1 << at;
      from = Math.min(from, at >> 5);
    }
    this.marked = [];
    const { nodes, spans, dependents } = order;
    goes({ order: nodes, dirty, spans, dependents, from, words }, recompute);
  }

  /** Every node and, at once or through others, everything that hangs on it, in order. */
  below(from: Iterable<number>): number[] {
    this.freshen();
    const { nodes, spans, dependents, length } = this.order;
    const reached = new Uint8Array(length);
    const found: number[] = [];
    let first = length;
    for (const node of from) first = Math.min(first, this.reach(this.order.rank(node), reached));
    for (let at = first; at < length; at += 1) {
      if (reached[at] === 0) continue;
      found.push(nodes[at]!);
      const end = spans[2 * at + 1]!;
      for (let i = spans[2 * at]!; i < end; i += 1) {
        const dependent = dependents[i]!;
        if (dependent > at && reached[dependent] === 0) this.reach(dependent, reached);
      }
    }
    return found;
  }

  /** Everything that hangs on a node, at once or through others, nearest first and then by number: whatever the order is. */
  reachedFrom(node: number): number[] {
    this.freshen();
    const { nodes } = this.order;
    const reached = new Uint8Array(this.order.length);
    const found: number[] = [];
    for (let near = [node]; near.length > 0; ) {
      const next: number[] = [];
      for (const one of near)
        for (const at of this.order.dependentsAt(this.order.rank(one))) {
          if (reached[at] === 1) continue;
          reached[at] = 1;
          if (nodes[at] !== node) next.push(nodes[at]!);
        }
      found.push(...next.sort(byNumber));
      near = next;
    }
    return found;
  }

  /** A node and, at once or through others, everything that it hangs on, in order. */
  above(node: number): number[] {
    this.freshen();
    const reached = new Uint8Array(this.order.length);
    const found: number[] = [];
    const last = this.order.rank(node);
    reached[last] = 1;
    for (let at = last; at >= 0; at -= 1) {
      if (!reached[at]) continue;
      const one = this.order.nodes[at]!;
      found.push(one);
      // In a ring a use may come after: nothing in a ring has a value to hand on.
      for (const use of this.usesOf.list(one))
        if (this.order.rank(use) < at) reached[this.order.rank(use)] = 1;
    }
    return found.reverse();
  }

  /** Reaches a rank, with all of its ring; gives the lowest rank reached by that. */
  private reach(at: number, reached: Uint8Array): number {
    const some = this.ringOf.size > 0 && reached[at] === 0;
    const ring = some ? this.ringOf.get(this.order.nodes[at]!) : undefined;
    reached[at] = 1;
    let lowest = at;
    for (const member of ring ?? []) {
      reached[this.order.rank(member)] = 1;
      lowest = Math.min(lowest, this.order.rank(member));
    }
    return lowest;
  }

  /** Every living node in the order of working out. */
  inOrder(): Int32Array {
    this.freshen();
    return this.order.all();
  }

  /** The nodes that came into a ring or may have come out of one since this was last asked. They are marked. */
  takeMoved(): readonly number[] {
    this.freshen();
    const moved = this.moved;
    if (moved.length > 0) this.moved = [];
    return moved;
  }

  /** Finds the order anew where it could not be kept right. */
  private freshen(): void {
    this.order.rest();
    if (!this.stale) return;
    const before = [...this.ringOf.keys()];
    const after = this.reorder();
    for (const node of [...before, ...after]) {
      if (!this.alive[node]) continue;
      this.mark(node);
      this.moved.push(node);
    }
  }

  /** Finds the order anew; gives the nodes that are in rings. */
  private reorder(): readonly number[] {
    this.moves += 1;
    const living: number[] = [];
    for (let node = 0; node < this.count; node += 1) if (this.alive[node]) living.push(node);
    const { order, rings, users } = sorted(living, this.count, this.usesOf);
    this.order.renew(order, this.count, users);
    this.ringOf.clear();
    for (const ring of rings) for (const node of ring) this.ringOf.set(node, ring);
    this.stale = false;
    return rings.flat();
  }
}

const byNumber = (a: number, b: number): number => a - b;

/** Rings up to this many nodes are told by the shortest way round. */
const LONG_RING = 200;

function pathTo(end: number, cameFrom: ReadonlyMap<number, number>): readonly number[] {
  const path: number[] = [];
  for (let node: number | undefined = end; node !== undefined; node = cameFrom.get(node)) path.push(node);
  return path.reverse();
}
