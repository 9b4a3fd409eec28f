/*
 * The graph of a sheet: which node uses which. It knows nothing of formulas. It is told what each node uses; it
 * keeps an order in which everything comes after what it uses, marks what may have changed, and works nodes out in
 * that order by asking `recompute`, which says whether the node's value changed. Where it did not, the wave stops.
 *
 * Always true after `reorder`:
 * - every living node has one rank, and outside rings the rank of what it uses is lower than its own;
 * - a node is in a ring exactly when it can be reached from itself; ring nodes come before what only hangs on them;
 * - `dependents` of a node are exactly the nodes that use it.
 * Always true after `sweep`: no node is dirty.
 */

import { grown, Lists } from './lists.ts';

/** Nodes, what they use, and the order to work them out in. */
export class Graph {
  private readonly usesOf = new Lists();
  private alive = new Uint8Array(64);
  private dirty = new Uint8Array(64);
  private count = 0;
  private readonly free: number[] = [];

  private order = new Int32Array(0);
  private rank = new Int32Array(64);
  private firstDependent = new Int32Array(65);
  private dependents = new Int32Array(0);
  private ringOf = new Int32Array(64);
  private rings: number[][] = [];
  private stale = false;
  private pending = 0;

  /** One past the highest node there ever was. */
  get size(): number {
    return this.count;
  }

  add(): number {
    const node = this.free.pop() ?? this.count++;
    if (node >= this.alive.length) {
      this.alive = grown(this.alive, node + 1);
      this.dirty = grown(this.dirty, node + 1);
      this.rank = grown(this.rank, node + 1);
      this.ringOf = grown(this.ringOf, node + 1);
    }
    this.alive[node] = 1;
    this.usesOf.set(node, []);
    this.stale = true;
    return node;
  }

