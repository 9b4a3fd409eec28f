// The graph by itself: order, marks, cut-off and rings, held against working everything out from nothing.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Graph } from '../../src/sheet/index.ts';
import { patience, runs } from '../support/runs.ts';
import { isInRing, type Model, valueFrom, workedOut } from './naive-graph.ts';

type Edit =
  | { readonly do: 'add' }
  | { readonly do: 'remove'; readonly node: number }
  | { readonly do: 'use'; readonly node: number; readonly uses: readonly number[] }
  | { readonly do: 'hold'; readonly node: number; readonly value: number }
  | { readonly do: 'sweep' };

const pick = fc.nat(30);
const edit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 3, arbitrary: fc.constant({ do: 'add' } as const) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('remove' as const), node: pick }) },
  {
    weight: 5,
    arbitrary: fc.record({
      do: fc.constant('use' as const),
      node: pick,
      uses: fc.array(pick, { maxLength: 3 }),
    }),
  },
  { weight: 4, arbitrary: fc.record({ do: fc.constant('hold' as const), node: pick, value: fc.nat(20) }) },
  { weight: 3, arbitrary: fc.constant({ do: 'sweep' } as const) },
);

/** What is kept beside a graph: the model, and the values as sweeping left them. */
interface Bench {
  readonly graph: Graph;
  readonly model: Model;
  readonly values: Map<number, number>;
  /** Nodes whose own number or uses changed since the last sweep. */
  readonly touched: Set<number>;
}

function apply({ graph, model, values, touched }: Bench, change: Edit): void {
  const living = [...model.uses.keys()];
  const at = (i: number) => living[i % living.length] as number;
  const touch = (node: number) => {
    graph.mark(node);
    touched.add(node);
  };
  if (change.do === 'add') {
    const node = graph.add();
    model.uses.set(node, []);
    model.held.set(node, 0);
    values.delete(node);
    return touch(node);
  }
  if (living.length === 0 || change.do === 'sweep') return;
  const node = at(change.node);
  if (change.do === 'hold') {
    model.held.set(node, change.value);
    return touch(node);
  }
  const setUses = (user: number, uses: readonly number[]) => {
    model.uses.set(user, uses);
    graph.setUses(user, uses);
    touch(user);
  };
  if (change.do === 'use') return setUses(node, [...new Set(change.uses.map(at))]);
  for (const [user, uses] of model.uses)
    if (uses.includes(node))
      setUses(
        user,
        uses.filter((use) => use !== node),
      );
  model.uses.delete(node);
  graph.remove(node);
  touched.delete(node);
}

/** Sweeps, and checks that just what had to run did, each once and in order, and that everything came out right. */
function sweepAndCheck({ graph, model, values, touched }: Bench): void {
  const ran: number[] = [];
  const changed = new Set<number>();
  const inRing = new Set([...model.uses.keys()].filter((node) => graph.ring(node) !== undefined));
  graph.sweep((node) => {
    ran.push(node);
    const value = valueFrom(model, node, (use) => values.get(use) ?? Number.NaN);
    if (value === values.get(node)) return false;
    values.set(node, value);
    changed.add(node);
    return true;
  });
  expect(new Set(ran).size, 'each node at most once').toBe(ran.length);
  for (const node of ran) {
    const uses = model.uses.get(node) ?? [];
    const called = touched.has(node) || uses.some((use) => changed.has(use)) || ringsMoved(inRing, node);
    expect(called, `node ${node} had no reason to run`).toBe(true);
  }
  for (const node of model.uses.keys()) if (inRing.has(node)) wereInRing.add(node);
  touched.clear();
  expect(values.size).toBeGreaterThanOrEqual(model.uses.size);
  for (const [node, value] of workedOut(model)) expect(values.get(node), `node ${node}`).toBe(value);
  const again: number[] = [];
  graph.sweep((node) => again.push(node) > 0);
  expect(again, 'nothing is left over').toEqual([]);
}

const wereInRing = new Set<number>();
/** Nodes in a ring, or that were, may be looked at again whenever the order is found again. */
const ringsMoved = (inRing: ReadonlySet<number>, node: number) => inRing.has(node) || wereInRing.has(node);

