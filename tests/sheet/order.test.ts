// The order kept right: after every single edit it is one that finding all anew could have given, with the same rings,
// and it was come by at a cost that grows with what had to move. Orders that are wrong on purpose must be found out.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Graph } from '../../src/sheet/index.ts';
import { patience, runs } from '../support/runs.ts';
import { isInRing } from './naive-graph.ts';

/** What each living node uses. */
type Uses = Map<number, readonly number[]>;

type Edit =
  | { readonly do: 'add'; readonly uses: readonly number[] }
  | { readonly do: 'remove'; readonly node: number }
  | { readonly do: 'use'; readonly node: number; readonly uses: readonly number[]; readonly rings: boolean };

const pick = fc.nat(40);
const some = fc.array(pick, { maxLength: 4 });
const edit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ do: fc.constant('add' as const), uses: some }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('remove' as const), node: pick }) },
  {
    weight: 8,
    arbitrary: fc.record({
      do: fc.constant('use' as const),
      node: pick,
      uses: some,
      rings: fc.nat(9).map((n) => n === 0),
    }),
  },
);

/** A node and all that hangs on it. */
function hanging(uses: Uses, node: number): Set<number> {
  const found = new Set([node]);
  for (let size = 0; size < found.size; ) {
    size = found.size;
    for (const [user, its] of uses) if (its.some((use) => found.has(use))) found.add(user);
  }
  return found;
}

/** Does an edit to the graph and to what is known beside it. */
function apply(graph: Graph, uses: Uses, change: Edit): void {
  const living = [...uses.keys()];
  const picked = (list: readonly number[]) =>
    living.length === 0 ? [] : [...new Set(list.map((i) => living[i % living.length] as number))];
  const setUses = (node: number, its: readonly number[]) => {
    uses.set(node, its);
    graph.setUses(node, its);
  };
  if (change.do === 'add') return setUses(graph.add(), picked(change.uses));
  const [node] = picked([change.node]);
  if (node === undefined) return;
  if (change.do === 'use') {
    const beyond = change.rings ? new Set<number>() : hanging(uses, node);
    return setUses(
      node,
      picked(change.uses).filter((use) => !beyond.has(use)),
    );
  }
  for (const [user, its] of uses)
    if (its.includes(node))
      setUses(
        user,
        its.filter((use) => use !== node),
      );
  uses.delete(node);
  graph.remove(node);
}

/** The same uses in a graph that finds its order in one go. */
function fromNothing(uses: Uses): { readonly graph: Graph; readonly nodeOf: ReadonlyMap<number, number> } {
  const graph = new Graph();
  const nodeOf = new Map([...uses.keys()].map((node) => [node, graph.add()]));
  for (const [node, its] of uses)
    graph.setUses(
      nodeOf.get(node) as number,
      its.map((use) => nodeOf.get(use) as number),
    );
  graph['stale'] = true;
  return { graph, nodeOf };
}

function checkOrder(graph: Graph, uses: Uses): void {
  const order = [...graph.inOrder()];
  expect(new Set(order), 'each node once').toEqual(new Set(uses.keys()));
  expect(order).toHaveLength(uses.size);
  const rank = new Map(order.map((node, at) => [node, at]));
  const anew = fromNothing(uses);
  for (const [node, its] of uses) {
    const ring = graph.ring(node);
    const same = anew.graph.ring(anew.nodeOf.get(node) as number);
    expect(ring?.length, `the ring of ${node}`).toBe(same?.length);
    expect(ring !== undefined).toBe(isInRing({ uses, held: new Map() }, node));
    for (const use of its)
      if (!ring || !hanging(uses, node).has(use))
        expect(rank.get(use), `${use} before ${node}`).toBeLessThan(rank.get(node) as number);
    const users = [...uses].filter(([, theirs]) => theirs.includes(node)).map(([user]) => user);
    expect(graph.dependentsOf(node)).toEqual(users.sort((a, b) => a - b));
  }
}

function lawFor(make: () => Graph, numRuns: number) {
  return fc.check(
    fc.property(fc.array(edit, { maxLength: 60, size: 'max' }), (edits) => {
      const graph = make();
      const uses: Uses = new Map();
      for (const change of edits) {
        apply(graph, uses, change);
        checkOrder(graph, uses);
      }
    }),
    { numRuns },
  );
}

