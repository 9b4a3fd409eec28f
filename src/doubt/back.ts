/*
 * Working back: which value of one typed lane (the *giving* one) makes a worked-out lane come to what is wanted.
 *
 * The sheet is worked out at many values at once. Between two values where the outcome goes from too little to too much
 * the place is narrowed down: to the number itself where the outcome moves smoothly, to a jump where it steps. Whatever
 * is found is a value that was worked out by the sheet. When nothing is found, bounds on the formulas are asked, piece
 * by piece: pieces that cannot hold the wanted value are put away, the others are halved and their middles tried, until
 * something is found, everything is put away (then it *cannot* be reached), or there have been enough of them. Nought
 * itself is tried; what is nearer to it than a billionth of the stretch looked at is not looked at.
 *
 * Where the outcome steps, an answer is a whole stretch of values, with its ends.
 */

import { same } from '../quantity/index.ts';
import type { Sheet } from '../sheet/index.ts';
import { Bounds, MOST_TURNS } from './bounds.ts';
import type { Domain } from './domain.ts';
import { keyOf, type Lane, numbersAt } from './lanes.ts';
import { between, mayBe, type Range } from './range.ts';

/** What is wanted: a number (a truth is 0 or 1, a date its minutes) or the number of a label. */
export type Wanted =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'label'; readonly value: number };

/** Values of the giving lane that all give one outcome, and one of them. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  /** The one nearest to what the cell holds now. */
  readonly at: number;
  readonly outcome: number;
}

/** What was found. */
export interface Answer {
  /** What gives the wanted value, nearest to what the cell holds now. */
  readonly found?: Stretch;
  /** Where it was not found: the nearest outcomes that can be reached, below and above. */
  readonly below?: Stretch;
  readonly above?: Stretch;
  /** The least and the most that was met with, where nothing was found and the wanted one is a number. */
  readonly met?: readonly [least: number, most: number];
  /** Every value of the domain was tried, or bounds show that none of them gives it. */
  readonly cannot: boolean;
  /** How often the sheet was worked out, and how often bounds were asked. */
  readonly evaluations: number;
  readonly boundings: number;
}

/** Domains of so many values are tried whole. */
const MOST_TRIED = 600;
const GRID = 160;
/** Points between the ends of a place that is narrowed down. */
const INSIDE = 9;
const MOST_NARROWINGS = 48;
const MOST_PLACES = 12;
const MOST_BOUNDINGS = 20_000;
const BATCH = 200;
/** So many pieces at most at a time are halved and tried. */
const MOST_PIECES = 2000;
/** So many bounds are asked between two stops. */
const AT_A_TIME = 12;

/** So many turns are taken at first where counts can be one of a few; more where pieces are small. */
const FIRST_TURNS = 4;
/** What is nearer to nought than this share of the stretch looked at is nought: nobody types it. */
const NOUGHT = 1e-9;

/** Everything between two values. */
type Piece = readonly [from: number, to: number];

interface Sample {
  readonly x: number;
  readonly y: number;
}

/**
 * Looks for what the giving lane would have to be. Some hundreds of evaluations of what lies between the two lanes,
 * up to thousands where it has to be shown that it cannot be.
 */
export function workBack(sheet: Sheet, lane: Lane, giving: Lane, domain: Domain, wanted: Wanted): Answer {
  const search = workBackInTurn(sheet, lane, giving, domain, wanted);
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
}

/** The same, a piece at a time: it stops every few milliseconds, for whoever has something else to do meanwhile. */
export function workBackInTurn(
  sheet: Sheet,
  lane: Lane,
  giving: Lane,
  domain: Domain,
  wanted: Wanted,
): Generator<undefined, Answer> {
  return new Search(sheet, lane, giving, domain, wanted).answer();
}

class Search {
  private evaluations = 0;
  private boundings = 0;
  private samples: Sample[] = [];
  private readonly now: number;
  private readonly step: number;

  constructor(
    private readonly sheet: Sheet,
    private readonly lane: Lane,
    private readonly giving: Lane,
    private readonly domain: Domain,
    private readonly wanted: Wanted,
  ) {
    this.now = numbersAt(sheet, giving, [], false)[0] ?? Number.NaN;
    this.step = domain.kind === 'line' ? domain.step : 0;
  }

