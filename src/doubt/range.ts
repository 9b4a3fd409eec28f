/*
 * Ranges: everything a number can be, as least and most. Arithmetic on ranges never leaves anything out: what two
 * numbers give lies in what their ranges give. Ends are worked out exactly as the sheet does it: arithmetic in binary
 * rounds, but never so that more added, or multiplied, comes to less, so that the ends bound whatever the sheet gives.
 * Only what it does not round so carefully (powers, means) is moved outward a little.
 *
 * `lacks` says that there may be no value at all; a range with least above most holds nothing but that. Where a number
 * can only be one of a few (counts after rounding, the value of one size or another) these are kept, as `few`: between
 * 200 and 208 stitches there is no 203 for a multiple of 8.
 */

import { NEAR, same } from '../quantity/index.ts';

/** Everything a lane can hold. Truths are 0 and 1, dates their minutes, plans their number. */
export interface Range {
  readonly least: number;
  readonly most: number;
  /** Whether it may hold nothing. */
  readonly lacks: boolean;
  /** The only numbers it can be, where these are few; in order. */
  readonly few?: readonly number[];
  /** It can only be one of these steps, where there are too many to name them. */
  readonly grain?: Grain | undefined;
  /** For labels: the numbers of those it can be; `least` and `most` then mean nothing. */
  readonly labels?: readonly number[];
}

/** Numbers the same distance apart, one of them at `at`; as nearly as arithmetic in binary has it. */
export interface Grain {
  readonly at: number;
  readonly apart: number;
}

/** No value. */
export const NOTHING: Range = {
  least: Number.POSITIVE_INFINITY,
  most: Number.NEGATIVE_INFINITY,
  lacks: true,
};

/** Any number, or none. */
export const ANYTHING: Range = {
  least: Number.NEGATIVE_INFINITY,
  most: Number.POSITIVE_INFINITY,
  lacks: true,
};

/** One number; NaN is nothing. */
export function only(value: number): Range {
  return Number.isNaN(value) ? NOTHING : { least: value, most: value, lacks: false };
}

/** So many numbers still are few. */
const MOST_FEW = 24;

/** One of these numbers; NaN among them is no value. */
export function oneOf(numbers: readonly number[], lacks: boolean): Range {
  const there = [...new Set(numbers.filter((number) => !Number.isNaN(number)))].sort((a, b) => a - b);
  const lacksOne = lacks || (there.length < numbers.length && numbers.some(Number.isNaN));
  if (there.length === 0) return NOTHING;
  const range = { least: there[0] as number, most: there.at(-1) as number, lacks: lacksOne };
  return there.length > 1 && there.length <= MOST_FEW ? { ...range, few: there } : range;
}

/** The only numbers a range can be, where these are few. */
export function fewOf(range: Range): readonly number[] | undefined {
  return range.few ?? (range.least === range.most ? [range.least] : undefined);
}

/** What a function gives for every choice of one number from each range, where these choices are few. */
export function ofFew(ranges: readonly Range[], work: (...numbers: number[]) => number): Range | undefined {
  let count = 1;
  let lacks = false;
  for (const range of ranges) {
    count *= range.few?.length ?? (range.least === range.most ? 1 : Number.POSITIVE_INFINITY);
    if (!(count <= MOST_FEW)) return undefined;
    lacks ||= range.lacks;
  }
  if (count === 1) return lacking(only(work(...ranges.map(({ least }) => least))), lacks);
  let choices: number[][] = [[]];
  for (const range of ranges) {
    const few = fewOf(range) ?? [];
    choices = choices.flatMap((choice) => few.map((number) => [...choice, number]));
  }
  return oneOf(
    choices.map((choice) => work(...choice)),
    lacks,
  );
}

/** The steps numbered from `first` to `last`, each of them what `step` gives for its number. */
export function stepped(first: number, last: number, step: (at: number) => number, lacks: boolean): Range {
  const [least, most] = [step(first), step(last)];
  const count = last - first + 1;
  if (!(count <= MOST_FEW)) {
    const [at, apart] = [step(0), step(1) - step(0)];
    return { least, most, lacks, grain: { at, apart } };
  }
  const few = Array.from({ length: count }, (_, i) => step(first + i));
  return count > 1 ? { least, most, lacks, few } : { least, most, lacks };
}

/** From least to most. */
export function between(least: number, most: number, lacks = false): Range {
  return { least, most, lacks };
}

/** Whether a range holds nothing. */
export function isNothing(range: Range): boolean {
  return range.labels ? range.labels.length === 0 : !(range.least <= range.most);
}

/** Whether a range is one number, surely. */
export function isOne(range: Range): boolean {
  return !range.lacks && range.least === range.most;
}

