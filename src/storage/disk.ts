/*
 * What storage stands on: keys in order, values that can be cloned, and batches that happen wholly or not at all. The
 * browser's is in `database.ts`; the one in memory here serves browsers without storage, and tests that make it fail.
 */

/** Writes that happen together: all of them, or none. */
export interface Batch {
  /** Keys that must be new: one that is there refuses the whole batch with `taken`. */
  readonly add?: readonly (readonly [key: string, value: unknown])[];
  readonly put?: readonly (readonly [key: string, value: unknown])[];
  readonly delete?: readonly string[];
}

/** Why a disk could not do it. `taken`: a key to add is there; `full`: no room; `none`: no storage here; else `failed`. */
export type DiskTrouble = 'taken' | 'full' | 'none' | 'failed';

/** Thrown (as a rejected promise) by a disk, and caught within this folder. */
export class DiskError extends Error {
  readonly trouble: DiskTrouble;

  constructor(trouble: DiskTrouble, cause?: unknown) {
    super(`storage: ${trouble}`, { cause });
    this.trouble = trouble;
  }
}

/** Keys and values that outlive the page. Every call may reject with a `DiskError`. */
export interface Disk {
  get(key: string): Promise<unknown>;
  /** Entries whose keys begin with `prefix`, in the order of the keys; only those after a key, where one is given. */
  list(prefix: string, after?: string): Promise<readonly (readonly [key: string, value: unknown])[]>;
  /** The values of some keys, and what `list` gives of a prefix where there is one, all as they were at one moment. */
  look(
    keys: readonly string[],
    prefix?: string,
  ): Promise<{
    readonly values: readonly unknown[];
    readonly entries: readonly (readonly [string, unknown])[];
  }>;
  /** Wholly or not at all. The write has begun when this returns its promise, so that it may be called as the page goes. */
  write(batch: Batch): Promise<void>;
}

/** The trouble an error tells of. */
export function troubleOf(error: unknown): DiskTrouble {
  if (error instanceof DiskError) return error.trouble;
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  if (name === 'ConstraintError') return 'taken';
  return name === 'QuotaExceededError' ? 'full' : 'failed';
}

/** A disk in memory. `fail` is asked before each operation, counted from 1, and may name a trouble. */
export function memoryDisk(fail: (operation: number) => DiskTrouble | undefined = () => undefined): Disk {
  const entries = new Map<string, unknown>();
  let operation = 0;

  function begin(): void {
    operation++;
    const trouble = fail(operation);
    if (trouble) throw new DiskError(trouble);
  }

  function write({ add = [], put = [], delete: gone = [] }: Batch): void {
    begin();
    if (add.some(([key]) => entries.has(key))) throw new DiskError('taken');
    const copies = [...add, ...put].map(([key, value]) => [key, structuredClone(value)] as const);
    for (const [key, value] of copies) entries.set(key, value);
    for (const key of gone) entries.delete(key);
  }

  const read = (key: string) => structuredClone(entries.get(key));
  const listed = (prefix: string, after = '') =>
    [...entries.keys()]
      .filter((key) => key.startsWith(prefix) && key > after)
      .sort()
      .map((key) => [key, read(key)] as const);
  const reading =
    <Asked extends unknown[], Given>(give: (...asked: Asked) => Given) =>
    (...asked: Asked) =>
      attempt(() => {
        begin();
        return give(...asked);
      });

  return {
    get: reading(read),
    list: reading(listed),
    look: reading((keys: readonly string[], prefix?: string) => ({
      values: keys.map(read),
      entries: prefix === undefined ? [] : listed(prefix),
    })),
    write: (batch) => attempt(() => write(batch)),
  };
}

/** Does it now, and gives the outcome as a promise. */
function attempt<T>(act: () => T): Promise<T> {
  try {
    return Promise.resolve(act());
  } catch (error) {
    return Promise.reject(error);
  }
}
