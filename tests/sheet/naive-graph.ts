/*
 * The graph worked out the obvious way: every value from nothing, every time. Nodes without uses hold a number; the
 * others hold half the sum of what they use, in whole numbers, so that small changes are cut off on the way.
 */

/** What each node uses, and what those without uses hold. */
export interface Model {
  readonly uses: Map<number, readonly number[]>;
  readonly held: Map<number, number>;
}

/** What a node in a ring holds. */
export const RING = -1000;

/** Whether a node can be reached from itself. */
export function isInRing(model: Model, node: number): boolean {
  const seen = new Set<number>();
  const waiting = [...(model.uses.get(node) ?? [])];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (next === node) return true;
    if (seen.has(next)) continue;
    seen.add(next);
    waiting.push(...(model.uses.get(next) ?? []));
  }
  return false;
}

/** The value of one node, given those it uses. */
export function valueFrom(model: Model, node: number, read: (node: number) => number): number {
  if (isInRing(model, node)) return RING;
  const uses = model.uses.get(node) ?? [];
  if (uses.length === 0) return model.held.get(node) ?? 0;
  return Math.floor(uses.reduce((sum, use) => sum + read(use), 0) / 2);
}

/** Every node's value, from nothing. */
export function workedOut(model: Model): Map<number, number> {
  const known = new Map<number, number>();
  const read = (node: number): number => {
    const value = known.get(node) ?? valueFrom(model, node, read);
    known.set(node, value);
    return value;
  };
  for (const node of model.uses.keys()) read(node);
  return known;
}
