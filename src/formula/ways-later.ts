/*
 * Going along a remembered way, fetched when one cell has been edited twice running: without it a sheet does the same,
 * a little slower. The built page has this in the place of `ways.ts`.
 */

import { createArrival } from '../quantity/index.ts';

const along = createArrival(() => import('./along.ts'));

/** Going along a way, if it is here. */
export const ways = along.here;

/** Fetches it. Rejects where it cannot be fetched; may be called again. */
export const fetchWays = along.fetch;
