/*
 * Printing many values alike: hundreds of cells share a unit and a step, and while a number is nudged to and fro the same
 * values come again and again. What was printed once is remembered by its number.
 */

import { memo } from './memo.ts';
import { asPrinted, type Printed, printDifference, printValue } from './print.ts';
import type { Shown } from './units.ts';

/** So many values are remembered of each printer; beyond, all are forgotten. */
const MOST = 4000;

/** Prints values in base units in one unit, to one step. */
export class Printer {
  private readonly shown: Shown;
  private readonly decided: boolean;
  private readonly step: number | undefined;
  private readonly values = new Map<number, Printed>();
  private readonly grains = new Map<number, number>();
  private readonly differences = new Map<number, string>();

  constructor(shown: Shown, decided: boolean, step: number | undefined) {
    this.shown = shown;
    this.decided = decided;
    this.step = step;
  }

  /** As `printValue`. */
  print(value: number): Printed {
    return remembered(this.values, value, () => printValue(value, this.shown, this.decided, this.step));
  }

  /** How far it is from one value to another, each as it is printed, with its sign; "" where that prints as nothing. */
  difference(from: number, to: number): string {
    const by = this.rounded(to) - this.rounded(from);
    return remembered(this.differences, by, () => printDifference(by, this.shown, this.decided, this.step));
  }

  private rounded(value: number): number {
    return remembered(this.grains, value, () => asPrinted(value, this.shown, this.decided, this.step));
  }
}

function remembered<Result>(known: Map<number, Result>, value: number, work: () => Result): Result {
  const before = known.get(value);
  if (before !== undefined) return before;
  const result = work();
  if (known.size >= MOST) known.clear();
  known.set(value, result);
  return result;
}

const printers = memo<Printer>(100);

/** The printer of a unit and a step (in base units); the same for the same. */
export function printerFor(shown: Shown, decided: boolean, step: number | undefined): Printer {
  const key = `${shown.label} ${shown.dimension} ${shown.factor} ${decided} ${step ?? ''}`;
  return printers(key, () => new Printer(shown, decided, step));
}
