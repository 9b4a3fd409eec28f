/** The sheet: named formulas kept worked out. */
export { Graph } from './graph.ts';
export {
  type Choice,
  type Explored,
  type Frozen,
  type Info,
  type Replaced,
  type Settled,
  Sheet,
  type SheetOptions,
  type Text,
} from './sheet.ts';
export type { Value } from './value.ts';
