/*
 * Trials put aside: to be set beside one another, or taken up later. They are kept with the open notebook, not in its file.
 */

import { spacedName } from '../formula/index.ts';
import type { Live, Overlay } from './live.ts';
import type { Trial } from './trial.ts';

/** A trial that was put aside. */
export interface AsideTrial extends Trial {
  readonly id: string;
}

/** A trial put aside, as it is listed. */
export interface AsideView {
  readonly id: string;
  /** Her name for it, or what it changes. */
  readonly title: string;
  /** "stitch gauge 18½ sts / 4 in; chest 42 in". */
  readonly changes: string;
}

/** So many letters of a name are kept. */
export const LONGEST_NAME = 40;

/** A trial in words: what it overlays and with what; "" where nothing of it is there any more. */
export function trialTitle(live: Live, trial: Trial): string {
  const parts = Object.entries(trial.texts).flatMap(([id, texts]) => {
    if (!live.sheet.has(id)) return [];
    const name = spacedName(live.sheet.nameOf(id));
    if (texts.each === undefined) return [`${name} ${asShown(texts.text)}`.trim()];
    const own = live.cell(id)?.each ?? {};
    const moved = live.columns.filter((column) => texts.each?.[column] !== own[column]);
    return moved.map((column) => `${name}, ${labelOf(live, column)} ${asShown(texts.each?.[column])}`.trim());
  });
  return parts.slice(0, 3).join('; ') + (parts.length > 3 ? ` and ${parts.length - 3} more` : '');
}

const FRACTIONS: Readonly<Record<string, string>> = { '5': '½', '25': '¼', '75': '¾' };

/** A typed text with its halves and quarters of stitches, rows and inches written as a knitter would. */
function asShown(text = ''): string {
  if (!/(?:sts?|rows?|rnds?|in)$/.test(text.trim())) return text;
  return text.replace(
    /(?<![\d.,])(\d+)\.(5|25|75)(?!\d)/g,
    (_, whole: string, part: string) => `${whole === '0' ? '' : whole}${FRACTIONS[part]}`,
  );
}

function labelOf(live: Live, column: string): string {
  return live.notebook.columns?.list.find(({ id }) => id === column)?.label ?? '';
}

/** A trial put aside, in words. */
export function asideView(live: Live, trial: AsideTrial): AsideView {
  const changes = trialTitle(live, trial) || 'nothing any more: its cells are gone';
  return { id: trial.id, title: trial.name ?? changes, changes };
}

/** What a trial lays over a notebook, as far as its cells are still there. */
export function overlayThere(live: Live, trial: Trial): Overlay {
  return new Map(Object.entries(trial.texts).filter(([id]) => live.cell(id)));
}
