/* The functions of the craft. In the built page `functions-later.ts` stands in the place of this. */

import type { FunctionSpec } from '../formula/index.ts';
import { morePlans } from './more-plans.ts';
import { readings } from './read.ts';
import { spreadFlat, spreadRound } from './spread.ts';

/** The functions of the craft that are here from the start, as the language is given them: all of them. */
export const craft: readonly FunctionSpec[] = [spreadRound, spreadFlat, ...readings, ...morePlans];

/** Fetches the others: none. */
export const fetchMorePlans = (): Promise<readonly FunctionSpec[]> => Promise.resolve([]);
