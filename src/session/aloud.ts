/* A printed value in words, for a screen reader. */

import { memo, type Printed, printed } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';

const SPOKEN: readonly (readonly [RegExp, string])[] = [
  [/\bsts\b/g, 'stitches'],
  [/\bst\b/g, 'stitch'],
  [/\brnds\b/g, 'rounds'],
  [/\brnd\b/g, 'round'],
  [/ \/ (?=hour)/g, ' an '],
  [/ \/ (?=[bdrsw])/g, ' a '],
  [/ \/ /g, ' to '],
  [/\bin\b/g, 'inches'],
  [/\bcm\b/g, 'centimetres'],
  [/\bmm\b/g, 'millimetres'],
  [/\bm\b/g, 'metres'],
  [/\byd\b/g, 'yards'],
  [/\bg\b/g, 'grams'],
  [/−/g, 'minus '],
  [/±/g, 'plus or minus'],
];

/** Numbers with their units in words: "42¾ inches", "18 stitches to 4 inches", "14 hours a week". */
function aloud(text: string): string {
  return SPOKEN.reduce((said, [pattern, words]) => said.replace(pattern, words), text);
}

/** A printed value in words for a screen reader. Only what has units is put in words: a label is "in the round". */
export function valueAloud(kind: Value['kind'], shown: Printed): string {
  if (kind === 'quantity') return quantityAloud(shown);
  return kind === 'plan' ? aloud(shown.number) : shown.number;
}

/** A quantity aloud. Most are a plain number with one of few units, and thousands are told at a nudge. */
export function quantityAloud({ number, unit }: Printed): string {
  if (!/^[\d.¼½¾⅛⅜⅝⅞]+$/.test(number)) return aloud(printed({ number, unit }));
  const { before, after } = unitsAloud(unit, aroundNumber);
  return before + number + after;
}

const unitsAloud = memo<{ readonly before: string; readonly after: string }>();

/** A unit in words, where it stands beside its number: a money sign before it, all else after it. */
function aroundNumber(unit: string): { readonly before: string; readonly after: string } {
  const words = aloud(printed({ number: '', unit }));
  return /^\p{Sc}$/u.test(words) ? { before: words, after: '' } : { before: '', after: words };
}
