/*
 * Stitches divided by a row gauge, or rows by a stitch gauge: a number, but no length. As a step on the way it may be
 * meant, so it is asked about and not refused.
 */

import { nearest, spacedName, walk } from '../formula/index.ts';
import { divided, LENGTH, multiplied, ROW, STITCH } from '../quantity/index.ts';
import type { Live } from './live.ts';

const MIXED = [
  { what: 'stitches by a row gauge', counted: STITCH, gauged: ROW, said: 'row', meant: 'stitch' },
  { what: 'rows by a stitch gauge', counted: ROW, gauged: STITCH, said: 'stitch', meant: 'row' },
] as const;

/** What is asked of a cell that comes to one kind of count by the gauge of the other; undefined for any other cell. */
export function mixedGauge(live: Live, id: string): string | undefined {
  const dimensionOf = (cell: string | undefined) => {
    const type = cell === undefined ? undefined : live.sheet.info(cell).type;
    return type?.kind === 'quantity' ? type.dimension : undefined;
  };
  const mixed = MIXED.find(
    ({ counted, gauged }) => dimensionOf(id) === divided(multiplied(counted, LENGTH), gauged),
  );
  const tree = live.sheet.tree(id, 0);
  if (!mixed || !tree) return undefined;
  const { what, counted, gauged, said, meant } = mixed;
  const gauges = live.sheet.cells
    .filter((cell) => dimensionOf(cell) === divided(counted, LENGTH))
    .map((cell) => live.sheet.nameOf(cell));
  const likely: string[] = [];
  walk(tree, (node) => {
    const isGauge =
      node.kind === 'cell' && dimensionOf(live.sheet.idOf(node.name)) === divided(gauged, LENGTH);
    if (isGauge) likely.push(nearest(node.name.replace(said, meant), gauges) ?? '');
  });
  const gauge = likely.find((name) => name !== '') ?? gauges[0];
  const asked = gauge === undefined ? `a ${meant} gauge` : `“${spacedName(gauge)}”`;
  return `That divides ${what}, which makes no length: did you mean ${asked}?`;
}