  *answer(): Generator<undefined, Answer> {
    const { values, isAll } = this.firstValues();
    this.try(values);
    if (!isAll) yield* this.narrowAll();
    const isShown = isAll || (!this.hasHit() && (yield* this.showCannot()));
    const hit = this.nearestHit();
    const counts = () => ({ evaluations: this.evaluations, boundings: this.boundings });
    if (hit) {
      const found = this.stretch(hit);
      return { found, cannot: false, ...counts() };
    }
    const [below, above] = [this.reachable(-1), this.reachable(1)];
    const ways = { ...(below ? { below } : {}), ...(above ? { above } : {}) };
    return { ...ways, ...this.met(), cannot: isShown, ...counts() };
  }

  private met(): Pick<Answer, 'met'> {
    const there = this.samples.map(({ y }) => y).filter((y) => !Number.isNaN(y));
    const isNumber = this.wanted.kind === 'number' && there.length > 0;
    return isNumber ? { met: [Math.min(...there), Math.max(...there)] } : {};
  }

  // ── Trying values ───

  private firstValues(): { readonly values: readonly number[]; readonly isAll: boolean } {
    const { domain, now } = this;
    if (domain.kind === 'some') return { values: domain.values, isAll: true };
    const { from, to, step } = domain;
    const count = step > 0 ? Math.round((to - from) / step) + 1 : Number.POSITIVE_INFINITY;
    if (count <= MOST_TRIED)
      return { values: Array.from({ length: Math.max(0, count) }, (_, i) => from + i * step), isAll: true };
    const grid = Array.from({ length: GRID + 1 }, (_, i) => this.onStep(from + ((to - from) * i) / GRID));
    const isInside = now >= from && now <= to;
    return { values: isInside ? [...grid, now] : grid, isAll: false };
  }

  private onStep(x: number): number {
    if (this.domain.kind === 'some' || this.step === 0) return x;
    return this.domain.from + Math.round((x - this.domain.from) / this.step) * this.step;
  }

  /** Works the sheet out at these values and keeps what came of it, in order. */
  private try(values: readonly number[]): void {
    const known = new Set(this.samples.map(({ x }) => x));
    const fresh = [...new Set(values)].filter((x) => !known.has(x));
    const made = this.outcomes(fresh).map((y, i) => ({ x: fresh[i] as number, y }));
    this.samples = [...this.samples, ...made];
    if (this.domain.kind === 'line') this.samples.sort((a, b) => a.x - b.x);
  }

  private outcomes(values: readonly number[]): readonly number[] {
    const found: number[] = [];
    for (let at = 0; at < values.length; at += BATCH) {
      const some = values.slice(at, at + BATCH);
      const points = some.map((value) => [{ ...this.giving, value }]);
      found.push(...numbersAt(this.sheet, this.lane, points, false).slice(1));
    }
    this.evaluations += values.length;
    return found;
  }

  // ── Outcomes ───

  private isHit(y: number): boolean {
    return this.isLike(y, this.wanted.value);
  }

  private isLike(a: number, b: number): boolean {
    if (Number.isNaN(a) || Number.isNaN(b)) return Number.isNaN(a) && Number.isNaN(b);
    return this.wanted.kind === 'label' ? this.sheet.around.store.sameLabel(a, b) : same(a, b);
  }

  private hasHit(): boolean {
    return this.samples.some(({ y }) => this.isHit(y));
  }

  private nearest(samples: readonly Sample[]): Sample | undefined {
    const distance = ({ x }: Sample) => (Number.isNaN(this.now) ? 0 : Math.abs(x - this.now));
    return samples.reduce<Sample | undefined>(
      (best, one) => (!best || distance(one) < distance(best) ? one : best),
      undefined,
    );
  }

  /** What gives the wanted value nearest to now; of values that all but give it, the one that gives it best. */
  private nearestHit(): Sample | undefined {
    const hit = this.nearest(this.samples.filter(({ y }) => this.isHit(y)));
    if (!hit || this.wanted.kind === 'label' || hit.y === this.wanted.value) return hit;
    const at = this.samples.indexOf(hit);
    let [first, last] = [at, at];
    while (this.isHit(this.samples[first - 1]?.y ?? Number.NaN)) first -= 1;
    while (this.isHit(this.samples[last + 1]?.y ?? Number.NaN)) last += 1;
    const miss = ({ y }: Sample) => Math.abs(y - this.wanted.value);
    return this.samples.slice(first, last + 1).reduce((a, b) => (miss(b) < miss(a) ? b : a), hit);
  }

