/*
 * A pullover with set-in sleeves, as its schematic is drawn: the body laid flat, and one sleeve beside it, cap up.
 */

import { garmentInWords, garmentParts, neckEdges, neckWidthCm, ribbing } from './garment.ts';
import { between, callout, dimension, line, outline } from './lines.ts';
import type { Reader } from './parts.ts';
import { emptyPicture, readParts, unitShown } from './parts.ts';
import type { DrawingKind, Label, PartSpec, Parts, Path, Picture, Point, Shape } from './picture.ts';

const title = 'The pullover and a sleeve, laid flat';

const specs: readonly PartSpec[] = [
  ...garmentParts,
  {
    name: 'armhole_depth',
    measures: 'length',
    needed: true,
    help: 'Underarm to the tip of the shoulder, upright.',
  },
  { name: 'armhole_rows', measures: 'count', needed: false, help: 'Rows of the armhole.' },
  { name: 'cross_back', measures: 'length', needed: false, help: 'Shoulder tip to shoulder tip.' },
  { name: 'cross_back_stitches', measures: 'count', needed: false, help: 'Stitches between the armholes.' },
  { name: 'shoulder_stitches', measures: 'count', needed: false, help: 'Stitches of one shoulder.' },
  {
    name: 'cap_height',
    measures: 'length',
    needed: false,
    help: 'Underarm of the sleeve to the top of its cap.',
  },
  { name: 'cap_rows', measures: 'count', needed: false, help: 'Rows of the cap.' },
];

/** A pullover with set-in sleeves, and a sleeve beside it. */
export const setIn: DrawingKind = {
  kind: 'set-in',
  title,
  help: 'A pullover with set-in sleeves to scale, a sleeve beside it, with your own body in dashes.',
  parts: specs,
  draw,
};

/** A shoulder falls about a fifth of its width. */
const SHOULDER_FALL = 0.22;
const GAP_CM = 14;

/** Everything in cm, half widths from the middle of the body. */
interface Garment {
  readonly half: number;
  readonly length: number;
  readonly armhole: number;
  readonly cross: number;
  readonly neckWidth: number;
  readonly fall: number;
  readonly rib: number;
}

interface Sleeve {
  /** The middle of the sleeve. */
  readonly x: number;
  readonly top: number;
  readonly edge: number;
  readonly length: number;
  readonly cap: number;
  readonly rib: number;
}

function draw(parts: Parts): Picture {
  const read = readParts(parts, specs);
  const chest = read.value('chest');
  const length = read.value('body_length');
  const armhole = read.value('armhole_depth');
  if (chest === undefined || length === undefined || armhole === undefined) {
    read.leave('This pullover is drawn from its chest, its body length and the depth of its armhole.');
    return emptyPicture('set-in', title, read.leftOut());
  }
  const garment = measured(read, chest, length, armhole);
  const sleeve = sleeveOf(read, garment);
  return {
    kind: 'set-in',
    title,
    block: {
      kind: 'scene',
      ruler: unitShown(parts),
      shapes: [...bodyShapes(garment), ...sleeveShapes(sleeve), ...ownShapes(read, garment, sleeve)],
      labels: [
        ...bodyLabels(read, garment),
        ...sleeveLabels(read, sleeve),
        ...ownLabels(read, garment, sleeve),
      ],
    },
    describe: [
      ...garmentInWords(read),
      ...read.tell(
        'The armhole is {armhole_depth} deep, {armhole_rows}.',
        'The armhole is {armhole_depth} deep.',
      ),
      ...read.tell(
        'Across the back it is {cross_back}, {cross_back_stitches}.',
        'Across the back it is {cross_back}.',
      ),
      ...read.tell('Each shoulder has {shoulder_stitches}.'),
      ...(sleeve ? ['The sleeve is drawn opened out, as it lies when knitted flat.'] : []),
      ...read.tell(
        'The cap of the sleeve is {cap_height} high, {cap_rows}.',
        'The cap of the sleeve is {cap_height} high.',
      ),
      ...read.tellRest(),
    ],
    leftOut: read.leftOut(),
  };
}

function measured(read: Reader, chest: number, length: number, armhole: number): Garment {
  const cross = Math.min((read.value('cross_back') ?? chest * 0.38) / 2, chest / 4);
  const neckWidth = Math.min(neckWidthCm(read.value('neck') ?? chest * 0.45), cross * 1.6);
  return {
    half: chest / 4,
    length,
    armhole,
    cross,
    neckWidth,
    fall: (cross - neckWidth / 2) * SHOULDER_FALL,
    rib: Math.min(read.value('hem') ?? 4, length / 3),
  };
}

function sleeveOf(read: Reader, { half, armhole }: Garment): Sleeve | undefined {
  const length = read.value('sleeve_length');
  const arm = read.value('upper_arm');
  if (length === undefined || arm === undefined) {
    read.leave('A sleeve needs its length and its upper arm, so it is left out.');
    return undefined;
  }
  const cuff = read.value('cuff') ?? arm * 0.65;
  return {
    x: half + GAP_CM + Math.max(arm, cuff) / 2,
    top: arm / 2,
    edge: cuff / 2,
    length,
    cap: read.value('cap_height') ?? armhole * 0.7,
    rib: Math.min(read.value('hem') ?? 4, length / 3),
  };
}

