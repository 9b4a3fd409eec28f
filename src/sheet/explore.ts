/*
 * Exploring: the same sheet at other values, in several variants at once, in one sweep. What is typed and what is shown
 * stay as they are. A variant is a copy of the sheet's values; those of one cell lie side by side. It stands apart from the
 * sheet, whose friend it is, so that the page's first sheet does not wait for it.
 */

import { EMPTY, type Field } from '../formula/index.ts';
import { CHOSEN } from './lanes.ts';
import type { Sheet } from './sheet.ts';
import type { Value } from './value.ts';

/** A typed value replaced while exploring, in base units. */
export interface Replaced {
  readonly id: string;
  readonly column: number;
  readonly value: number;
}

/** A sheet worked out in several variants: variant 0 as it is, variant v with the v-th replacement. */
export interface Explored {
  readonly variants: number;
  number(id: string, column: number, variant: number): number;
  value(id: string, column: number, variant: number): Value;
}

type Points = readonly (readonly Replaced[])[];

/**
 * Works a sheet out with some typed values replaced, in several variants at once. Variant 0 is the sheet as it
 * is; `replaced[v]` are the lanes that differ in variant v + 1. With `held`, what variant 0 decided stays. With
 * `toward`, only that cell and what it hangs on is worked out: nothing else may be asked for.
 */
export function explore(sheet: Sheet, replaced: Points, held: boolean, toward?: string): Explored {
  return exploreIn(
    new Float64Array(sheet['lanes'].end * (replaced.length + 1)),
    sheet,
    replaced,
    held,
    toward,
  );
}

/** Where a sheet was explored last, to be used again while it is as it was. */
const rooms = new WeakMap<Sheet, { readonly values: Float64Array; readonly settlings: number }>();

/** Explores, and gives what `read` makes of it. Its room is used again until the next edit: nothing can be read later. */
export function exploring<Outcome>(
  sheet: Sheet,
  replaced: Points,
  held: boolean,
  toward: string | undefined,
  read: (explored: Explored) => Outcome,
): Outcome {
  const size = sheet['lanes'].end * (replaced.length + 1);
  const before = rooms.get(sheet);
  const isLarge = before && before.values.length >= size && before.settlings === sheet['settling'].count;
  const values = isLarge ? before.values : new Float64Array(size);
  rooms.delete(sheet); // Within `read` it is taken.
  const outcome = read(exploreIn(values, sheet, replaced, held, toward));
  rooms.set(sheet, { values, settlings: sheet['settling'].count });
  return outcome;
}

function exploreIn(
  values: Float64Array,
  sheet: Sheet,
  replaced: Points,
  held: boolean,
  toward: string | undefined,
): Explored {
  const graph = sheet['graph'];
  const variants = replaced.length + 1;
  const starts = new Set(replaced.flatMap((lanes) => lanes.map(({ id }) => sheet['nodeOf'](id))));
  const needed = toward === undefined ? undefined : graph.above(sheet['nodeOf'](toward));
  const below = graph.below(starts);
  /** By node: 1 where it is worked out anew. */
  const anew = new Uint8Array(graph.size);
  for (const node of below) anew[node] = 1;
  for (const node of starts) anew[node] = 0;
  const field = sheet['lanes'].fieldOn(values, variants, held);
  spread(sheet, field, needed ?? graph.inOrder(), anew);
  const laneOf = (id: string, column: number, variant: number) =>
    laneIn(sheet, sheet['nodeOf'](id), column, variant, variants);
  replaced.forEach((lanes, v) => {
    for (const { id, column, value } of lanes) values[laneOf(id, column, v + 1)] = value;
  });
  sheet['working'].reserve(variants * Math.max(1, field.columns));
  for (const node of needed ?? below) if (anew[node] === 1) exploreNode(sheet, node, field);
  const read = (id: string, column: number, variant: number) => values[laneOf(id, column, variant)]!;
  return {
    variants,
    number: read,
    value: (id, column, variant) => sheet['valueAt'](sheet['nodeOf'](id), read(id, column, variant), EMPTY),
  };
}

/** Puts the values of nodes into every variant, but of those that code works out anew. */
function spread(sheet: Sheet, { values, variants }: Field, nodes: Iterable<number>, anew: Uint8Array): void {
  const lanes = sheet['lanes'];
  const { values: now, offsets } = lanes;
  const working = sheet['working'];
  for (const node of nodes) {
    const offset = offsets[node]!;
    if (offset < 0 || (anew[node] === 1 && working.hasCode(node))) continue;
    const width = lanes.width(node);
    for (let to = offset * variants, end = to + width * variants; to < end; to += width)
      for (let c = 0; c < width; c += 1) values[to + c] = now[offset + c]!;
  }
  for (const [value, offset] of lanes.constants)
    values.fill(value, offset * variants, (offset + 1) * variants);
}

function laneIn(sheet: Sheet, node: number, column: number, variant: number, variants: number): number {
  const lanes = sheet['lanes'];
  const from = lanes.offsets[node]! * variants + variant * lanes.width(node);
  return from + (lanes.isEach(node) ? column : 0);
}

function exploreNode(sheet: Sheet, node: number, field: Field): void {
  const { values, variants } = field;
  const working = sheet['working'];
  const at = sheet['lanes'].offsets[node]! * variants;
  if (node === CHOSEN) exploreChosen(sheet, at, field);
  else if (working.hasCode(node)) working.run(node, field, values, at);
  for (const [column, value] of sheet['pins'].of(node) ?? [])
    for (let v = 0; v < variants; v += 1) values[laneIn(sheet, node, column, v, variants)] = value;
}

function exploreChosen(sheet: Sheet, at: number, { values, variants, held, columnOf }: Field): void {
  const { followed } = sheet['chosen'];
  if (held || followed === undefined) return;
  const from = sheet['lanes'].offsets[followed]! * variants;
  for (let v = 0; v < variants; v += 1) {
    const column = columnOf(values[from + v]!);
    values[at + v] = column < 0 ? Number.NaN : column;
  }
}
