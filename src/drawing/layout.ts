/* A picture at one width: every text and line at its final place in pixels. */

import type { Laid, LaidBlock } from './laid.ts';
import { NOTHING } from './laid.ts';
import { layBars } from './lay-bars.ts';
import { layScene } from './lay-scene.ts';
import { layStrip } from './lay-strip.ts';
import { textSizePx } from './measure.ts';
import type { Picture } from './picture.ts';

/** The narrowest and the widest a drawing is laid out for; outside, the SVG is scaled as a whole. */
const NARROWEST_PX = 240;
const WIDEST_PX = 1600;

/** Lays a picture out for a width in pixels. Texts are 13 to 16 px and no two overlap. Takes a few milliseconds. */
export function layOut(picture: Picture, widthPx: number): Laid {
  const width = Number.isNaN(widthPx) ? NARROWEST_PX : Math.max(NARROWEST_PX, Math.min(WIDEST_PX, widthPx));
  return { widthPx: width, ...layBlock(picture, width, textSizePx(width)) };
}

function layBlock({ block }: Picture, widthPx: number, sizePx: number): LaidBlock {
  if (!block) return NOTHING;
  if (block.kind === 'scene') return layScene(block, widthPx, sizePx);
  if (block.kind === 'bars') return layBars(block, widthPx, sizePx);
  return layStrip(block, widthPx, sizePx);
}
