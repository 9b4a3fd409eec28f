/*
 * The lines of a sock in profile, laid flat with the toe to the right. The leg hangs from y = 0; its back is x = 0.
 * Leg and foot are as wide as half the girth, as the two layers of a flat sock are. The heel flap is the back half of
 * the leg going on; below it the turn cups the heel; the gusset fills the corner between flap, instep and sole.
 */

import { ribbing } from './garment.ts';
import { line, open, outline } from './lines.ts';
import type { Reader } from './parts.ts';
import type { Path, Point, Shape } from './picture.ts';

/** Everything in cm. `wide` is half the girth. */
export interface Sock {
  readonly wide: number;
  readonly topWide: number;
  readonly calfWide: number;
  readonly calfAt: number;
  /** Whether the leg goes as high as the fullest calf, or nothing is known of that. */
  readonly reachesCalf: boolean;
  readonly cuff: number;
  readonly leg: number;
  readonly flap: number;
  readonly turn: number;
  readonly sole: number;
  readonly foot: number;
  readonly toe: number;
  /** From picking up to the toe. */
  readonly rounds: number;
  readonly toeWide: number;
  readonly gussetEnd: number;
  /** Where the front of the leg begins to bend into the foot. */
  readonly ankle: number;
}

/** A length that is bound, or rounds made a length by their gauge. */
function length(read: Reader, name: string, rounds: string, gauge = 'row_gauge'): number | undefined {
  const bound = read.value(name);
  if (bound !== undefined) return bound;
  const count = read.value(rounds);
  const perCm = read.value(gauge) ?? read.value('row_gauge');
  return count === undefined || perCm === undefined ? undefined : Math.min(count / perCm, 200);
}

/** What is not known is taken in the proportion of the foot, so that the rest can be drawn. */
export function measured(read: Reader, wide: number, foot: number): Sock {
  const leg = length(read, 'leg_length', 'leg_rounds') ?? wide * 1.4;
  const flap = length(read, 'flap_length', 'heel_rows', 'flap_row_gauge') ?? wide * 0.65;
  const turn = Math.min(wide * 0.3, foot * 0.15);
  const sole = leg + flap + turn;
  const toe = Math.min(length(read, 'toe_length', 'toe_rounds') ?? foot * 0.2, foot * 0.6);
  const gusset = length(read, 'gusset_length', 'gusset_rounds') ?? wide * 0.5;
  const calf = read.value('calf_girth');
  const calfHeight = read.value('calf_height');
  const topWide = (read.value('top_girth') ?? calf ?? wide * 2) / 2;
  const footStitches = read.value('foot_stitches') ?? read.value('leg_stitches') ?? read.value('cast_on');
  const left = read.value('toe_end');
  return {
    wide,
    topWide,
    calfWide: Math.max(calf === undefined ? topWide : calf / 2, wide * 0.5),
    calfAt:
      Math.max(0.04, Math.min(0.7, calfHeight === undefined ? 0.3 : (sole - calfHeight) / leg)) * leg * 0.9,
    reachesCalf: calfHeight === undefined || calfHeight <= leg + flap,
    cuff: Math.min(length(read, 'cuff_length', 'cuff_rounds') ?? leg * 0.25, leg),
    leg,
    flap,
    turn,
    sole,
    foot,
    toe,
    rounds: Math.min(length(read, 'foot_rounds_length', 'foot_rounds') ?? foot - toe - turn, foot - toe),
    toeWide: wide * Math.min(1, left && footStitches ? left / footStitches : 0.3),
    gussetEnd: Math.min(wide * 0.62 + gusset, foot - toe),
    ankle: Math.max(0.2 * leg, Math.min(leg, sole - wide * 1.22)),
  };
}

/** Half the girth beyond the ankle's lies two fifths in front and three fifths behind, as a calf does. */
export const BEHIND = 0.6;

/** The outline of a leg and foot; for the sock and, rounder, for the wearer's own. */
interface Leg {
  readonly top: Point;
  readonly topFront: Point;
  readonly back: Path['steps'];
  readonly front: Path['steps'];
}

