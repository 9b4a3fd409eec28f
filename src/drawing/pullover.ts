/*
 * A pullover with a round yoke, laid flat. Body, yoke and sleeves are to one scale; the sleeves hang as they would
 * from the underarms. The yoke's depth is upright from underarm to neck, the sleeve's length along its underarm.
 */

import { garmentInWords, garmentParts, neckDipCm, neckEdges, neckWidthCm, ribbing } from './garment.ts';
import { along, between, callout, dimension, line, mirrored, outline } from './lines.ts';
import type { Reader } from './parts.ts';
import { emptyPicture, readParts, unitShown } from './parts.ts';
import type { DrawingKind, Label, PartSpec, Parts, Path, Picture, Point, Shape } from './picture.ts';

const title = 'The pullover, laid flat';

const specs: readonly PartSpec[] = [
  ...garmentParts,
  { name: 'yoke_depth', measures: 'length', needed: true, help: 'Underarm to neck, upright.' },
  { name: 'yoke_rows', measures: 'count', needed: false, help: 'Rows or rounds of the yoke.' },
  {
    name: 'yoke_stitches',
    measures: 'count',
    needed: false,
    help: 'Stitches of the yoke where body and sleeves meet.',
  },
];

/** A pullover with a round yoke, laid flat, its measurements and its counts beside it. */
export const pullover: DrawingKind = {
  kind: 'pullover',
  title,
  help: 'A round-yoke pullover laid flat and to scale, with your own body in dashes behind it.',
  parts: specs,
  draw: (parts) => draw(parts, 'pullover', title, specs, 'round'),
};

/** The same with raglan lines. */
export const raglan: DrawingKind = {
  kind: 'raglan',
  title,
  help: 'A raglan pullover laid flat and to scale, with your own body in dashes behind it.',
  parts: specs,
  draw: (parts) => draw(parts, 'raglan', title, specs, 'raglan'),
};

/** How the sleeve hangs: along it, and across it away from the body. */
const DOWN: Point = [Math.cos((63 * Math.PI) / 180), Math.sin((63 * Math.PI) / 180)];
const ACROSS: Point = [DOWN[1], -DOWN[0]];

/** The measures of a garment in cm, with what stands in for those that are not known. */
interface Garment {
  readonly halfWidth: number;
  readonly length: number;
  readonly depth: number;
  readonly neckWidth: number;
  readonly upperArm: number;
  readonly cuff: number;
  readonly sleeve: number | undefined;
  readonly rib: number;
}

interface Corners {
  readonly tip: Point;
  readonly underarm: Point;
  readonly shoulder: Point;
  readonly cuffIn: Point;
  readonly cuffOut: Point;
}

function draw(
  parts: Parts,
  kind: string,
  name: string,
  known: readonly PartSpec[],
  yoke: 'round' | 'raglan',
): Picture {
  const read = readParts(parts, known);
  const chest = read.value('chest');
  const length = read.value('body_length');
  const depth = read.value('yoke_depth');
  if (chest === undefined || length === undefined || depth === undefined) {
    read.leave('A pullover is drawn from its chest, its body length and its yoke depth.');
    return emptyPicture(kind, name, read.leftOut());
  }
  const garment = measured(read, chest, length, depth);
  const corners = cornersOf(garment);
  return {
    kind,
    title: name,
    block: {
      kind: 'scene',
      ruler: unitShown(parts),
      shapes: shapesOf(read, garment, corners, yoke),
      labels: labelsOf(read, garment, corners),
    },
    describe: [
      ...garmentInWords(read),
      ...read.tell('The yoke is {yoke_depth} deep, {yoke_rows}.', 'The yoke is {yoke_depth} deep.'),
      ...read.tell('Where body and sleeves meet it has {yoke_stitches}.'),
      ...read.tellRest(),
    ],
    leftOut: read.leftOut(),
  };
}

