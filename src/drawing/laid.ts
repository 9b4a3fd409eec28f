/*
 * A picture laid out for one width: final places in pixels, ready to be written as SVG by anyone who can write a
 * path and a text. Nothing here is measured again later.
 */

import type { Role } from './picture.ts';
import type { Box } from './place.ts';

/** A line or shape with its place. */
export interface LaidPath {
  readonly role: Role;
  /** SVG path data. */
  readonly d: string;
  readonly cell?: string;
  /** In pixels, where the role does not say. */
  readonly strokeWidth?: number;
}

/** A text with its place: `x` by its anchor, `y` the baseline. */
export interface LaidText {
  /** `label`: says a value. `plain`: words only. `letter`: points at a line of the key. */
  readonly role: 'label' | 'plain' | 'letter';
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly sizePx: number;
  readonly before: string;
  readonly text: string;
  readonly after: string;
  readonly cell?: string;
  /** The ground it stands on, at least 24 px high: what a finger touches. No two of a drawing overlap. */
  readonly box: Box;
}

/** What a picture holds, laid out, before it is known how wide the page is. */
export interface LaidBlock {
  readonly heightPx: number;
  /** Pixels to the centimetre; NaN where it is not drawn to scale. */
  readonly pxPerCm: number;
  readonly paths: readonly LaidPath[];
  readonly texts: readonly LaidText[];
}

/** Nothing at all, laid out. */
export const NOTHING: LaidBlock = { heightPx: 0, pxPerCm: Number.NaN, paths: [], texts: [] };

/** A picture laid out for a width. */
export interface Laid extends LaidBlock {
  readonly widthPx: number;
}
