/** Doubt: how far off, what would fall otherwise, what would have to change, and trials side by side. */

export { type Answer, type Stretch, type Wanted, workBack, workBackInTurn } from './back.ts';
export { type Bounded, Bounds } from './bounds.ts';
export { type Outcome, outcomesIn } from './compare.ts';
export { type Decision, decisionsOf, type Otherwise } from './decisions.ts';
export { type Domain, domainOf, type Stated } from './domain.ts';
export { keyOf, type Lane, type Leading, laneOf, lanesTo, numbersAt } from './lanes.ts';
export { ANYTHING, between, isNothing, mayBe, NOTHING, only, type Range } from './range.ts';
export {
  boxOf,
  type Doubt,
  doubtOf,
  type Effect,
  MOST_CORNERS,
  type Uncertain,
  uncertainLanes,
} from './tolerance.ts';
export { countedOver, type Usual, usualTolerances, worthRepeating } from './usual.ts';
