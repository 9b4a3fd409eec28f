/*
 * Tabs of one browser: one of them owns a notebook, and they hear one another. The browser's means are Web Locks and
 * BroadcastChannel; the ones in memory stand in for browsers without them (one tab, then) and for tests of many.
 */

/** Messages on one channel; the sender does not hear its own. */
export interface Channel {
  post(message: unknown): void;
  close(): void;
}

/** How tabs find one another. */
export interface Tabs {
  /** Joins a channel; `hear` gets what others post, as plain data of unknown shape. */
  join(name: string, hear: (message: unknown) => void): Channel;
  /** Asks for a name that only one can have; `owned` is called once it is ours, which may be never. Gives what lets go. */
  own(name: string, owned: () => void): () => void;
  /** The name if it is free at this moment, as what lets it go again; undefined when another has it. */
  claim(name: string): Promise<(() => void) | undefined>;
}

/** The browser's tabs; where a means is missing, this tab is taken for the only one. */
export function browserTabs(): Tabs {
  const alone = memoryTabs().tab();
  return {
    join: typeof BroadcastChannel === 'undefined' ? alone.join : joinChannel,
    ...(typeof navigator === 'undefined' || navigator.locks === undefined
      ? { own: alone.own, claim: alone.claim }
      : { own: ownLock, claim: claimLock }),
  };
}

function joinChannel(name: string, hear: (message: unknown) => void): Channel {
  const channel = new BroadcastChannel(name);
  channel.onmessage = ({ data }) => hear(data);
  return { post: (message) => channel.postMessage(message), close: () => channel.close() };
}

function ownLock(name: string, owned: () => void): () => void {
  const waiting = new AbortController();
  let letGo = (): void => waiting.abort();
  const held = (): Promise<void> =>
    new Promise((resolve) => {
      letGo = resolve;
      owned();
    });
  // Aborting the wait rejects; that is the tab leaving, and no trouble.
  navigator.locks.request(name, { signal: waiting.signal }, held).catch(() => undefined);
  return () => letGo();
}

function claimLock(name: string): Promise<(() => void) | undefined> {
  return new Promise((told) => {
    const held = (lock: Lock | null): Promise<void> | undefined => {
      if (lock !== null) return new Promise((letGo) => told(letGo));
      told(undefined);
      return undefined;
    };
    navigator.locks.request(name, { ifAvailable: true }, held).catch(() => told(undefined));
  });
}

/** A tab in memory. `kill` takes it away without a word, as a crash does; `sleep` makes it deaf until it wakes. */
export interface MemoryTab extends Tabs {
  kill(): void;
  sleep(): void;
  wake(): void;
}

/** Several tabs in one memory. */
export function memoryTabs(): { tab(): MemoryTab } {
  const hearers = new Map<string, Set<(message: unknown) => void>>();
  const queues = new Map<string, (() => void)[]>();

  function tab(): MemoryTab {
    const leaving = new Set<() => void>();
    const unheard: (() => void)[] = [];
    let alive = true;
    let asleep = false;

    function join(name: string, listen: (message: unknown) => void): Channel {
      const hear = (message: unknown): void => {
        if (asleep) unheard.push(() => listen(message));
        else listen(message);
      };
      const here = hearers.get(name) ?? new Set();
      hearers.set(name, here);
      here.add(hear);
      const close = (): void => void here.delete(hear);
      leaving.add(close);
      return { post: (message) => void (alive && tellOthers(here, hear, message)), close };
    }

    function own(name: string, owned: () => void): () => void {
      const queue = queues.get(name) ?? [];
      queues.set(name, queue);
      queue.push(owned);
      if (queue[0] === owned) queueMicrotask(() => queue[0] === owned && owned());
      const letGo = (): void => leave(queue, owned);
      leaving.add(letGo);
      return letGo;
    }

    function claim(name: string): Promise<(() => void) | undefined> {
      if ((queues.get(name) ?? []).length > 0) return Promise.resolve(undefined);
      return Promise.resolve(own(name, () => undefined));
    }

    function kill(): void {
      alive = false;
      for (const leave of leaving) leave();
    }
    function wake(): void {
      asleep = false;
      for (const hear of unheard.splice(0)) hear();
    }
    const sleep = (): void => {
      asleep = true;
    };
    return { join, own, claim, kill, sleep, wake };
  }
  return { tab };
}

/** Each of the others gets a copy, a moment later, in the order of posting. */
function tellOthers(
  here: ReadonlySet<(message: unknown) => void>,
  me: (message: unknown) => void,
  message: unknown,
): void {
  const copy = structuredClone(message);
  for (const hear of here) if (hear !== me) setTimeout(() => here.has(hear) && hear(structuredClone(copy)));
}

function leave(queue: (() => void)[], owned: () => void): void {
  const place = queue.indexOf(owned);
  if (place >= 0) queue.splice(place, 1);
  const next = queue[0];
  if (place === 0 && next !== undefined) setTimeout(() => queue[0] === next && next());
}
