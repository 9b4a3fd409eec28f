/** The sheet: named formulas kept worked out. */
export type { Choice } from './chosen.ts';
export { type Explored, explore, exploring, type Replaced } from './explore.ts';
export { Graph } from './graph.ts';
export type { Settled } from './settling.ts';
export { type Info, Sheet, type SheetOptions } from './sheet.ts';
export type { Text } from './texts.ts';
export type { Frozen, Value } from './value.ts';
