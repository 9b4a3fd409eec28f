import { createSignal, type Setter } from 'solid-js';

/** A tracked set of names: asking for one is told only when that one comes or goes. */
export interface Flags {
  has(name: string): boolean;
  set(name: string, on: boolean): void;
  /** Makes it hold exactly these. */
  replace(names: Iterable<string>): void;
  /** Those it holds, untracked, in the order they came. */
  list(): readonly string[];
}

/** An empty set of flags. A change costs one signal for each name that comes or goes. */
export function createFlags(): Flags {
  const held = new Set<string>();
  const signals = new Map<string, readonly [() => boolean, Setter<boolean>]>();
  const set = (name: string, on: boolean) => {
    if (on) held.add(name);
    else held.delete(name);
    signals.get(name)?.[1](on);
  };
  return {
    has(name) {
      let signal = signals.get(name);
      if (!signal) {
        signal = createSignal(held.has(name));
        signals.set(name, signal);
      }
      return signal[0]();
    },
    set,
    replace(names) {
      const wanted = new Set(names);
      for (const name of [...held]) if (!wanted.has(name)) set(name, false);
      for (const name of wanted) if (!held.has(name)) set(name, true);
    },
    list: () => [...held],
  };
}
