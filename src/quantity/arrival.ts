/** A part of the program that is fetched when it is first wanted. */
export interface Arrival<Part> {
  /** The part; undefined before it has come. */
  here(): Part | undefined;
  /** Fetches it, once. Rejects where it cannot be fetched; may be called again. */
  fetch(): Promise<void>;
  /** Calls once when it has come, where it is still to come. */
  when(call: () => void): void;
}

/** A part that `load` brings. */
export function createArrival<Part>(load: () => Promise<Part>): Arrival<Part> {
  let part: Part | undefined;
  let coming: Promise<void> | undefined;
  let waiting: (() => void)[] = [];
  const come = (loaded: Part) => {
    part = loaded;
    const calls = waiting;
    waiting = [];
    for (const call of calls) call();
  };
  return {
    here: () => part,
    fetch: () => {
      coming ??= load().then(come, (error: unknown) => {
        coming = undefined; // The next call tries again.
        throw error;
      });
      return coming;
    },
    when: (call) => {
      if (part === undefined) waiting.push(call);
    },
  };
}
