/*
 * Reading the numbers a plan is asked for. They come from a knitter's sheet and may be anything: a hair off
 * whole, half a stitch, negative, enormous. What comes out of here is whole and within bounds, or a problem.
 */

import type { Problem } from '../formula/index.ts';
import { snapped } from '../quantity/index.ts';
import { problem } from './problem.ts';

/** How large an argument of a plan may be: stitches, rows or times. */
export const MOST = 100_000;

/** Whether what a craft function gave is a problem. */
export function refused(given: object): given is Problem {
  return 'code' in given;
}

/** One number as it was given, the least and the most it may be. */
export type Bounds = readonly [value: number | undefined, least: number, most?: number];

/** The number itself, snapped, or what is wrong with it; it need not be whole. */
export function readNumber(name: string, [value, least, most = MOST]: Bounds): number | Problem {
  if (value === undefined || !Number.isFinite(value)) return problem('plan-no-number', { name });
  const near = snapped(value);
  if (near < least) return problem('plan-too-small', { name, value: near, least });
  if (near > most) return problem('plan-too-large', { name, value: near, most });
  return near;
}

function readCount(name: string, bounds: Bounds): number | Problem {
  const near = readNumber(name, bounds);
  if (typeof near !== 'number' || Number.isInteger(near)) return near;
  return problem('plan-not-whole', { name, value: near });
}

/** All the counts by name, each whole and within its bounds, or the first problem among them. */
export function readCounts<Name extends string>(
  given: Readonly<Record<Name, Bounds>>,
): Readonly<Record<Name, number>> | Problem {
  const read: Partial<Record<Name, number>> = {};
  for (const name of Object.keys(given) as Name[]) {
    const count = readCount(name, given[name]);
    if (typeof count !== 'number') return count;
    read[name] = count;
  }
  return read as Record<Name, number>;
}

/** Arguments as a plan keeps them: those that were left out are absent. */
export function present(given: Readonly<Record<string, number | undefined>>): Record<string, number> {
  const kept: Record<string, number> = {};
  for (const [name, value] of Object.entries(given)) if (value !== undefined) kept[name] = snapped(value);
  return kept;
}

/** `n` shared out over `k` (above 0) as evenly as whole numbers allow: `small` so often, `small + 1` so often. */
export function sharedOut(
  n: number,
  k: number,
): { readonly small: number; readonly smalls: number; readonly larges: number } {
  const small = Math.floor(n / k);
  const larges = n - small * k;
  return { small, smalls: k - larges, larges };
}