function bodyShapes({ half: w, length, armhole, cross, neckWidth, fall, rib }: Garment): readonly Path[] {
  const shoulder = -armhole;
  const { front, back } = neckEdges(neckWidth, shoulder - fall);
  const low = shoulder + armhole * 0.45;
  const body = outline(
    'piece',
    [neckWidth / 2, shoulder - fall],
    [
      ...front,
      { to: [-cross, shoulder] },
      { to: [-cross, low] },
      {
        to: [-w, 0],
        by: [
          [-cross, -armhole * 0.06],
          [-(w + cross) / 2, 0],
        ],
      },
      { to: [-w, length] },
      { to: [w, length] },
      { to: [w, 0] },
      {
        to: [cross, low],
        by: [
          [(w + cross) / 2, 0],
          [cross, -armhole * 0.06],
        ],
      },
      { to: [cross, shoulder] },
    ],
  );
  const top = length - rib;
  return [
    body,
    back,
    line('seam', [
      [-w, top],
      [w, top],
    ]),
    ...ribbing([-w, top], [w, top], [-w, length], [w, length], 19),
  ];
}

function sleeveShapes(sleeve: Sleeve | undefined): readonly Path[] {
  if (!sleeve) return [];
  const { x, top, edge, length, cap, rib } = sleeve;
  const crown = top * 0.28;
  const share = 1 - rib / length;
  const at = (side: 1 | -1) => between([x + side * top, 0], [x + side * edge, length], share);
  const piece = outline(
    'piece',
    [x - top, 0],
    [
      {
        to: [x - crown, -cap],
        by: [
          [x - top * 0.62, -cap * 0.02],
          [x - top * 0.62, -cap],
        ],
      },
      { to: [x + crown, -cap] },
      {
        to: [x + top, 0],
        by: [
          [x + top * 0.62, -cap],
          [x + top * 0.62, -cap * 0.02],
        ],
      },
      { to: [x + edge, length] },
      { to: [x - edge, length] },
    ],
  );
  return [
    piece,
    line('seam', [at(-1), at(1)]),
    ...ribbing(at(-1), at(1), [x - edge, length], [x + edge, length], 9),
  ];
}

/** Your own trunk behind the body; your own arm, opened out like the sleeve, behind the sleeve. */
function ownShapes(read: Reader, garment: Garment, sleeve: Sleeve | undefined): readonly Shape[] {
  const chest = read.value('own_chest');
  const arm = read.value('own_upper_arm');
  const trunk =
    chest === undefined
      ? []
      : [1, -1].map((side) =>
          line('dash', [
            [(side * chest) / 4, 0],
            [(side * chest) / 4, garment.length],
          ]),
        );
  if (arm === undefined || !sleeve) return trunk;
  const wrist = read.value('own_wrist') ?? arm * 0.6;
  const sides = [1, -1].map((side) =>
    line('dash', [
      [sleeve.x + (side * arm) / 2, 0],
      [sleeve.x + (side * wrist) / 2, sleeve.length],
    ]),
  );
  return [...trunk, ...sides];
}

function bodyLabels(read: Reader, garment: Garment): readonly Label[] {
  const { half: w, length, armhole, cross, neckWidth, fall } = garment;
  const inBody = -w * 0.55;
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
      [inBody, 0],
      [inBody, length - 0.4],
      read.runs('body_length', { before: 'body' }),
      read.runs('body_rows'),
    ),
    ...dimension(
      'left',
      [-w, -armhole],
      [-w, 0],
      read.runs('armhole_depth', { before: 'armhole' }),
      read.runs('armhole_rows'),
    ),
    ...dimension(
      'above',
      [-neckWidth / 2, -armhole - fall],
      [neckWidth / 2, -armhole - fall],
      read.runs('neck', { before: 'neck', after: 'around' }),
      read.runs('neck_stitches'),
    ),
    ...dimension(
      'on',
      [-cross + 0.3, -armhole * 0.4],
      [cross - 0.3, -armhole * 0.4],
      read.runs('cross_back', { before: 'across' }),
      read.runs('cross_back_stitches'),
    ),
    ...callout(
      [(cross + neckWidth / 2) / 2, -armhole - fall * 0.5],
      ['above', 'right'],
      read.runs('shoulder_stitches', { before: 'shoulder' }),
    ),
  ];
}

function sleeveLabels(read: Reader, sleeve: Sleeve | undefined): readonly Label[] {
  if (!sleeve) return [];
  const { x, top, edge, length, cap } = sleeve;
  const low: Point = [x - edge, length];
  return [
    ...dimension(
      'below',
      low,
      [x + edge, length],
      read.runs('cuff', { before: 'cuff' }),
      read.runs('cuff_stitches'),
    ),
    ...dimension(
      'on',
      [x + top - 0.3, 0],
      [x - top + 0.3, 0],
      read.runs('upper_arm', { before: 'upper arm' }),
      read.runs('upper_arm_stitches'),
    ),
    ...dimension(
      'on',
      [x - edge * 0.6, 0.6],
      [x - edge * 0.6, length - 0.4],
      read.runs('sleeve_length', { before: 'sleeve' }),
      read.runs('sleeve_rows'),
    ),
    ...dimension(
      'right',
      [x + top, -cap],
      [x + top, 0],
      read.runs('cap_height', { before: 'cap' }),
      read.runs('cap_rows'),
    ),
  ];
}

function ownLabels(read: Reader, garment: Garment, sleeve: Sleeve | undefined): readonly Label[] {
  const chest = read.value('own_chest');
  const arm = read.value('own_upper_arm');
  return [
    ...(chest === undefined
      ? []
      : callout(
          [chest / 4, garment.length * 0.62],
          ['left', 'right'],
          read.runs('own_chest', { before: 'you' }),
        )),
    ...(arm === undefined || !sleeve
      ? []
      : callout(
          [sleeve.x + arm / 2, sleeve.length * 0.06],
          ['right'],
          read.runs('own_upper_arm', { before: 'your arm' }),
        )),
  ];
}
