/* What a cell holds or held, as the rest of the tool sees it; in the lanes it is a number, or a reason why there is none. */

import { MINUTES_A_DAY, type Plan, type Problem, type Type } from '../formula/index.ts';
import * as FLAG from './flags.ts';
import type { Lanes } from './lanes.ts';
import type { Names } from './names.ts';

/** What a cell holds, in one column. Quantities are in base units: 10 µm, g, stitches, rows, minutes. */
export type Value =
  | { readonly kind: 'quantity'; readonly value: number; readonly type: Type & { kind: 'quantity' } }
  | { readonly kind: 'truth'; readonly truth: boolean }
  | { readonly kind: 'label'; readonly text: string }
  /** The day number, days since 1970-01-01. */
  | { readonly kind: 'date'; readonly day: number }
  | { readonly kind: 'plan'; readonly plan: Plan }
  | { readonly kind: 'empty' }
  /** Waiting for the named cell; '' is the chosen column. */
  | { readonly kind: 'waiting'; readonly name: string }
  | { readonly kind: 'problem'; readonly problem: Problem };

/** Whether two values can be of one cell: whatever their unit, and whether or not they are decided. */
export function isAlike(a: Type, b: Type): boolean {
  return a.kind === 'quantity' && b.kind === 'quantity' ? a.dimension === b.dimension : a.kind === b.kind;
}

/** What a number is in a cell of a kind, or what its reason says where it is NaN. */
export function asValue(type: Type, value: number, reason: number, lanes: Lanes, names: Names): Value {
  if (Number.isNaN(value)) return noValue(reason, lanes, names);
  switch (type.kind) {
    case 'quantity':
      return { kind: 'quantity', value, type };
    case 'truth':
      return { kind: 'truth', truth: value === 1 };
    case 'label':
      return { kind: 'label', text: lanes.store.labelText(value) };
    case 'date':
      return { kind: 'date', day: Math.floor(value / MINUTES_A_DAY) };
    case 'plan':
      return { kind: 'plan', plan: lanes.store.planAt(value) as Plan };
    case 'unknown':
      return { kind: 'empty' };
  }
}

function noValue(reason: number, { reasons }: Lanes, names: Names): Value {
  const bad = reasons.problemOf(reason);
  if (bad) return { kind: 'problem', problem: bad };
  const root = reasons.waitsFor(reason);
  return root < 0 ? { kind: 'empty' } : { kind: 'waiting', name: names.nameOf(root) };
}

/** The values of a sheet as they were. */
export interface Frozen {
  /** What a cell held in a column; undefined where there was no such cell. */
  value(id: string, column: number): Value | undefined;
}

/** The values as they are now. Cost: a copy of each. */
export function frozen(lanes: Lanes, names: Names): Frozen {
  const nodes = names.byIds();
  const values = lanes.values.slice(0, lanes.end);
  const why = lanes.why.slice(0, lanes.end);
  const offsets = lanes.offsets.slice(0, lanes.types.length);
  const flags = lanes.flags.slice(0, lanes.types.length);
  const types = [...lanes.types];
  return {
    value: (id, column) => {
      const node = nodes.get(id);
      if (node === undefined) return undefined;
      const lane = offsets[node]! + ((flags[node]! & FLAG.EACH) !== 0 ? column : 0);
      return asValue(types[node]!, values[lane]!, why[lane]!, lanes, names);
    },
  };
}
