/** So many results are remembered where nothing else is said. */
const MOST = 1000;

/**
 * The results of something worked out from a key, remembered: what is asked for at every value or every formula, while
 * there are few different ones. `work` gives a result that is not there yet. Beyond `most`, all are forgotten.
 */
export function memo<Result>(most = MOST): (key: string, work: (key: string) => Result) => Result {
  const known = new Map<string, Result>();
  return (key, work) => {
    const before = known.get(key);
    if (before !== undefined || known.has(key)) return before as Result;
    const result = work(key);
    if (known.size >= most) known.clear();
    known.set(key, result);
    return result;
  };
}
