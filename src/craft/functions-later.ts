/*
 * The functions of the craft, those that the notebook of a first visit does not use fetched after its sheet has been painted,
 * with the whole of the session: no other notebook is opened, and nothing typed is read, before they are there. The built
 * page has this in the place of `functions.ts`.
 */

import type { FunctionSpec } from '../formula/index.ts';
import { readings } from './read.ts';
import { spreadFlat, spreadRound } from './spread.ts';

/** As in `functions.ts`: those that are here from the start. */
export const craft: readonly FunctionSpec[] = [spreadRound, spreadFlat, ...readings];

/** Fetches the others. Rejects where they cannot be fetched; may be called again. */
export const fetchMorePlans = async (): Promise<readonly FunctionSpec[]> =>
  (await import('./more-plans.ts')).morePlans;
