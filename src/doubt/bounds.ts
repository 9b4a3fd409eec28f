/*
 * Bounds: what a worked-out value can be while some typed values lie anywhere in a range. The formulas are walked with
 * ranges instead of numbers. Whatever the sheet would give for numbers in those ranges lies in the bounds; bounds can
 * be wider than that, never narrower. So "cannot be" is shown by bounds, and "can be" only by a value.
 *
 * With `held`, what is decided stays as it is now, as in the sheet's own exploring: the formula inside a rounding is
 * walked with the numbers of now.
 */

import { type Explored, explore, type Sheet } from '../sheet/index.ts';
import { numberCall, planCall, readingCall, runCall } from './bounds-calls.ts';
import { type Call, isHeld, keyOf, type Lane, type Leading, laneOf, lanesTo, type Tree } from './lanes.ts';
import {
  added,
  between,
  compared,
  divided,
  hull,
  isNothing,
  lacking,
  minus,
  multiplied,
  NOTHING,
  only,
  type Range,
  raised,
  taken,
  truths,
} from './range.ts';

/** What bounds were found. */
export interface Bounded {
  readonly range: Range;
  /** Whether somewhere on the way it may depend on the values which way is taken: a test, `abs`, `min`, the smallest … */
  readonly branches: boolean;
}

/** Bounds on one lane, for any ranges of some typed lanes it hangs on. */
export class Bounds {
  private readonly now: Explored;
  /** What moves when the typed lanes do, each after what it uses, and the typed lanes themselves. */
  private readonly moving: readonly Leading[];
  /** The ranges of all others. */
  private readonly still: ReadonlyMap<string, Range>;
  /** Of what moves, what stands more than once in the formulas; looked for when it is first asked. */
  private met: ReadonlySet<string> | undefined;
  private readonly key: string;
  private ranges = new Map<string, Range>();
  private branches = false;
  /** How often bounds were worked out to the end. */
  count = 0;
  /** Walking with the numbers of now. */
  private isNow = false;

  constructor(
    readonly sheet: Sheet,
    lane: Lane,
    from: readonly Lane[],
    readonly held: boolean,
  ) {
    this.key = keyOf(lane.id, lane.column);
    this.now = explore(sheet, [], held, lane.id);
    const lanes = lanesTo(sheet, lane, held);
    const moving = new Set(from.map(({ id, column }) => keyOf(id, column)));
    for (const { key, uses } of lanes) if (uses.some((use) => moving.has(use))) moving.add(key);
    this.moving = lanes.filter(({ key }) => moving.has(key));
    this.still = new Map(
      lanes
        .filter(({ key }) => !moving.has(key))
        .map(({ key, id, column }) => [key, boundless(this.numberNow(id, column))]),
    );
  }

  /** The bounds while each of the typed lanes, by its key, is in its range. Linear in the formulas on the way. */
  of(box: ReadonlyMap<string, Range>): Bounded {
    this.ranges = new Map(this.still);
    this.branches = false;
    for (const lane of this.moving) this.ranges.set(lane.key, this.rangeOf(lane, box));
    return { range: this.ranges.get(this.key) ?? NOTHING, branches: this.branches };
  }

  /**
   * Whether something may hold of the lane while the typed ones are in their ranges. A count, a size or a yes or no that
   * can only be one of a few and stands in several places is taken to be each of these in turn, the same in all places:
   * with 198 or 200 sts cast on, twice their half is 198 or 200, never 198 of 200. As long as `of` for each turn taken,
   * of which there are `turns` at most.
   */
  may(box: ReadonlyMap<string, Range>, holds: (range: Range) => boolean, turns = MOST_TURNS): boolean {
    this.ranges = new Map(this.still);
    this.met ??= usedAgain(this.moving);
    if (!this.mayFrom(0, box, 1, holds)) return false;
    return turns === 1 || this.mayFrom(0, box, turns, holds);
  }

