/* What stood side by side the last time, for each notebook of this device. */

const KEY = 'ellwand side by side';

/** The keys of what stood side by side; undefined where nothing was chosen, or nothing can be kept. */
export function readBeside(id: string): readonly string[] | undefined {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(`${KEY} ${id}`) ?? 'null');
    return Array.isArray(kept) && kept.every((key) => typeof key === 'string') ? kept : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps what stands side by side. */
export function keepBeside(id: string, keys: readonly string[]): void {
  try {
    localStorage.setItem(`${KEY} ${id}`, JSON.stringify(keys));
  } catch {
    // Without it, the trials stand side by side again next time.
  }
}
