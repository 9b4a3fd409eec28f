/* Shaping, heel turns, toes, doublings, knitted-on edgings and spreads by repeats: the plans that the notebook of a first visit does not use. */

import type { FunctionSpec } from '../formula/index.ts';
import { doublings } from './doublings.ts';
import { heelTurn } from './heel-turn.ts';
import { join } from './join.ts';
import { shape } from './shape.ts';
import { spreadRepeats } from './spread-repeats.ts';
import { toe } from './toe.ts';

/** These plans, as the language is given them. */
export const morePlans: readonly FunctionSpec[] = [shape, heelTurn, toe, join, doublings, spreadRepeats];
