/*
 * How far off a value can be, told: a bar for each value typed with a doubt, a sentence for all of them together, which
 * measurement is worth repeating, what would usually be said where nothing is, and what would be decided otherwise.
 */

import {
  countedOver,
  type Doubt,
  doubtOf,
  type Effect,
  type Lane,
  laneOf,
  lanesTo,
  uncertainLanes,
  worthRepeating,
} from '../doubt/index.ts';
import { isDecided, printTyped } from '../formula/index.ts';
import { isGauge, type Printed, printEnd, printed } from '../quantity/index.ts';
import { explore, type Value } from '../sheet/index.ts';
import { decisionView } from './decisions.ts';
import { laneName, placeOf } from './lane-words.ts';
import { fineStep } from './limits.ts';
import type { Live } from './live.ts';
import type { Place } from './page.ts';
import { ownStep, printAt, printTolerance, unitAt } from './show.ts';
import { type UsualView, usualFor, widthText } from './usual.ts';

/** One value typed with a doubt, and what it does to the value looked at. */
export interface BarView {
  readonly place: Place;
  /** "stitch gauge", or "girth, M" where there is one for each column. */
  readonly name: string;
  /** "± ½" and "sts / 4 in". */
  readonly tolerance: string;
  readonly unit: string;
  /** The tolerance as a number in that unit. */
  readonly off: number;
  /** "43¼ to 45¾ in", or "nothing". */
  readonly text: string;
  readonly nothing: boolean;
  /** Where the bar begins and ends on the common scale, from 0 to 1. */
  readonly from: number;
  readonly to: number;
}

/** All of them together, on the scale of the bars. */
export interface AllView {
  /** At worst, everything off at once: "43 to 45¾ in". */
  readonly text: string;
  readonly from: number;
  readonly to: number;
  /** As far as it usually goes, each off on its own account. */
  readonly usualFrom: number;
  readonly usualTo: number;
}

/** A value that an uncertain one moves, and how far. */
export interface MoveView {
  readonly id: string;
  readonly name: string;
  /** "41¾ to 44¼ in". */
  readonly text: string;
}

/** How far off a value can be, as the page tells it. */
export interface DoubtView {
  readonly id: string;
  /** "finished chest, M". */
  readonly about: string;
  /** "44¼ in". */
  readonly value: string;
  readonly bars: readonly BarView[];
  /** Absent where there are not two that do something. */
  readonly all?: AllView | undefined;
  /** How far the scale of the bars goes to each side of the value, which stands in its middle; in base units. */
  readonly reach: number;
  /** "It lies between 43 and 45¾ in.", or how far off it usually is where there are several bars. */
  readonly sentence: string;
  /** Which measurement is worth repeating, and what that would do; "" for none. */
  readonly worth: string;
  readonly usual: readonly UsualView[];
  /** For a typed value: how far off it makes what it moves. */
  readonly moves: readonly MoveView[];
  /** For a typed number: its tolerance, to be moved: "± ½", or "" where it has none; absent for anything else. */
  readonly own?: Pick<BarView, 'place' | 'tolerance' | 'unit' | 'off'> | undefined;
}

/** At first the scale of the bars goes so much further than the furthest of them: they have room to stretch. */
const ROOM = 1.6;
const MOST_MOVES = 4;

/**
 * How far off a value can be. With `reach`, the bars keep that scale for as long as they find room on it, so that one
 * sees them stretch. A few sweeps of what leads to it, and of the whole sheet for what is decided.
 */
export function doubtView(live: Live, id: string, column: number, reach?: number): DoubtView {
  const lane = laneOf(live.sheet, id, column);
  const value = live.sheet.value(id, lane.column);
  const base = {
    id,
    about: laneName(live, lane),
    value: printed(printAt(live, id, lane.column, value)),
  };
  const { typed } = live.sheet.info(id);
  if (typed) return { ...base, ...NO_BARS, ...typedDoubt(live, lane, value), usual: usualFor(live, [lane]) };
  const leading = lanesTo(live.sheet, lane, false);
  const usual = usualFor(live, leading);
  if (uncertainLanes(live.sheet, leading).length === 0 && value.kind !== 'problem' && value.kind !== 'empty')
    return { ...base, ...NO_BARS, sentence: exactSentence(live, leading, usual), usual };
  if (value.kind !== 'quantity')
    return { ...base, ...NO_BARS, sentence: otherSentence(live, lane, value), usual };
  const doubt = doubtOf(live.sheet, lane);
  return {
    ...base,
    ...barsOf(live, lane, value, doubt, reach),
    sentence: sentenceOf(live, lane, value, doubt),
    worth: worthOf(live, lane, value, doubt),
    usual,
    moves: [],
  };
}

const NO_BARS = { bars: [], reach: 0, worth: '', moves: [] as DoubtView['moves'] };

// ── Bars ───

type Quantity = Value & { readonly kind: 'quantity' };

