/*
 * Texts that were written and are still to be read into their cells. Between two settlings it is nearly always one: that
 * one is kept by itself, and costs no table.
 */

import type { Parsed } from '../formula/index.ts';

/** What written texts say, by node, until the settling that reads them. */
export class Pending {
  private node = -1;
  private parsed: readonly Parsed[] | undefined;
  private more: Map<number, readonly Parsed[]> | undefined;

  set(node: number, parsed: readonly Parsed[]): void {
    if (this.node < 0 || this.node === node) {
      this.node = node;
      this.parsed = parsed;
    } else {
      this.more ??= new Map();
      this.more.set(node, parsed);
    }
  }

  get(node: number): readonly Parsed[] | undefined {
    return node === this.node ? this.parsed : this.more?.get(node);
  }

  delete(node: number): void {
    if (node === this.node) this.parsed = undefined;
    else this.more?.delete(node);
  }

  /** Forgets all. The table goes with them: of one that is filled and emptied again and again, V8 keeps every table it had. */
  clear(): void {
    this.node = -1;
    this.parsed = undefined;
    this.more = undefined;
  }
}
