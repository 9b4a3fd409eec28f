/** A problem a knitter can cause, as data: which one, where in the text, and the parts its sentence names. */
export interface Problem {
  /** Which problem: a short fixed word that `telling/problems.ts` turns into one sentence. */
  readonly code: string;
  /** From and to, in characters of the cell's text; absent when it is about no place in particular. */
  readonly at?: readonly [from: number, to: number];
  /** What the sentence names: names of cells, readings, offers. */
  readonly parts: Readonly<Record<string, string | number | readonly string[]>>;
}

/** A problem, in one line. */
export function problem(
  code: string,
  parts: Problem['parts'] = {},
  at?: readonly [from: number, to: number],
): Problem {
  return at ? { code, at, parts } : { code, parts };
}
