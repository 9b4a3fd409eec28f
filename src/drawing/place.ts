/*
 * Boxes and lines in pixels, and whether one is in another's way. Every text of a drawing has a box; a text is put
 * only where its box is free, which is what keeps texts off one another at every width.
 */

/** A place in pixels. */
export type Px = readonly [x: number, y: number];

/** A straight piece of a line, in pixels. */
export type Segment = readonly [a: Px, b: Px];

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Whether two boxes share any ground; boxes that only touch do not. */
export function overlap(a: Box, b: Box): boolean {
  const eps = 1e-6;
  return (
    a.x + a.width > b.x + eps &&
    b.x + b.width > a.x + eps &&
    a.y + a.height > b.y + eps &&
    b.y + b.height > a.y + eps
  );
}

/** Whether a line runs through a box. Asked many thousand times a layout, so most are sent away at the door. */
export function crosses(box: Box, segment: Segment): boolean {
  const [[ax, ay], [bx, by]] = segment;
  const right = box.x + box.width;
  const bottom = box.y + box.height;
  if ((ax < box.x && bx < box.x) || (ax > right && bx > right)) return false;
  if ((ay < box.y && by < box.y) || (ay > bottom && by > bottom)) return false;
  return clip(box, segment) !== undefined;
}

/** The part of a line that lies in a box, or undefined (Liang and Barsky's clipping). */
export function clip(box: Box, [a, b]: Segment): Segment | undefined {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const edges: readonly (readonly [number, number])[] = [
    [-dx, a[0] - box.x],
    [dx, box.x + box.width - a[0]],
    [-dy, a[1] - box.y],
    [dy, box.y + box.height - a[1]],
  ];
  let from = 0;
  let to = 1;
  for (const [run, room] of edges) {
    if (run === 0) {
      if (room < 0) return undefined;
    } else if (run < 0) from = Math.max(from, room / run);
    else to = Math.min(to, room / run);
  }
  if (from > to) return undefined;
  return [
    [a[0] + from * dx, a[1] + from * dy],
    [a[0] + to * dx, a[1] + to * dy],
  ];
}

/** A box round a centre. */
export function boxAround([x, y]: Px, width: number, height: number): Box {
  return { x: x - width / 2, y: y - height / 2, width, height };
}

/** A box made a little smaller (or larger) all round. */
export function inset(box: Box, by: number): Box {
  return { x: box.x + by, y: box.y + by, width: box.width - 2 * by, height: box.height - 2 * by };
}

/** Where the letters of a text really are: not so high as its box, and with air at both ends. */
export function glyphs({ x, y, width, height }: Box): Box {
  return { x: x - 2, y: y + 4, width: width + 4, height: height - 8 };
}

/** Two texts in a line keep a gap, or they would be read as one. */
function wide(box: Box): Box {
  return { ...box, x: box.x - 7, width: box.width + 14 };
}

/** What is in the way of texts, growing as texts and lines are put down. */
export interface Field {
  /** Whether a text may stand here; `strict` keeps off dashed lines too. */
  free(box: Box, strict: boolean): boolean;
  /** Whether a line may run here without going through a text or along another label's line. */
  clear(segment: Segment): boolean;
  /** Whether a line crosses an outline. */
  cutsOutline(segment: Segment): boolean;
  /** Whether a line crosses the line of a label put down before. */
  cutsLine(segment: Segment): boolean;
  putText(box: Box): void;
  putLine(segment: Segment): void;
}

/** A field `widthPx` wide with outlines (never written over) and dashed lines (written over when it must be). */
export function createField(widthPx: number, hard: readonly Segment[], soft: readonly Segment[]): Field {
  const texts: Box[] = [];
  const lines: Segment[] = [];
  const hits = (box: Box, segments: readonly Segment[]) => segments.some((one) => crosses(box, one));
  return {
    free: (box, strict) => {
      if (box.x < -1e-6 || box.x + box.width > widthPx + 1e-6) return false;
      const around = wide(box);
      if (texts.some((text) => overlap(text, around))) return false;
      const ink = glyphs(box);
      return !hits(ink, lines) && !hits(ink, hard) && !(strict && hits(ink, soft));
    },
    clear: (segment) =>
      !texts.some((text) => crosses(glyphs(text), segment)) && !lines.some((line) => runAlong(line, segment)),
    cutsOutline: (segment) => hard.some((one) => meet(one, segment)),
    cutsLine: (segment) => lines.some((one) => meet(one, segment)),
    putText: (box) => texts.push(box),
    putLine: (segment) => lines.push(segment),
  };
}

/** Whether two straight lines cross. */
function meet([a, b]: Segment, [c, d]: Segment): boolean {
  const turn = (p: Px, q: Px, r: Px) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** Two lines that keep no more than this between them over some length are read as one. */
const APART_PX = 8;

/** Whether two straight lines lie on one another for a part of their length. */
export function runAlong([a, b]: Segment, [c, d]: Segment): boolean {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return false;
  const [x, y] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const away = ([px, py]: Px) => Math.abs((px - a[0]) * y - (py - a[1]) * x);
  if (away(c) > APART_PX || away(d) > APART_PX) return false;
  const along = ([px, py]: Px) => (px - a[0]) * x + (py - a[1]) * y;
  const shared = Math.min(length, Math.max(along(c), along(d))) - Math.max(0, Math.min(along(c), along(d)));
  return shared > APART_PX;
}