/** A truth that may be no, yes or either. */
export function truths(no: boolean, yes: boolean, lacks: boolean): Range {
  return no || yes ? { least: no ? 0 : 1, most: yes ? 1 : 0, lacks } : NOTHING;
}

/** What is in one or the other. */
export function hull(a: Range, b: Range): Range {
  const lacks = a.lacks || b.lacks;
  if (a.labels || b.labels)
    return { ...NOTHING, lacks, labels: [...new Set([...(a.labels ?? []), ...(b.labels ?? [])])] };
  const [mine, theirs] = [isNothing(a) ? [] : fewOf(a), isNothing(b) ? [] : fewOf(b)];
  if (mine && theirs) return oneOf([...mine, ...theirs], lacks);
  return { least: Math.min(a.least, b.least), most: Math.max(a.most, b.most), lacks };
}

/** The same with or without a value. */
export function lacking(range: Range, lacks: boolean): Range {
  return lacks && !range.lacks ? { ...range, lacks } : range;
}

const ULP = 2 ** -52;

/** Moves the ends outward by so many units in the last place. Nothing moves across nought. */
export function widened(least: number, most: number, lacks: boolean, ulps = 1): Range {
  const slack = ULP * ulps;
  return { least: least - Math.abs(least) * slack, most: most + Math.abs(most) * slack, lacks };
}

type Ends = readonly [number, number, number, number];

/** A product of ends: nothing times anything is nothing, however large that is. */
function times(a: number, b: number): number {
  return a === 0 || b === 0 ? 0 : a * b;
}

function ofTwo(a: Range, b: Range, exact: (a: number, b: number) => number, ends: () => Ends): Range {
  if (isNothing(a) || isNothing(b)) return NOTHING;
  const lacks = a.lacks || b.lacks;
  if (a.least === a.most && b.least === b.most) return lacking(only(exact(a.least, b.least)), lacks);
  const few = ofFew([a, b], exact);
  if (few) return few;
  const all = ends();
  const range = between(Math.min(...all), Math.max(...all), lacks);
  const grain = grainOfTwo(a, b, exact);
  return grain ? { ...range, grain } : range;
}

/** Steps that one number is added to, taken from or multiplied by stay steps. */
function grainOfTwo(a: Range, b: Range, exact: (a: number, b: number) => number): Grain | undefined {
  if (a.grain && b.least === b.most) return grainFrom(a.grain, (x) => exact(x, b.least));
  if (b.grain && a.least === a.most) return grainFrom(b.grain, (x) => exact(a.least, x));
  return undefined;
}

function grainFrom(grain: Grain, of: (x: number) => number): Grain | undefined {
  const at = of(grain.at);
  const apart = Math.abs(of(grain.at + grain.apart) - at);
  return apart > 0 && Number.isFinite(apart) && Math.abs(at) < MOST_GRAINS_OFF * apart
    ? { at, apart }
    : undefined;
}

/** Steps that begin further off than so many of them are no longer told exactly enough. */
const MOST_GRAINS_OFF = 10_000;

/** The steps of both, where they are the same, or one of them is a number on the steps of the other. */
function grainOfBoth(a: Range, b: Range): Pick<Range, 'grain'> {
  const [one, other] = a.grain ? [a, b] : [b, a];
  if (!one.grain) return {};
  const isSame = other.grain
    ? other.grain.at === one.grain.at && other.grain.apart === one.grain.apart
    : fewOf(other)?.every((number) => isOnGrain(one.grain as Grain, number));
  return isSame ? { grain: one.grain } : {};
}

function isOnGrain({ at, apart }: Grain, value: number): boolean {
  const off = Math.abs(value - at - Math.round((value - at) / apart) * apart);
  return !(off > 4 * NEAR * Math.max(1, Math.abs(value)));
}

/** a + b */
export function added(a: Range, b: Range): Range {
  const ends = (): Ends => [a.least + b.least, a.most + b.most, a.least + b.least, a.most + b.most];
  return ofTwo(a, b, (x, y) => x + y, ends);
}

/** a − b */
export function taken(a: Range, b: Range): Range {
  const ends = (): Ends => [a.least - b.most, a.most - b.least, a.least - b.most, a.most - b.least];
  return ofTwo(a, b, (x, y) => x - y, ends);
}

/** a × b */
export function multiplied(a: Range, b: Range): Range {
  const ends = (): Ends => [
    times(a.least, b.least),
    times(a.least, b.most),
    times(a.most, b.least),
    times(a.most, b.most),
  ];
  return ofTwo(a, b, (x, y) => x * y, ends);
}

/** −a */
export function minus(a: Range): Range {
  if (isNothing(a)) return a;
  const few = ofFew([a], (x) => 0 - x);
  const grain = a.grain ? { grain: { at: 0 - a.grain.at, apart: a.grain.apart } } : {};
  return few ?? { least: 0 - a.most, most: 0 - a.least, lacks: a.lacks, ...grain };
}

