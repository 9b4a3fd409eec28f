/*
 * What the views can ask of an open notebook: how far off, what would have to change, and trials side by side. Plain
 * data, like the rest of the page.
 */

import type { BackOffer, BackStart, BackView } from './back.ts';
import type { BesideChoice, BesideView } from './beside.ts';
import type { DecisionView } from './decisions.ts';
import type { DoubtView } from './doubt.ts';
import type { Outcome, Place } from './page.ts';

export type { BackOffer, BackStart, BackView, GivingView } from './back.ts';
export type { AsideTrial, BesideChoice, BesideRow, BesideView } from './beside.ts';
export type { DecisionView } from './decisions.ts';
export type { BarView, DoubtView, UsualView } from './doubt.ts';

/** Questions to an open notebook. */
export interface AskedPage {
  /** How far off a value can be, in a column or in your size; undefined where the cell is gone. */
  doubt(id: string, column: string | null): DoubtView | undefined;
  /** Before casting on: what would be decided otherwise within the doubt of everything typed. */
  decisions(): readonly DecisionView[];
  /** Moves the doubt (±) of a typed value by so many steps; at nothing it goes away. */
  nudgeTolerance(place: Place, steps: number): Outcome;

  /** What can be asked of a worked-out value; undefined where nothing can. */
  backStart(id: string, column: string | null): BackStart | undefined;
  /** What the giving cell would have to be for the value to come to what is wanted. */
  workBack(id: string, column: string | null, giving: Place, text: string): BackView;
  /** Begins a trial with an answer, or joins the one there is. */
  tryOffer(offer: BackOffer): Outcome;

  /** Trials put aside: `key` is their id. */
  trialsAside(): readonly BesideChoice[];
  putAside(): Outcome;
  takeUp(id: string): Outcome;
  dropAside(id: string): void;
  /** What can stand side by side, and some of it side by side. */
  besideChoices(): readonly BesideChoice[];
  beside(keys: readonly string[]): BesideView;
}
