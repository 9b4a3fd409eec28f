/* Whether what is tried says what the notebook says: then nothing is tried. */

import { tokenise } from '../formula/index.ts';
import type { Cell } from '../notebook/index.ts';
import type { Live } from './live.ts';
import { numberIn } from './show.ts';
import type { TriedText } from './trial.ts';
import { plusMinusAt } from './typed-text.ts';

/** True when what is tried has come back to what the notebook says: then nothing is tried any more. */
export function isBack(live: Live, cell: Cell, texts: TriedText): boolean {
  if (texts.each === undefined) return isSameNumber(live, cell.text, texts.text);
  return Object.entries(texts.each).every(([column, text]) => isSameNumber(live, cell.each?.[column], text));
}

/** True for the same text, and for the same number and unit written otherwise: 3 1/2 in and 3½ in. */
function isSameNumber(live: Live, before = '', now = ''): boolean {
  if (before === now) return true;
  if (tolerance(before) !== tolerance(now)) return false;
  const [was, is] = [before, now].map((text) => numberIn(live, text));
  return was !== undefined && was.number === is?.number && was.shown.label === is.shown.label;
}

/** The number after the ± of a text; 0 where it has none. */
function tolerance(text: string): number {
  const { tokens } = tokenise(text.slice(plusMinusAt(text)));
  return tokens.find(({ kind }) => kind === 'number')?.value ?? 0;
}
