/*
 * What comes of asking for something: done, or one sentence that says why not.
 */

import type { Problem } from '../formula/index.ts';
import type { Refusal } from '../notebook/index.ts';
import { problemSentence, refusalSentence } from '../telling/index.ts';
import type { Outcome } from './page.ts';

/** It is done. */
export const DONE: Outcome = { done: true };

/** It is not done, for this reason. */
export const not = (sentence: string, at?: readonly [number, number]): Outcome =>
  at ? { done: false, sentence, at } : { done: false, sentence };

/** The notebook refused a change. */
export const refused = (refusal: Refusal): Outcome => not(refusalSentence(refusal));

/** A text or a name has a problem. */
export const becauseOf = (problem: Problem): Outcome => not(problemSentence(problem), problem.at);

/** What is asked about is not there any more. */
export const CELL_GONE = not('That cell is gone: it was deleted.');

/** Nothing can be changed in a notebook of a later version. */
export const READ_ONLY =
  'This notebook was made by a newer Ellwand: it can be read here, not changed. Keep a copy to change that.';
