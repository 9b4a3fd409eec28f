/*
 * How wide a text is, without asking a browser. A text may turn out a little narrower than this says, never wider.
 */

import { WIDTHS } from './widths.ts';

/** `strong` for values, which are set in weight 600; `regular` for the words around them. */
export type Weight = 'regular' | 'strong';

const TABLE = new Map(
  WIDTHS.flatMap(([regular, strong, text]) => [...text].map((c) => [c, { regular, strong }] as const)),
);

/** Letters with accents are as wide as those without; other scripts are taken as wider than they are high. */
const OTHER = 105;

function hundredths(character: string, weight: Weight): number {
  const entry = TABLE.get(character) ?? TABLE.get(character.normalize('NFD').charAt(0));
  return entry?.[weight] ?? OTHER;
}

/** The width of a text in ems, never too small. */
export function widthEm(text: string, weight: Weight): number {
  let sum = 0;
  for (const character of text) sum += hundredths(character, weight);
  return sum / 100;
}

/** A text cut to fit into so many ems, with "…" where it was cut. */
export function fitEm(text: string, em: number, weight: Weight): string {
  if (widthEm(text, weight) <= em) return text;
  const room = em - widthEm('…', weight);
  let used = 0;
  let kept = '';
  for (const character of text) {
    used += hundredths(character, weight) / 100;
    if (used > room) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}

/** Text size in pixels for a drawing so many pixels wide: 13 on a phone, 16 on a wide page. */
export function textSizePx(widthPx: number): number {
  return Math.max(13, Math.min(16, 11.6 + widthPx / 230));
}
