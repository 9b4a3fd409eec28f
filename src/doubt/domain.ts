/*
 * Where working back looks: the values that the giving cell may take. Whole counts stay whole and days stay days; a yes
 * or no and a label have a few values; everything else lies on a line. The stretch looked at is the cell's own, or nought
 * to four times what it holds now.
 */

import {
  isCount,
  LENGTH,
  MASS,
  MONEY,
  PLAIN,
  ROW_GAUGE,
  STITCH_GAUGE,
  snapped,
  TIME,
} from '../quantity/index.ts';
import type { Sheet } from '../sheet/index.ts';
import type { Lane } from './lanes.ts';

/** The values a typed lane may take: some, or everything between two ends, in steps where `step` is above 0. */
export type Domain =
  | { readonly kind: 'some'; readonly values: readonly number[] }
  | { readonly kind: 'line'; readonly from: number; readonly to: number; readonly step: number };

const DAY = 1440;
const CM = 1000;
const DAYS_LOOKED_AT = 366;

/** What the session knows of a cell: its own range in base units, and the labels it can be. */
export interface Stated {
  readonly range?: readonly [from: number, to: number];
  readonly choices?: readonly string[];
}

/**
 * The values a typed lane may take; undefined where nothing tells what kind of value it is (an empty cell), or that kind
 * is not looked for.
 */
export function domainOf(sheet: Sheet, { id, column }: Lane, stated: Stated = {}): Domain | undefined {
  const { type } = sheet.info(id);
  const now = sheet.value(id, column);
  switch (type.kind) {
    case 'truth':
      return { kind: 'some', values: [0, 1] };
    case 'label': {
      const texts = stated.choices?.length ? stated.choices : sheet.columnLabels;
      return { kind: 'some', values: texts.map((text) => sheet.around.store.label(text)) };
    }
    case 'date': {
      const middle = (now.kind === 'date' ? now.day : Math.floor(sheet.around.today / DAY)) * DAY;
      return lineOf(middle - DAYS_LOOKED_AT * DAY, middle + DAYS_LOOKED_AT * DAY, DAY);
    }
    case 'quantity': {
      const step = type.decided && isCount(type.dimension) ? 1 : 0;
      const value = now.kind === 'quantity' ? now.value : 0;
      const [from, to] = stated.range ?? usualRange(type.dimension, value);
      return lineOf(from, to, step);
    }
    default:
      return stated.range ? lineOf(...stated.range, 0) : undefined;
  }
}

function lineOf(a: number, b: number, step: number): Domain {
  const [from, to] = [Math.min(a, b), Math.max(a, b)];
  if (step === 0) return { kind: 'line', from, to, step };
  return {
    kind: 'line',
    from: Math.ceil(snapped(from / step)) * step,
    to: Math.floor(snapped(to / step)) * step,
    step,
  };
}

/** Nought to four times the value; both ways for one below nought; for nought whatever is usual of its kind. */
function usualRange(dimension: number, value: number): readonly [number, number] {
  if (value !== 0) return [Math.min(0, 4 * value), 4 * Math.abs(value)];
  switch (dimension) {
    case LENGTH:
      return [-100 * CM, 200 * CM];
    case STITCH_GAUGE:
    case ROW_GAUGE:
      return [2 / (10 * CM), 80 / (10 * CM)];
    case MASS:
      return [0, 2000];
    case TIME:
      return [0, 365 * DAY];
    case MONEY:
      return [0, 1000];
    default:
      return dimension === PLAIN ? [0, 100] : [0, 1000];
  }
}
