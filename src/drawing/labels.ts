/*
 * A label as lines of text: in one line, or one run under another where room is short. Its size is known before it
 * stands anywhere, so that the place can be sought for it.
 */

import type { LaidText } from './laid.ts';
import { fitEm, widthEm } from './measure.ts';
import type { Run } from './picture.ts';
import type { Box } from './place.ts';

/** The height of a line: what a finger can touch beside another. */
export const LINE_PX = 24;

/** Between two runs of one line stands a point with air on both sides. */
const POINT = '·';
const AIR_EM = 0.3;

/** A label in a certain shape, with its size in pixels. */
export interface Form {
  readonly lines: readonly (readonly Run[])[];
  readonly width: number;
  readonly height: number;
}

export type Align = 'start' | 'middle' | 'end';

const between = (sizePx: number) => (widthEm(POINT, 'regular') + 2 * AIR_EM) * sizePx;

/** The width of a run in pixels: the words before it, its value (strong, where it is a cell's), the words after. */
export function runWidth(run: Run, sizePx: number): number {
  const around = `${run.before ? `${run.before} ` : ''}${run.after ? ` ${run.after}` : ''}`;
  return (widthEm(around, 'regular') + widthEm(run.text, weightOf(run))) * sizePx;
}

const weightOf = (run: Run) => (run.cell === undefined ? 'regular' : 'strong');

function lineWidth(line: readonly Run[], sizePx: number): number {
  const runs = line.reduce((sum, run) => sum + runWidth(run, sizePx), 0);
  return runs + between(sizePx) * Math.max(0, line.length - 1);
}

/** A form of given lines. */
export function formOf(lines: readonly (readonly Run[])[], sizePx: number): Form {
  const width = Math.max(0, ...lines.map((line) => lineWidth(line, sizePx)));
  return { lines, width, height: lines.length * LINE_PX };
}

/** The forms a label can take, the flattest first; runs are cut to fit `widest` pixels. */
export function formsOf(runs: readonly Run[], sizePx: number, widest: number): readonly Form[] {
  const cut = runs.map((run) => fitRun(run, sizePx, widest));
  const forms = [formOf([cut], sizePx)];
  if (cut.length === 3) forms.push(formOf([cut.slice(0, 1), cut.slice(1)], sizePx));
  if (cut.length > 1) forms.push(stacked(cut, sizePx));
  return forms.filter((form) => form.width <= widest + 1e-6);
}

/** One run under another. */
export function stacked(runs: readonly Run[], sizePx: number): Form {
  return formOf(
    runs.map((run) => [run]),
    sizePx,
  );
}

/** A run cut to a width: its words after go first, then its words before, then its value is shortened. */
export function fitRun(run: Run, sizePx: number, widest: number): Run {
  if (runWidth(run, sizePx) <= widest) return run;
  const { after: _, ...short } = run;
  if (runWidth(short, sizePx) <= widest) return short;
  const { before: __, ...bare } = short;
  return { ...bare, text: fitEm(bare.text, widest / sizePx, weightOf(run)) };
}

/** The texts of a form whose top left corner is at a place. */
export function textsOf(form: Form, x: number, y: number, align: Align, sizePx: number): readonly LaidText[] {
  return form.lines.flatMap((line, k) => lineTexts(line, { ...form, x, y: y + k * LINE_PX }, align, sizePx));
}

function lineTexts(line: readonly Run[], box: Box, align: Align, sizePx: number): readonly LaidText[] {
  const width = lineWidth(line, sizePx);
  const slack = box.width - width;
  let left = box.x + (align === 'start' ? 0 : align === 'end' ? slack : slack / 2);
  return line.flatMap((run, k) => {
    const own = { x: left, y: box.y, width: runWidth(run, sizePx), height: LINE_PX };
    left += own.width + between(sizePx);
    const text = textAt(run, own, anchorOf(k, line.length, align), sizePx);
    return k === line.length - 1 ? [text] : [text, pointAfter(own, sizePx)];
  });
}

/** In a line of two the texts lean on the point between them, so that no gap opens where a text is narrower. */
function anchorOf(k: number, count: number, align: Align): Align {
  if (count === 1) return align;
  return k === 0 && align !== 'start' ? 'end' : 'start';
}

/** A run standing in its box. */
export function textAt(run: Run, box: Box, anchor: Align, sizePx: number): LaidText {
  const share = anchor === 'start' ? 0 : anchor === 'end' ? 1 : 0.5;
  return {
    role: run.cell === undefined ? 'plain' : 'label',
    x: box.x + share * box.width,
    y: box.y + box.height / 2 + sizePx * 0.35,
    anchor,
    sizePx,
    before: run.before ?? '',
    text: run.text,
    after: run.after ?? '',
    ...(run.cell === undefined ? {} : { cell: run.cell }),
    box,
  };
}

function pointAfter(box: Box, sizePx: number): LaidText {
  const place = { ...box, x: box.x + box.width, width: between(sizePx) };
  return textAt({ text: POINT }, place, 'middle', sizePx);
}
