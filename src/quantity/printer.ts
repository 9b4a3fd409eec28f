/*
 * Printing many values alike: hundreds of cells share a unit and a step, and while a number is nudged to and fro the same
 * values come again and again. What was printed once is remembered by its number.
 */

import { memo } from './memo.ts';
import { asPrinted, type Printed, printDifference, printValue } from './print.ts';
import type { Shown } from './units.ts';

/** A value as printed, and how much that is in base units. */
export interface PrintedValue extends Printed {
  readonly rounded: number;
}

/** So many values are remembered of each printer; beyond, all are forgotten. */
const MOST = 4000;

/** Prints values in base units in one unit, to one step. */
export class Printer {
  private readonly shown: Shown;
  private readonly decided: boolean;
  private readonly step: number | undefined;
  private readonly values = new Map<number, PrintedValue>();
  private readonly differences = new Map<number, string>();

  constructor(shown: Shown, decided: boolean, step: number | undefined) {
    this.shown = shown;
    this.decided = decided;
    this.step = step;
  }

  /** As `printValue`, and as `asPrinted`. */
  print(value: number): PrintedValue {
    const known = this.values.get(value);
    if (known !== undefined) return known;
    const { number, unit } = printValue(value, this.shown, this.decided, this.step);
    const rounded = asPrinted(value, this.shown, this.decided, this.step);
    return remember(this.values, value, { number, unit, rounded });
  }

  /** How far it is from one printed value to another, with its sign; "" where that prints as nothing. */
  difference(from: PrintedValue, to: PrintedValue): string {
    const by = to.rounded - from.rounded;
    const known = this.differences.get(by);
    if (known !== undefined) return known;
    return remember(this.differences, by, printDifference(by, this.shown, this.decided, this.step));
  }
}

function remember<Result>(known: Map<number, Result>, value: number, result: Result): Result {
  if (known.size >= MOST) known.clear();
  known.set(value, result);
  return result;
}

const printers = memo<Printer>(100);
/** Printers without a step of their own, by unit, the decided second: there are few units, and they are asked for often. */
const usual = new WeakMap<Shown, (Printer | undefined)[]>();

/** The printer of a unit and a step (in base units); the same for the same. */
export function printerFor(shown: Shown, decided: boolean, step: number | undefined): Printer {
  if (step !== undefined) return printerBy(shown, decided, step);
  let pair = usual.get(shown);
  if (!pair) {
    pair = [undefined, undefined];
    usual.set(shown, pair);
  }
  const at = decided ? 1 : 0;
  pair[at] ??= printerBy(shown, decided, undefined);
  return pair[at];
}

function printerBy(shown: Shown, decided: boolean, step: number | undefined): Printer {
  const key = `${shown.label} ${shown.dimension} ${shown.factor} ${decided} ${step ?? ''}`;
  return printers(key, () => new Printer(shown, decided, step));
}
