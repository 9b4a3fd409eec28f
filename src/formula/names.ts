/*
 * What a cell may be called, how its name reads with spaces, and how a text is rewritten when it changes. A name
 * begins with a letter of any script and holds letters, digits and `_`.
 */

import { unitNamed } from '../quantity/index.ts';
import { WORDS } from './arrange.ts';
import { type Problem, problem } from './problem.ts';
import { type Token, tokenise } from './token.ts';

const NAME = /^\p{L}[\p{L}\p{M}\p{N}_]*$/u;
const LONGEST = 64;

/** What to call a cell whose wished name is a unit. */
const INSTEAD: Readonly<Record<string, string>> = {
  g: 'gauge',
  m: 'metres',
  st: 'stitch_count',
  row: 'row_count',
  rows: 'row_count',
  in: 'inches_wide',
  day: 'day_of_month',
  days: 'days_left',
  hours: 'hours_left',
  skeins: 'skeins_needed',
  stitches: 'stitch_count',
  balls: 'balls_needed',
};

/** Signs that join words or stand about them, which a name cannot have: cast-on, front/back, (flat). */
const JOINING = /(?<=[\p{L}\p{N}])[-‐–/.](?=\p{L})|[()[\]]/gu;
const APOSTROPHE = /(?<=\p{L})['’](?=\p{L})/gu;

/** A wished name as formulas write it: NFC, spaces to `_` and so are signs between words, no space around. */
export function formulaName(wished: string): string {
  return wished
    .normalize('NFC')
    .replace(APOSTROPHE, '')
    .replace(JOINING, ' ')
    .trim()
    .replace(/[\s_]+/gu, '_');
}

/** A name as the page shows it. */
export function spacedName(name: string): string {
  return name.replace(/_/g, ' ');
}

/** Why a cell may not be called this; undefined where it may. `taken` is the cell that has the name already, if any. */
export function nameProblem(
  name: string,
  taken: (folded: string) => string | undefined,
): Problem | undefined {
  if (name === '') return problem('name-empty');
  if (name.length > LONGEST) return problem('name-long', { limit: LONGEST });
  if (!NAME.test(name)) return problem('name-letters', { name });
  if (WORDS.has(name)) return problem('name-word', { name });
  const unit = unitNamed(name);
  if (unit)
    return problem('name-unit', { name, unit: unit.symbol, instead: INSTEAD[name] ?? `${name}_wanted` });
  const other = taken(name.toLowerCase());
  return other === undefined ? undefined : problem('name-taken', { name, other });
}

function rewritten(
  text: string,
  tokens: readonly Token[],
  turn: (token: Token, next: Token | undefined) => string | undefined,
): string {
  let out = '';
  let from = 0;
  tokens.forEach((token, i) => {
    const turned = turn(token, tokens[i + 1]);
    if (turned === undefined) return;
    out += text.slice(from, token.from) + turned;
    from = token.to;
  });
  return out + text.slice(from);
}

/** A text with one cell's name changed wherever it names that cell (a function of the same name stays). */
export function renameCellIn(text: string, old: string, renamed: string): string {
  const nfc = text.normalize('NFC');
  return rewritten(nfc, tokenise(nfc).tokens, (token, next) => {
    const called = next?.kind === 'open' && next.from === token.to;
    return token.kind === 'name' && token.text === old && !called ? renamed : undefined;
  });
}

/** A text with a column's label changed wherever it stands in quotes. */
export function renameLabelIn(text: string, old: string, renamed: string): string {
  const nfc = text.normalize('NFC');
  return rewritten(nfc, tokenise(nfc).tokens, (token) =>
    token.kind === 'label' && token.text.toLowerCase() === old.toLowerCase() ? `"${renamed}"` : undefined,
  );
}
