export { type Problem, problem } from './problem.ts';
export type * from './spec.ts';
