/*
 * Counts are whole or they are wrong. Arithmetic in binary leaves 243.00000000000003 where paper says 243;
 * everything that decides (rounding, comparing, ties) therefore treats values that lie this near as equal.
 */

/** How near counts as equal, relative to the larger of 1 and the value. */
export const NEAR = 1e-9;

/** Whether two values count as equal. */
export function same(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) <= NEAR * Math.max(1, Math.abs(a), Math.abs(b));
}

/** The whole number that `x` is within reach of, else `x` itself. Never −0. */
export function snapped(x: number): number {
  const whole = Math.round(x);
  return Math.abs(x - whole) <= NEAR * Math.max(1, Math.abs(x)) ? whole + 0 : x;
}

/** To the nearest whole; ties go to the larger, for negatives too. */
export function wholeNear(x: number): number {
  const near = Math.floor(x + 0.5);
  const beyond = x + 0.5 - near;
  // Far from a tie, and on it, there is nothing to weigh: most counts, and the quick way through.
  if (((beyond > 0.01 && beyond < 0.99) || beyond === 0) && x < 1e6 && x > -1e6) return near;
  return +wholeByTie(x); // The sign, and the sum below, tell V8 that it is a number (`formula/machine.ts`).
}

function wholeByTie(x: number): number {
  const below = Math.floor(snapped(x));
  return (same(x - below, 0.5) || x - below > 0.5 ? below + 1 : below) + 0;
}

/** To the whole at or above. */
export function wholeUp(x: number): number {
  return Math.ceil(snapped(x)) + 0;
}

/** To the whole at or below. */
export function wholeDown(x: number): number {
  return Math.floor(snapped(x)) + 0;
}

/** To the nearest (or next above, or below) multiple of `n`, plus `plus`. NaN where `n` is not above 0. */
export function multipleOf(round: (x: number) => number, x: number, n: number, plus: number): number {
  return n > 0 ? round((x - plus) / n) * n + plus : Number.NaN;
}

/** To the nearest multiple of `n`, as `multipleOf` with `wholeNear`, where it must be quick. */
export function nearMultiple(x: number, n: number): number {
  return n > 0 ? wholeNear(x / n) * n + 0 : (n - n) / 0;
}