function barsOf(
  live: Live,
  lane: Lane,
  value: Quantity,
  doubt: Doubt,
  before: number | undefined,
): Pick<DoubtView, 'bars' | 'reach' | 'all'> {
  const { effects } = doubt;
  const reach = reachOf(value.value, doubt, before);
  const share = (end: number) => Math.min(1, Math.max(0, 0.5 + (end - value.value) / (2 * reach)));
  const isAlone = effects.filter(({ nothing }) => !nothing).length === 1;
  const bars = effects.map((effect): BarView => {
    const { least, most, text } = effect.nothing
      ? { least: value.value, most: value.value, text: 'nothing' }
      : isAlone
        ? { ...doubt, text: worstText(live, lane, value, doubt) }
        : endsOf(live, lane, value, effect);
    return {
      ...ownOf(live, effect),
      name: laneName(live, effect),
      text,
      nothing: effect.nothing,
      from: share(least),
      to: share(most),
    };
  });
  return { bars, reach, all: allOf(live, lane, value, doubt, share) };
}

/** How far the scale goes each way: as before, or with some air beyond what goes furthest. */
function reachOf(value: number, { effects, least, most }: Doubt, before: number | undefined): number {
  const ends = effects.flatMap(({ atLess, atMore }) => [atLess, atMore]);
  const drawn = [least, most, ...ends].filter((end) => !Number.isNaN(end));
  const furthest = Math.max(0, ...drawn.map((end) => Math.abs(end - value)));
  return before !== undefined && before > 0 && furthest <= before ? before : furthest * ROOM || 1;
}

/** Both ends of an effect and the value itself, from the least to the most: it may turn round between them. */
function endsOf(
  live: Live,
  lane: Lane,
  value: Quantity,
  { atLess, atMore }: Effect,
): { readonly least: number; readonly most: number; readonly text: string } {
  const there = [value.value, atLess, atMore].filter((end) => !Number.isNaN(end));
  const [least, most] = [Math.min(...there), Math.max(...there)];
  const text = there.length < 3 ? 'no value at one end' : fineRange(live, lane, value, least, most);
  return { least, most, text };
}

function worstText(live: Live, lane: Lane, value: Quantity, { least, most, about }: Doubt): string {
  return `${about ? 'about ' : ''}${fineRange(live, lane, value, least, most)}`;
}

function allOf(
  live: Live,
  lane: Lane,
  value: Quantity,
  doubt: Doubt,
  share: (end: number) => number,
): AllView | undefined {
  const { effects, least, most, rootSumSquare } = doubt;
  if (effects.filter(({ nothing }) => !nothing).length < 2) return undefined;
  return {
    text: worstText(live, lane, value, doubt),
    from: share(least),
    to: share(most),
    usualFrom: share(Math.max(least, value.value - rootSumSquare)),
    usualTo: share(Math.min(most, value.value + rootSumSquare)),
  };
}

/** A lane's own tolerance, in the unit its value is shown in. */
function ownOf(live: Live, { id, column }: Lane): Pick<BarView, 'place' | 'tolerance' | 'unit' | 'off'> {
  const value = live.sheet.value(id, column);
  const factor = value.kind === 'quantity' ? unitAt(live, id, column, value).factor : 1;
  return {
    place: placeOf(live, { id, column }),
    tolerance: printTolerance(live, id, column, value),
    unit: printAt(live, id, column, value).unit,
    off: Number((live.sheet.tolerance(id, column) / factor).toPrecision(6)),
  };
}

/** A range in the unit a value is shown in, rounded outward: "43 to 45¾ in". */
export function rangeText(
  live: Live,
  lane: Lane,
  value: Quantity,
  least: number,
  most: number,
  step = ownStep(live, lane.id, value.type.dimension),
): string {
  const shown = unitAt(live, lane.id, lane.column, value);
  const decided = isDecided(value.type);
  const from = printEnd(least, shown, decided, -1, step);
  const to = printEnd(most, shown, decided, 1, step);
  return from.number === to.number ? printed(to) : `${from.number} to ${printed(to)}`;
}

/**
 * What a value lies between. The ends of a length are told to a sixteenth of an inch or a millimetre: to the usual step,
 * rounded outward at both ends, little doubt would look like much.
 */
function fineRange(live: Live, lane: Lane, value: Quantity, least: number, most: number): string {
  const shown = unitAt(live, lane.id, lane.column, value);
  const own = ownStep(live, lane.id, shown.dimension);
  const fine = fineStep(shown);
  const step = fine === undefined ? own : Math.min(own ?? Number.POSITIVE_INFINITY, fine * shown.factor);
  return rangeText(live, lane, value, least, most, step);
}

function sizeText(live: Live, lane: Lane, value: Quantity, size: number): string {
  const shown = unitAt(live, lane.id, lane.column, value);
  return printed(
    printEnd(size, shown, isDecided(value.type), 1, ownStep(live, lane.id, value.type.dimension)),
  );
}

// ── Sentences ───

