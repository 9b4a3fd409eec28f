/*
 * Laying out a scene. The scale is sought from large to small, and the shapes are tried in the middle, to the left
 * and to the right; the largest scale at which the labels find room wins. `place-label.ts` finds it for one label.
 */

import { layKey, layRuler } from './beneath.ts';
import { textsOf } from './labels.ts';
import type { LaidBlock, LaidPath, LaidText } from './laid.ts';
import { NOTHING } from './laid.ts';
import type { Path, Point, Scene } from './picture.ts';
import type { Px, Segment } from './place.ts';
import { createField } from './place.ts';
import type { Placed } from './place-label.ts';
import { boxesOf, placeLabel } from './place-label.ts';
import type { Project } from './trace.ts';
import { dotData, extent, flatten, knitLegs, pathData, segments, segmentsData } from './trace.ts';

/** Shares of the width that the shapes may take, tried from large to small, and where the rest of it goes. */
const SHARES = [0.97, 0.9, 0.84, 0.78, 0.72, 0.66, 0.6, 0.54, 0.48] as const;
const LEANS = [0.5, 0.15, 0.85] as const;
/** A label in the key costs as much as this share of the width. */
const KEY_COST = 0.11;
const STRAY_COST = 0.3;
const DETOUR_COST = 0.05;
const ASTRAY_COST = 0.15;

interface Attempt {
  readonly pxPerCm: number;
  readonly project: Project;
  readonly placed: readonly Placed[];
  readonly cost: number;
}