  remove(node: number): void {
    this.usesOf.set(node, []);
    this.alive[node] = 0;
    if (this.dirty[node]) this.pending -= 1;
    this.dirty[node] = 0;
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

  /** The nodes that use this one; up to date after `reorder`. */
  dependentsOf(node: number): Int32Array {
    if (this.stale) this.reorder();
    return this.dependents.subarray(this.firstDependent[node], this.firstDependent[node + 1]);
  }

  /** The ring a node is in, in the order of use, or undefined. */
  ring(node: number): readonly number[] | undefined {
    if (this.stale) this.reorder();
    return this.rings[this.ringOf[node] as number];
  }

  mark(node: number): void {
    if (this.dirty[node] || !this.alive[node]) return;
    this.dirty[node] = 1;
    this.pending += 1;
  }

  /** Works out every dirty node, lowest rank first; `recompute` says whether a node changed. */
  sweep(recompute: (node: number) => boolean): void {
    if (this.stale) this.reorder();
    const { order, dirty, dependents, firstDependent } = this;
    let at = this.pending > 0 ? this.lowestDirty() : order.length;
    for (; this.pending > 0 && at < order.length; at += 1) {
      const node = order[at] as number;
      if (!dirty[node]) continue;
      dirty[node] = 0;
      this.pending -= 1;
      if (!recompute(node)) continue;
      const end = firstDependent[node + 1] as number;
      for (let i = firstDependent[node] as number; i < end; i += 1) {
        const dependent = dependents[i] as number;
        if (!dirty[dependent]) {
          dirty[dependent] = 1;
          this.pending += 1;
        }
      }
      if (this.ringOf[node] !== -1) this.clearRing(node);
    }
  }

  /** Within a ring nothing waits for its own turn again. */
  private clearRing(node: number): void {
    for (const other of this.rings[this.ringOf[node] as number] ?? [])
      if (this.dirty[other] && (this.rank[other] as number) <= (this.rank[node] as number)) {
        this.dirty[other] = 0;
        this.pending -= 1;
      }
  }

  private lowestDirty(): number {
    let left = this.pending;
    let lowest = this.order.length;
    for (let node = 0; left > 0 && node < this.count; node += 1)
      if (this.dirty[node]) {
        left -= 1;
        lowest = Math.min(lowest, this.rank[node] as number);
      }
    return lowest;
  }

  /** Every node and, at once or through others, everything that hangs on it, in order. */
  below(nodes: Iterable<number>): number[] {
    if (this.stale) this.reorder();
    const reached = new Uint8Array(this.count);
    const found: number[] = [];
    let first = this.order.length;
    for (const node of nodes) {
      reached[node] = 1;
      first = Math.min(first, this.rank[node] as number);
    }
    for (let at = first; at < this.order.length; at += 1) {
      const node = this.order[at] as number;
      if (!reached[node]) continue;
      found.push(node);
      const end = this.firstDependent[node + 1] as number;
      for (let i = this.firstDependent[node] as number; i < end; i += 1)
        reached[this.dependents[i] as number] = 1;
    }
    return found;
  }

  /** Every living node in the order of working out. */
  inOrder(): Int32Array {
    if (this.stale) this.reorder();
    return this.order;
  }

  /** Finds the order again after uses changed: Kahn's, then rings among what is left. Cost: nodes + uses. */
  reorder(): void {
    this.stale = false;
    this.countDependents();
    const before = this.rings.flat();
    this.rings = [];
    this.ringOf.fill(-1, 0, this.count);
    const waiting = this.usesLeft();
    const order: number[] = [];
    for (let node = 0; node < this.count; node += 1)
      if (this.alive[node] && waiting[node] === 0) order.push(node);
    this.drain(order, 0, waiting);
    if (order.length < this.living()) this.breakRings(order, waiting);
    this.order = Int32Array.from(order);
    order.forEach((node, at) => {
      this.rank[node] = at;
    });
    for (const node of [...before, ...this.rings.flat()]) this.mark(node);
  }

  private living(): number {
    let living = 0;
    for (let node = 0; node < this.count; node += 1) living += this.alive[node] as number;
    return living;
  }

  private countDependents(): void {
    const { count, usesOf } = this;
    if (this.firstDependent.length < count + 2)
      this.firstDependent = new Int32Array(Math.ceil(count * 1.5) + 2);
    const first = this.firstDependent.fill(0);
    let total = 0;
    for (let node = 0; node < count; node += 1)
      for (let i = usesOf.length(node) - 1; i >= 0; i -= 1, total += 1) first[usesOf.at(node, i) + 1]! += 1;
    for (let node = 0; node < count; node += 1) first[node + 1]! += first[node] as number;
    const next = first.slice(0, count);
    if (this.dependents.length < total) this.dependents = new Int32Array(Math.ceil(total * 1.5));
    for (let node = 0; node < count; node += 1)
      for (let i = 0; i < usesOf.length(node); i += 1) {
        const use = usesOf.at(node, i);
        this.dependents[next[use] as number] = node;
        next[use]! += 1;
      }
  }

  private usesLeft(): Int32Array {
    const left = new Int32Array(this.count);
    for (let node = 0; node < this.count; node += 1) left[node] = this.usesOf.length(node);
    return left;
  }

  private drain(order: number[], from: number, waiting: Int32Array): void {
    for (let at = from; at < order.length; at += 1) {
      const node = order[at] as number;
      const end = this.firstDependent[node + 1] as number;
      for (let i = this.firstDependent[node] as number; i < end; i += 1) {
        const dependent = this.dependents[i] as number;
        waiting[dependent]! -= 1;
        if (waiting[dependent] === 0 && this.ringOf[dependent] === -1) order.push(dependent);
      }
    }
  }

  /** What is left over is in a ring or hangs on one. Rings are put in first, then the rest drains after them. */
  private breakRings(order: number[], waiting: Int32Array): void {
    const left: number[] = [];
    for (let node = 0; node < this.count; node += 1)
      if (this.alive[node] && (waiting[node] as number) > 0) left.push(node);
    const from = order.length;
    for (const members of ringsAmong(left, (node) => this.usesList(node), waiting)) {
      for (const node of members) this.ringOf[node] = this.rings.length;
      this.rings.push(this.inTurn(members));
      order.push(...members);
    }
    this.drain(order, from, waiting);
  }

  private usesList(node: number): number[] {
    return Array.from({ length: this.usesOf.length(node) }, (_, i) => this.usesOf.at(node, i));
  }

  /** The ring as one says it: each uses the next, starting at the lowest node; members off the round come after. */
  private inTurn(members: readonly number[]): number[] {
    const inside = new Set(members);
    const path: number[] = [];
    let node = Math.min(...members.slice(0, 10_000));
    while (!path.includes(node)) {
      path.push(node);
      node = this.usesList(node).find((use) => inside.has(use)) as number;
    }
    const round = path.slice(path.indexOf(node));
    return [...round, ...members.filter((member) => !round.includes(member))];
  }
}

/** Groups of nodes that reach each other (Tarjan's algorithm, without recursion); lone nodes only if they use themselves. */
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
