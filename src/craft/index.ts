/* Plans: even spacing, shaping, heel turns, toes and knitted-on edgings, each with the rest of it from any row. */

export { doublings } from './doublings.ts';
export { craft, fetchMorePlans } from './functions.ts';
export { heelTurn } from './heel-turn.ts';
export { join } from './join.ts';
export { onNeedle } from './on-needle.ts';
export { countAt, nextShaping, type PlanRow, rowsOf } from './plan.ts';
export { craftProblems } from './problems.ts';
export { shape } from './shape.ts';
export { spreadFlat, spreadRound } from './spread.ts';
export { spreadRepeats } from './spread-repeats.ts';
export { toe } from './toe.ts';
export { ordinal } from './words.ts';
