/*
 * A drawing is a pure function from parts (values and plans bound to cells) to a picture: shapes in centimetres of
 * real knitting, texts and dimension lines that name the cell they belong to. Views turn a picture into SVG.
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
}

/** The parts by the drawing's own part names; a missing, waiting or broken cell is a sentence that says so. */
export type Parts = Readonly<Record<string, Part | string>>;
