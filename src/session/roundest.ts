/*
 * The number of an answer that a knitter would swatch or measure: 18½ stitches rather than 18.55, where 18½ comes to
 * the same on the page. Gauges in halves and quarters, lengths in quarters of an inch or halves of a centimetre, before
 * anything finer is offered.
 */

import { type Domain, type Lane, numbersAt, type Stretch, type Wanted } from '../doubt/index.ts';
import { isDecided } from '../formula/index.ts';
import { isCount, printed, ROW_GAUGE, type Shown, STITCH_GAUGE, same, snapped } from '../quantity/index.ts';
import type { Live } from './live.ts';
import { printAt } from './show.ts';
import { shownUnit } from './typed-text.ts';

/** A question of working back, read. */
export interface Asked {
  readonly live: Live;
  readonly lane: Lane;
  /** The lane that gives way, and where it is looked for. */
  readonly from: Lane;
  readonly domain: Domain;
  readonly wanted: Wanted;
}

/** Whether an outcome is what is wanted as the page prints it; a count is only itself. */
export function printsAsWanted({ live, lane, wanted }: Asked, outcome: number): boolean {
  const { type } = live.sheet.info(lane.id);
  if (type.kind !== 'quantity' || (isCount(type.dimension) && isDecided(type))) return false;
  const at = (value: number) =>
    printed(printAt(live, lane.id, lane.column, { kind: 'quantity', value, type }));
  return at(outcome) === at(wanted.value);
}

/** The value of a stretch to be told and tried, in base units: what the cell holds now if it can stay, else the roundest. */
export function roundest(asked: Asked, stretch: Stretch): number {
  const { live, from } = asked;
  const shown = shownUnit(live, from.id, from.column);
  if (!shown || live.sheet.info(from.id).type.kind !== 'quantity') return stretch.at;
  const now = live.sheet.value(from.id, from.column);
  if (now.kind === 'quantity' && now.value >= stretch.from && now.value <= stretch.to) return now.value;
  return stretch.from < stretch.to
    ? roundestWithin(stretch, shown)
    : (roundestBeside(asked, stretch, shown) ?? fewestDigits(asked, stretch, shown));
}

/** The steps that numbers of a unit are rounded to, coarse ones first. */
function grainsOf({ dimension, label }: Shown): readonly number[] {
  if (dimension === STITCH_GAUGE || dimension === ROW_GAUGE) return [1, 0.5, 0.25, 0.1, 0.05, 0.01, 0.001];
  return label === 'in' ? [1, 0.5, 0.25, 0.125, 0.1, 0.01, 0.001] : [1, 0.5, 0.1, 0.05, 0.01, 0.001];
}

/** The roundest number of a stretch, on the side that lies nearest to what the cell holds now. */
function roundestWithin({ from, to, at }: Stretch, shown: Shown): number {
  for (const grain of grainsOf(shown)) {
    const near = snapped(at / shown.factor / grain);
    const rounded = (at <= from ? Math.ceil(near) : Math.floor(near)) * grain * shown.factor;
    if (rounded >= from && rounded <= to) return rounded;
  }
  return at;
}

/** The roundest number beside the one found that comes to what is wanted as well, as the page prints it. */
function roundestBeside(asked: Asked, { at, outcome }: Stretch, shown: Shown): number | undefined {
  if (!printsAsWanted(asked, outcome)) return undefined;
  const tried = grainsOf(shown)
    .map((grain) => Math.round(at / shown.factor / grain) * grain * shown.factor)
    .filter((value) => isLookedAt(asked.domain, value));
  const outcomes = outcomesOf(asked, tried);
  return tried.find((_, i) => printsAsWanted(asked, outcomes[i] ?? Number.NaN));
}

function isLookedAt(domain: Domain, value: number): boolean {
  return domain.kind === 'line' && domain.step === 0 && value >= domain.from && value <= domain.to;
}

function outcomesOf({ live, lane, from }: Asked, values: readonly number[]): readonly number[] {
  const points = values.map((value) => [{ ...from, value }]);
  return numbersAt(live.sheet, lane, points, false).slice(1);
}

/** The shortest number that still gives the outcome, as near as the language tells values apart. */
function fewestDigits(asked: Asked, { at, outcome }: Stretch, shown: Shown): number {
  const tried = Array.from(
    { length: 14 },
    (_, i) => Number((at / shown.factor).toPrecision(i + 2)) * shown.factor,
  );
  const isGood = (number: number) =>
    asked.wanted.kind === 'label' ? number === outcome : isAsGood(number, outcome);
  const outcomes = outcomesOf(asked, tried);
  return tried.find((_, i) => isGood(outcomes[i] ?? Number.NaN)) ?? at;
}

/** Also for small numbers, such as a gauge in base units, to a billionth of themselves. */
function isAsGood(a: number, b: number): boolean {
  return same(a, b) && Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
}
