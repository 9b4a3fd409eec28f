/*
 * What the views can ask of an open notebook: how far off, what would have to change, and trials side by side. Plain
 * data, like the rest of the page.
 */

import type { AsideTrial, AsideView } from './aside.ts';
import type { BackOffer, BackStart, BackView } from './back.ts';
import type { BesideChoice, BesideView } from './beside.ts';
import type { DecisionView } from './decisions.ts';
import type { DoubtView } from './doubt.ts';
import type { Live } from './live.ts';
import type { Outcome, Place } from './page.ts';
import type { Trial } from './trial.ts';

export type { AsideTrial, AsideView } from './aside.ts';
export type { BackOffer, BackStart, BackView, GivingView } from './back.ts';
export type { BesideChoice, BesideRow, BesideView } from './beside.ts';
export type { DecisionView } from './decisions.ts';
export type { AllView, BarView, DoubtView, MoveView } from './doubt.ts';
export type { UsualView } from './usual.ts';

/** Questions to an open notebook; each answer is of the moment it is asked. */
export interface Questions {
  /**
   * How far off a value can be, in a column or in your size; undefined where the cell is gone. `reach` is that of the
   * answer before, for bars that keep their scale.
   */
  doubt(id: string, column: string | null, reach?: number): DoubtView | undefined;
  /**
   * Before casting on: what would be decided otherwise within the doubt of everything typed, one after another, sizes
   * first. Undefined stands for one that would stay; each takes some milliseconds. To be left when the notebook changes.
   */
  decisions(): IterableIterator<DecisionView | undefined>;
  /** What can be asked of a worked-out value; undefined where nothing can. */
  backStart(id: string, column: string | null): BackStart | undefined;
  /**
   * What the giving cell would have to be for the value to come to what is wanted: the answer is what is returned at the
   * end, some milliseconds to a second of work away. To be left when the notebook changes.
   */
  workBack(id: string, column: string | null, giving: Place, text: string): Generator<undefined, BackView>;
  /** A value, by its cell's name, as a text to type into another notebook; undefined where there is none. */
  carried(name: string): string | undefined;
  /** What can stand side by side, and some of it side by side, in the order of the choices. */
  besideChoices(): readonly BesideChoice[];
  beside(keys: readonly string[]): BesideView;
}

/** What the answers are worked out from. */
export interface AskedOf {
  readonly live: Live;
  trial(): Trial | undefined;
  aside(): readonly AsideTrial[];
}

/** What can be asked of an open notebook, and done with the answers. */
export interface AskedPage {
  /** Fetches what answers, the first time. Rejects where it cannot be fetched. */
  questions(): Promise<Questions>;

  /** Moves the doubt (±) of a typed value by so many steps; at nothing it goes away. */
  nudgeTolerance(place: Place, steps: number): Outcome;
  /** Begins a trial with an answer, or joins the one there is. */
  tryOffer(offer: BackOffer): Outcome;

  trialsAside(): readonly AsideView[];
  /** Puts what is being tried aside; the notebook stands as it was. */
  putAside(): Outcome & { readonly id?: string };
  /** Gives a trial a name of her own; an empty one takes it away again. */
  nameAside(id: string, name: string): Outcome;
  /** Takes a trial up again; what was being tried is put aside in its place. */
  takeUp(id: string): Outcome;
  dropAside(id: string): Outcome;
}