interface Bounds {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Lays a scene out for one width. */
export function layScene(scene: Scene, widthPx: number, sizePx: number): LaidBlock {
  const bounds = boundsOf(scene);
  if (!bounds) return NOTHING;
  return emit(scene, bestAttempt(scene, bounds, widthPx, sizePx), bounds, widthPx, sizePx);
}

function boundsOf(scene: Scene): Bounds | undefined {
  const points = scene.shapes.flatMap(extent);
  if (points.length === 0) return undefined;
  const of = (k: 0 | 1) =>
    points.reduce(([a, b], p) => [Math.min(a, p[k]), Math.max(b, p[k])] as const, [
      Infinity,
      -Infinity,
    ] as const);
  const [left, right] = of(0);
  const [top, bottom] = of(1);
  return { left, top, width: Math.max(right - left, 0.01), height: Math.max(bottom - top, 0.01) };
}

function bestAttempt(scene: Scene, bounds: Bounds, widthPx: number, sizePx: number): Attempt {
  let best: Attempt | undefined;
  for (const share of SHARES) {
    if (best && 1 - share >= best.cost) break;
    for (const lean of LEANS) {
      const most = best ? best.cost - 1e-9 : Infinity;
      best = tryScale(scene, bounds, { widthPx, sizePx, share, lean }, most) ?? best;
    }
  }
  if (!best) throw new Error('no scale was tried');
  return best;
}

interface Trial {
  readonly widthPx: number;
  readonly sizePx: number;
  readonly share: number;
  readonly lean: number;
}

/** The scene at one scale; undefined, and given up early, when it costs `most` or more. */
function tryScale(scene: Scene, bounds: Bounds, trial: Trial, most: number): Attempt | undefined {
  const { widthPx, sizePx, share, lean } = trial;
  const highest = Math.max(260, Math.min(600, widthPx * 1.1));
  const pxPerCm = Math.min((widthPx * share) / bounds.width, (highest * share) / bounds.height);
  const left = (widthPx - bounds.width * pxPerCm) * lean;
  const project: Project = ([x, y]) => [left + (x - bounds.left) * pxPerCm, (y - bounds.top) * pxPerCm];
  const field = createField(widthPx, outlines(scene, project, true), outlines(scene, project, false));
  const placed: Placed[] = [];
  let cost = 1 - share;
  for (const label of scene.labels) {
    const one = placeLabel(label, { field, project, widthPx, sizePx });
    placed.push(one);
    cost += costOf(label, one);
    if (cost >= most) return undefined;
  }
  return { pxPerCm, project, placed, cost };
}

/** What it costs that a label is not where it would best be; most where a dimension has lost its line. */
function costOf(label: Scene['labels'][number], { keyed, detour, astray, role }: Placed): number {
  if (!keyed) return astray ? ASTRAY_COST : detour ? DETOUR_COST : 0;
  return label.kind === 'dimension' && role === 'leader' ? STRAY_COST : KEY_COST;
}

/** Roles whose lines a text never stands on, and those it keeps off while it can. */
const HARD: ReadonlySet<string> = new Set(['piece', 'shade', 'shade-light', 'frame', 'seam', 'axis', 'here']);
const SOFT: ReadonlySet<string> = new Set(['dash', 'hatch', 'grid']);

function outlines(scene: Scene, project: Project, hard: boolean): readonly Segment[] {
  const roles = hard ? HARD : SOFT;
  return scene.shapes.flatMap((shape) => {
    if (shape.kind === 'knit') return hard ? knitFrame(shape.at, shape.widthCm, shape.heightCm, project) : [];
    if (shape.kind !== 'path' || !roles.has(shape.role)) return [];
    return segments(flatten(shape).map(project));
  });
}

/** A knitted square is full: its diagonals are in the way too. */
function knitFrame(at: Point, widthCm: number, heightCm: number, project: Project): readonly Segment[] {
  const [x, y] = at;
  const corners: readonly Point[] = [
    at,
    [x + widthCm, y],
    [x + widthCm, y + heightCm],
    [x, y + heightCm],
    at,
    [x + widthCm, y + heightCm],
  ];
  return segments(corners.map(project));
}

function emit(scene: Scene, attempt: Attempt, bounds: Bounds, widthPx: number, sizePx: number): LaidBlock {
  const { placed, project, pxPerCm } = attempt;
  const ys = [0, bounds.height * pxPerCm, ...placed.flatMap((one) => edgesOf(one, sizePx))];
  const top = Math.min(...ys) - 4;
  const down = (point: Point): Px => {
    const [x, y] = project(point);
    return [x, y - top];
  };
  const shift = ([x, y]: Px): Px => [x, y - top];
  const floor = Math.max(...ys) - top + 4;
  const ruler = scene.ruler ? layRuler(scene.ruler, pxPerCm, floor, widthPx, sizePx) : NOTHING;
  const key = layKey(scene, placed, floor + ruler.heightPx, widthPx, sizePx);
  const marks = placed.flatMap((one) => linesOf(one, shift));
  const texts = placed.flatMap((one) => standingTexts(one, top, sizePx));
  return {
    heightPx: floor + ruler.heightPx + key.heightPx,
    pxPerCm,
    paths: [...scene.shapes.map((shape) => tracedShape(shape, down, pxPerCm)), ...marks, ...ruler.paths],
    texts: [...texts, ...key.letters(top), ...ruler.texts, ...key.texts],
  };
}

function edgesOf(placed: Placed, sizePx: number): readonly number[] {
  const boxes = [...boxesOf(placed, sizePx), ...(placed.letterAt ? [placed.letterAt] : [])];
  return [
    ...boxes.flatMap((box) => [box.y, box.y + box.height]),
    ...placed.lines.flatMap(([a, b]) => [a[1], b[1]]),
  ];
}

function tracedShape(shape: Scene['shapes'][number], project: Project, pxPerCm: number): LaidPath {
  if (shape.kind === 'path') return { role: shape.role, d: pathData(shape, project), ...cellIn(shape) };
  if (shape.kind === 'marks')
    return { role: shape.role, d: shape.at.map((point) => dotData(project(point), MARK_PX)).join('') };
  const legs = knitLegs(shape).map(([a, b]): Segment => [project(a), project(b)]);
  return {
    role: shape.role,
    d: segmentsData(legs),
    strokeWidth: Math.max(0.6, (0.19 * pxPerCm) / shape.stitchesPerCm),
  };
}

const MARK_PX = 2.2;

const cellIn = (path: Path) => (path.cell === undefined ? {} : { cell: path.cell });

function linesOf(placed: Placed, shift: (point: Px) => Px): readonly LaidPath[] {
  const cell = placed.cell === undefined ? {} : { cell: placed.cell };
  const lines = placed.lines.map(([a, b]): Segment => [shift(a), shift(b)]);
  const path: readonly LaidPath[] =
    lines.length > 0 ? [{ role: placed.role, d: segmentsData(lines), ...cell }] : [];
  return placed.dot ? [...path, { role: 'dot', d: dotData(shift(placed.dot), 2), ...cell }] : path;
}

function standingTexts(placed: Placed, top: number, sizePx: number): readonly LaidText[] {
  if (!placed.box || !placed.form) return [];
  return textsOf(placed.form, placed.box.x, placed.box.y - top, placed.align, sizePx);
}
