/* Shapes traced as SVG path data, and flattened to straight pieces for whoever must keep out of their way. */

import type { Knit, Path, Point, Shape, Step } from './picture.ts';
import type { Box, Px, Segment } from './place.ts';
import { clip } from './place.ts';
import { n2 } from './round.ts';

/** From centimetres of a scene to pixels. */
export type Project = (point: Point) => Px;

/** How finely a curve is flattened. */
const PIECES = 10;

const at = ([x, y]: Px) => `${n2(x)} ${n2(y)}`;

/** The path data of a line or outline. */
export function pathData(path: Path, project: Project): string {
  const steps = path.steps.map((step) => {
    const letter = step.by === undefined ? 'L' : step.by.length === 1 ? 'Q' : 'C';
    return letter + [...(step.by ?? []), step.to].map((point) => at(project(point))).join(' ');
  });
  return `M${at(project(path.from))}${steps.join('')}${path.closed ? 'Z' : ''}`;
}

/** The path data of straight pieces, each on its own. */
export function segmentsData(segments: readonly Segment[]): string {
  return segments.map(([a, b]) => `M${at(a)}L${at(b)}`).join('');
}

/** The path data of a rectangle, its corners rounded by `round` pixels. */
export function boxData({ x, y, width, height }: Box, round = 0): string {
  const r = Math.max(0, Math.min(round, width / 2, height / 2));
  if (r === 0) return `M${n2(x)} ${n2(y)}h${n2(width)}v${n2(height)}h${n2(-width)}Z`;
  const arc = (dx: number, dy: number) => `a${n2(r)} ${n2(r)} 0 0 1 ${n2(dx)} ${n2(dy)}`;
  const w = width - 2 * r;
  const h = height - 2 * r;
  return `M${n2(x + r)} ${n2(y)}h${n2(w)}${arc(r, r)}v${n2(h)}${arc(-r, r)}h${n2(-w)}${arc(-r, -r)}v${n2(-h)}${arc(r, -r)}Z`;
}

/** The path data of a dot. */
export function dotData([x, y]: Px, r: number): string {
  const half = (dx: number) => `a${n2(r)} ${n2(r)} 0 1 0 ${n2(dx)} 0`;
  return `M${n2(x - r)} ${n2(y)}${half(2 * r)}${half(-2 * r)}Z`;
}

/** The corners and bends of a path, in order, flattened. */
export function flatten(path: Path): readonly Point[] {
  const points: Point[] = [path.from];
  let last = path.from;
  for (const step of path.steps) {
    points.push(...stepPoints(last, step));
    last = step.to;
  }
  if (path.closed) points.push(path.from);
  return points;
}

function stepPoints(from: Point, step: Step): readonly Point[] {
  const { by, to } = step;
  if (!by) return [to];
  const control = by.length === 1 ? raised(from, by[0], to) : by;
  return Array.from({ length: PIECES }, (_, k) => cubic(from, control, to, (k + 1) / PIECES));
}

/** A quadratic bend as a cubic one. */
function raised(from: Point, by: Point, to: Point): readonly [Point, Point] {
  const towards = (end: Point): Point => [
    end[0] + (2 / 3) * (by[0] - end[0]),
    end[1] + (2 / 3) * (by[1] - end[1]),
  ];
  return [towards(from), towards(to)];
}

function cubic(a: Point, [b, c]: readonly [Point, Point], d: Point, t: number): Point {
  const s = 1 - t;
  const mix = (k: 0 | 1) => s * s * s * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t * t * t * d[k];
  return [mix(0), mix(1)];
}

/** Points as straight pieces. */
export function segments(points: readonly Px[]): readonly Segment[] {
  return points.slice(1).map((b, k): Segment => [points[k] ?? b, b]);
}

/** The outermost points of a shape, in centimetres. */
export function extent(shape: Shape): readonly Point[] {
  if (shape.kind === 'path') return flatten(shape);
  if (shape.kind === 'marks') return shape.at;
  const [x, y] = shape.at;
  return [
    [x, y],
    [x + shape.widthCm, y + shape.heightCm],
  ];
}

/** The legs of every V in a knitted square, cut at its edge. A stitch is 1/gauge wide and 1/row gauge high. */
export function knitLegs(knit: Knit): readonly Segment[] {
  const {
    at: [left, top],
    widthCm,
    heightCm,
    stitchesPerCm,
    rowsPerCm,
  } = knit;
  const box = { x: left, y: top, width: widthCm, height: heightCm };
  const wide = 1 / stitchesPerCm;
  const high = 1 / rowsPerCm;
  const legs: Segment[] = [];
  for (let row = 0; row * high < heightCm; row++) {
    for (let stitch = 0; stitch * wide < widthCm; stitch++) {
      const x = left + stitch * wide;
      const y = top + row * high;
      const foot: Px = [x + wide / 2, y + high];
      for (const side of [0.12, 0.88]) {
        const leg = clip(box, [[x + side * wide, y + high * 0.04], foot]);
        if (leg && Math.abs(leg[1][1] - leg[0][1]) > high * 0.2) legs.push(leg);
      }
    }
  }
  return legs;
}
