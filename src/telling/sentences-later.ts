/*
 * The sentences for problems and refusals, fetched when the first sheet has been painted: the notebook of a first visit
 * has none of either. The built page has this in the place of `sentences.ts`. What is to be said before they have come
 * is said when they have; whoever has been here before waits for them.
 */

import type { Problem } from '../formula/index.ts';
import { createArrival } from '../quantity/index.ts';
import type { Refusal } from './refusals.ts';

const sentences = createArrival(async () => {
  const [problems, refusals] = await Promise.all([import('./problems.ts'), import('./refusals.ts')]);
  return { ...problems, ...refusals };
});

/** As in `problems.ts`; nothing before the sentences have come. */
export const problemSentence = (problem: Problem): string => sentences.here()?.problemSentence(problem) ?? '';

/** As in `refusals.ts`; nothing before the sentences have come. */
export const refusalSentence = (refusal: Refusal): string => sentences.here()?.refusalSentence(refusal) ?? '';

/** Fetches the sentences. Rejects where they cannot be fetched; may be called again. */
export const fetchSentences = sentences.fetch;

/** Calls once when the sentences have come, where they are still to come. */
export const whenSentences = sentences.when;