function legOf(topWide: number, calfWide: number, wide: number, calfAt: number, down: number): Leg {
  const spread = (w: number) => ({ back: -(w - wide) * BEHIND, front: wide + (w - wide) * (1 - BEHIND) });
  const [top, calf] = [spread(topWide), spread(calfWide)];
  const bend = down - calfAt;
  return {
    top: [top.back, 0],
    topFront: [top.front, 0],
    front: [
      {
        to: [calf.front, calfAt],
        by: [
          [top.front, calfAt * 0.4],
          [calf.front, calfAt * 0.6],
        ],
      },
      {
        to: [wide, down],
        by: [
          [calf.front, calfAt + bend * 0.4],
          [wide, down - bend * 0.4],
        ],
      },
    ],
    back: [
      {
        to: [calf.back, calfAt],
        by: [
          [0, down - bend * 0.4],
          [calf.back, calfAt + bend * 0.4],
        ],
      },
      {
        to: [top.back, 0],
        by: [
          [calf.back, calfAt * 0.6],
          [top.back, calfAt * 0.4],
        ],
      },
    ],
  };
}

/** Everything there is to draw: the wearer behind, the sock, its parts, its ribbing. */
export function shapesOf(read: Reader, sock: Sock): readonly Shape[] {
  return [...wearer(read, sock), silhouette(sock), ...regions(sock), ...cuffLines(sock)];
}

/** The whole sock as one outline: down the front, along the instep, round the toe, back along the sole, up the heel. */
function silhouette(sock: Sock): Path {
  const { topWide, calfWide, wide, calfAt, leg, flap, sole, turn, ankle } = sock;
  const top = sole - wide;
  const shape = legOf(topWide, calfWide, wide, calfAt, ankle);
  return outline('piece', shape.top, [
    { to: shape.topFront },
    ...shape.front,
    { to: [wide * 1.42, top], by: [[wide, top]] },
    ...toeSteps(sock),
    { to: [turn * 1.5, sole] },
    {
      to: [0, leg + flap],
      by: [
        [turn * 0.3, sole],
        [0, leg + flap + turn * 0.6],
      ],
    },
    { to: [0, ankle] },
    ...shape.back,
  ]);
}

/** Round the toe, from the instep to the sole; it ends as wide as what is left to graft. */
function toeSteps({ wide, sole, foot, toe, toeWide }: Sock): Path['steps'] {
  const middle = sole - wide * 0.4;
  const from = foot - toe;
  const half = toeWide / 2;
  return [
    { to: [from, sole - wide] },
    {
      to: [foot, middle - half],
      by: [
        [from + toe * 0.5, sole - wide * 0.97],
        [foot - toe * 0.12, middle - half - wide * 0.16],
      ],
    },
    {
      to: [foot, middle + half],
      by: [
        [foot + toe * 0.06, middle - half * 0.4],
        [foot + toe * 0.06, middle + half * 0.4],
      ],
    },
    {
      to: [from, sole],
      by: [
        [foot - toe * 0.1, middle + half + wide * 0.12],
        [from + toe * 0.5, sole - wide * 0.02],
      ],
    },
  ];
}

/** Flap, turn, gusset and toe, each its own piece of fabric. */
function regions(sock: Sock): readonly Path[] {
  const { wide, leg, flap, turn, sole, foot, toe, gussetEnd } = sock;
  const half = wide / 2;
  const flapEnd = leg + flap;
  const heelEnd: Point = [wide * 0.62, sole];
  const corner: Point = [half, flapEnd];
  const flapPiece = line('shade', [[0, leg], [half, leg], corner, [0, flapEnd]], true);
  const turnPiece = outline(
    'shade',
    [0, flapEnd],
    [
      { to: corner },
      { to: heelEnd },
      { to: [turn * 1.5, sole] },
      {
        to: [0, flapEnd],
        by: [
          [turn * 0.3, sole],
          [0, flapEnd + turn * 0.6],
        ],
      },
    ],
  );
  const meet: Point = [gussetEnd, sole - half];
  const gusset = line('shade-light', [[half, leg], meet, heelEnd, corner], true);
  const middle = line('hatch', [meet, [foot - toe, sole - half]]);
  const toePiece = outline(
    'shade',
    [foot - toe, sole],
    [{ to: [foot - toe, sole - wide] }, ...toeSteps(sock).slice(1)],
  );
  return [gusset, flapPiece, ...slips(half, leg, flapEnd), turnPiece, middle, toePiece];
}