  /** Whether something may lie between two neighbours: they are on two sides of what is wanted, or two labels. */
  private differ(a: Sample, b: Sample): boolean {
    if (this.wanted.kind === 'label') return !this.isLike(a.y, b.y);
    return (
      (a.y < this.wanted.value && b.y > this.wanted.value) ||
      (a.y > this.wanted.value && b.y < this.wanted.value)
    );
  }

  // ── Narrowing down ───

  /** Narrows down every place nearer to what the cell holds now than what was found already. */
  private *narrowAll(): Generator<undefined, void> {
    const away = ({ x }: Sample) => (Number.isNaN(this.now) ? 0 : Math.abs(x - this.now));
    const distance = ([a, b]: readonly [Sample, Sample]) => Math.min(away(a), away(b));
    const hit = this.nearestHit();
    let places = this.pairs(this.samples)
      .filter((pair) => this.differ(...pair) && (!hit || distance(pair) < away(hit)))
      .sort((a, b) => distance(a) - distance(b))
      .slice(0, MOST_PLACES);
    for (let time = 0; time < MOST_NARROWINGS && places.length > 0; time += 1) {
      const inside = places.map(([a, b]) => this.inside(a.x, b.x));
      if (inside.every((values) => values.length === 0)) return;
      this.try(inside.flat());
      yield;
      places = places.flatMap(([a, b]) =>
        this.pairs(this.samples.filter(({ x }) => x >= a.x && x <= b.x)).filter(([c, d]) =>
          this.differ(c, d),
        ),
      );
      places = places.slice(0, MOST_PLACES);
    }
  }

  private pairs(samples: readonly Sample[]): (readonly [Sample, Sample])[] {
    return samples.slice(1).map((b, i) => [samples[i] as Sample, b] as const);
  }

  /** Values between two, without them; none when there are none. */
  private inside(a: number, b: number): readonly number[] {
    const values = Array.from({ length: INSIDE }, (_, i) =>
      this.onStep(a + ((b - a) * (i + 1)) / (INSIDE + 1)),
    );
    return values.filter((x) => x > a && x < b);
  }

  // ── Showing that it cannot be ───

  /** Whether bounds show that no value of the domain gives what is wanted; values that do are found on the way. */
  private *showCannot(): Generator<undefined, boolean> {
    const bounds = new Bounds(this.sheet, this.lane, [this.giving], false);
    let pieces = this.pairs(this.samples).map(([a, b]) => this.offNought(a.x, b.x));
    for (let turns = FIRST_TURNS; pieces.length > 0; turns = Math.min(MOST_TURNS, turns * 2)) {
      if (bounds.count + pieces.length > MOST_BOUNDINGS) return false;
      const open: Piece[] = [];
      for (const [i, [a, b]] of pieces.entries()) {
        if (this.inside(a, b).length > 0 && this.mayHold(bounds, [a, b], turns)) open.push([a, b]);
        if (i % AT_A_TIME === AT_A_TIME - 1) yield;
      }
      this.boundings = bounds.count;
      if (open.length > MOST_PIECES) return false;
      const middles = open.map(([a, b]) => this.onStep(middleOf(a, b)));
      this.try([...middles, ...open.flatMap(([a, b]) => this.straightAcross(a, b))]);
      if (this.hasHit()) return false;
      pieces = open.flatMap(([a, b], i) => {
        const middle = middles[i] as number;
        return middle > a && middle < b ? [this.offNought(a, middle), this.offNought(middle, b)] : [];
      });
    }
    return true;
  }

  /** Where a straight line between the outcomes at two ends comes to what is wanted: in a small piece, all but there. */
  private straightAcross(a: number, b: number): readonly number[] {
    const { value, kind } = this.wanted;
    const [from, to] = [this.outcomeAt(a), this.outcomeAt(b)];
    const share = (value - from) / (to - from);
    return kind === 'number' && share > 0 && share < 1 ? [this.onStep(a + share * (b - a))] : [];
  }

