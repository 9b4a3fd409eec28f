/*
 * A second place for what is kept, apart from the database. Chromium throws a whole database away when it finds one torn record
 * in it, and a browser that is killed in mid-write can leave one ("database was corrupt: checksum mismatch", seen about
 * once in 25 kills under constant writing). Its Cache Storage keeps each entry in a file of its own and came through the same
 * killing whole; so the copies go there.
 */

/** Texts by name, each written wholly or not at all. Every call may reject. */
export interface Copies {
  put(name: string, text: string): Promise<void>;
  get(name: string): Promise<string | undefined>;
  /** Names that begin with `prefix`. */
  names(prefix: string): Promise<readonly string[]>;
  remove(name: string): Promise<void>;
}

/** A cache takes no addresses of files: a page opened from one keeps its copies under a name that leads nowhere. */
const base = (): string => (location.protocol === 'file:' ? 'https://ellwand.invalid' : '');

/** The browser's; undefined where there is none. */
export async function browserCopies(): Promise<Copies | undefined> {
  try {
    const cache = await caches.open('ellwand copies');
    const address = (name: string): string => `${base()}/ellwand-copies/${encodeURIComponent(name)}`;
    const nameOf = ({ url }: Request): string =>
      decodeURIComponent(new URL(url).pathname.split('/').at(-1) ?? '');
    return {
      put: (name, text) => cache.put(address(name), new Response(text)),
      get: async (name) => (await cache.match(address(name)))?.text(),
      names: async (prefix) => (await cache.keys()).map(nameOf).filter((name) => name.startsWith(prefix)),
      remove: async (name) => void (await cache.delete(address(name))),
    };
  } catch {
    return undefined;
  }
}

/** Copies in memory, for tests. */
export function memoryCopies(): Copies {
  const texts = new Map<string, string>();
  return {
    put: (name, text) => Promise.resolve(void texts.set(name, text)),
    get: (name) => Promise.resolve(texts.get(name)),
    names: (prefix) => Promise.resolve([...texts.keys()].filter((name) => name.startsWith(prefix))),
    remove: (name) => Promise.resolve(void texts.delete(name)),
  };
}
