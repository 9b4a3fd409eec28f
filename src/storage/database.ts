/*
 * The browser's disk: one IndexedDB store, reached through idb-keyval with a store function of our own, for three reasons.
 * - Durability is strict: what is told to be saved has been handed to the drive, not only to the browser.
 * - A write is committed at once, in the same turn in which it is made: a page that is being left finishes no others.
 * - A throw inside a transaction (a value that cannot be cloned) aborts it: wholly or not at all.
 * Writes never read first, which is what makes committing at once possible.
 */
import { get, promisifyRequest, type UseStore } from 'idb-keyval';
import { type Batch, type Disk, DiskError, troubleOf } from './disk.ts';

const STORE = 'kept';

/** Opens the browser's disk. Rejects with a `DiskError` where there is none, or it cannot be opened within 5 s. */
export async function openDatabase(name = 'ellwand'): Promise<Disk> {
  if (typeof indexedDB === 'undefined') throw new DiskError('none');
  const connection = await new Connection(name).opened();
  return diskOn(connection.store);
}

/** One connection, opened again when the browser has closed it. */
class Connection {
  readonly #name: string;
  #database: IDBDatabase | undefined;

  constructor(name: string) {
    this.#name = name;
  }

  async opened(): Promise<Connection> {
    this.#database = await openWithin(this.#name, 5_000);
    // A tab of a later version may want to change the store: let it, and open again when next needed.
    this.#database.onversionchange = () => this.#close();
    this.#database.onclose = () => this.#close();
    return this;
  }

  #close(): void {
    this.#database?.close();
    this.#database = undefined;
  }

  /** idb-keyval's way to a store: begins in this very turn while the connection is open. */
  readonly store: UseStore = (mode, callback) => {
    const run = (database: IDBDatabase) => inTransaction(database, mode, callback);
    if (this.#database !== undefined) return attempt(this.#database, run);
    return this.opened().then(({ store }) => store(mode, callback));
  };
}

function attempt<T>(database: IDBDatabase, run: (database: IDBDatabase) => T | PromiseLike<T>): Promise<T> {
  try {
    return Promise.resolve(run(database));
  } catch (error) {
    return Promise.reject(error);
  }
}

function inTransaction<T>(
  database: IDBDatabase,
  mode: IDBTransactionMode,
  callback: (store: IDBObjectStore) => T | PromiseLike<T>,
): T | PromiseLike<T> {
  const options: IDBTransactionOptions = mode === 'readwrite' ? { durability: 'strict' } : {};
  const transaction = database.transaction(STORE, mode, options);
  try {
    const result = callback(transaction.objectStore(STORE));
    if (mode === 'readwrite') transaction.commit?.();
    return result;
  } catch (error) {
    transaction.abort();
    throw error;
  }
}

function openWithin(name: string, milliseconds: number): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new DiskError('none')), milliseconds);
    const request = indexedDB.open(name, 1);
    const ends = (settle: () => void) => (): void => {
      clearTimeout(timer);
      settle();
    };
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onsuccess = ends(() => resolve(request.result));
    request.onerror = ends(() => reject(new DiskError('none', request.error)));
  });
}

/** The disk on a store function. */
export function diskOn(store: UseStore): Disk {
  return {
    get: (key) => named(get(key, store)),
    list: (prefix, after) => named(store('readonly', (kept) => listed(kept, prefix, after))),
    look: (keys, prefix) => named(store('readonly', (kept) => lookedAt(kept, keys, prefix))),
    write: (batch) => named(store('readwrite', (kept) => written(kept, batch))),
  };
}

async function listed(kept: IDBObjectStore, prefix: string, after?: string) {
  const range = IDBKeyRange.bound(after ?? prefix, `${prefix}\uffff`, after !== undefined);
  const [keys, values] = await Promise.all([
    promisifyRequest(kept.getAllKeys(range)),
    promisifyRequest(kept.getAll(range)),
  ]);
  return keys.map((key, index) => [String(key), values[index] as unknown] as const);
}

async function lookedAt(kept: IDBObjectStore, keys: readonly string[], prefix?: string) {
  const [entries, ...values] = await Promise.all([
    prefix === undefined ? [] : listed(kept, prefix),
    ...keys.map((key) => promisifyRequest<unknown>(kept.get(key))),
  ]);
  return { entries, values };
}

function written(kept: IDBObjectStore, { add = [], put = [], delete: gone = [] }: Batch): Promise<void> {
  for (const [key, value] of add) kept.add(value, key);
  for (const [key, value] of put) kept.put(value, key);
  for (const key of gone) kept.delete(key);
  return whole(kept.transaction);
}

/** When all of a transaction is done; what undid it, where it is not. (Errors of its requests come here first, unnamed.) */
function whole(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new DiskError('failed'));
  });
}

/** The same promise, its error named as a trouble. */
function named<T>(promise: Promise<T>): Promise<T> {
  return promise.catch((error: unknown) => {
    throw new DiskError(troubleOf(error), error);
  });
}
