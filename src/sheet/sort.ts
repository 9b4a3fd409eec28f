/*
 * The order of a graph found anew: Kahn's order, in which everything comes after what it uses, then the rings among
 * what is left. Cost: nodes + uses. While uses come and go `order.ts` keeps an order right at much less than that.
 */

import type { Lists } from './lists.ts';

/** The nodes that use each node: those of `node` are `all` from `first[node]` to before `first[node + 1]`. */
export interface Users {
  readonly first: Int32Array;
  readonly all: Int32Array;
}

/** Every node in order, the rings (the nodes of each side by side in the order), and who uses whom. */
export interface Sorted {
  readonly order: Int32Array;
  readonly rings: readonly (readonly number[])[];
  readonly users: Users;
}

/** What the passes share. */
interface Sorting {
  readonly nodes: readonly number[];
  readonly uses: Lists;
  readonly users: Users;
  readonly order: Int32Array;
  /** How many of its uses each node still waits for. */
  readonly waiting: Int32Array;
  readonly inRing: Uint8Array;
  /** How many nodes stand in the order, and how many of those have let go of what waits for them. */
  placed: number;
  drained: number;
}

/** Sorts `nodes`, all below `count`; `uses` are those of each. */
export function sorted(nodes: readonly number[], count: number, uses: Lists): Sorted {
  const sorting: Sorting = {
    nodes,
    uses,
    users: usersOf(count, uses),
    order: new Int32Array(nodes.length),
    waiting: new Int32Array(count),
    inRing: new Uint8Array(count),
    placed: 0,
    drained: 0,
  };
  const { waiting, order, users } = sorting;
  for (const node of nodes) {
    waiting[node] = uses.length(node);
    if (waiting[node] === 0) order[sorting.placed++] = node;
  }
  drain(sorting);
  return { order, users, rings: sorting.placed < nodes.length ? breakRings(sorting) : [] };
}

function usersOf(count: number, uses: Lists): Users {
  const first = new Int32Array(count + 1);
  let total = 0;
  for (let node = 0; node < count; node += 1)
    for (let i = uses.length(node) - 1; i >= 0; i -= 1, total += 1) first[uses.at(node, i) + 1]! += 1;
  for (let node = 0; node < count; node += 1) first[node + 1]! += first[node]!;
  const next = first.slice(0, count);
  const all = new Int32Array(total);
  for (let node = 0; node < count; node += 1)
    for (let i = 0; i < uses.length(node); i += 1) all[next[uses.at(node, i)]!++] = node;
  return { first, all };
}

/** Places whatever waits for nothing more than what is placed. */
function drain(sorting: Sorting): void {
  const { order, waiting, inRing, users } = sorting;
  let { placed, drained } = sorting;
  for (; drained < placed; drained += 1) {
    const node = order[drained]!;
    const end = users.first[node + 1]!;
    for (let i = users.first[node]!; i < end; i += 1) {
      const user = users.all[i]!;
      waiting[user]! -= 1;
      if (waiting[user] === 0 && inRing[user] === 0) order[placed++] = user;
    }
  }
  sorting.placed = placed;
  sorting.drained = drained;
}

/** What is left over is in a ring or hangs on one. Each ring comes after those it hangs on; what it holds up drains after it. */
function breakRings(sorting: Sorting): readonly (readonly number[])[] {
  const { nodes, uses, waiting, order, inRing } = sorting;
  const left = nodes.filter((node) => waiting[node]! > 0);
  const rings = ringsAmong(left, (node) => uses.list(node), waiting);
  for (const members of rings) {
    for (const node of members) {
      inRing[node] = 1;
      order[sorting.placed++] = node;
    }
    drain(sorting);
  }
  return rings;
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