  private outcomeAt(x: number): number {
    let [low, high] = [0, this.samples.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.samples[middle]?.x ?? x) < x) low = middle + 1;
      else high = middle;
    }
    const found = this.samples[low];
    return found?.x === x ? found.y : Number.NaN;
  }

  /** A piece that ends at nought, which was tried, ends at the least that is not nought. */
  private offNought(a: number, b: number): Piece {
    if (this.domain.kind === 'some' || this.step > 0) return [a, b];
    const least = (this.domain.to - this.domain.from) * NOUGHT;
    return [a === 0 ? Math.min(least, b) : a, b === 0 ? Math.max(-least, a) : b];
  }

  private mayHold(bounds: Bounds, [a, b]: Piece, turns: number): boolean {
    const box = new Map([[keyOf(this.giving.id, this.giving.column), between(a, b)]]);
    const { value, kind } = this.wanted;
    const isLike = (label: number) => this.sheet.around.store.sameLabel(label, value);
    const holds = (range: Range) =>
      kind === 'label'
        ? (range.labels ?? []).some(isLike)
        : range.labels === undefined && mayBe(range, value);
    return bounds.may(box, holds, turns);
  }

  // ── Stretches ───

  /** The nearest outcome that was reached on one side of what is wanted (−1 below, 1 above), with all that gives it. */
  private reachable(side: -1 | 1): Stretch | undefined {
    if (this.wanted.kind === 'label') return undefined;
    const best = this.bestOn(side);
    if (best === undefined) return undefined;
    const at = this.nearest(this.samples.filter(({ y }) => same(y, best)));
    return at && this.stretch(at);
  }

  private bestOn(side: -1 | 1): number | undefined {
    const on = () =>
      this.samples.filter(({ y }) => (side < 0 ? y < this.wanted.value : y > this.wanted.value));
    const miss = ({ y }: Sample) => Math.abs(y - this.wanted.value);
    const best = () =>
      on().reduce<Sample | undefined>((a, b) => (a && miss(a) <= miss(b) ? a : b), undefined);
    for (let time = 0; time < 3 && this.domain.kind === 'line' && best(); time += 1) {
      const at = this.samples.indexOf(best() as Sample);
      const around = this.samples.slice(Math.max(0, at - 1), at + 2);
      this.try(this.pairs(around).flatMap(([a, b]) => this.inside(a.x, b.x)));
    }
    return best()?.y;
  }

  /** Everything around a value that gives the same outcome; the value alone where the outcome moves right beside it. */
  private stretch({ x, y }: Sample): Stretch {
    if (this.domain.kind === 'some' || !this.isLevel({ x, y })) return { from: x, to: x, at: x, outcome: y };
    const at = this.samples.findIndex((sample) => sample.x === x);
    const [from, to] = [this.endOf(at, -1), this.endOf(at, 1)];
    const nearest = Number.isNaN(this.now) ? x : Math.min(to, Math.max(from, this.now));
    return { from, to, at: nearest, outcome: y };
  }

  /** Whether an outcome stays exactly what it is right beside a value, on one side at least. */
  private isLevel({ x, y }: Sample): boolean {
    if (this.step > 0 || this.domain.kind === 'some') return true;
    const beside = Math.max(Math.abs(x), (this.domain.to - this.domain.from) * 1e-3) * 1e-8;
    return this.outcomes([x - beside, x + beside]).some((one) => this.isStill(one, y));
  }

  private isStill(a: number, b: number): boolean {
    return a === b || (this.wanted.kind === 'label' && this.isLike(a, b));
  }

  /** The last value from a sample on, going one way, that gives the same outcome. */
  private endOf(start: number, way: -1 | 1): number {
    const { y } = this.samples[start] as Sample;
    let last = start;
    while (this.isStill(this.samples[last + way]?.y ?? Number.NaN, y)) last += way;
    let inner = (this.samples[last] as Sample).x;
    let outer = this.samples[last + way]?.x;
    if (outer === undefined) return inner;
    for (let time = 0; time < MOST_NARROWINGS; time += 1) {
      const values: number[] = [...this.inside(Math.min(inner, outer), Math.max(inner, outer))];
      if (values.length === 0 || Math.abs(outer - inner) <= 1e-13 * Math.abs(inner)) break;
      if (way < 0) values.reverse();
      const likes: boolean[] = this.outcomes(values).map((one) => this.isStill(one, y));
      const off: number = likes.indexOf(false);
      const [old, next] = [inner, off < 0 ? values.length : off];
      inner = next > 0 ? (values[next - 1] as number) : old;
      outer = off < 0 ? outer : (values[off] as number);
    }
    return inner;
  }
}

/** Where a piece is halved: at nought, if that lies inside; by its proportion, where one end is many times the other. */
function middleOf(a: number, b: number): number {
  if (a < 0 && b > 0) return 0;
  const [least, most] = [Math.min(Math.abs(a), Math.abs(b)), Math.max(Math.abs(a), Math.abs(b))];
  return least > 0 && most > 4 * least ? Math.sign(b) * Math.sqrt(least * most) : a + (b - a) / 2;
}
