/*
 * The ways of the strands. All hang at the same line in the margin, so that together they look like one strand that lets
 * go of a yarn at each knot. So only the few that go furthest in each direction are drawn whole (a few, as dashes a pixel
 * wide stand out only where they lie on each other), and the others begin where they leave these: drawn whole, sixty
 * strands would lie on each other, and a browser draws every dash of every one.
 */

/** Where a strand is tied: a row's cell, and the middle of its first line in pixels from the sheet's top. */
export interface Knot {
  readonly id: string;
  readonly y: number;
}

/** The margin's measures in pixels: where strands begin and end, and where they hang in between. */
const tiedAtPx = 35;
const hangsAtPx = 9;
const nameAtPx = 46;
/** So far a strand turns, and so long is the curve in which it comes to hang. */
const turnPx = 34;
const enteringPx = 50.08;

/**
 * One path for each knot, from `from` to it, or from where it leaves the strand that goes on. `dashPx` is from one dash to
 * the next: a strand that leaves begins with one.
 */
export function strandPaths(from: number, knots: readonly Knot[], dashPx: number): readonly string[] {
  const ys = knots.map(({ y }) => y);
  const whole = new Set([...furthest(ys.map((y) => y - from)), ...furthest(ys.map((y) => from - y))]);
  return ys.map((to) => {
    const gap = Math.abs(to - from);
    const isWhole = whole.has(gap) || gap <= 2 * turnPx + dashPx;
    return isWhole ? strandPath(from, to) : leavingPath(from, to, dashPx);
  });
}

/** So many strands are drawn whole in each direction. */
const mostWhole = 4;

/** The largest of some distances in one direction; those in the other are below nothing. */
const furthest = (distances: readonly number[]): readonly number[] =>
  distances
    .filter((distance) => distance > 0)
    .sort((a, b) => b - a)
    .slice(0, mostWhole);

function strandPath(from: number, to: number): string {
  const way = Math.sign(to - from);
  const gap = Math.abs(to - from);
  if (gap < 1) return '';
  const turn = Math.min(turnPx, gap / 2);
  const down = from + way * turn;
  const enter = `M${tiedAtPx} ${from}C${hangsAtPx + 4} ${from} ${hangsAtPx} ${from + way * turn * 0.35} ${hangsAtPx} ${down}`;
  return enter + leaving(to, way, turn);
}

/** The end of a strand, from the last dash that it has in common with the one that goes on. */
function leavingPath(from: number, to: number, dashPx: number): string {
  const way = Math.sign(to - from);
  const hangingPx = Math.abs(to - from) - 2 * turnPx;
  const sharedPx = Math.floor((enteringPx + hangingPx) / dashPx) * dashPx;
  const start = from + way * (turnPx + sharedPx - enteringPx);
  return `M${hangsAtPx} ${Number(start.toFixed(2))}${leaving(to, way, turnPx)}`;
}

function leaving(to: number, way: number, turn: number): string {
  const up = to - way * turn;
  return `V${up}C${hangsAtPx} ${to - way * turn * 0.35} ${hangsAtPx + 6} ${to} ${tiedAtPx} ${to}H${nameAtPx}`;
}