function checkOrder({ graph, model }: Bench): void {
  const order = [...graph.inOrder()];
  expect([...order].sort((a, b) => a - b)).toEqual([...model.uses.keys()].sort((a, b) => a - b));
  const rank = new Map(order.map((node, at) => [node, at]));
  for (const [node, uses] of model.uses) {
    const ring = graph.ring(node);
    expect(ring !== undefined, `node ${node} in a ring`).toBe(isInRing(model, node));
    for (const use of uses) {
      if (!isInRing(model, use) || !reachable(model, node).has(use))
        expect(rank.get(use)).toBeLessThan(rank.get(node) as number);
      expect([...graph.dependentsOf(use)]).toContain(node);
    }
    const users = [...model.uses].filter(([, its]) => its.includes(node)).map(([user]) => user);
    expect([...graph.dependentsOf(node)].sort()).toEqual(users.sort());
    if (ring) checkRing(model, node, ring);
    expect(new Set(graph.below([node]))).toEqual(reachable(model, node));
  }
}

/** A ring is told from the node on: each uses the next, the last uses the first, none twice. */
function checkRing({ uses }: Model, node: number, ring: readonly number[]): void {
  expect(ring[0]).toBe(node);
  expect(new Set(ring).size).toBe(ring.length);
  ring.forEach((member, i) => {
    expect(uses.get(member)).toContain(ring[(i + 1) % ring.length]);
  });
}

/** A node and everything that uses it, at once or through others. */
function reachable({ uses }: Model, node: number): Set<number> {
  const found = new Set([node]);
  for (let size = 0; size < found.size; ) {
    size = found.size;
    for (const [user, its] of uses) if (its.some((use) => found.has(use))) found.add(user);
  }
  return found;
}

/** The law, for a graph and for what only looks like one. */
function lawFor(makeGraph: () => Graph, numRuns: number) {
  return fc.check(
    fc.property(fc.array(edit, { maxLength: 80, size: 'max' }), (edits) => {
      const bench: Bench = {
        graph: makeGraph(),
        model: { uses: new Map(), held: new Map() },
        values: new Map(),
        touched: new Set(),
      };
      wereInRing.clear();
      for (const change of [...edits, { do: 'sweep' } as const]) {
        apply(bench, change);
        if (change.do !== 'sweep') continue;
        checkOrder(bench);
        sweepAndCheck(bench);
      }
    }),
    { numRuns },
  );
}

/** Throws with the counterexample where the law does not hold. */
function assertLaw(makeGraph: () => Graph, numRuns: number): void {
  const details = lawFor(makeGraph, numRuns);
  if (details.failed) throw new Error(fc.defaultReportMessage(details));
}

class ForgetsAUse extends Graph {
  override setUses(node: number, uses: readonly number[]): boolean {
    return super.setUses(node, uses.slice(1));
  }
}
class StopsAtOnce extends Graph {
  override sweep(recompute: (node: number) => boolean): void {
    super.sweep((node) => recompute(node) && false);
  }
}
class NeverStops extends Graph {
  override sweep(recompute: (node: number) => boolean): void {
    super.sweep((node) => recompute(node) || true);
  }
}
class MarksNothing extends Graph {
  override mark(node: number): void {
    if (node % 5 !== 4) super.mark(node);
  }
}
class SeesNoRings extends Graph {
  override ring(): undefined {
    return undefined;
  }
}

describe('the graph', () => {
  test(
    'after any edits holds what working out from nothing gives, and runs nothing without a reason',
    () => assertLaw(() => new Graph(), runs(300, 20_000).numRuns),
    patience,
  );

  test.each([ForgetsAUse, StopsAtOnce, NeverStops, MarksNothing, SeesNoRings])(
    'a wrong one is found out: %o',
    (Wrong) => {
      expect(lawFor(() => new Wrong(), 300).failed).toBe(true);
    },
  );

  test('rings that hang on one another, with a node between, leave nothing dirty', () => {
    const graph = new Graph();
    const [a1, a2, between, b1, b2] = Array.from({ length: 5 }, () => graph.add()) as [
      number,
      number,
      number,
      number,
      number,
    ];
    graph.setUses(a1, [a2]);
    graph.setUses(a2, [a1]);
    graph.setUses(between, [a1]);
    graph.setUses(b1, [b2, between]);
    graph.setUses(b2, [b1]);
    for (const node of [a1, a2, between, b1, b2]) graph.mark(node);
    const ran: number[] = [];
    graph.sweep((node) => ran.push(node) > 0);
    expect(ran.sort()).toEqual([a1, a2, between, b1, b2].sort());
    graph.sweep((node) => ran.push(node) > 0);
    expect(ran).toHaveLength(5);
  });

  test('ten thousand nodes in one ring are told without hanging', () => {
    const graph = new Graph();
    const nodes = Array.from({ length: 10_000 }, () => graph.add());
    nodes.forEach((node, i) => {
      graph.setUses(node, [nodes[(i + 1) % nodes.length] as number]);
    });
    expect(graph.ring(nodes[0] as number)).toHaveLength(10_000);
    expect(graph.ring(nodes[77] as number)).toHaveLength(10_000);
  });
});
