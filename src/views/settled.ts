import { type Accessor, createComputed, createSignal } from 'solid-js';

/**
 * What is read from the page by many rows, told only when it differs. A memo would do the same, but whatever hangs on a
 * memo is marked, and looked at, each time that the memo may have changed: thousands of rows at every nudge.
 */
export function createSettled<T>(
  read: () => T,
  equals: (old: T, now: T) => boolean = Object.is,
): Accessor<T> {
  const [value, setValue] = createSignal(read(), { equals });
  createComputed(() => {
    const now = read();
    setValue(() => now);
  });
  return value;
}
