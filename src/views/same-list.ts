/** True when two lists hold the same names in the same order. */
export function isSameList(old: readonly string[], now: readonly string[]): boolean {
  return old === now || (old.length === now.length && old.every((name, i) => name === now[i]));
}
