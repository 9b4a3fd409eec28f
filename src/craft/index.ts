/* Plans: even spacing, shaping, heel turns, toes and knitted-on edgings, each with the rest of it from any row. */

import type { FunctionSpec } from '../formula/index.ts';
import { heelTurn } from './heel-turn.ts';
import { join } from './join.ts';
import { readings } from './read.ts';
import { shape } from './shape.ts';
import { spreadFlat, spreadRound } from './spread.ts';
import { toe } from './toe.ts';

/** Every function of the craft, as the language is given them. */
export const craft: readonly FunctionSpec[] = [
  spreadRound,
  spreadFlat,
  shape,
  heelTurn,
  toe,
  join,
  ...readings,
];

export { countAt, nextShaping, type PlanRow, rowsOf } from './plan.ts';
export { craftProblems } from './problems.ts';
export { heelTurn, join, shape, spreadFlat, spreadRound, toe };
