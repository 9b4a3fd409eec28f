/*
 * Most typed values are one short number with one unit, `42 in`. They are read at once, just as the long way reads them;
 * and where one is written over another with the same unit, as in every nudge, only the number is read.
 */

import { memo, readUnit, type Shown, unitNamed } from '../quantity/index.ts';
import { WORDS } from './arrange.ts';
import type { Parsed } from './parse.ts';

/** So many characters a number may have to be read at once: its digits, and what they are divided by, are exact. */
const SHORT = 10;
/** The character code of `0`, and what `.` is beside it. */
const ZERO = 48;
const POINT = -2;

const unitAlone = memo<Shown | undefined>();

/** The unit that stands alone behind a number; undefined where it is none, or is more than a short word. */
function unitOfWord(word: string): Shown | undefined {
  if (word === '') return readUnit('');
  return /^[a-z]{1,8}$/.test(word) && !WORDS.has(word) && unitNamed(word) ? readUnit(word) : undefined;
}

/** Where the digits that a text begins with end, with at most one point among them; 0 where they are none, or too many. */
function digitsEnd(text: string): number {
  let point = 0;
  let at = 0;
  for (; at < text.length; at += 1) {
    const next = text.charCodeAt(at) - ZERO;
    if (next >= 0 && next <= 9) continue;
    if (next !== POINT || point > 0 || at === 0) break;
    point = at;
  }
  return at > SHORT || (point > 0 && point === at - 1) ? 0 : at;
}

/** The number that the digits up to `end` make. */
function numberUpTo(text: string, end: number): number {
  let digits = 0;
  let over = 1;
  for (let at = 0, times = 1; at < end; at += 1) {
    const next = text.charCodeAt(at) - ZERO;
    if (next === POINT) times = 10;
    else {
      digits = 10 * digits + next;
      over *= times;
    }
  }
  return digits / over;
}

/** What a text says that is one short number with one unit; undefined for any other. */
export function parseSimple(text: string): Parsed | undefined {
  const end = digitsEnd(text);
  if (end === 0 || (end < text.length && text[end] !== ' ')) return undefined;
  const shown = unitAlone(text.slice(end + 1), unitOfWord);
  if (!shown) return undefined;
  const value = numberUpTo(text, end) * shown.factor;
  return {
    kind: 'tree',
    tree: { kind: 'literal', value, shown, percent: false, at: [0, text.length] },
    typed: true,
  };
}

/**
 * The value, in base units, of a text that is one short number with this very unit (undefined: none); NaN for any other,
 * whatever it says.
 */
export function valueIn(shown: Shown | undefined, text: string): number {
  const end = digitsEnd(text);
  if (end === 0) return Number.NaN;
  if (!shown) return end === text.length ? numberUpTo(text, end) : Number.NaN;
  const { label, factor } = shown;
  if (text.length !== end + 1 + label.length || text[end] !== ' ' || !text.endsWith(label)) return Number.NaN;
  return unitAlone(label, unitOfWord) === shown ? numberUpTo(text, end) * factor : Number.NaN;
}
