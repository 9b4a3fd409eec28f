/* The two fabrics: the pattern's and yours, the same square of each side by side, every stitch a V. */

import type { Reader } from './parts.ts';
import { capital, emptyPicture, readParts, unitShown } from './parts.ts';
import type { Caption, DrawingKind, Knit, PartSpec, Parts, Path, Picture, Shape } from './picture.ts';

const title = 'The two fabrics';

const specs: readonly PartSpec[] = [
  { name: 'stitch_gauge', measures: 'gauge', needed: true, help: 'Your stitches, washed.' },
  { name: 'row_gauge', measures: 'gauge', needed: true, help: 'Your rows, washed.' },
  { name: 'pattern_stitch_gauge', measures: 'gauge', needed: false, help: "The pattern's stitches." },
  { name: 'pattern_row_gauge', measures: 'gauge', needed: false, help: "The pattern's rows." },
];

/** Squares that a knitter would mark with pins, in cm. */
const SQUARES = { in: [2.54, 5.08, 10.16], cm: [2.5, 5, 10] } as const;
const NAMES = { in: ['1 in', '2 in', '4 in'], cm: ['2.5 cm', '5 cm', '10 cm'] } as const;
/** Enough stitches across to see a fabric. */
const ENOUGH = 8;

interface Fabric {
  readonly whose: 'theirs' | 'yours';
  readonly stitches: string;
  readonly rows: string;
}

/** The two fabrics at true proportion; one alone when the other is not known. */
export const fabrics: DrawingKind = {
  kind: 'fabrics',
  title,
  help: 'The pattern’s swatch and yours at true proportion, the same square of both.',
  parts: specs,
  draw,
};

function draw(parts: Parts): Picture {
  const read = readParts(parts, specs);
  const all: readonly Fabric[] = [
    { whose: 'theirs', stitches: 'pattern_stitch_gauge', rows: 'pattern_row_gauge' },
    { whose: 'yours', stitches: 'stitch_gauge', rows: 'row_gauge' },
  ];
  const known = all.filter((fabric) => isKnown(read, fabric));
  if (known.length === 0) return emptyPicture('fabrics', title, read.leftOut());
  const unit = unitShown(parts);
  const size = squareFor(read, known, unit);
  const side = SQUARES[unit][size];
  return {
    kind: 'fabrics',
    title,
    block: {
      kind: 'scene',
      shapes: known.flatMap((fabric, k) => swatch(read, fabric, k * side * 1.16, side)),
      labels: known.map((fabric, k) => caption(read, fabric, k * side * 1.16, side)),
    },
    describe: [
      ...known.flatMap((fabric) => inWords(read, fabric)),
      `Each square is ${NAMES[unit][size]} wide and high.`,
      ...compared(read, known),
      ...read.tellRest(),
    ],
    leftOut: read.leftOut(),
  };
}

/** Both gauges are there; one without the other is said. */
function isKnown(read: Reader, fabric: Fabric): boolean {
  const stitches = read.value(fabric.stitches);
  const rows = read.value(fabric.rows);
  if ((stitches === undefined) !== (rows === undefined)) {
    const whose = fabric.whose === 'yours' ? 'your' : 'the pattern’s';
    read.leave(`A fabric needs its stitches and its rows, so ${whose} swatch is left out.`);
  }
  return stitches !== undefined && rows !== undefined;
}

/** The smallest square that shows enough stitches of the coarser fabric. */
function squareFor(read: Reader, known: readonly Fabric[], unit: 'in' | 'cm'): 0 | 1 | 2 {
  const coarsest = Math.min(...known.map((fabric) => read.value(fabric.stitches) ?? 1));
  if (SQUARES[unit][0] * coarsest >= ENOUGH) return 0;
  return SQUARES[unit][1] * coarsest >= ENOUGH ? 1 : 2;
}

function swatch(read: Reader, fabric: Fabric, left: number, side: number): readonly Shape[] {
  const knit: Knit = {
    kind: 'knit',
    role: fabric.whose === 'yours' ? 'knit-yours' : 'knit-theirs',
    at: [left, 0],
    widthCm: side,
    heightCm: side,
    stitchesPerCm: read.value(fabric.stitches) ?? 1,
    rowsPerCm: read.value(fabric.rows) ?? 1,
  };
  const frame: Path = {
    kind: 'path',
    role: 'frame',
    from: [left, 0],
    steps: [{ to: [left + side, 0] }, { to: [left + side, side] }, { to: [left, side] }],
    closed: true,
  };
  return [frame, knit];
}

function caption(read: Reader, fabric: Fabric, left: number, side: number): Caption {
  const name = fabric.whose === 'yours' ? 'yours' : 'the pattern’s';
  return {
    kind: 'caption',
    at: [left + side / 2, side],
    runs: [{ text: name }, ...read.runs(fabric.stitches), ...read.runs(fabric.rows)],
  };
}

function inWords(read: Reader, fabric: Fabric): readonly string[] {
  const whose = fabric.whose === 'yours' ? 'your fabric' : 'the pattern’s fabric';
  return read.tell(`${capital(whose)} has {${fabric.stitches}} and {${fabric.rows}}.`);
}

/** Which fabric is the closer one, in words. */
function compared(read: Reader, known: readonly Fabric[]): readonly string[] {
  if (known.length < 2) return [];
  const compare = (name: string, what: string) => {
    const theirs = read.value(`pattern_${name}`) ?? 1;
    const yours = read.value(name) ?? 1;
    if (Math.abs(yours - theirs) <= 1e-9 * Math.max(yours, theirs)) return `as many ${what} as`;
    return yours > theirs ? `more ${what} than` : `fewer ${what} than`;
  };
  return [
    `You get ${compare('stitch_gauge', 'stitches')} the pattern, and ${compare('row_gauge', 'rows')} it has.`,
  ];
}
