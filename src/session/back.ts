/*
 * Working back, told: which typed cells may give way, what is wanted read from a text, and the answer in sentences, with
 * texts that can be tried. "With chest 41¾ in, finished chest comes to 44 in." Where the outcome steps: "200 sts with any
 * chest from 39¼ to 41 in; 208 sts …".
 */

import {
  type Answer,
  type Domain,
  domainOf,
  type Lane,
  laneOf,
  lanesTo,
  numbersAt,
  type Stated,
  type Stretch,
  workBackInTurn,
} from '../doubt/index.ts';
import { isDecided } from '../formula/index.ts';
import { allCells } from '../notebook/index.ts';
import {
  isGauge,
  LENGTH,
  printDecimals,
  printed,
  printUnit,
  type Shown,
  snapped,
} from '../quantity/index.ts';
import { rangeText } from './doubt.ts';
import { laneName, placeOf } from './lane-words.ts';
import type { Live } from './live.ts';
import type { Place } from './page.ts';
import { type Asked, printsAsWanted, roundest } from './roundest.ts';
import { printAt, printDay } from './show.ts';
import { shownUnit, typedText, withValue } from './typed-text.ts';
import { unitIn, wantedFrom } from './wanted.ts';

/** A typed cell that may give way. */
export interface GivingView {
  readonly place: Place;
  /** "chest", "girth, M". */
  readonly name: string;
  /** "40 in". */
  readonly now: string;
}

/** What can be asked of a worked-out value. */
export interface BackStart {
  /** "finished chest, M" and what it is now. */
  readonly about: string;
  readonly now: string;
  /** The unit that a bare number is read in; "" for none. */
  readonly unit: string;
  /** What can be wanted, where it is one of a few: sizes, yes and no. */
  readonly choices: readonly string[];
  readonly giving: readonly GivingView[];
}

/** A value that can be tried. */
export interface BackOffer {
  /** "chest 41¾ in". */
  readonly label: string;
  /** What it makes of the wanted cell: "finished chest 44 in". */
  readonly gives: string;
  /** What is typed at the place. */
  readonly text: string;
  readonly place: Place;
}

/** The answer. */
export interface BackView {
  readonly kind: 'found' | 'cannot' | 'not-found' | 'refused';
  readonly sentence: string;
  readonly offers: readonly BackOffer[];
  /** How often the sheet was worked out for it. */
  readonly evaluations: number;
}

const refusedFor = (sentence: string): BackView => ({
  kind: 'refused',
  sentence,
  offers: [],
  evaluations: 0,
});

/** What can be asked of a worked-out value; undefined for a typed one, a plan, or one that hangs on nothing typed. */
export function backStart(live: Live, id: string, column: number): BackStart | undefined {
  const { sheet } = live;
  const { typed, type } = sheet.info(id);
  if (typed || !['quantity', 'truth', 'label', 'date'].includes(type.kind)) return undefined;
  const lane = laneOf(sheet, id, column);
  const value = sheet.value(id, lane.column);
  const giving = lanesTo(sheet, lane, false).flatMap((one) => {
    const domain = sheet.info(one.id).typed ? domainOf(sheet, one, statedOf(live, one)) : undefined;
    return domain ? [{ one, domain }] : [];
  });
  const choices = type.kind === 'label' ? sheet.columnLabels : type.kind === 'truth' ? ['yes', 'no'] : [];
  return {
    about: laneName(live, lane),
    now: printed(printAt(live, id, lane.column, value)),
    unit: unitIn(live, lane, value)?.label ?? '',
    choices,
    giving: inTurn(live, lane, giving).map((one) => ({
      place: placeOf(live, one),
      name: laneName(live, one),
      now: printed(printAt(live, one.id, one.column, sheet.value(one.id, one.column))) || 'empty',
    })),
  };
}

/** A typed lane and the values it may take. */
interface May {
  readonly one: Lane;
  readonly domain: Domain;
}

/**
 * As they stand on the page: first the numbers one chooses, then gauges, which only another square changes, then what is
 * one of a few, and last what does not move the value as things are: the stitches a seam takes, where it is knit round.
 */
function inTurn(live: Live, lane: Lane, giving: readonly May[]): readonly Lane[] {
  const at = new Map(allCells(live.notebook).map(({ id }, i) => [id, i]));
  const moving = new Set(movingAmong(live, lane, giving));
  const rank = ({ id, column }: Lane, i: number): number => {
    const value = live.sheet.value(id, column);
    if (!moving.has(i)) return 3;
    if (value.kind !== 'quantity') return 2;
    return isGauge(value.type.dimension) ? 1 : 0;
  };
  return giving
    .map(({ one }, i) => ({ one, rank: rank(one, i) }))
    .toSorted((a, b) => a.rank - b.rank || (at.get(a.one.id) ?? 0) - (at.get(b.one.id) ?? 0))
    .map(({ one }) => one);
}

