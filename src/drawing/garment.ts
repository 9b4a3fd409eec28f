/*
 * What all pullovers share: laid flat, seen from the front, in centimetres. The middle of the body is x = 0; the
 * underarm is y = 0 and the neck lies above it, below nought. Girths are drawn half, as two layers lie on one another.
 */

import { line, open } from './lines.ts';
import type { Reader } from './parts.ts';
import type { Measures, PartSpec, Path, Point } from './picture.ts';

const part = (name: string, measures: Measures, help: string, needed = false): PartSpec => ({
  name,
  measures,
  needed,
  help,
});

/** The parts that every pullover knows. */
export const garmentParts: readonly PartSpec[] = [
  part('chest', 'length', 'Finished girth of the body.', true),
  part('body_length', 'length', 'Underarm to hem.', true),
  part('neck', 'length', 'Finished girth of the neck.'),
  part('upper_arm', 'length', 'Finished girth of the sleeve at its top.'),
  part('cuff', 'length', 'Finished girth of the sleeve at its edge.'),
  part('sleeve_length', 'length', 'Underarm to the edge of the sleeve.'),
  part('hem', 'length', 'Height of the ribbing at hem and cuffs.'),
  part('body_stitches', 'count', 'Stitches of the body.'),
  part('body_rows', 'count', 'Rows or rounds from underarm to hem.'),
  part('neck_stitches', 'count', 'Stitches at the neck.'),
  part('upper_arm_stitches', 'count', 'Stitches of the sleeve at its top.'),
  part('cuff_stitches', 'count', 'Stitches at the cuff.'),
  part('sleeve_rows', 'count', 'Rows or rounds of the sleeve.'),
  part('own_chest', 'length', 'Your own chest, drawn in dashes.'),
  part('own_upper_arm', 'length', 'Your own upper arm, drawn in dashes.'),
  part('own_wrist', 'length', 'Your own wrist, drawn in dashes.'),
];

/**
 * The neck lies as two halves of an ellipse, a deep one in front and a shallow one at the back; together they are as
 * long as the girth. For an ellipse of half axes ½ and d the half round is Ramanujan's approximation.
 */
const FRONT_DIP = 0.24;
const BACK_DIP = 0.07;
const NECK_ROUND = halfRound(FRONT_DIP) + halfRound(BACK_DIP);

function halfRound(dip: number): number {
  const h = ((0.5 - dip) / (0.5 + dip)) ** 2;
  return (Math.PI * (0.5 + dip) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)))) / 2;
}

/** How wide a neck of a girth lies, in cm. */
export function neckWidthCm(girthCm: number): number {
  return girthCm / NECK_ROUND;
}

/** The neck's front and back edge between its two tips at height y. */
export function neckEdges(
  widthCm: number,
  y: number,
): { readonly front: Path['steps']; readonly back: Path } {
  const half = widthCm / 2;
  const bend = (from: Point, to: Point, dip: number): Path['steps'] => {
    const low = y + (dip * widthCm * 4) / 3;
    return [
      {
        to,
        by: [
          [from[0], low],
          [to[0], low],
        ],
      },
    ];
  };
  const left: Point = [-half, y];
  const right: Point = [half, y];
  return { front: bend(right, left, FRONT_DIP), back: open('seam', right, bend(right, left, BACK_DIP)) };
}

/** How far the front of a neck dips, in cm. */
export function neckDipCm(widthCm: number): number {
  return FRONT_DIP * widthCm;
}

/** Upright lines of ribbing between two edges, `count` of them. */
export function ribbing(
  topLeft: Point,
  topRight: Point,
  bottomLeft: Point,
  bottomRight: Point,
  count: number,
): readonly Path[] {
  return Array.from({ length: count }, (_, k) => {
    const t = (k + 1) / (count + 1);
    const mix = (a: Point, b: Point): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    return line('hatch', [mix(topLeft, topRight), mix(bottomLeft, bottomRight)]);
  });
}

/** Sentences every pullover tells. */
export function garmentInWords(read: Reader): readonly string[] {
  return [
    ...read.tell(
      'The body is {chest} around, on {body_stitches}.',
      'The body is {chest} around.',
      'The body has {body_stitches}.',
    ),
    ...read.tell(
      'From underarm to hem it is {body_length}, {body_rows}.',
      'From underarm to hem it is {body_length}.',
    ),
    ...read.tell(
      'The neck is {neck} around, on {neck_stitches}.',
      'The neck is {neck} around.',
      'The neck has {neck_stitches}.',
    ),
    ...read.tell(
      'The sleeve is {upper_arm} around at the top, on {upper_arm_stitches}.',
      'The sleeve is {upper_arm} around at the top.',
    ),
    ...read.tell('Its edge is {cuff} around, on {cuff_stitches}.', 'Its edge is {cuff} around.'),
    ...read.tell('The sleeve is {sleeve_length} long, {sleeve_rows}.', 'The sleeve is {sleeve_length} long.'),
    ...read.tell('In dashes: your own chest, {own_chest} around.'),
    ...read.tell(
      'In dashes: your own arm, {own_upper_arm} at the top and {own_wrist} at the wrist.',
      'In dashes: your own upper arm, {own_upper_arm}.',
    ),
  ];
}
