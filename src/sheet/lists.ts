/*
 * Many short lists of whole numbers in one array: which cells a cell uses, which code a formula has. A list that is
 * replaced leaves a hole; when more than half is holes the array is packed.
 */
export class Lists {
  private data = new Int32Array(256);
  private startsOf = new Int32Array(64);
  private lengths = new Int32Array(64);
  private count = 0;
  private end = 0;
  private holes = 0;

  /** The array that the lists lie in; it moves when a list is set. */
  get all(): Int32Array {
    return this.data;
  }
  /** Where each list starts. */
  get starts(): Int32Array {
    return this.startsOf;
  }
  start(list: number): number {
    return this.startsOf[list] as number;
  }
  length(list: number): number {
    return list < this.count ? (this.lengths[list] as number) : 0;
  }
  at(list: number, i: number): number {
    return this.data[(this.startsOf[list] as number) + i] as number;
  }

  /** A copy of one list. */
  list(list: number): number[] {
    return Array.from({ length: this.length(list) }, (_, i) => this.at(list, i));
  }

  set(list: number, items: readonly number[]): void {
    if (items.length === 0 && this.length(list) === 0 && list < this.count) return;
    this.room(list + 1, this.end + items.length);
    this.holes += this.lengths[list] as number;
    const fits = items.length <= (this.lengths[list] as number);
    const start = fits ? (this.startsOf[list] as number) : this.end;
    this.startsOf[list] = start;
    this.lengths[list] = items.length;
    for (let i = 0; i < items.length; i += 1) this.data[start + i] = items[i]!;
    if (!fits) this.end += items.length;
    this.holes -= fits ? items.length : 0;
    if (this.holes > 4096 && this.holes * 2 > this.end) this.pack();
  }

  private room(lists: number, items: number): void {
    if (lists > this.startsOf.length) {
      this.startsOf = grown(this.startsOf, lists);
      this.lengths = grown(this.lengths, lists);
    }
    if (items > this.data.length) this.data = grown(this.data, items);
    this.count = Math.max(this.count, lists);
  }

  private pack(): void {
    const old = this.data;
    this.data = new Int32Array(old.length);
    let end = 0;
    for (let list = 0; list < this.count; list += 1) {
      const start = this.startsOf[list] as number;
      const length = this.lengths[list] as number;
      this.data.set(old.subarray(start, start + length), end);
      this.startsOf[list] = end;
      end += length;
    }
    this.end = end;
    this.holes = 0;
  }
}

/** A copy of an array with room for at least `size` items. */
export function grown<A extends Int32Array | Uint8Array | Float64Array>(array: A, size: number): A {
  const larger = new (array.constructor as new (length: number) => A)(
    Math.max(size, Math.ceil(array.length * 1.25)),
  );
  larger.set(array);
  return larger;
}
