/*
 * How each role is drawn, in one table: the page and the stand-alone SVG both read it. Colours are the page's own
 * names (`--ink`, `--soft` …), so that light, dark and print follow; no role differs from another by colour alone.
 */

import type { Role } from './picture.ts';

/** The page's colour names. */
export type Colour = 'paper' | 'card' | 'ink' | 'soft' | 'rule' | 'typed' | 'yarn' | 'pick' | 'yes' | 'no';

/** How a role is drawn; widths in pixels, whatever the scale. */
export interface Look {
  readonly fill?: Colour;
  readonly fillOpacity?: number;
  readonly stroke?: Colour;
  readonly strokeWidth?: number;
  readonly dashes?: string;
}

/** The look of every role. */
export const looks: Readonly<Record<Role, Look>> = {
  piece: { fill: 'pick', stroke: 'ink', strokeWidth: 1.6 },
  shade: { fill: 'yes', fillOpacity: 0.18, stroke: 'ink', strokeWidth: 1 },
  'shade-light': { fill: 'yes', fillOpacity: 0.07, stroke: 'ink', strokeWidth: 1 },
  hatch: { stroke: 'soft', strokeWidth: 0.7 },
  seam: { stroke: 'ink', strokeWidth: 1 },
  dash: { stroke: 'soft', strokeWidth: 1.4, dashes: '5 4' },
  frame: { stroke: 'rule', strokeWidth: 1 },
  'knit-theirs': { stroke: 'soft' },
  'knit-yours': { stroke: 'yarn' },
  dimension: { stroke: 'soft', strokeWidth: 1 },
  leader: { stroke: 'soft', strokeWidth: 0.8 },
  dot: { fill: 'ink' },
  axis: { stroke: 'soft', strokeWidth: 1 },
  grid: { stroke: 'rule', strokeWidth: 1 },
  shaping: { fill: 'yarn' },
  bar: { fill: 'yes', fillOpacity: 0.4 },
  'bar-spare': { fill: 'paper', stroke: 'yes', strokeWidth: 1, dashes: '3 3' },
  'bar-short': { fill: 'paper', stroke: 'no', strokeWidth: 1.6 },
  'bar-total': { stroke: 'ink', strokeWidth: 1 },
  value: { stroke: 'ink', strokeWidth: 2 },
  stitch: { stroke: 'soft', strokeWidth: 1.1 },
  point: { fill: 'pick', stroke: 'ink', strokeWidth: 1 },
  take2: { fill: 'yarn', stroke: 'yarn', strokeWidth: 1 },
  nojoin: { fill: 'paper', stroke: 'yarn', strokeWidth: 1.6 },
  done: { fill: 'yes', fillOpacity: 0.4, stroke: 'ink', strokeWidth: 1 },
  here: { stroke: 'typed', strokeWidth: 2.5 },
};
