/*
 * Where going along a remembered way comes from: at once, everywhere but in the built page, where `ways-later.ts` stands
 * in the place of this file.
 */

import * as along from './along.ts';

/** Going along a way, if it is here. */
export const ways = (): typeof along | undefined => along;

/** Fetches it. Rejects where it cannot be fetched; may be called again. */
export const fetchWays = (): Promise<void> => Promise.resolve();
