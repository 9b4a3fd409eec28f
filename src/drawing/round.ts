/** The one place where numbers of a drawing are rounded: two decimals, and never "-0" or "NaN". */

/** A number for an SVG attribute. */
export function n2(x: number): string {
  if (!Number.isFinite(x)) return '0';
  const rounded = Math.round(x * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}
