/** Where a strand is tied: a row's cell, and the middle of its first line in pixels from the sheet's top. */
export interface Knot {
  readonly id: string;
  readonly y: number;
}

/** The margin's measures in pixels: where strands begin and end, and where they hang in between. */
const tiedAtPx = 35;
const hangsAtPx = 9;
const nameAtPx = 46;

/**
 * One path for each knot, from `from` to it. All hang at the same line in the margin, so that together they look like
 * one strand that lets go of a yarn at each knot.
 */
export function strandPaths(from: number, knots: readonly Knot[]): readonly string[] {
  return knots.map(({ y }) => strandPath(from, y));
}

function strandPath(from: number, to: number): string {
  const way = Math.sign(to - from);
  const gap = Math.abs(to - from);
  if (gap < 1) return '';
  const turn = Math.min(34, gap / 2);
  const down = from + way * turn;
  const up = to - way * turn;
  const enter = `M${tiedAtPx} ${from}C${hangsAtPx + 4} ${from} ${hangsAtPx} ${from + way * turn * 0.35} ${hangsAtPx} ${down}`;
  const leave = `C${hangsAtPx} ${to - way * turn * 0.35} ${hangsAtPx + 6} ${to} ${tiedAtPx} ${to}`;
  return `${enter}V${up}${leave}H${nameAtPx}`;
}