/** So many places of a stretch are tried to see whether a value moves at all. */
const TRIED_PLACES = 9;

/** Which of them move the value somewhere among some places that they may take, by index. */
function movingAmong(live: Live, lane: Lane, giving: readonly May[]): readonly number[] {
  const variants = giving.flatMap(({ one, domain }, i) =>
    somePlaces(domain).map((value) => ({ i, replaced: [{ id: one.id, column: one.column, value }] })),
  );
  const points = variants.map(({ replaced }) => replaced);
  const [now, ...then] = numbersAt(live.sheet, lane, points, false);
  return variants.flatMap(({ i }, v) => (Object.is(then[v], now) ? [] : [i]));
}

function somePlaces(domain: Domain): readonly number[] {
  if (domain.kind === 'some') return domain.values.slice(0, TRIED_PLACES);
  const { from, to, step } = domain;
  return Array.from({ length: TRIED_PLACES }, (_, k) => {
    const value = from + ((to - from) * k) / (TRIED_PLACES - 1);
    return step === 0 ? value : Math.round(value / step) * step;
  });
}

/** What is stated of a typed cell: its own range and what it can be. */
function statedOf(live: Live, { id, column }: Lane): Stated {
  const cell = live.cell(id);
  const ends = (cell?.range ?? []).map((text) => {
    const { parsed } = live.sheet.look(text);
    const value =
      parsed.kind === 'tree' && parsed.typed ? live.sheet.workOut(parsed.tree, column) : undefined;
    return value?.kind === 'quantity' ? value.value : Number.NaN;
  });
  const [from = Number.NaN, to = Number.NaN] = ends;
  return {
    ...(Number.isNaN(from) || Number.isNaN(to) ? {} : { range: [from, to] }),
    ...(cell?.choices ? { choices: cell.choices } : {}),
  };
}

// ── Asking ───

/**
 * What would have to change, a piece at a time: some hundreds of evaluations of what leads to the value, some thousands
 * where it has to be shown that it cannot be. To be left when the notebook changes.
 */
export function* backInTurn(
  live: Live,
  id: string,
  column: number,
  giving: Place,
  text: string,
): Generator<undefined, BackView> {
  const { sheet } = live;
  if (!sheet.has(id) || !sheet.has(giving.cell)) return refusedFor('That cell is gone: it was deleted.');
  const lane = laneOf(sheet, id, column);
  const from = laneOf(sheet, giving.cell, Math.max(0, live.columns.indexOf(giving.column ?? '')));
  const domain = domainOf(sheet, from, statedOf(live, from));
  const name = laneName(live, from);
  if (!domain)
    return refusedFor(`${capital(name)} is empty: type a first value there, so that it is known what it is.`);
  const wanted = wantedFrom(live, lane, text);
  if (wanted.kind === 'refused') return refusedFor(wanted.sentence);
  const asked: Asked = { live, lane, from, domain, wanted };
  return toldAnswer(asked, yield* workBackInTurn(sheet, lane, from, domain, wanted));
}

function toldAnswer(asked: Asked, answer: Answer): BackView {
  const { evaluations } = answer;
  const nearEnough = [answer.below, answer.above].find((side) => side && printsAsWanted(asked, side.outcome));
  const found = answer.found ?? nearEnough;
  if (found)
    return {
      kind: 'found',
      sentence: foundSentence(asked, found),
      offers: [offerOf(asked, found)],
      evaluations,
    };
  const sides = [answer.below, answer.above].filter((side) => side !== undefined);
  const [only] = sides;
  if (answer.cannot && only && sides.length === 1 && isAll(asked, only))
    return { ...unmoved(asked, only), evaluations };
  const beyond = beyondSentence(asked, answer);
  if (beyond)
    return {
      kind: 'cannot',
      sentence: beyond,
      offers: sides.map((side) => offerOf(asked, side)),
      evaluations,
    };
  return {
    kind: answer.cannot ? 'cannot' : 'not-found',
    sentence: `${missSentence(asked, answer)}${sides.map((side) => ` ${sideSentence(asked, side)}`).join('')}`,
    offers: sides.map((side) => offerOf(asked, side)),
    evaluations,
  };
}

