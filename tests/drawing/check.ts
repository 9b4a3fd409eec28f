// What every laid-out drawing owes: texts on the page, apart from one another, and large enough for a finger.
import type { Box, Laid } from '../../src/drawing/index.ts';

function apart(a: Box, b: Box): boolean {
  const air = 1e-6;
  return (
    a.x + a.width <= b.x + air ||
    b.x + b.width <= a.x + air ||
    a.y + a.height <= b.y + air ||
    b.y + b.height <= a.y + air
  );
}

/** Everything that is wrong with a layout, each one sentence; none for a good one. */
export function faultsOf(laid: Laid): readonly string[] {
  const faults: string[] = [];
  if (!Number.isFinite(laid.heightPx) || laid.heightPx < 0) faults.push(`its height is ${laid.heightPx}`);
  laid.texts.forEach((text, k) => {
    const { x, y, width, height } = text.box;
    const name = `"${text.before} ${text.text} ${text.after}"`;
    if (![x, y, width, height].every(Number.isFinite)) faults.push(`${name} has no place`);
    if (x < -1e-6 || x + width > laid.widthPx + 1e-6) faults.push(`${name} leaves the page sideways`);
    if (y < -1e-6 || y + height > laid.heightPx + 1e-6) faults.push(`${name} leaves the page above or below`);
    if (text.cell !== undefined && height < 24) faults.push(`${name} is too low for a finger`);
    if (text.sizePx < 11.5) faults.push(`${name} is ${text.sizePx} px small`);
    for (const other of laid.texts.slice(k + 1)) {
      if (!apart(text.box, other.box)) faults.push(`${name} lies on "${other.text}"`);
    }
  });
  for (const path of laid.paths) {
    if (/NaN|Infinity|undefined/.test(path.d)) faults.push(`a ${path.role} has no place`);
  }
  return [...faults, ...dimensionsOnOneAnother(laid)];
}

type Line = readonly [ax: number, ay: number, bx: number, by: number];

/** The line that each dimension is drawn with, without its ticks. */
function dimensionsOf(laid: Laid): readonly Line[] {
  return laid.paths.flatMap(({ role, d }) => {
    const [, ...ends] = role === 'dimension' ? (/^M(\S+) (\S+)L(\S+) (\S+?)(?=M|$)/.exec(d) ?? []) : [];
    const [ax = 0, ay = 0, bx = 0, by = 0] = ends.map(Number);
    return ends.length === 4 ? [[ax, ay, bx, by] as const] : [];
  });
}

/** Dimension lines that lie on one another, which nobody can tell apart; level and upright ones are looked at. */
function dimensionsOnOneAnother(laid: Laid): readonly string[] {
  const lines = dimensionsOf(laid);
  const shared = (a0: number, a1: number, b0: number, b1: number) =>
    Math.min(Math.max(a0, a1), Math.max(b0, b1)) - Math.max(Math.min(a0, a1), Math.min(b0, b1));
  return lines.flatMap(([ax, ay, bx, by], k) =>
    lines.slice(k + 1).flatMap(([cx, cy, dx, dy]) => {
      const level = ay === by && cy === dy && Math.abs(ay - cy) < 2 && shared(ax, bx, cx, dx) > 9;
      const upright = ax === bx && cx === dx && Math.abs(ax - cx) < 2 && shared(ay, by, cy, dy) > 9;
      return level || upright ? [`a dimension line lies on another at ${ax}, ${ay}`] : [];
    }),
  );
}
