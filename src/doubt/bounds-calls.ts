/*
 * What functions give for ranges. Of a function that is not named here nothing is known: with one number for every
 * argument it is worked out, with anything wider its result can be anything. So a new function is never wrong here,
 * only told loosely.
 */

import { NEAR } from '../quantity/index.ts';
import type { Sheet } from '../sheet/index.ts';
import { type Call, columnsLookedAt, type RunSpec, type Spec, type Tree } from './lanes.ts';
import {
  ANYTHING,
  added,
  between,
  divided,
  fewOf,
  hull,
  isClearlyLess,
  isNothing,
  isOne,
  lacking,
  minus,
  multiplied,
  NOTHING,
  ofFew,
  oneOf,
  only,
  type Range,
  sized,
  smaller,
  stepped,
  taken,
  widened,
} from './range.ts';

type NumberSpec = Spec & { readonly kind: 'number' };
type Store = Sheet['around']['store'];
/** Told when it may depend on the values which way is taken. */
type Note = () => void;

const BRANCHING: ReadonlySet<string> = new Set(['abs', 'min', 'max']);
const RISING: ReadonlySet<string> = new Set(['whole', 'whole_up', 'whole_down', 'sqrt']);
/** How far below and above its argument a rounding to a multiple can land, in multiples. */
const REACH: Readonly<Record<string, readonly [below: number, above: number]>> = {
  multiple: [0.5, 0.5],
  multiple_up: [0, 1],
  multiple_down: [1, 0],
  to_nearest: [0.5, 0.5],
};

/** What a function of numbers gives. */
export function numberCall(spec: NumberSpec, args: readonly Range[], note: Note): Range {
  if (args.some(isNothing)) return NOTHING;
  const lacks = args.some((arg) => arg.lacks);
  const few = ofFew(args, spec.work);
  if (few) {
    if (few.least !== few.most && BRANCHING.has(spec.name)) note();
    return few;
  }
  const reach = REACH[spec.name];
  if (reach) return lacking(rounded(spec, args, reach), lacks);
  if (RISING.has(spec.name)) return lacking(rising(spec, args[0] ?? NOTHING), lacks);
  switch (spec.name) {
    case 'abs': {
      const [x = NOTHING] = args;
      if (x.least < 0 && x.most > 0) note();
      return sized(x);
    }
    case 'min':
      return extreme(args, note);
    case 'max':
      return minus(extreme(args.map(minus), note));
    default:
      return ANYTHING;
  }
}

/** A function that never falls: its ends are what it gives for the ends; where it has no answer it lacks one. */
function rising(spec: NumberSpec, x: Range): Range {
  const [least, most] = [spec.work(x.least), spec.work(x.most)];
  if (Number.isNaN(most)) return NOTHING;
  if (spec.holds === 'count') return stepped(least, most, (count) => count, x.lacks);
  return Number.isNaN(least) ? between(spec.work(0), most, true) : between(least, most, x.lacks);
}

function rounded(spec: NumberSpec, args: readonly Range[], [below, above]: readonly [number, number]): Range {
  const [x = NOTHING, n = only(1), plus = only(0)] = args;
  if (n.most <= 0) return NOTHING;
  if (n.least === n.most && plus.least === plus.most) {
    const at = (end: number) => Math.round((spec.work(end, n.least, plus.least) - plus.least) / n.least);
    return stepped(at(x.least), at(x.most), (multiple) => multiple * n.least + plus.least, x.lacks);
  }
  const slack = 4 * NEAR * (n.most + Math.max(Math.abs(x.least), Math.abs(x.most), Math.abs(plus.most)));
  const reach = (share: number) => (share === 0 ? 0 : share * n.most) + slack;
  return between(x.least - reach(below), x.most + reach(above), x.lacks || n.lacks || n.least <= 0);
}

function extreme(args: readonly Range[], note: Note): Range {
  const most = Math.min(...args.map((arg) => arg.most));
  if (args.filter((arg) => arg.least <= most).length > 1) note();
  return args.reduce(smaller);
}