/** Whether a stretch is everything that was looked at: then the giving cell does not move the value. */
function isAll({ domain }: Asked, { from, to }: Stretch): boolean {
  return domain.kind === 'line' && from <= domain.from && to >= domain.to;
}

function unmoved(asked: Asked, side: Stretch): Omit<BackView, 'evaluations'> {
  const name = capital(laneName(asked.live, asked.from));
  const made = outcomeText(asked, side.outcome);
  const stays = isTruth(asked) ? `${nameOf(asked)}: always ${made}` : `${nameOf(asked)} stays ${made}`;
  const sentence = `${name} does not move it: anywhere ${domainText(asked)}, ${stays}.`;
  return { kind: 'cannot', sentence, offers: [] };
}

// ── Sentences ───

function outcomeText({ live, lane }: Asked, outcome: number): string {
  const { type } = live.sheet.info(lane.id);
  switch (type.kind) {
    case 'truth':
      return outcome === 1 ? 'yes' : 'no';
    case 'label':
      return live.sheet.around.store.labelText(outcome);
    case 'date':
      return printDay(Math.floor(outcome / 1440));
    case 'quantity':
      return printed(printAt(live, lane.id, lane.column, { kind: 'quantity', value: outcome, type }));
    default:
      return '';
  }
}

function nameOf({ live, lane }: Asked): string {
  return laneName(live, lane);
}

/** "cast on comes to 200 sts", "size to follow is L", "neck passes head: yes". */
function comesTo(asked: Asked, outcome: number): string {
  const made = outcomeText(asked, outcome);
  switch (asked.live.sheet.info(asked.lane.id).type.kind) {
    case 'truth':
      return `${nameOf(asked)}: ${made}`;
    case 'label':
      return `${nameOf(asked)} is ${made}`;
    case 'date':
      return `${nameOf(asked)} falls on ${made}`;
    default:
      return `${nameOf(asked)} comes to ${made}`;
  }
}

function foundSentence(asked: Asked, found: Stretch): string {
  const now = asked.live.sheet.value(asked.from.id, asked.from.column);
  const name = laneName(asked.live, asked.from);
  const made = outcomeText(asked, found.outcome);
  const isNow = now.kind === 'quantity' && now.value >= found.from && now.value <= found.to;
  if (found.from === found.to)
    return `With ${givingText(asked, roundest(asked, found))}, ${comesTo(asked, found.outcome)}.`;
  const any = `any ${name} from ${stretchText(asked, found)}`;
  const makes = isTruth(asked)
    ? `with ${any}, ${comesTo(asked, found.outcome)}`
    : `${any} makes ${nameOf(asked)} ${made}`;
  return isNow ? `${isTruth(asked) ? 'It is so' : 'It comes to that'} now; ${makes}.` : `${capital(makes)}.`;
}

function sideSentence(asked: Asked, side: Stretch): string {
  const made = outcomeText(asked, side.outcome);
  if (side.from === side.to) return `${capital(made)} with ${givingText(asked, side.at)}.`;
  return `${capital(made)} with any ${laneName(asked.live, asked.from)} from ${stretchText(asked, side)}.`;
}

function isTruth({ live, lane }: Asked): boolean {
  return live.sheet.info(lane.id).type.kind === 'truth';
}

const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1);

/** What is wanted, in words; half a stitch as it was said, though none can be knit. */
function wantedText(asked: Asked): string {
  const { live, lane, wanted } = asked;
  const { type } = live.sheet.info(lane.id);
  if (type.kind !== 'quantity' || Number.isInteger(snapped(wanted.value)) || !isDecided(type))
    return outcomeText(asked, wanted.value);
  return outcomeText(asked, wanted.value).replace(/^[−\d.]+/, printDecimals(wanted.value, 2));
}

/** Where everything that can be reached lies on one side of what is wanted: from where to where it lies. */
function beyondSentence(asked: Asked, { cannot, met, below, above }: Answer): string | undefined {
  const { live, lane, from, domain } = asked;
  const { type } = live.sheet.info(lane.id);
  if (!cannot || !met || (below && above) || type.kind !== 'quantity' || domain.kind !== 'line')
    return undefined;
  const range = rangeText(live, lane, { kind: 'quantity', value: met[0], type }, met[0], met[1]);
  const lies = range.includes(' to ') ? `lies between ${range.replace(' to ', ' and ')}` : `stays ${range}`;
  return `Cannot be reached: with ${laneName(live, from)} ${domainText(asked)}, ${nameOf(asked)} ${lies}.`;
}

