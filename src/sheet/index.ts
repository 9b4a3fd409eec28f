/** The sheet: named formulas kept worked out. */
export { type Explored, explore, exploring, type Replaced } from './explore.ts';
export { Graph } from './graph.ts';
export {
  type Choice,
  type Frozen,
  type Info,
  type Settled,
  Sheet,
  type SheetOptions,
  type Text,
} from './sheet.ts';
export type { Value } from './value.ts';
