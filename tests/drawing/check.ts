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
  return faults;
}
