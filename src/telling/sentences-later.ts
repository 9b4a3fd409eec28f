/*
 * The sentences for problems and refusals, fetched when the first sheet has been painted: the notebook of a first visit
 * has none of either. The built page has this in the place of `sentences.ts`. What is to be said before they have come
 * is said when they have; whoever has been here before waits for them.
 */

import type { Problem } from '../formula/index.ts';
import type { Refusal } from './refusals.ts';

interface Sentences {
  readonly problemSentence: (problem: Problem) => string;
  readonly refusalSentence: (refusal: Refusal) => string;
}

let said: Sentences | undefined;
let coming: Promise<void> | undefined;
let waiting: (() => void)[] = [];

/** As in `problems.ts`; nothing before the sentences have come. */
export const problemSentence = (problem: Problem): string => said?.problemSentence(problem) ?? '';

/** As in `refusals.ts`; nothing before the sentences have come. */
export const refusalSentence = (refusal: Refusal): string => said?.refusalSentence(refusal) ?? '';

/** Fetches the sentences. Rejects where they cannot be fetched; may be called again. */
export function fetchSentences(): Promise<void> {
  coming ??= Promise.all([import('./problems.ts'), import('./refusals.ts')]).then(
    ([problems, refusals]) => {
      said = { ...problems, ...refusals };
      const calls = waiting;
      waiting = [];
      for (const call of calls) call();
    },
    (error: unknown) => {
      coming = undefined; // The next call tries again.
      throw error;
    },
  );
  return coming;
}

/** Calls once when the sentences have come, where they are still to come. */
export function whenSentences(call: () => void): void {
  if (!said) waiting.push(call);
}