/** Upright lines on the flap, as slipped stitches stand. */
function slips(half: number, top: number, bottom: number): readonly Path[] {
  return ribbing([0, top], [half, top], [0, bottom], [half, bottom], 5);
}

function cuffLines({ topWide, calfWide, wide, calfAt, cuff, leg }: Sock): readonly Path[] {
  if (cuff <= 0 || cuff >= leg) return [];
  const w = topWide + (calfWide - topWide) * eased(Math.min(1, cuff / calfAt));
  const at = (full: number, y: number): readonly [Point, Point] => {
    const left = -(full - wide) * BEHIND;
    return [
      [left, y],
      [left + full, y],
    ];
  };
  const [topLeft, topRight] = at(topWide, 0);
  const [left, right] = at(w, cuff);
  return [line('seam', [left, right]), ...ribbing(topLeft, topRight, left, right, 9)];
}

/** How far a leg's bend has gone sideways when it has gone `down` of its height: the bend of `legOf`, read off. */
function eased(down: number): number {
  let [low, high] = [0, 1];
  for (let k = 0; k < 30; k++) {
    const t = (low + high) / 2;
    const s = 1 - t;
    if (1.2 * s * s * t + 1.8 * s * t * t + t * t * t < down) low = t;
    else high = t;
  }
  return low * low * (3 - 2 * low);
}

/** The wearer's leg and foot in dashes, heel to heel and sole to sole with half of the difference on each side. */
function wearer(read: Reader, sock: Sock): readonly Path[] {
  const girth = read.value('own_foot_girth');
  const length = read.value('own_foot_length');
  if (girth === undefined || length === undefined) return [];
  const wide = girth / 2;
  const out = (wide - sock.wide) / 2;
  const sole = sock.sole + out;
  const top = sole - wide;
  const heel = read.value('own_heel_girth');
  const calf = (read.value('own_calf') ?? girth * 1.05) / 2;
  const ankle = Math.max(1, top - wide * 0.25);
  const leg = legOf(calf, calf, wide, Math.min(sock.calfAt, ankle * 0.8), ankle);
  const heelBack = heel === undefined ? wide * 0.1 : Math.max(0, Math.min(wide * 0.3, heel / 2.9 - wide));
  const moved = ([x, y]: Point): Point => [x - out, y];
  const steps: Path['steps'] = [
    ...leg.front,
    { to: [wide * 1.5, top + wide * 0.06], by: [[wide, top]] },
    { to: [length * 0.82, sole - wide * 0.52] },
    {
      to: [length, sole - wide * 0.2],
      by: [
        [length * 0.95, sole - wide * 0.48],
        [length, sole - wide * 0.36],
      ],
    },
    { to: [length * 0.93, sole], by: [[length, sole - wide * 0.02]] },
    { to: [wide * 0.4, sole] },
    { to: [-heelBack * 0.5, sole - wide * 0.35], by: [[-heelBack * 0.4, sole]] },
    { to: [0, ankle], by: [[-heelBack * 0.5, sole - wide * 0.7]] },
    ...leg.back,
  ];
  return [
    open(
      'dash',
      moved(leg.topFront),
      steps.map((step) => shifted(step, moved)),
    ),
  ];
}

function shifted({ to, by }: Path['steps'][number], move: (point: Point) => Point): Path['steps'][number] {
  if (!by) return { to: move(to) };
  return by.length === 1
    ? { to: move(to), by: [move(by[0])] }
    : { to: move(to), by: [move(by[0]), move(by[1])] };
}

/** How far sock and wearer reach: to the left and down, and to the right beside the cuff. */
export interface Reach {
  readonly left: number;
  readonly floor: number;
  readonly besideCuff: number;
}

/** The reach of a sock with its wearer, in cm. */
export function reachOf(read: Reader, sock: Sock): Reach {
  const points = [silhouette(sock), ...wearer(read, sock)].flatMap((path) => [
    path.from,
    ...path.steps.map((step) => step.to),
  ]);
  return {
    left: Math.min(...points.map(([x]) => x)),
    floor: Math.max(...points.map(([, y]) => y)),
    besideCuff: Math.max(...points.flatMap(([x, y]) => (y <= sock.cuff ? [x] : []))),
  };
}