/** a ÷ b; what is divided by nothing has no value. */
export function divided(a: Range, b: Range): Range {
  if (isNothing(a) || isNothing(b) || (b.least === 0 && b.most === 0)) return NOTHING;
  const lacks = a.lacks || b.lacks || (b.least <= 0 && b.most >= 0);
  const few = ofFew([a, b], (x, y) => (y === 0 ? Number.NaN : x / y));
  if (few) return few;
  if (b.least < 0 && b.most > 0) return { ...ANYTHING, lacks };
  const grain = a.grain && b.least === b.most ? grainFrom(a.grain, (x) => x / b.least) : undefined;
  return { ...byEnds(a, b), lacks, ...(grain ? { grain } : {}) };
}

/** A quotient by what is on one side of nought, its end at nought making it as large as anything on that side. */
function byEnds(a: Range, b: Range): Range {
  const low = b.most === 0 ? -0 : b.most;
  const high = b.least === 0 ? 0 : b.least;
  const all = [a.least, a.most].flatMap((x) => [quotient(x, low), quotient(x, high)]);
  return between(Math.min(...all), Math.max(...all));
}

function quotient(x: number, by: number): number {
  return x === 0 ? 0 : Number.isFinite(x) || Number.isFinite(by) ? x / by : 0;
}

function wholePower(base: number, exponent: number): number {
  return exponent === 2 ? base * base : base ** exponent;
}

/** a to a constant power. */
export function raised(a: Range, exponent: number, exact: (a: number) => number): Range {
  if (isNothing(a)) return a;
  const few = ofFew([a], exact);
  if (few) return few;
  if (exponent < 0)
    return divided(
      only(1),
      raised(a, -exponent, (x) => wholePower(x, -exponent)),
    );
  const whole = Number.isInteger(exponent);
  if (!whole && a.most < 0) return NOTHING;
  const least = whole ? a.least : Math.max(0, a.least);
  const lacks = a.lacks || least !== a.least;
  const [low, high] = [wholePower(least, exponent), wholePower(a.most, exponent)];
  const dips = whole && exponent % 2 === 0 && least < 0 && a.most > 0;
  return widened(dips ? 0 : Math.min(low, high), Math.max(low, high), lacks, 8);
}

/** The least and the most of two ranges, end by end. */
export function smaller(a: Range, b: Range): Range {
  if (isNothing(a) || isNothing(b)) return NOTHING;
  const few = ofFew([a, b], Math.min);
  const [least, most] = [Math.min(a.least, b.least), Math.min(a.most, b.most)];
  return few ?? { least, most, lacks: a.lacks || b.lacks, ...grainOfBoth(a, b) };
}

/** Without its sign. */
export function sized(a: Range): Range {
  if (isNothing(a) || a.least >= 0) return a;
  const few = ofFew([a], Math.abs);
  if (few) return few;
  if (a.most <= 0) return minus(a);
  return between(0, Math.max(-a.least, a.most), a.lacks);
}

/** Whether every number at or below `a` is smaller than every one at or above `b`, as the language compares. */
export function isClearlyLess(a: number, b: number): boolean {
  return a < b && !(Number.isFinite(a) && Number.isFinite(b) && same(a, b));
}

/** What comes of comparing two ranges as the language does: `less` says what a < b gives, `equal` what a == b gives. */
export function compared(a: Range, b: Range, op: string): Range {
  if (isNothing(a) || isNothing(b)) return NOTHING;
  const lacks = a.lacks || b.lacks;
  const surelyLess = isClearlyLess(a.most, b.least);
  const surelyMore = isClearlyLess(b.most, a.least);
  const canLess = isClearlyLess(a.least, b.most);
  const canMore = isClearlyLess(b.least, a.most);
  const canEqual = !surelyLess && !surelyMore;
  switch (op) {
    case '<':
      return truths(canMore || canEqual, canLess, lacks);
    case '>':
      return truths(canLess || canEqual, canMore, lacks);
    case '<=':
      return truths(canMore, canLess || canEqual, lacks);
    case '>=':
      return truths(canLess, canMore || canEqual, lacks);
    case '==':
      return truths(canLess || canMore, canEqual, lacks);
    default:
      return truths(canEqual, canLess || canMore, lacks);
  }
}

/** Whether a value may lie in a range, as near as the language tells values apart. */
export function mayBe(range: Range, value: number): boolean {
  if (isNothing(range)) return false;
  if (range.few) return range.few.some((one) => same(one, value));
  if (range.grain && !isOnGrain(range.grain, value)) return false;
  return !isClearlyLess(value, range.least) && !isClearlyLess(range.most, value);
}