/** Where nothing that leads here is typed with a ±: the numbers are taken as exact, which they seldom are. */
function exactSentence(live: Live, leading: readonly Lane[], usual: readonly UsualView[]): string {
  const isNumber = ({ id, column }: Lane) =>
    live.sheet.info(id).typed && live.sheet.value(id, column).kind === 'quantity';
  if (!leading.some(isNumber)) return 'Nothing: no typed number leads here.';
  const exact = 'The numbers it depends on are taken as exact: none has a ± typed.';
  return usual.length > 0 ? `${exact} What is usual for them stands below.` : exact;
}

function sentenceOf(live: Live, lane: Lane, value: Quantity, doubt: Doubt): string {
  if (doubt.effects.every(({ nothing }) => nothing) && doubt.least === doubt.most)
    return isDecided(value.type)
      ? `Nothing: once you go by ${printed(printAt(live, lane.id, lane.column, value))}, they stay.`
      : 'Nothing: once you go by the counts it hangs on, it stays.';
  const usually = sizeText(live, lane, value, doubt.rootSumSquare);
  return doubt.effects.filter(({ nothing }) => !nothing).length === 1
    ? `It lies between ${worstText(live, lane, value, doubt).replace(' to ', ' and ')}.`
    : `Seldom are all off at once: usually it is no more than ${usually} off.`;
}

function otherSentence(live: Live, lane: Lane, value: Value): string {
  if (value.kind === 'plan') return 'Nothing: a plan is made of counts that are decided.';
  if (value.kind === 'truth' || value.kind === 'label' || value.kind === 'date') {
    const found = decisionView(live, lane);
    return found ? capital(found.sentence) : 'Nothing: within the doubt it stays as it is.';
  }
  return 'Nothing yet: there is no value here.';
}

const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Which measurement is worth repeating: for a gauge over twice the width, for anything else once more. */
function worthOf(live: Live, lane: Lane, value: Quantity, doubt: Doubt): string {
  const best = worthRepeating(doubt);
  if (!best) return '';
  const now = sizeText(live, lane, value, doubt.rootSumSquare);
  const after = sizeText(live, lane, value, best.after);
  const what = laneName(live, best.effect);
  const { type } = live.sheet.info(best.effect.id);
  const tree = live.sheet.tree(best.effect.id, best.effect.column);
  const isOfGauge = type.kind === 'quantity' && isGauge(type.dimension);
  const over = isOfGauge && tree ? countedOver(tree) : 0;
  const how =
    over > 0 ? `${what} over ${widthText(live, over * 2)} instead of ${widthText(live, over, false)}` : what;
  if (now === after) return `Known well enough: ${how} again would leave it up to ${now} off.`;
  return `Worth ${over > 0 ? 'counting' : 'measuring'} again: ${how}. With half its doubt this is up to ${after} off, not ${now}.`;
}

// ── A typed value ───

function typedDoubt(live: Live, lane: Lane, value: Value): Pick<DoubtView, 'sentence' | 'moves' | 'own'> {
  const off = live.sheet.tolerance(lane.id, lane.column);
  if (value.kind !== 'quantity') return { sentence: 'Nothing: a doubt (±) belongs to a number.', moves: [] };
  const own = ownOf(live, lane);
  if (off === 0) return { sentence: 'Taken as exact: no ± is typed with it.', moves: [], own };
  const moves = movesOf(live, lane, value, off);
  return { sentence: `It lies between ${typedBetween(live, lane, value, off)}.`, moves, own };
}

/** Both ends of what was typed, as they would be typed: "19.4 and 20.4 cm"; rounded where it is shown in another unit. */
function typedBetween(live: Live, lane: Lane, value: Quantity, off: number): string {
  const { id, column } = lane;
  const shown = unitAt(live, id, column, value);
  const ends = [value.value - off, value.value + off] as const;
  if (unitAt(live, id, column, value, true).label !== shown.label)
    return fineRange(live, lane, value, ...ends).replace(' to ', ' and ');
  const [from, to] = ends.map((end) =>
    printTyped({ number: Number((end / shown.factor).toPrecision(6)), shown }),
  ) as [Printed, Printed];
  return `${from.number} and ${printed(to)}`;
}

function movesOf(live: Live, lane: Lane, value: Quantity, off: number): DoubtView['moves'] {
  const { sheet } = live;
  const at = (side: number) => [{ ...lane, value: value.value + side * off }];
  const explored = explore(sheet, [at(-1), at(1)], true);
  const moves: MoveView[] = [];
  for (const id of sheet.feeds(lane.id)) {
    const fed = laneOf(sheet, id, Math.max(0, sheet.chosenColumn));
    const now = sheet.value(id, fed.column);
    if (moves.length >= MOST_MOVES) break;
    if (now.kind !== 'quantity') continue;
    const [less, more] = [explored.number(id, fed.column, 1), explored.number(id, fed.column, 2)];
    if (less === more || Number.isNaN(less) || Number.isNaN(more)) continue;
    const text = fineRange(live, fed, now, Math.min(less, more), Math.max(less, more));
    moves.push({ id, name: laneName(live, fed), text });
  }
  return moves;
}
