/** How many single-letter edits lead from one word to another, up to `most`; more counts as `most + 1`. */
export function editsBetween(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const swap = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(swap, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    if (Math.min(...next) > most) return most + 1;
    row = next;
  }
  return row[b.length] ?? most + 1;
}

/** The word nearest to what was written, where one is near enough to be meant; of two as near, the first in the alphabet. */
export function nearest(written: string, words: Iterable<string>): string | undefined {
  const most = written.length < 4 ? 1 : written.length < 8 ? 2 : 3;
  let best: string | undefined;
  let fewest = most + 1;
  for (const word of words) {
    const edits = editsBetween(written.toLowerCase(), word.toLowerCase(), Math.min(fewest, most));
    if (edits < fewest || (edits === fewest && best !== undefined && word < best)) {
      best = word;
      fewest = edits;
    }
  }
  return best;
}
