/*
 * A disk that loses nothing as the page goes. A browser may drop a write that has begun when its page is left at once. So
 * what is still being written then is also put into the browser's small memory, which is written in the same turn, and the
 * next page that opens the shelf writes it once more. What was on the disk after all refuses that, wholly: its keys are
 * there.
 */
import { parseJson } from '../notebook/index.ts';
import type { Batch, Disk } from './disk.ts';
import { trialsKey } from './log.ts';

/** The browser's small memory, as far as it is needed. */
export type Memory = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

/** What waits is found under this, and something that no other page has. */
const LEFT = 'ellwand left ';

/** Whether a batch may be written twice: it adds, which is refused the second time, or says what is being tried. */
const mayBeLeft = ({ add = [], put = [] }: Batch): boolean =>
  add.length > 0 || (put.length > 0 && put.every(([key]) => key.startsWith(trialsKey(''))));

/** A disk whose last writes are taken up by the next page. */
export class PartingDisk implements Disk {
  readonly #disk: Disk;
  readonly #memory: Memory | undefined;
  readonly #key: string;
  readonly #flying = new Set<Batch>();
  #hasParted = false;

  /** `page` is what no other page has. */
  constructor(disk: Disk, memory: Memory | undefined, page: string) {
    this.#disk = disk;
    this.#memory = memory;
    this.#key = LEFT + page;
  }

  get(key: string): Promise<unknown> {
    return this.#disk.get(key);
  }

  list(prefix: string, after?: string): ReturnType<Disk['list']> {
    return this.#disk.list(prefix, after);
  }

  look(keys: readonly string[], prefix?: string): ReturnType<Disk['look']> {
    return this.#disk.look(keys, prefix);
  }

  write(batch: Batch): Promise<void> {
    this.#flying.add(batch);
    const landed = () => {
      this.#flying.delete(batch);
      if (this.#hasParted) this.part();
    };
    const written = this.#disk.write(batch);
    written.then(landed, landed);
    return written;
  }

  /** Remembers what is being written: call it as the page goes, when all that waits has been handed over. */
  part(): void {
    const left = [...this.#flying].filter(mayBeLeft);
    if (!this.#hasParted && left.length === 0) return;
    this.#hasParted = left.length > 0;
    try {
      if (left.length > 0) this.#memory?.setItem(this.#key, JSON.stringify(left));
      else this.#memory?.removeItem(this.#key);
    } catch {
      // No room, or not allowed: the disk may have it all the same.
    }
  }

  /** Writes what pages before have left. Never rejects. */
  async takeUp(): Promise<void> {
    for (const key of keysLeft(this.#memory))
      try {
        for (const batch of batchesIn(this.#memory?.getItem(key)))
          await this.#disk.write(batch).catch(() => undefined);
        this.#memory?.removeItem(key);
      } catch {
        // At the next visit, then.
      }
  }
}

function keysLeft(memory: Memory | undefined): readonly string[] {
  const keys = Array.from({ length: memory?.length ?? 0 }, (_, i) => memory?.key(i) ?? '');
  return keys.filter((key) => key.startsWith(LEFT));
}

const isEntries = (list: unknown): boolean =>
  list === undefined ||
  (Array.isArray(list) && list.every((entry) => Array.isArray(entry) && typeof entry[0] === 'string'));

const isBatch = (batch: unknown): batch is Batch => {
  const { add, put, delete: gone = [] } = Object(batch) as Batch;
  return (
    isEntries(add) && isEntries(put) && Array.isArray(gone) && gone.every((key) => typeof key === 'string')
  );
};

function batchesIn(text: string | null | undefined): readonly Batch[] {
  const { value } = parseJson(text ?? '[]');
  return Array.isArray(value) ? value.filter(isBatch) : [];
}
