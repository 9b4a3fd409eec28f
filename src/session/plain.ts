/*
 * Plain rows: worked out to numbers of which nothing is said. Most rows are plain, and a nudge has hundreds of them told.
 * So what all values of a cell have in common (its unit, how finely it is printed) is asked once, a value
 * that was printed before is not printed again, and no more is made of it than is looked at. What comes of it is what `valueView` says, which is there for others.
 */

import { isDecided } from '../formula/index.ts';
import { isKnitted, type PrintedValue, type Printer, printerFor } from '../quantity/index.ts';
import type { Frozen } from '../sheet/index.ts';
import { quantityAloud } from './aloud.ts';
import type { Live } from './live.ts';
import type { PlainValues, ValueView } from './page.ts';
import { isRemarked, ownStep, unitAt } from './show.ts';
import { shownWhen } from './shown-as.ts';

/** The values of a plain row. */
export class PlainRow implements PlainValues {
  /** By column: the values now and, where a change that is tried moves one of them, before. */
  private readonly now: readonly PrintedValue[];
  private readonly old: readonly PrintedValue[] | undefined;
  private readonly printer: Printer;
  readonly decided: boolean;

  constructor(
    now: readonly PrintedValue[],
    old: readonly PrintedValue[] | undefined,
    printer: Printer,
    decided: boolean,
  ) {
    this.now = now;
    this.old = old;
    this.printer = printer;
    this.decided = decided;
  }

  text(column: number): string {
    return this.now[column]?.number ?? '';
  }

  isMoved(column: number): boolean {
    return (
      this.difference(column) !== '' || (this.old !== undefined && this.was(column) !== this.text(column))
    );
  }

  difference(column: number): string {
    const [old, now] = [this.old?.[column], this.now[column]];
    return old === now || !old || !now ? '' : this.printer.difference(old, now);
  }

  was(column: number): string {
    return this.old?.[column]?.number ?? '';
  }

  /** The units of the values as they stand beside them: one where they are all the same. */
  units(): readonly string[] {
    const first = this.now[0]?.unit ?? '';
    return this.now.every(({ unit }) => unit === first) ? [first] : this.now.map(({ unit }) => unit);
  }

  /** The values in full. */
  views(): readonly ValueView[] {
    return this.now.map(({ number, unit }, column) => {
      const isMoved = this.isMoved(column);
      return {
        kind: 'quantity',
        text: number,
        unit,
        tolerance: '',
        decided: this.decided,
        pinned: false,
        old: isMoved ? { text: this.was(column), difference: this.difference(column) } : undefined,
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
  const isWhole = isDecided(type);
  const shown = unitAt(live, id, 0, { kind: 'quantity', value: 0, type });
  const printer = printerFor(shown, isWhole, ownStep(live, id, type.dimension));
  const now = new Array<PrintedValue>(columns);
  let old: PrintedValue[] | undefined;
  for (let column = 0; column < columns; column += 1) {
    const value = live.sheet.value(id, column);
    if (value.kind !== 'quantity') return undefined;
    const printed = printer.print(value.value);
    now[column] = printed;
    const before = base?.value(id, column);
    if (before === undefined) continue; // The cell came while the change is tried.
    if (before.kind !== 'quantity' || before.type !== type) return undefined;
    if (before.value !== value.value) old ??= now.slice();
    if (old) old[column] = printer.print(before.value);
  }
  return new PlainRow(now, old, printer, isWhole && isKnitted(type.dimension));
}

/** Whether there may be more to say of a cell's values than their numbers. */
function isSpokenOf(live: Live, id: string): boolean {
  const cell = live.cell(id);
  if (cell?.says !== undefined || live.pins.has(id)) return true;
  if (live.blamedFor(id) !== undefined || live.blameOn(id) !== undefined) return true;
  return shownWhen(cell?.shown) !== undefined || isRemarked(live, id);
}