function measured(read: Reader, chest: number, length: number, depth: number): Garment {
  const sleeve = read.value('sleeve_length');
  const arm = read.value('upper_arm');
  if (sleeve === undefined || arm === undefined)
    read.leave('A sleeve needs its length and its upper arm, so the sleeves are left out.');
  const upperArm = arm ?? depth * 1.3;
  return {
    halfWidth: chest / 4,
    length,
    depth,
    neckWidth: Math.min(neckWidthCm(read.value('neck') ?? chest * 0.45), chest * 0.48),
    upperArm,
    cuff: read.value('cuff') ?? upperArm * 0.65,
    sleeve: arm === undefined ? undefined : sleeve,
    rib: Math.min(read.value('hem') ?? 4, length / 3, (sleeve ?? length) / 3),
  };
}

function cornersOf(garment: Garment): Corners {
  const underarm: Point = [garment.halfWidth, 0];
  const cuffIn = along(underarm, DOWN, garment.sleeve ?? 0);
  const rise = Math.min(garment.upperArm / 2, (0.85 * garment.depth) / -ACROSS[1]);
  return {
    tip: [garment.neckWidth / 2, -garment.depth],
    underarm,
    shoulder: along(underarm, ACROSS, rise),
    cuffIn,
    cuffOut: along(cuffIn, ACROSS, garment.cuff / 2),
  };
}

function shapesOf(
  read: Reader,
  garment: Garment,
  corners: Corners,
  yoke: 'round' | 'raglan',
): readonly Shape[] {
  const sleeve = garment.sleeve === undefined ? [] : sleeveShapes(garment, corners);
  return [
    ...sleeve,
    ...sleeve.map(mirrored),
    ...bodyShapes(garment),
    ...yokeShapes(garment, corners, yoke),
    ...ownBody(read, garment, corners),
  ];
}

function bodyShapes({ halfWidth: w, length, rib }: Garment): readonly Path[] {
  const body = line(
    'piece',
    [
      [-w, 0],
      [w, 0],
      [w, length],
      [-w, length],
    ],
    true,
  );
  const top = length - rib;
  return [
    body,
    line('seam', [
      [-w, top],
      [w, top],
    ]),
    ...ribbing([-w, top], [w, top], [-w, length], [w, length], 19),
  ];
}

function sleeveShapes(garment: Garment, { underarm, shoulder, cuffIn, cuffOut }: Corners): readonly Path[] {
  const share = 1 - garment.rib / Math.max(garment.sleeve ?? 1, garment.rib + 0.1);
  const ribIn = between(underarm, cuffIn, share);
  const ribOut = between(shoulder, cuffOut, share);
  return [
    line('piece', [underarm, shoulder, cuffOut, cuffIn], true),
    line('seam', [ribIn, ribOut]),
    ...ribbing(ribIn, ribOut, cuffIn, cuffOut, 6),
  ];
}

/** From the neck over the shoulders to the underarms; round, or with the raglan lines. */
function yokeShapes(
  garment: Garment,
  { tip, shoulder, underarm }: Corners,
  yoke: 'round' | 'raglan',
): readonly Path[] {
  const { front, back } = neckEdges(garment.neckWidth, tip[1]);
  const slope: Point = between(tip, shoulder, 0.5);
  const bulge: Point = yoke === 'round' ? [slope[0], slope[1] - garment.depth * 0.05] : slope;
  const left = ([x, y]: Point): Point => [-x, y];
  const whole = outline('piece', tip, [
    ...front,
    { to: left(shoulder), by: [left(bulge)] },
    { to: left(underarm) },
    { to: underarm },
    { to: shoulder },
    { to: tip, by: [bulge] },
  ]);
  const inner = neckDipCm(garment.neckWidth);
  const raglans = yoke === 'raglan' ? raglanLines(tip, underarm, inner) : [];
  return [whole, back, ...raglans];
}

function raglanLines(tip: Point, underarm: Point, dip: number): readonly Path[] {
  const start: Point = [tip[0] * 0.86, tip[1] + dip * 0.5];
  const one = line('seam', [start, underarm]);
  return [one, mirrored(one)];
}