/** What a plan is: laid out for certain numbers, else any. */
export function planCall(
  spec: Spec & { readonly kind: 'plan' },
  args: readonly Range[],
  store: Store,
): Range {
  if (args.some(isNothing)) return NOTHING;
  return ofFew(args, (...numbers) => store.plan(spec, numbers)) ?? ANYTHING;
}

/** A number read off a plan. */
export function readingCall(
  spec: Spec & { readonly kind: 'reading' },
  [plan = NOTHING]: readonly Range[],
  store: Store,
): Range {
  if (isNothing(plan)) return NOTHING;
  return ofFew([plan], (id) => spec.work(store.planAt(id))) ?? ANYTHING;
}

/** What walks formulas for a function over the columns. */
interface Walker {
  readonly sheet: Sheet;
  readonly held: boolean;
  readonly chosen: readonly number[];
  note(): void;
  walk(node: Tree, column: number): Range;
}

/** What a function over the columns is given: a range for each column of each argument. */
interface Ranges {
  readonly each: readonly (readonly Range[])[];
  readonly singles: readonly Range[];
  readonly columns: number;
}

/** What a function over the columns gives in a column. */
export function runCall(walker: Walker, node: Call, spec: RunSpec, at: number): Range {
  const { sheet } = walker;
  const looked = new Set(columnsLookedAt(sheet, node, spec, walker.held));
  const columns = sheet.columnLabels.length;
  const each = node.args
    .filter((_, i) => spec.parameters[i]?.each)
    .map((arg) => Array.from({ length: columns }, (_, c) => (looked.has(c) ? walker.walk(arg, c) : NOTHING)));
  const singles = node.args.filter((_, i) => !spec.parameters[i]?.each).map((arg) => walker.walk(arg, at));
  if (singles.some(isNothing)) return NOTHING;
  return overColumns(walker, spec, { each, singles, columns }, at);
}

function overColumns(walker: Walker, spec: RunSpec, ranges: Ranges, at: number): Range {
  const [x = []] = ranges.each;
  // Where something is wrong in one column there is no value at all.
  const lacks = [...ranges.each.flat(), ...ranges.singles].some((range) => range.lacks);
  switch (spec.name) {
    case 'at':
      return inOneOf(walker, x, columnsNamed(walker, ranges.singles[0] ?? NOTHING));
    case 'chosen':
      return inOneOf(walker, x, walker.chosen);
    case 'nearest':
      return lacking(nearestOfEach(walker, x, ranges.singles[0] ?? NOTHING), lacks);
    default:
  }
  if (isExact(ranges)) return lacking(exactly(walker, spec, ranges, at), lacks);
  switch (spec.name) {
    case 'total':
      return lacking(sum(x), lacks);
    case 'total_up_to':
      return lacking(sum(x.slice(0, at + 1)), lacks);
    case 'average':
      return lacking(averageOf(x), lacks);
    case 'smallest':
      return lacking(smallestOf(x, walker), lacks);
    case 'largest':
      return lacking(minus(smallestOf(x.map(minus), walker)), lacks);
    case 'rank':
      return lacking(rankOf(x, at, walker), lacks);
    case 'total_until':
      return lacking(totalUntil(x, ranges.each[1] ?? [], at, walker), lacks);
    case 'slope':
      return slopeOf(x, ranges.each[1] ?? []);
    default:
      return ANYTHING;
  }
}

function isExact({ each, singles }: Ranges): boolean {
  const isSettled = (range: Range) => isOne(range) || (isNothing(range) && !range.labels);
  return each.every((lanes) => lanes.every(isSettled)) && singles.every(isSettled);
}

function exactly({ sheet }: Walker, spec: RunSpec, { each, singles, columns }: Ranges, at: number): Range {
  const number = (range: Range | undefined) => (range && !isNothing(range) ? range.least : Number.NaN);
  const { labelOf, columnOf } = sheet.around.field;
  const value = spec.work(
    {
      columns,
      value: (k, c) => number(each[k]?.[c]),
      single: (k) => number(singles[k]),
      chosen: Number.NaN,
      labelOf,
      columnOf,
    },
    at,
  );
  return only(value);
}

