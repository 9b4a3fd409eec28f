/* A printed value in words, for a screen reader. */

import { memo, type Printed, printed } from '../quantity/index.ts';

const SPOKEN: readonly (readonly [RegExp, string])[] = [
  [/\bsts\b/g, 'stitches'],
  [/\bst\b/g, 'stitch'],
  [/\brnds\b/g, 'rounds'],
  [/\brnd\b/g, 'round'],
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

/** A printed value in words for a screen reader: "42¾ inches", "18 stitches to 4 inches". */
export function aloud(text: string): string {
  return SPOKEN.reduce((said, [pattern, words]) => said.replace(pattern, words), text);
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
