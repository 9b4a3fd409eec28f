/*
 * Plain rows: worked out to numbers of which nothing is said. Most rows are plain, and a nudge has hundreds of them told.
 * So what all values of a cell have in common (its unit, how finely it is printed) is asked once, the row keeps only the
 * numbers, and each is printed when it is looked at. What comes of it is what `valueView` says, which is there for others.
 */

import { isDecided } from '../formula/index.ts';
import { isKnitted, type Printer, printerFor } from '../quantity/index.ts';
import type { Frozen } from '../sheet/index.ts';
import { quantityAloud } from './aloud.ts';
import type { Live } from './live.ts';
import type { PlainValues, ValueView } from './page.ts';
import { isRemarked, ownStep, unitAt } from './show.ts';
import { shownWhen } from './shown-as.ts';

/** The values of a plain row. */
export class PlainRow implements PlainValues {
  /** By column: the numbers now and, where a change that is tried moves one of them, before. */
  private readonly now: readonly number[];
  private readonly old: readonly number[] | undefined;
  private readonly printer: Printer;
  readonly decided: boolean;

  constructor(
    now: readonly number[],
    old: readonly number[] | undefined,
    printer: Printer,
    decided: boolean,
  ) {
    this.now = now;
    this.old = old;
    this.printer = printer;
    this.decided = decided;
  }

  text(column: number): string {
    return this.printer.print(this.now[column] as number).number;
  }

  isMoved(column: number): boolean {
    if (this.old === undefined || this.old[column] === this.now[column]) return false;
    return this.difference(column) !== '' || this.was(column) !== this.text(column);
  }

  difference(column: number): string {
    if (this.old === undefined) return '';
    return this.printer.difference(this.old[column] as number, this.now[column] as number);
  }

  was(column: number): string {
    return this.old === undefined ? '' : this.printer.print(this.old[column] as number).number || 'empty';
  }

  /** The unit of each value as it stands beside it. */
  units(): readonly string[] {
    return this.now.map((value) => this.printer.print(value).unit);
  }

  /** The values in full. */
  views(): readonly ValueView[] {
    return this.now.map((value, column) => {
      const { number, unit } = this.printer.print(value);
      return {
        kind: 'quantity',
        text: number,
        unit,
        tolerance: '',
        decided: this.decided,
        pinned: false,
        old: this.isMoved(column)
          ? { text: this.was(column), difference: this.difference(column) }
          : undefined,
        says: '',
        tone: 'plain',
        spoken: quantityAloud({ number, unit }),
      };
    });
  }
}

/** A cell's values in so many columns; undefined where the row is not plain. `base` are those before the change tried. */
export function plainRow(
  live: Live,
  id: string,
  columns: number,
  base: Frozen | undefined,
): PlainRow | undefined {
  const { type, typed } = live.sheet.info(id);
  if (typed || type.kind !== 'quantity' || isSpokenOf(live, id)) return undefined;
  const now: number[] = [];
  const old: number[] = [];
  for (let column = 0; column < columns; column += 1) {
    const value = live.sheet.value(id, column);
    if (value.kind !== 'quantity') return undefined;
    now.push(value.value);
    const before = base?.value(id, column);
    if (before === undefined) continue; // The cell came while the change is tried.
    if (before.kind !== 'quantity' || before.type !== type) return undefined;
    old.push(before.value);
  }
  const decided = isDecided(type);
  const shown = unitAt(live, id, 0, { kind: 'quantity', value: 0, type });
  const printer = printerFor(shown, decided, ownStep(live, id, type.dimension));
  const isOther = old.some((before, column) => before !== now[column]);
  return new PlainRow(now, isOther ? old : undefined, printer, decided && isKnitted(type.dimension));
}

/** Whether there may be more to say of a cell's values than their numbers. */
function isSpokenOf(live: Live, id: string): boolean {
  const cell = live.cell(id);
  if (cell?.says !== undefined || live.notebook.progress?.pinned?.[id] !== undefined) return true;
  if (live.blamedFor(id) !== undefined || live.blameOn(id) !== undefined) return true;
  return shownWhen(cell?.shown) !== undefined || isRemarked(live, id);
}
