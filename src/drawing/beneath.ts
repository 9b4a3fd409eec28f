/* What stands beneath a scene: a ruler, and the key with the labels that found no room in it. */

import { fitRun, formOf, formsOf, LINE_PX, runWidth, textAt, textsOf } from './labels.ts';
import type { LaidBlock, LaidText } from './laid.ts';
import { NOTHING } from './laid.ts';
import type { Scene } from './picture.ts';
import type { Box, Segment } from './place.ts';
import type { Placed } from './place-label.ts';
import { LETTER } from './place-label.ts';
import { segmentsData } from './trace.ts';

/** Ruler lengths, the longest first. */
const RULERS = { in: [8, 4, 2, 1], cm: [20, 10, 5, 1] } as const;

/** A ruler at height y, as long as fits in a third of the width. */
export function layRuler(
  unit: 'in' | 'cm',
  pxPerCm: number,
  y: number,
  widthPx: number,
  sizePx: number,
): LaidBlock {
  const unitPx = pxPerCm * (unit === 'in' ? 2.54 : 1);
  const count = RULERS[unit].find((size) => size * unitPx <= widthPx * 0.3);
  if (count === undefined) return NOTHING;
  const base = y + 16;
  const ticks = Array.from(
    { length: count + 1 },
    (_, k): Segment => [
      [1 + k * unitPx, base],
      [1 + k * unitPx, base - (k === 0 || k === count ? 8 : 4)],
    ],
  );
  const d = segmentsData([
    [
      [1, base],
      [1 + count * unitPx, base],
    ],
    ...ticks,
  ]);
  const text = `${count} ${unit}`;
  const box = { x: 8 + count * unitPx, y: base - 16, width: runWidth({ text }, sizePx), height: LINE_PX };
  return {
    heightPx: 26,
    pxPerCm,
    paths: [{ role: 'axis', d }],
    texts: [textAt({ text }, box, 'start', sizePx)],
  };
}

/** The letters A to Z, then AA, AB … */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}

/** The key at height y, one line for each label that found no room, and the letters that stand in the scene. */
export function layKey(scene: Scene, placed: readonly Placed[], y: number, widthPx: number, sizePx: number) {
  const texts: LaidText[] = [];
  const marks: { readonly letter: string; readonly box: Box }[] = [];
  let at = y + 4;
  placed.forEach((one, k) => {
    const label = scene.labels[k];
    if (!one.keyed || !label) return;
    const letter = one.letterAt ? letterOf(marks.length) : '';
    if (one.letterAt) marks.push({ letter, box: one.letterAt });
    const room = widthPx - KEY_INDENT;
    const form =
      formsOf(label.runs, sizePx, room)[0] ??
      formOf(
        label.runs.map((run) => [fitRun(run, sizePx, room)]),
        sizePx,
      );
    if (letter)
      texts.push(letterText(letter, { x: 0, y: at + (LINE_PX - LETTER.height) / 2, ...LETTER }, sizePx));
    texts.push(...textsOf(form, KEY_INDENT, at, 'start', sizePx));
    at += form.height;
  });
  return {
    heightPx: texts.length > 0 ? at - y : 0,
    texts,
    letters: (top: number) =>
      marks.map(({ letter, box }) => letterText(letter, { ...box, y: box.y - top }, sizePx)),
  };
}

const KEY_INDENT = 24;

function letterText(letter: string, box: Box, sizePx: number): LaidText {
  return { ...textAt({ text: letter }, box, 'middle', sizePx * 0.9), role: 'letter' };
}