function columnsNamed({ sheet }: Walker, label: Range): readonly number[] {
  const columns = (label.labels ?? []).map((one) => sheet.around.field.columnOf(one));
  return label.lacks ? [...columns, -1] : columns;
}

/** The value in one of some columns. */
function inOneOf(walker: Walker, x: readonly Range[], columns: readonly number[]): Range {
  const [first, ...others] = columns.map((c) => x[c] ?? NOTHING);
  if (others.length > 0) walker.note();
  return others.reduce(hull, first ?? NOTHING);
}

function sum(x: readonly Range[]): Range {
  const there = x.filter((range) => !isNothing(range));
  if (there.length === 0) return NOTHING;
  return there.map(orNought).reduce(added, only(0));
}

/** A column that may be empty adds itself or nothing. */
function orNought(range: Range): Range {
  return range.lacks ? between(Math.min(0, range.least), Math.max(0, range.most)) : range;
}

function averageOf(x: readonly Range[]): Range {
  const there = x.filter((range) => !isNothing(range));
  if (there.some((range) => range.lacks)) {
    const { least, most } = there.reduce(hull);
    return widened(least, most, true, 8);
  }
  return there.length === 0 ? NOTHING : divided(sum(there), only(there.length));
}

function smallestOf(x: readonly Range[], walker: Walker): Range {
  const there = x.filter((range) => !isNothing(range));
  if (there.length === 0) return NOTHING;
  const sure = there.filter((range) => !range.lacks);
  const most = Math.min(...sure.map((range) => range.most));
  const can = there.filter((range) => range.least <= most);
  if (can.length > 1) walker.note();
  const least = Math.min(...there.map((range) => range.least));
  const top = sure.length > 0 ? most : Math.max(...there.map((range) => range.most));
  // Of two that are as good as equal the first counts, so it can be a little more than the smallest.
  const near = between(least, top + 2 * NEAR * Math.max(1, Math.abs(top)));
  const each = there.map(fewOf);
  if (!each.every((few) => few !== undefined)) return near;
  // It is one of those that are compared, whichever.
  return oneOf(
    each.flat().filter((one) => one >= near.least && one <= near.most),
    false,
  );
}

/** The nearest to each of the few numbers that the target can be: it is the same one for all columns. */
function nearestOfEach(walker: Walker, x: readonly Range[], target: Range): Range {
  const [first, ...others] = (target.few ?? []).map((one) => nearestOf(walker, x, only(one)));
  if (others.length > 0) walker.note();
  return first ? lacking(others.reduce(hull, first), target.lacks) : nearestOf(walker, x, target);
}

function nearestOf(walker: Walker, x: readonly Range[], target: Range): Range {
  const { field } = walker.sheet.around;
  const misses = x.map((range) => sized(taken(range, target)));
  const sure = misses.filter((miss) => !isNothing(miss) && !miss.lacks);
  const most = Math.min(...sure.map((miss) => miss.most));
  const can = misses.flatMap((miss, c) =>
    isNothing(miss) || isClearlyLess(most, miss.least) ? [] : [field.labelOf(c)],
  );
  if (can.length === 0) return NOTHING;
  // Where every miss is one number the first of the nearest counts, as it does on the sheet.
  const isSettled = misses.every((miss) => isNothing(miss) || isOne(miss));
  const labels = isSettled ? can.slice(0, 1) : can;
  if (labels.length > 1) walker.note();
  return { ...NOTHING, lacks: sure.length === 0, labels };
}

