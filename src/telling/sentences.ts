/*
 * Where the sentences for problems and refusals come from: at once, everywhere but in the built page, where
 * `sentences-later.ts` stands in the place of this file.
 */

export { problemSentence } from './problems.ts';
export { refusalSentence } from './refusals.ts';

/** Fetches the sentences. Rejects where they cannot be fetched; may be called again. */
export const fetchSentences = (): Promise<void> => Promise.resolve();

/** Calls once when the sentences have come, where they are still to come. */
export const whenSentences = (_call: () => void): void => undefined;
