/*
 * What would usually be said of how sure a measurement is, where nothing is: half a stitch miscounted, a tape held
 * tighter, each as a text to put in. Never put in unasked.
 */

import { type Lane, type Usual, usualTolerances } from '../doubt/index.ts';
import { printTyped, spacedName, type TypedNumber } from '../formula/index.ts';
import { LENGTH, printDecimals, printed, type Shown } from '../quantity/index.ts';
import { laneName, placeOf } from './lane-words.ts';
import type { Live } from './live.ts';
import type { Place } from './page.ts';
import { textAt, typedAt, withTolerance } from './typed-text.ts';

/** A tolerance that is usual where none was typed. */
export interface UsualView {
  readonly place: Place;
  readonly name: string;
  /** "± ½ sts / 4 in". */
  readonly text: string;
  /** "half a stitch miscounted over 4 in: common practice". */
  readonly why: string;
  /** The text of the cell with it. */
  readonly typed: string;
}

const MOST_USUAL = 4;

const NOT_MEASURED =
  /(^| )(wanted|wished|goal|counted|limit|pattern|printed|ease|least|most|smallest|largest|range|target|plain)( |$)/;

/** What is usual for the measurements among some lanes, gauges first. */
export function usualFor(live: Live, leading: readonly Lane[]): readonly UsualView[] {
  const found = leading.flatMap((lane): UsualView[] => {
    const { id, column } = lane;
    const isMeasured = !NOT_MEASURED.test(spacedName(live.sheet.nameOf(id)));
    if (!live.sheet.info(id).typed || live.sheet.tolerance(id, column) > 0 || !isMeasured) return [];
    const typed = typedAt(live, id, column);
    return typed
      ? usualTolerances(live.sheet, lane).flatMap((usual) => usualView(live, lane, typed, usual))
      : [];
  });
  const isGauge = ({ place }: UsualView) => {
    const { type } = live.sheet.info(place.cell);
    return type.kind === 'quantity' && type.dimension !== LENGTH;
  };
  return [...found.filter(isGauge), ...found.filter((one) => !isGauge(one))].slice(0, MOST_USUAL);
}

function usualView(live: Live, lane: Lane, { shown }: TypedNumber, usual: Usual): UsualView[] {
  const place = placeOf(live, lane);
  const text = textAt(live, place);
  const typed = withTolerance(live, lane.id, lane.column, text, usual.off);
  if (typed === undefined) return [];
  const number = printTyped({ number: Number((usual.off / shown.factor).toPrecision(6)), shown });
  const off = printed({ number: `± ${number.number}`, unit: number.unit });
  return [{ place, name: laneName(live, lane), text: off, why: whyOf(live, usual, shown), typed }];
}

function whyOf(live: Live, { why, over = 0 }: Usual, shown: Shown): string {
  const what = /^st\b/.test(shown.label) ? 'stitch' : 'row';
  switch (why) {
    case 'miscounted':
      return `half a ${what} miscounted over ${widthText(live, over)}: common practice`;
    case 'unwashed':
      return `a whole ${what}, where the swatch is not washed yet: common practice`;
    case 'tape':
      return 'a tape held a little tighter or looser: common practice';
    case 'scales':
      return 'kitchen scales: common practice';
  }
}

/** A width in inches where it is so many whole ones, else in centimetres; in both on a page in centimetres. */
export function widthText(live: Live, width: number, unit = true): string {
  const inches = width / 2540;
  const isInches = Math.abs(inches - Math.round(inches * 2) / 2) < 1e-6;
  const number = printDecimals(isInches ? inches : width / 1000, 1);
  if (!unit) return number;
  const both = isInches && live.notebook.units === 'cm';
  return `${number} ${isInches ? 'in' : 'cm'}${both ? ` (${Math.round(inches * 2.5)} cm)` : ''}`;
}