/** Your own body in dashes, as far as it is known: the trunk, and an arm in the middle of each sleeve. */
function ownBody(
  read: Reader,
  garment: Garment,
  { underarm, shoulder, cuffIn, cuffOut }: Corners,
): readonly Path[] {
  const chest = read.value('own_chest');
  const arm = read.value('own_upper_arm');
  const paths: Path[] = [];
  if (chest !== undefined) {
    const w = chest / 4;
    const top = -garment.depth * 0.12;
    paths.push(
      line('dash', [
        [-w, top],
        [-w, garment.length],
      ]),
      line('dash', [
        [w, top],
        [w, garment.length],
      ]),
    );
  }
  if (arm === undefined || garment.sleeve === undefined) return paths;
  const wrist = read.value('own_wrist') ?? arm * 0.6;
  const topMiddle = between(underarm, shoulder, 0.5);
  const endMiddle = between(cuffIn, cuffOut, 0.5);
  const sides = [1, -1].map((way) =>
    line('dash', [along(topMiddle, ACROSS, (way * arm) / 4), along(endMiddle, ACROSS, (way * wrist) / 4)]),
  );
  return [...paths, ...sides, ...sides.map(mirrored)];
}

function labelsOf(read: Reader, garment: Garment, corners: Corners): readonly Label[] {
  const { halfWidth: w, length, depth, neckWidth } = garment;
  const inBody = -w * 0.62;
  return [
    ...dimension(
      'below',
      [-w, length],
      [w, length],
      read.runs('chest', { before: 'chest', after: 'around' }),
      read.runs('body_stitches'),
    ),
    ...dimension(
      'on',
      [inBody, 0.4],
      [inBody, length - 0.4],
      read.runs('body_length', { before: 'body' }),
      read.runs('body_rows'),
    ),
    ...yokeLabels(read, garment, corners),
    ...dimension(
      'above',
      [-neckWidth / 2, -depth],
      [neckWidth / 2, -depth],
      read.runs('neck', { before: 'neck' }),
      read.runs('neck_stitches'),
    ),
    ...sleeveLabels(read, garment, corners),
    ...ownLabels(read, garment),
  ];
}

/** The depth of the yoke hangs from the tip of the neck. */
function yokeLabels(read: Reader, { depth }: Garment, { tip }: Corners): readonly Label[] {
  const x = tip[0] + 0.6;
  return [
    ...dimension(
      'on',
      [x, -depth],
      [x, -0.4],
      read.runs('yoke_depth', { before: 'yoke' }),
      read.runs('yoke_rows'),
    ),
    ...callout([-tip[0], -0.06 * depth], ['above'], read.runs('yoke_stitches', { before: 'all round' })),
  ];
}

function sleeveLabels(
  read: Reader,
  garment: Garment,
  { underarm, shoulder, cuffIn, cuffOut }: Corners,
): readonly Label[] {
  if (garment.sleeve === undefined) return [];
  const left = ([x, y]: Point): Point => [-x, y];
  const at = (edge: Point, by: number) => along(edge, DOWN, by);
  const slope = Math.hypot(cuffOut[0] - shoulder[0], cuffOut[1] - shoulder[1]) || 1;
  const outerEnd = between(shoulder, cuffOut, garment.sleeve / slope);
  return [
    ...dimension(
      'left',
      left(shoulder),
      left(outerEnd),
      read.runs('sleeve_length', { before: 'sleeve' }),
      read.runs('sleeve_rows'),
    ),
    ...dimension('below', cuffIn, cuffOut, read.runs('cuff', { before: 'cuff' }), read.runs('cuff_stitches')),
    ...dimension(
      'end',
      at(underarm, 1.2),
      at(shoulder, 1.2),
      read.runs('upper_arm', { before: 'upper arm' }),
      read.runs('upper_arm_stitches'),
    ),
  ];
}

function ownLabels(read: Reader, garment: Garment): readonly Label[] {
  const chest = read.value('own_chest');
  if (chest === undefined) return [];
  return callout(
    [chest / 4, garment.length * 0.62],
    ['left', 'right'],
    read.runs('own_chest', { before: 'you' }),
  );
}
