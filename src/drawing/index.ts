/* Drawings: every kind by name, what parts it takes, and how a picture becomes marks at a width. */

import { edging } from './edging.ts';
import { fabrics } from './fabrics.ts';
import { levels } from './levels.ts';
import { emptyPicture } from './parts.ts';
import type { DrawingKind, Parts, Picture } from './picture.ts';
import { pullover, raglan } from './pullover.ts';
import { setIn } from './set-in.ts';
import { shaping } from './shaping.ts';
import { sock } from './sock.ts';
import { yarn } from './yarn.ts';

/** Every kind of drawing; a new one is one file and one line here. */
export const drawings: readonly DrawingKind[] = [
  fabrics,
  pullover,
  raglan,
  setIn,
  sock,
  edging,
  shaping,
  yarn,
  levels,
];

const byKind: ReadonlyMap<string, DrawingKind> = new Map(drawings.map((one) => [one.kind, one]));

/** A kind of drawing by its name, or undefined. */
export function drawingKind(kind: string): DrawingKind | undefined {
  return byKind.get(kind);
}

/** Draws parts. A kind nobody knows, and parts that are missing or absurd, are told in `leftOut`; nothing throws. */
export function draw(kind: string, parts: Parts): Picture {
  const known = drawingKind(kind);
  if (known) return known.draw(parts);
  const names = drawings.map((one) => one.kind).join(', ');
  return emptyPicture(kind, 'A drawing', [`There is no drawing called “${kind}”; there are ${names}.`]);
}

export type { Laid, LaidPath, LaidText } from './laid.ts';
export { layOut } from './layout.ts';
export { type Colour, type Look, looks } from './looks.ts';
export type { DrawingKind, Part, PartSpec, Parts, Picture, Role } from './picture.ts';
export type { Box } from './place.ts';
export { n2 } from './round.ts';
export { type Palette, palettes, toSvg } from './svg.ts';