/** Orders with a fault put in. */
const FAULTS: Readonly<Record<string, (order: Graph['order']) => void>> = {
  'that moves nothing': (order) => {
    order['moveBehind'] = () => true;
  },
  'that moves only the two': (order) => {
    order['hangingOn'] = (low) => [low];
    order['hungOnBy'] = (high) => [high];
  },
  'that does not look for rings': (order) => {
    const hangingOn = order['hangingOn'].bind(order);
    order['hangingOn'] = (low, high) => hangingOn(low, high) ?? [low];
  },
  'that leaves the lists of dependents as they were': (order) => {
    order['renumber'] = () => {};
  },
  'that forgets a list that has to move': (order) => {
    order['moveList'] = () => true;
  },
};

/** Lays out a sheet of many: every node uses the one before and two far ones. */
function large(count: number): Graph {
  const graph = new Graph();
  for (let node = 0; node < count; node += 1) {
    graph.add();
    if (node > 2) graph.setUses(node, [node - 1, node >> 1, 0]);
  }
  graph.inOrder();
  return graph;
}

/** How often all was found anew while something was done. */
function sortsDuring(graph: Graph, does: () => void): number {
  const reorder = graph['reorder'].bind(graph);
  let count = 0;
  graph['reorder'] = () => {
    count += 1;
    return reorder();
  };
  does();
  graph.inOrder();
  return count;
}

describe('the order', () => {
  test(
    'is after every edit one that finding it anew could give, with the same rings',
    () => {
      const details = lawFor(() => new Graph(), runs(150, 10_000).numRuns);
      if (details.failed) throw new Error(`${fc.defaultReportMessage(details)}\n${details.errorInstance}`);
    },
    patience,
  );

  test.each(Object.entries(FAULTS))(
    '%s is found out',
    (_, fault) => {
      const make = () => {
        const graph = new Graph();
        fault(graph['order']);
        return graph;
      };
      expect(lawFor(make, 300).failed).toBe(true);
    },
    patience,
  );

  test('is not found anew for a node more, for other uses, or for a node less', () => {
    const graph = large(2000);
    const sorts = sortsDuring(graph, () => {
      const node = graph.add();
      graph.setUses(node, [1999, 7]);
      graph.inOrder();
      graph.setUses(1000, [999, 3, 0]);
      graph.inOrder();
      graph.setUses(1500, [1499, node >> 2, 0]);
      graph.inOrder();
      graph.remove(node);
    });
    expect(sorts).toBe(0);
  });

  test('moves nothing that stands outside the two that change places', () => {
    const graph = large(400);
    const before = [...graph.inOrder()];
    const late = graph.add();
    graph.setUses(late, [50]);
    graph.setUses(390, [389, 195, 0, late]);
    expect(sortsDuring(graph, () => {})).toBe(0);
    const after = [...graph.inOrder()];
    expect(after.slice(0, 390)).toEqual(before.slice(0, 390));
    expect(after.slice(390)).toEqual([late, ...before.slice(390)]);
  });

  test('is found anew, once, where a use turns nearly all of it round, and where many come at once', () => {
    const graph = large(2000);
    const late = graph.add();
    expect(sortsDuring(graph, () => graph.setUses(3, [2, late]))).toBe(1);
    const first = sortsDuring(graph, () => {
      for (let node = 500; node < 1500; node += 1) graph.setUses(node, [node - 1, node - 2, node - 3]);
    });
    expect(first).toBe(1);
  });

  test('is kept through as many gaps as there are nodes, then closed up', () => {
    const graph = large(100);
    for (let node = 99; node > 20; node -= 2) {
      graph.setUses(node, []);
      if (node < 99) graph.setUses(node + 1, [0]);
      for (const user of graph.dependentsOf(node)) graph.setUses(user, [0]);
      graph.remove(node);
      expect([...graph.inOrder()]).not.toContain(node);
    }
    expect(graph.inOrder()).toHaveLength(60);
  });
});