  private mayFrom(
    start: number,
    box: ReadonlyMap<string, Range>,
    turns: number,
    holds: (range: Range) => boolean,
  ): boolean {
    for (let at = start; at < this.moving.length; at += 1) {
      const lane = this.moving[at] as Leading;
      const range = this.rangeOf(lane, box);
      const each = this.met?.has(lane.key) ? this.eachOf(lane, range) : [];
      if (each.length > 1 && each.length <= turns)
        return each.some((one) => {
          this.ranges.set(lane.key, one);
          return this.mayFrom(at + 1, box, Math.floor(turns / each.length), holds);
        });
      this.ranges.set(lane.key, range);
    }
    this.count += 1;
    return holds(this.ranges.get(this.key) ?? NOTHING);
  }

  /** What a lane can be, one by one, where this is one of a few. */
  private eachOf({ id }: Lane, range: Range): readonly Range[] {
    const isTruth = this.sheet.info(id).type.kind === 'truth' && !isNothing(range);
    const numbers = isTruth ? [range.least, range.most] : (range.few ?? []);
    const each = range.labels
      ? range.labels.map((label) => ({ ...NOTHING, lacks: false, labels: [label] }))
      : [...new Set(numbers)].map(only);
    return range.lacks && each.length > 0 ? [...each, NOTHING] : each;
  }

  private rangeOf({ id, column, key, tree }: Leading, box: ReadonlyMap<string, Range>): Range {
    return boundless(box.get(key) ?? (tree ? this.walk(tree, column) : this.numberNow(id, column)));
  }

  /** What a lane holds now. */
  private numberNow(id: string, column: number): Range {
    const value = this.now.number(id, column, 0);
    if (Number.isNaN(value)) return NOTHING;
    if (this.sheet.info(id).type.kind === 'label') return { ...NOTHING, lacks: false, labels: [value] };
    return only(value);
  }

  /** It may depend on the values which way is taken here. */
  readonly note = (): void => {
    if (!this.isNow) this.branches = true;
  };

  /** The columns that can be the chosen one; −1 among them where there may be none. */
  get chosen(): readonly number[] {
    const { followed, chosenColumn, around } = this.sheet;
    if (this.held || this.isNow || followed === undefined) return [chosenColumn];
    const range = this.ranges.get(keyOf(followed, 0));
    if (!range) return [chosenColumn];
    const columns = (range.labels ?? []).map((label) => around.field.columnOf(label));
    return range.lacks ? [...columns, -1] : columns;
  }

  /** The range of a formula in a column. */
  walk(node: Tree, column: number): Range {
    switch (node.kind) {
      case 'literal':
        return only(node.value);
      case 'truth':
        return only(node.value ? 1 : 0);
      case 'label':
        return { ...NOTHING, lacks: false, labels: [this.sheet.around.store.label(node.text)] };
      case 'date':
        return only(node.day * 1440);
      case 'cell':
        return this.cell(node.name, column);
      case 'call':
        return this.call(node, column);
      case 'binary':
        return this.binary(node, column);
      case 'to':
        return this.walk(node.of, column);
      case 'minus':
        return minus(this.walk(node.of, column));
      case 'not': {
        const of = this.walk(node.of, column);
        return isNothing(of) ? of : between(1 - of.most, 1 - of.least, of.lacks);
      }
      case 'if':
        return this.either(node, column);
    }
  }

  private cell(name: string, column: number): Range {
    const id = this.sheet.idOf(name);
    if (id === undefined) return NOTHING;
    const lane = laneOf(this.sheet, id, column);
    const known = this.isNow ? undefined : this.ranges.get(keyOf(lane.id, lane.column));
    return known ?? this.numberNow(lane.id, lane.column);
  }

  private either(node: Tree & { readonly kind: 'if' }, column: number): Range {
    const test = this.walk(node.test, column);
    if (isNothing(test)) return NOTHING;
    if (test.least === test.most)
      return lacking(this.walk(test.most === 1 ? node.yes : node.no, column), test.lacks);
    this.note();
    return lacking(hull(this.walk(node.yes, column), this.walk(node.no, column)), test.lacks);
  }

