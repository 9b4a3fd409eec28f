/*
 * Small things this browser remembers for the next visit, by key. A browser that keeps nothing forgets them, and the
 * page does as on a first visit.
 */

/** What was remembered; undefined where nothing was, or nothing can be. */
export function recall(key: string): string | undefined {
  try {
    return localStorage.getItem(key) ?? undefined;
  } catch {
    return undefined;
  }
}

/** Remembers a text, if the browser lets it. */
export function remember(key: string, text: string): void {
  try {
    localStorage.setItem(key, text);
  } catch {
    // Forgotten, then.
  }
}

/** Forgets what was remembered by a key. */
export function forget(key: string): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Nothing was remembered, then.
  }
}
