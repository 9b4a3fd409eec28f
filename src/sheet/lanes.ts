/*
 * The lanes of a sheet: the numbers its nodes hold, and what is known of each node.
 *
 * The words: a *node* is a cell's number in the graph (0 is the chosen column, 1 is the day); a node's *lanes* are its
 * values, one or one for each column, side by side from its *offset* on in one array; the *reason* why one has no value
 * stands at the same place in another. A constant of a formula has a lane as well, and no node.
 *
 * Always true of a node whose offset is not −1:
 * - it has as many lanes as its flag EACH says, and no other node has any of them;
 * - a lane is NaN exactly when its reason is not 0, from the first settling on.
 *
 * An array that grows is another array: it is asked for anew whenever nodes may have been placed since.
 */

import { createStore, type Field, quantity, Reasons, type Type, UNKNOWN } from '../formula/index.ts';
import { PLAIN } from '../quantity/index.ts';
import * as FLAG from './flags.ts';
import { grown } from './lists.ts';

export const CHOSEN = 0;
export const TODAY = 1;
/** The first node that is a cell. */
export const RESERVED = 2;

/** What nodes hold. */
export class Lanes {
  /** What numbers stand for that are no quantities: labels and plans. */
  readonly store = createStore();
  /** What the numbers say that stand where there is no value. */
  readonly reasons = new Reasons();
  /** By node: the kind of what it holds, what is known of it (see `flags.ts`), and where its lanes begin or −1. */
  readonly types: Type[] = [quantity(PLAIN), { kind: 'date' }];
  flags = new Uint8Array(64);
  offsets = new Int32Array(64);
  /** By lane: its value, and why there is none; and how many there are. */
  values = new Float64Array(64);
  why = new Int32Array(64);
  end = 0;
  /** By value: the lane of a constant. */
  readonly constants = new Map<number, number>();
  /** The labels of the columns, in words and as numbers. */
  columns: readonly string[] = [];
  private labels: readonly number[] = [];
  private readonly freeSingles: number[] = [];
  private readonly freeEach: number[] = [];
  /** The values as working out sees them. */
  field = this.fieldOn(this.values, 1, false);

  constructor() {
    this.flags.fill(FLAG.SPECIAL, 0, RESERVED);
    this.setColumns([]);
  }

  /** Replaces the columns: no cell has lanes any more. */
  setColumns(columns: readonly string[]): void {
    this.columns = columns;
    this.labels = columns.map((label) => this.store.label(label));
    this.freeEach.length = 0;
    this.freeSingles.length = 0;
    this.constants.clear();
    this.end = 0;
    for (let node = 0; node < this.types.length; node += 1) {
      this.offsets[node] = node < RESERVED ? this.allocate(false) : -1;
      this.set(node, FLAG.EACH, false);
    }
    this.field = this.fieldOn(this.values, 1, false);
  }

  /** A new node, of which nothing is known. */
  add(node: number): void {
    if (node >= this.flags.length) {
      this.flags = grown(this.flags, node + 1);
      this.offsets = grown(this.offsets, node + 1);
    }
    this.flags[node] = 0;
    this.offsets[node] = -1;
    this.types[node] = UNKNOWN;
  }

  has(node: number, flag: number): boolean {
    return ((this.flags[node] as number) & flag) !== 0;
  }

  set(node: number, flag: number, is: boolean): void {
    if (is) this.flags[node]! |= flag;
    else this.flags[node]! &= ~flag;
  }

  isEach(node: number): boolean {
    return this.has(node, FLAG.EACH);
  }

  /** How many lanes a node has. */
  width(node: number): number {
    return this.isEach(node) ? this.columns.length : 1;
  }

  /** The lane of a node in a column, which is of no matter where it has one. */
  lane(node: number, column: number): number {
    return (this.offsets[node] as number) + (this.isEach(node) ? column : 0);
  }

  /** Gives a node lanes of the right number. */
  place(node: number, each: boolean): void {
    if ((this.offsets[node] as number) >= 0 && this.isEach(node) === each) return;
    this.release(node);
    this.set(node, FLAG.EACH, each);
    this.offsets[node] = this.allocate(each);
  }

  /** Takes a node's lanes away. */
  release(node: number): void {
    const offset = this.offsets[node] as number;
    if (offset < 0) return;
    (this.isEach(node) ? this.freeEach : this.freeSingles).push(offset);
    this.offsets[node] = -1;
  }

  /** The lane of a constant. Its value is there in every variant. */
  constant(value: number): number {
    let offset = this.constants.get(value);
    if (offset === undefined) {
      offset = this.allocate(false);
      this.constants.set(value, offset);
      this.values[offset] = value;
    }
    return offset;
  }

  private allocate(each: boolean): number {
    const free = each ? this.freeEach : this.freeSingles;
    const offset = free.pop() ?? this.end;
    const width = each ? this.columns.length : 1;
    if (offset === this.end) this.end += width;
    // One more than there are: an odd number of columns is read with what is behind it (`wave-columns.ts`).
    if (this.end >= this.values.length) {
      this.values = grown(this.values, this.end + 1);
      this.why = grown(this.why, this.end + 1);
      this.field = this.fieldOn(this.values, 1, false);
    }
    this.values.fill(Number.NaN, offset, offset + width);
    this.why.fill(0, offset, offset + width);
    return offset;
  }

  /** Puts a value or a reason into a lane; gives whether it held another. */
  keep(lane: number, value: number, reason: number): boolean {
    const old = this.values[lane] as number;
    const same = old === value || (Number.isNaN(old) && Number.isNaN(value) && this.why[lane] === reason);
    this.values[lane] = value;
    this.why[lane] = reason;
    return !same;
  }

  /** Why what uses a node has no value in a column: what it waits for; 0 where the node has a value. */
  handedOn(node: number, column: number): number {
    const reason = this.why[this.lane(node, column)] as number;
    if (reason === 0 || this.reasons.waitsFor(reason) >= 0) return reason;
    return this.reasons.waiting(node, this.reasons.isWrong(reason));
  }

  /** The column of a label, or −1. */
  columnOf(label: number): number {
    return Number.isNaN(label) ? -1 : this.labels.findIndex((other) => this.store.sameLabel(other, label));
  }

  /** What working out sees of other values: those of `variants`, in which with `held` what the first decided stays. */
  fieldOn(values: Float64Array, variants: number, held: boolean): Field {
    return {
      values,
      variants,
      columns: this.columns.length,
      held,
      chosenOffset: this.offsets[CHOSEN] as number,
      labelOf: (column) => this.labels[column] ?? Number.NaN,
      columnOf: (label) => this.columnOf(label),
      // Because of a problem, its own or further up, rather than for want of a value.
      isBroken: (offset, each, column) =>
        this.reasons.isWrong(this.why[offset + (each ? column : 0)] as number),
    };
  }
}
