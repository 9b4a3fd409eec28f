/*
 * A drawing is a pure function from parts (values and plans bound to cells) to a picture: shapes in centimetres of
 * real knitting, texts and dimension lines that name the cell they belong to. Views turn a picture into SVG.
 *
 * A picture holds one of three things. A scene is drawn to scale; bars are rows under one scale; a strip is a row of
 * stitches that wraps. A picture knows no pixels: `layOut(picture, widthPx)` gives every final place for one width,
 * so that texts keep their size and never lie on one another, on a phone or on paper.
 *
 * Centimetres run right and down. Every text that comes from a cell is a run of its own and carries the cell's id.
 */

import type { Plan } from '../formula/index.ts';

/** A part of a drawing as the session hands it in: what a cell holds now, for the chosen column. */
export interface Part {
  /** The id of the cell it is bound to, for selecting one from the other. */
  readonly cell: string;
  /** The cell's spaced name. */
  readonly name: string;
  /** Lengths in cm, gauges in stitches or rows per cm, counts in ones, weights in g; NaN for a plan or none. */
  readonly value: number;
  /** As printed on the page, unit included: "42¾ in", "198 sts". */
  readonly text: string;
  readonly plan?: Plan;
  /** True where the plan is knitted in the round, so that its rows are rounds. */
  readonly round?: boolean;
}

/** The parts by the drawing's own part names; a missing, waiting or broken cell is a sentence that says so. */
export type Parts = Readonly<Record<string, Part | string>>;

/** A place in centimetres: right, down. */
export type Point = readonly [xCm: number, yCm: number];

/** What a mark stands for; `looks.ts` says how each is drawn. */
export type Role =
  | 'piece'
  | 'shade'
  | 'shade-light'
  | 'hatch'
  | 'seam'
  | 'dash'
  | 'frame'
  | 'knit-theirs'
  | 'knit-yours'
  | 'dimension'
  | 'leader'
  | 'dot'
  | 'axis'
  | 'grid'
  | 'shaping'
  | 'bar'
  | 'bar-spare'
  | 'bar-short'
  | 'bar-total'
  | 'value'
  | 'stitch'
  | 'point'
  | 'take2'
  | 'nojoin'
  | 'done'
  | 'here';

/** Where a line goes next: straight, or bent by one or two points as in a Bézier curve. */
export interface Step {
  readonly to: Point;
  readonly by?: readonly [Point] | readonly [Point, Point];
}

/** A line or an outline. */
export interface Path {
  readonly kind: 'path';
  readonly role: Role;
  readonly from: Point;
  readonly steps: readonly Step[];
  readonly closed?: boolean;
  /** The cell it shows, where it shows just one. */
  readonly cell?: string;
}

/** A rectangle of plain fabric, every knit stitch a V at its true proportion. */
export interface Knit {
  readonly kind: 'knit';
  readonly role: 'knit-theirs' | 'knit-yours';
  readonly at: Point;
  readonly widthCm: number;
  readonly heightCm: number;
  readonly stitchesPerCm: number;
  readonly rowsPerCm: number;
}

/** Small marks of one size on the screen, whatever the scale. */
export interface Marks {
  readonly kind: 'marks';
  readonly role: Role;
  readonly at: readonly Point[];
}

export type Shape = Path | Knit | Marks;

/** One piece of a label: what a cell says, with words before and after it. */
export interface Run {
  readonly text: string;
  readonly cell?: string;
  readonly before?: string;
  readonly after?: string;
}

export type Side = 'above' | 'below' | 'left' | 'right';

/** A measured stretch: a line with a tick at both ends, beside what it measures, and its text. */
export interface Dimension {
  readonly kind: 'dimension';
  readonly from: Point;
  readonly to: Point;
  /** On which side of the stretch the line goes; `on` draws it where it is. */
  readonly side: Side | 'on';
  /** Where its text would best go, if not at its middle: past the end `to`. */
  readonly textAt?: 'end';
  /** Where its text may point from instead, when there is no room beside a line. */
  readonly orAt?: Point;
  readonly runs: readonly Run[];
}

/** A text that points at a place. */
export interface Callout {
  readonly kind: 'callout';
  readonly at: Point;
  /** Where its text would best go. */
  readonly prefer: readonly Side[];
  readonly runs: readonly Run[];
}

/** Lines of text centred under (or over) a place: captions. */
export interface Caption {
  readonly kind: 'caption';
  readonly at: Point;
  readonly runs: readonly Run[];
}

export type Label = Dimension | Callout | Caption;

/** Shapes drawn to scale, with their labels, the most important first. */
export interface Scene {
  readonly kind: 'scene';
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
  /** A ruler beneath, in the unit that the page shows; left out where the scene is not a length. */
  readonly ruler?: 'in' | 'cm';
}

/** One row of bars: a stretch along the common scale. */
export interface Bar {
  /** What stands before it. */
  readonly name: Run;
  /** From and to on the common scale; NaN for none. */
  readonly from: number;
  readonly to: number;
  readonly role: 'bar' | 'bar-spare' | 'bar-short' | 'bar-total';
  /** What stands after it. */
  readonly text: Run;
}

/** Rows of bars under one scale. */
export interface Bars {
  readonly kind: 'bars';
  /** The whole scale. */
  readonly from: number;
  readonly to: number;
  readonly rows: readonly Bar[];
  /** Lines down through all rows, each with its text above. */
  readonly rules: readonly { readonly at: number; readonly text: string; readonly role: 'grid' | 'value' }[];
}

/** One join of an edging to the live stitches. */
export interface Join {
  readonly how: 'join' | 'take2' | 'nojoin';
  /** The repeat it belongs to, from 1, and which join of that repeat it is. */
  readonly repeat: number;
  readonly join: number;
}

/** A row of live stitches with an edging worked on, repeat by repeat; it wraps like text. */
export interface Strip {
  readonly kind: 'strip';
  readonly joins: readonly Join[];
  readonly joinsInRepeat: number;
  /** How many joins are done; −1 when nobody knows. */
  readonly done: number;
  /** The cell that holds the plan. */
  readonly cell: string;
}

export type Block = Scene | Bars | Strip;

/** A whole drawing. */
export interface Picture {
  readonly kind: string;
  readonly title: string;
  /** Undefined when nothing can be drawn; `leftOut` says why. */
  readonly block: Block | undefined;
  /** The drawing in words: whole sentences, with every value it shows. */
  readonly describe: readonly string[];
  /** What could not be drawn and why, each one sentence. */
  readonly leftOut: readonly string[];
}

/** What a part measures, and so what is too much or too little of it to draw. */
export type Measures = 'length' | 'gauge' | 'count' | 'number' | 'weight' | 'plan';

/** A part that a drawing knows. */
export interface PartSpec {
  readonly name: string;
  readonly measures: Measures;
  readonly needed: boolean;
  /** One line for whoever binds it. */
  readonly help: string;
}

/** A kind of drawing: what it is, which parts it takes, and the function. */
export interface DrawingKind {
  readonly kind: string;
  readonly title: string;
  readonly help: string;
  readonly parts: readonly PartSpec[];
  /** Name starts of parts that may be bound any number of times: "part_cuff", "part_leg" … The first are drawn. */
  readonly many?: readonly [drawn: PartSpec, ...about: PartSpec[]];
  draw(parts: Parts): Picture;
}