  private binary(node: Tree & { readonly kind: 'binary' }, column: number): Range {
    const left = this.walk(node.left, column);
    const { right: above, op } = node;
    const scale = above.kind === 'literal' && above.percent && (op === '+' || op === '-');
    if (scale && !this.sheet.around.isPercent(node.left))
      return multiplied(left, only(op === '-' ? 1 - above.value : 1 + above.value));
    const right = this.walk(node.right, column);
    switch (op) {
      case '+':
        return added(left, right);
      case '-':
        return taken(left, right);
      case '*':
        return multiplied(left, right);
      case '/':
        return divided(left, right);
      case '^':
        return raised(left, right.least, (x) => power(x, right.least));
      case 'and':
      case 'or':
        return joined(left, right, op === 'and' ? 0 : 1);
      default:
        return left.labels || right.labels
          ? this.sameLabels(left, right, op === '==')
          : compared(left, right, op);
    }
  }

  private sameLabels(left: Range, right: Range, wanted: boolean): Range {
    const { store } = this.sheet.around;
    const [mine, theirs] = [left.labels ?? [], right.labels ?? []];
    const pairs = mine.flatMap((a) => theirs.map((b) => store.sameLabel(a, b) === wanted));
    return truths(pairs.includes(false), pairs.includes(true), left.lacks || right.lacks);
  }

  private call(node: Call, column: number): Range {
    const spec = this.sheet.spec(node.name);
    if (!spec) return NOTHING;
    if (this.held && !this.isNow && isHeld(spec)) return this.asNow(node, column);
    switch (spec.kind) {
      case 'given': {
        const [cell] = node.args;
        const range = cell ? this.walk(cell, column) : NOTHING;
        return truths(range.lacks, !isNothing(range), false);
      }
      case 'today':
        return only(this.sheet.around.today);
      case 'run':
        return runCall(this, node, spec, column);
      case 'plan':
        return planCall(spec, this.args(node, column), this.sheet.around.store);
      case 'reading':
        return readingCall(spec, this.args(node, column), this.sheet.around.store);
      default: {
        const args = this.args(node, column);
        if (this.held && !this.isNow && spec.holds === 'length')
          return this.passedThrough(node, args[0] ?? NOTHING, column);
        return numberCall(spec, args, this.note);
      }
    }
  }

  private args(node: Call, column: number): readonly Range[] {
    return node.args.map((arg) => this.walk(arg, column));
  }

  /** A part of a formula with the numbers of now. */
  private asNow(node: Tree, column: number): Range {
    const before = this.isNow;
    this.isNow = true;
    const range = this.walk(node, column);
    this.isNow = before;
    return range;
  }

  /** A rounding that passes changes through: what it is now, and as much more or less as what goes in. */
  private passedThrough(node: Call, x: Range, column: number): Range {
    const xNow = node.args[0] ? this.asNow(node.args[0], column) : NOTHING;
    return taken(added(this.asNow(node, column), x), xNow);
  }
}

/** So many turns are taken at most, with counts and sizes being one of a few. */
export const MOST_TURNS = 96;

/** What is without end may be no value. */
function boundless(range: Range): Range {
  const isBounded = Number.isFinite(range.least) && Number.isFinite(range.most);
  return lacking(range, !isBounded && !range.labels);
}

/** The lanes that stand more than once in the formulas. */
function usedAgain(lanes: readonly Leading[]): ReadonlySet<string> {
  const [once, again] = [new Set<string>(), new Set<string>()];
  for (const use of lanes.flatMap(({ uses }) => uses)) (once.has(use) ? again : once).add(use);
  return again;
}

function power(x: number, exponent: number): number {
  const value = exponent === 2 ? x * x : exponent === 0.5 ? Math.sqrt(x) : x ** exponent;
  return Number.isFinite(value) ? value : Number.NaN;
}

/** `and` (deciding: 0), `or` (deciding: 1): what the first decides alone does not wait for the second. */
function joined(left: Range, right: Range, deciding: 0 | 1): Range {
  if (isNothing(left)) return NOTHING;
  const can = (range: Range, truth: number) => range.least <= truth && truth <= range.most;
  const goesOn = can(left, 1 - deciding);
  const decided = can(left, deciding) || (goesOn && can(right, deciding));
  const other = goesOn && can(right, 1 - deciding);
  const lacks = left.lacks || (goesOn && right.lacks);
  return deciding === 0 ? truths(decided, other, lacks) : truths(other, decided, lacks);
}
