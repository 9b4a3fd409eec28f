/*
 * How costs grow: the same cost at several sizes, and the exponent that fits it best. An exponent of 1 is a straight
 * line: ten times the cells, ten times the cost. The slope is fitted to logarithms, so that small sizes count as much
 * as large ones, once for each block; the figure is the median of those.
 */

import { around, type Figure, median } from './figure.ts';

/** A cost at some size, block by block. */
export interface Cost {
  readonly cells: number;
  readonly blocks: readonly number[];
}

/** The slope of the straight line through points, by least squares. */
export function slope(points: readonly (readonly [x: number, y: number])[]): number {
  const mean = (k: 0 | 1) => points.reduce((sum, point) => sum + point[k], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const above = points.reduce((sum, [px, py]) => sum + (px - x) * (py - y), 0);
  return above / points.reduce((sum, [px]) => sum + (px - x) ** 2, 0);
}

/** The exponent of a cost, block by block. */
export function exponents(costs: readonly Cost[]): readonly number[] {
  const blocks = Math.min(...costs.map((cost) => cost.blocks.length));
  return Array.from({ length: blocks }, (_, k) =>
    slope(costs.map((cost) => [Math.log(cost.cells), Math.log(cost.blocks[k] ?? Number.NaN)])),
  );
}

const times = (x: number) => (x < 10 ? x.toFixed(1) : x.toFixed(0));

/** The exponent as a figure; its note says what a cell costs at each size, times the cheapest. */
export function growthFigure(name: string, costs: readonly Cost[], why: string): Figure {
  const each = costs.map(({ cells, blocks }) => median(blocks) / cells);
  const least = Math.min(...each);
  const table = costs.map(({ cells }, i) => `${cells.toLocaleString('en-GB')}: ${times(each[i]! / least)}`);
  return {
    name: `${name}: how it grows with n cells, ${costs[0]?.cells} to ${costs.at(-1)?.cells.toLocaleString('en-GB')}`,
    ...around(exponents(costs)),
    better: 'less',
    unit: 'power',
    note: `a cell costs, times the cheapest: ${table.join(', ')}. ${why}`,
  };
}
