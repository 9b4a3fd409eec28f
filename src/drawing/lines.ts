/* Small makers for shapes and labels, shared by the drawings. */

import type { Callout, Dimension, Label, Path, Point, Role, Run, Side, Step } from './picture.ts';

/** A straight line through points. */
export function line(role: Role, points: readonly Point[], closed = false): Path {
  const [from = [0, 0] as const, ...rest] = points;
  return { kind: 'path', role, from, steps: rest.map((to) => ({ to })), ...(closed ? { closed } : {}) };
}

/** An outline from straight and bent steps, closed. */
export function outline(role: Role, from: Point, steps: readonly Step[], cell?: string): Path {
  return { kind: 'path', role, from, steps, closed: true, ...(cell ? { cell } : {}) };
}

/** An open line from straight and bent steps. */
export function open(role: Role, from: Point, steps: readonly Step[]): Path {
  return { kind: 'path', role, from, steps };
}

/** Seen in a mirror that stands at x = 0. */
export function mirrored(path: Path): Path {
  const flip = ([x, y]: Point): Point => [-x, y];
  const steps = path.steps.map(({ to, by }): Step => {
    if (!by) return { to: flip(to) };
    return by.length === 1
      ? { to: flip(to), by: [flip(by[0])] }
      : { to: flip(to), by: [flip(by[0]), flip(by[1])] };
  });
  return { ...path, from: flip(path.from), steps };
}

/** A dimension line, or nothing where it has no text. `end`: drawn where it is, its text past its end. */
export function dimension(
  side: Dimension['side'] | 'end',
  from: Point,
  to: Point,
  ...runs: readonly (readonly Run[])[]
): readonly Label[] {
  const texts = runs.flat();
  const place = side === 'end' ? ({ side: 'on', textAt: 'end' } as const) : { side };
  return texts.length > 0 ? [{ kind: 'dimension', from, to, runs: texts, ...place }] : [];
}

/** A dimension line at the right whose text may point at a place instead. */
export function stretch(from: Point, to: Point, orAt: Point, runs: readonly Run[]): readonly Label[] {
  return runs.length > 0 ? [{ kind: 'dimension', side: 'right', from, to, orAt, runs }] : [];
}

/** A text that points at a place, or nothing where it has no text. */
export function callout(
  at: Point,
  prefer: readonly Side[],
  ...runs: readonly (readonly Run[])[]
): readonly Label[] {
  const texts = runs.flat();
  const label: Callout = { kind: 'callout', at, prefer, runs: texts };
  return texts.length > 0 ? [label] : [];
}

/** Moved from a point, so far in a direction. */
export function along([x, y]: Point, [dx, dy]: Point, by: number): Point {
  return [x + dx * by, y + dy * by];
}

/** Part of the way from one point to another. */
export function between(a: Point, b: Point, share: number): Point {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}
