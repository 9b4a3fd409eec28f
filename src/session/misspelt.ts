/*
 * A cell's name written with its spaces and not quite rightly: "hatt stiches" for hat_stitches. To the language that is two
 * things side by side; here the words are held against the names there are.
 */

import { nearest, type Problem, problem, type Token, tokenise, WORDS } from '../formula/index.ts';
import type { Live } from './live.ts';

const SIDE_BY_SIDE: ReadonlySet<string> = new Set(['side-by-side', 'unit-after']);

/** The problem of a text, as the name that was meant where words in a row come near one; else as it is. */
export function orMisspelt(live: Live, text: string, found: Problem): Problem {
  if (!SIDE_BY_SIDE.has(found.code) || !found.at) return found;
  const { tokens } = tokenise(text.normalize('NFC'));
  const left = tokens.findIndex(({ from }) => from === found.at?.[0]);
  const names = live.sheet.cells.map((id) => live.sheet.nameOf(id)).filter((name) => name.includes('_'));
  const isWord = (i: number) => tokens[i]?.kind === 'name' && !WORDS.has(tokens[i]?.text ?? '');
  let first = left;
  let last = left + 1;
  while (isWord(first - 1)) first -= 1;
  while (isWord(last + 1)) last += 1;
  if (!isWord(left) || !isWord(left + 1)) return found;
  for (const words of runs(tokens, first, left, last)) {
    const isAllCells = words.every(({ text: word }) => live.sheet.idOf(word) !== undefined);
    const name = words.map(({ text: word }) => word).join('_');
    const near = isAllCells ? undefined : nearest(name, names);
    if (near)
      return problem('unknown-name-near', { name, near }, [words[0]?.from ?? 0, words.at(-1)?.to ?? 0]);
  }
  return found;
}

/** The runs of words from `first` to `last` that hold those at `left` and after it, the longest first. */
function runs(
  tokens: readonly Token[],
  first: number,
  left: number,
  last: number,
): readonly (readonly Token[])[] {
  const found: Token[][] = [];
  for (let from = first; from <= left; from += 1)
    for (let to = last; to > left; to -= 1) found.push(tokens.slice(from, to + 1));
  return found.sort((a, b) => b.length - a.length);
}
