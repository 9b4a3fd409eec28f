/*
 * Writing what is waiting, soon and in order: the first change at once, those that come while it is being written as the next
 * batch. What changes many times a second may wait until it rests. What could not be written stays waiting, is tried again,
 * and is told as trouble; nothing is dropped. `flush` hands over what waits in the same turn, for a page that is being left.
 */
import type { Batch, Disk, DiskTrouble } from './disk.ts';
import { troubleOf } from './disk.ts';

/** What a writer tells. */
export interface WriterNews {
  /** All that was handed over until now is on the disk. */
  saved(): void;
  /** It could not be written, and will be tried again; `taken` will not: the rows are handed back. */
  trouble(trouble: DiskTrouble, refused: Batch): void;
}

/** Milliseconds that what may wait does wait, after it was last handed over. */
const REST = 400;

/** Milliseconds until the next try after trouble. */
const RETRY = [1_000, 5_000, 30_000];

export class Writer {
  readonly #disk: Disk;
  readonly #news: WriterNews;
  #add = new Map<string, unknown>();
  #put = new Map<string, unknown>();
  #delete = new Set<string>();
  #flying = 0;
  #failures = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #resting: ReturnType<typeof setTimeout> | undefined;
  #idle: (() => void)[] = [];

  constructor(disk: Disk, news: WriterNews) {
    this.#disk = disk;
    this.#news = news;
  }

  /** Takes a batch in, and begins to write when nothing is being written. Later puts of a key replace earlier ones. */
  write({ add = [], put = [], delete: gone = [] }: Batch): void {
    for (const [key, value] of add) this.#add.set(key, value);
    for (const [key, value] of put) this.#put.set(key, value);
    for (const key of gone) {
      this.#put.delete(key);
      this.#delete.add(key);
    }
    if (this.#flying === 0) this.#send();
  }

  /** Takes a value in that may change again in a moment: it is written when it rests, with the next batch, or on `flush`. */
  writeSoon(key: string, value: unknown): void {
    this.#put.set(key, value);
    clearTimeout(this.#resting);
    this.#resting = setTimeout(() => {
      if (this.#flying === 0) this.flush();
    }, REST);
  }

  /** Hands all that waits to the disk in this turn. */
  flush(): void {
    if (!this.#isEmpty()) this.#send();
  }

  /** Whether anything is not on the disk yet. */
  get waiting(): boolean {
    return this.#flying > 0 || !this.#isEmpty();
  }

  /** When nothing is being written any more, whether it went well or not. */
  settled(): Promise<void> {
    if (this.#flying === 0) this.flush();
    return this.#flying === 0 ? Promise.resolve() : new Promise((resolve) => this.#idle.push(resolve));
  }

  /** No more tries. */
  stop(): void {
    clearTimeout(this.#timer);
    clearTimeout(this.#resting);
  }

  #isEmpty(): boolean {
    return this.#add.size + this.#put.size + this.#delete.size === 0;
  }

  #send(): void {
    clearTimeout(this.#timer);
    clearTimeout(this.#resting);
    const batch = { add: [...this.#add], put: [...this.#put], delete: [...this.#delete] };
    [this.#add, this.#put, this.#delete] = [new Map(), new Map(), new Set()];
    this.#flying++;
    this.#disk.write(batch).then(
      () => this.#landed(),
      (error: unknown) => this.#failed(batch, troubleOf(error)),
    );
  }

  #landed(): void {
    this.#flying--;
    this.#failures = 0;
    if (this.#flying === 0 && !this.#isEmpty()) this.#send();
    else if (this.#flying === 0) this.#news.saved();
    this.#tellIdle();
  }

  #failed(batch: Required<Batch>, trouble: DiskTrouble): void {
    this.#flying--;
    if (trouble !== 'taken') this.#takeBack(batch);
    this.#news.trouble(trouble, batch);
    if (trouble !== 'taken') this.#retryLater();
    this.#tellIdle();
  }

  /** What failed goes before what has come since. */
  #takeBack({ add, put, delete: gone }: Required<Batch>): void {
    this.#add = new Map([...add, ...this.#add]);
    this.#delete = new Set([...gone.filter((key) => !this.#put.has(key)), ...this.#delete]);
    this.#put = new Map([...put.filter(([key]) => !this.#delete.has(key)), ...this.#put]);
  }

  #retryLater(): void {
    clearTimeout(this.#timer);
    const wait = RETRY[Math.min(this.#failures, RETRY.length - 1)];
    this.#failures++;
    this.#timer = setTimeout(() => this.flush(), wait);
  }

  #tellIdle(): void {
    if (this.#flying > 0) return;
    for (const tell of this.#idle.splice(0)) tell();
  }
}