/** Whether column c comes no later than column `at` by these values: surely, possibly. */
function comesBy(
  when: readonly Range[],
  c: number,
  at: number,
): readonly [surely: boolean, possibly: boolean] {
  if (c === at) return [true, true];
  const [its, own] = [when[c] ?? NOTHING, when[at] ?? NOTHING];
  if (isNothing(its) || isNothing(own)) return [false, false];
  return c < at
    ? [!its.lacks && !isClearlyLess(own.least, its.most), !isClearlyLess(own.most, its.least)]
    : [!its.lacks && isClearlyLess(its.most, own.least), isClearlyLess(its.least, own.most)];
}

function rankOf(x: readonly Range[], at: number, walker: Walker): Range {
  const own = x[at] ?? NOTHING;
  if (isNothing(own)) return NOTHING;
  const comes = x.map((range, c) => (isNothing(range) ? [false, false] : comesBy(x, c, at)));
  const [least, most] = [comes.filter(([surely]) => surely).length, comes.filter(([, can]) => can).length];
  if (least !== most) walker.note();
  return between(least, most, own.lacks);
}

function totalUntil(x: readonly Range[], when: readonly Range[], at: number, walker: Walker): Range {
  if (isNothing(x[at] ?? NOTHING) || isNothing(when[at] ?? NOTHING)) return NOTHING;
  const parts = x.flatMap((range, c) => {
    const [surely, possibly] = comesBy(when, c, at);
    if (!possibly || isNothing(range)) return [];
    if (!surely) walker.note();
    return [surely ? orNought(range) : orNought(lacking(range, true))];
  });
  return lacking(parts.reduce(added, only(0)), when[at]?.lacks ?? true);
}

/**
 * Least squares, where every column is there. Where the x are settled each y counts a fixed number of times, the less so
 * for those near the mean of x: what all the y have in common falls out, as it does not where they are taken one by one.
 */
function slopeOf(y: readonly Range[], x: readonly Range[]): Range {
  const columns = x.flatMap((range, c) => (isNothing(range) || isNothing(y[c] ?? NOTHING) ? [] : [c]));
  const [ys, xs] = [columns.map((c) => y[c] as Range), columns.map((c) => x[c] as Range)];
  if (columns.length < 2 || [...ys, ...xs].some((range) => range.lacks)) return ANYTHING;
  const slope = xs.every(isOne)
    ? byShares(
        ys,
        xs.map((range) => range.least),
      )
    : byMeans(ys, xs);
  return isNothing(slope) ? ANYTHING : { ...slope, lacks: true };
}

/**
 * How often each y counts, moved outward by more than what the sheet's means, products and sums can be off: by so many
 * roundings of each, and by what is left when the distances from the mean do not quite cancel out.
 */
function byShares(ys: readonly Range[], xs: readonly number[]): Range {
  const mean = xs.reduce((sum, x) => sum + x, 0) / xs.length;
  const offs = xs.map((x) => x - mean);
  const spread = offs.reduce((sum, off) => sum + off ** 2, 0);
  const size = offs.reduce((sum, off) => sum + Math.abs(off), 0);
  const left = Math.abs(offs.reduce((sum, off) => sum + off, 0));
  const slack = (2 ** -52 * 8 * xs.length * size + 2 * left) / spread;
  if (!Number.isFinite(slack)) return ANYTHING;
  return offs
    .map((off, i) => multiplied(between(off / spread - slack, off / spread + slack), ys[i] as Range))
    .map(({ least, most }) => between(least - SMALLEST, most + SMALLEST))
    .reduce(added);
}

/** What can be lost where numbers are so small that they are no longer told apart. */
const SMALLEST = 1e-290;

function byMeans(ys: readonly Range[], xs: readonly Range[]): Range {
  const count = only(xs.length);
  const [yMean, xMean] = [divided(ys.reduce(added), count), divided(xs.reduce(added), count)];
  const offs = xs.map((range) => taken(range, xMean));
  const along = offs.map((off, i) => multiplied(off, taken(ys[i] as Range, yMean))).reduce(added);
  const spread = offs.map((off) => multiplied(sized(off), sized(off))).reduce(added);
  return divided(along, spread);
}
