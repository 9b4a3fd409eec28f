/*
 * Numbers written over numbers of the same unit, the commonest edit: nothing about the cell changes but what it holds, so
 * that it need not be read again. One cell at a time: where a second is written before the sheet is settled, it is read
 * as ever.
 */

import { isWholeCount, valueIn } from '../formula/index.ts';
import { PLAIN } from '../quantity/index.ts';
import * as FLAG from './flags.ts';
import type { Lanes } from './lanes.ts';
import type { Reading } from './reading.ts';
import { inColumn, type Text } from './texts.ts';

/** The numbers that were written over a cell's since the last settling. */
export class WrittenOver {
  /** The cell's node; −1 where there is none. */
  node = -1;
  /** By column; meaningful only while there is a node. */
  private numbers = new Float64Array(16);

  constructor(
    private readonly lanes: Lanes,
    private readonly reading: Reading,
  ) {}

  /** Takes a text that was written, where it is only other numbers; gives whether that is all there is to it. */
  takes(node: number, text: Text): boolean {
    const { lanes } = this;
    const type = lanes.types[node]!;
    if ((lanes.flags[node]! & FLAG.SLOW) !== FLAG.TYPED || type.kind !== 'quantity') return false;
    if (lanes.isEach(node) === (typeof text === 'string') || this.reading.saysMore(node)) return false;
    if (this.node >= 0 && this.node !== node) return false;
    const width = lanes.width(node);
    if (this.numbers.length < width) this.numbers = new Float64Array(width);
    let decided = true;
    for (let c = 0; c < width; c += 1) {
      const value = valueIn(type.shown, inColumn(text, c));
      if (Number.isNaN(value)) return false;
      this.numbers[c] = value;
      decided &&= isWholeCount(type.dimension, value);
    }
    if (decided !== type.decided || (!type.shown && type.dimension !== PLAIN)) return false;
    this.node = node;
    return true;
  }

  /** Puts the numbers into the cell's lanes; gives whether it held others. */
  keep(): boolean {
    const width = this.lanes.width(this.node);
    const at = this.lanes.offsets[this.node]!;
    let changed = false;
    for (let c = 0; c < width; c += 1) changed = this.lanes.keep(at + c, this.numbers[c]!, 0) || changed;
    return changed;
  }

  /** Forgets them, as they are in their lanes. */
  settled(): void {
    this.node = -1;
  }
}