function missSentence(asked: Asked, { cannot, below, above }: Answer): string {
  const made = wantedText(asked);
  const where = domainText(asked);
  const giving = laneName(asked.live, asked.from);
  if (isTruth(asked)) return neverSentence(asked, made, cannot);
  if (!cannot) return `No ${giving} ${where} was found that makes ${nameOf(asked)} ${made}.`;
  if (asked.domain.kind === 'some') return `No choice of ${giving} makes ${nameOf(asked)} ${made}.`;
  const steps = below && above ? ': it goes past it in a step' : '';
  const cannotBe = { label: 'be', date: 'fall on' }[asked.live.sheet.info(asked.lane.id).type.kind as string];
  return `${capital(nameOf(asked))} cannot ${cannotBe ?? 'come to'} ${made} with ${giving} ${where}${steps}.`;
}

/** Of a yes or no: "Neck passes head: never yes with head between 0 and 88 in." */
function neverSentence(asked: Asked, made: string, cannot: boolean): string {
  const giving = laneName(asked.live, asked.from);
  if (asked.domain.kind === 'some') return `${capital(nameOf(asked))}: never ${made}, whatever ${giving} is.`;
  const where = `with ${giving} ${domainText(asked)}`;
  return cannot
    ? `${capital(nameOf(asked))}: never ${made} ${where}.`
    : `${capital(nameOf(asked))}: no ${made} was found ${where}.`;
}

function domainText(asked: Asked): string {
  const { domain, live, from } = asked;
  if (domain.kind === 'some') return '';
  const shown = shownUnit(live, from.id, from.column);
  if (!shown) return `between ${printDay(domain.from / 1440)} and ${printDay(domain.to / 1440)}`;
  return `between ${short(domain.from, shown).number} and ${unitAfter(short(domain.to, shown))}`;
}

// ── Values of the giving cell ───

/** A number at most two places behind the point, or a fraction where it is one. */
function short(value: number, shown: Shown): { readonly number: string; readonly unit: string } {
  const number = value / shown.factor;
  const near =
    Math.abs(number) >= 0.1 || number === 0 ? Number(number.toFixed(2)) : Number(number.toPrecision(3));
  const text = typedText(near * shown.factor, 0, { ...shown, label: /\bin\b/.test(shown.label) ? 'in' : '' });
  const written = text.replace(/ in$/, '').replace('-', '−');
  return { number: written, unit: printUnit(shown.label, written) };
}

const unitAfter = (one: { readonly number: string; readonly unit: string }) => printed(one);

function givingText({ live, from }: Asked, value: number): string {
  const name = laneName(live, from);
  const { type } = live.sheet.info(from.id);
  if (type.kind === 'truth') return `${name} ${value === 1 ? 'yes' : 'no'}`;
  if (type.kind === 'label') return `${name} ${live.sheet.around.store.labelText(value)}`;
  if (type.kind === 'date') return `${name} ${printDay(value / 1440)}`;
  const shown = shownUnit(live, from.id, from.column);
  return shown ? `${name} ${unitAfter(short(value, shown))}` : name;
}

/** Both ends of a stretch, rounded inward so that whatever is printed is in it. */
function stretchText(asked: Asked, { from, to }: Stretch): string {
  const { live } = asked;
  const shown = shownUnit(live, asked.from.id, asked.from.column);
  if (!shown) return `${printDay(from / 1440)} to ${printDay(to / 1440)}`;
  const [low, high] = inward(from / shown.factor, to / shown.factor, shown);
  return `${short(low * shown.factor, shown).number} to ${unitAfter(short(high * shown.factor, shown))}`;
}

function inward(from: number, to: number, shown: Shown): readonly [number, number] {
  const grains =
    shown.dimension === LENGTH && shown.label === 'in' ? [0.25, 0.125, 0.01] : [1, 0.5, 0.1, 0.01];
  const grain = grains.find((one) => one <= (to - from) / 8) ?? 0.001;
  const [low, high] = [Math.ceil(snapped(from / grain)) * grain, Math.floor(snapped(to / grain)) * grain];
  return low <= high ? [low, high] : [from, to];
}

function offerOf(asked: Asked, stretch: Stretch): BackOffer {
  const value = roundest(asked, stretch);
  return {
    label: givingText(asked, value),
    gives: `${nameOf(asked)} ${outcomeText(asked, stretch.outcome)}`,
    text: withValue(asked.live, asked.from.id, asked.from.column, value) ?? printDecimals(value, 4),
    place: placeOf(asked.live, asked.from),
  };
}
