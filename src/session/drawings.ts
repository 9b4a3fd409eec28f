/*
 * What a notebook's drawings are drawn from: each part is bound to a cell by name, and gets that cell's value for the
 * chosen column, in centimetres and ones, with the text the page prints. A cell that is missing, waits or has a
 * problem becomes a sentence instead.
 */

import type { Plan } from '../formula/index.ts';
import { spacedName } from '../formula/index.ts';
import { LENGTH, printed, ROW_GAUGE, STITCH_GAUGE } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { printAt, waitsFor } from './show.ts';
import { type StepValues, stepValues } from './step-values.ts';

/** A part of a drawing, in the drawing's measures: cm, stitches or rows per cm, ones, g. */
export interface DrawnPart {
  readonly cell: string;
  readonly name: string;
  readonly value: number;
  readonly text: string;
  readonly plan?: Plan;
}

/** A drawing of the notebook with its parts as they are now. */
export interface DrawingView {
  readonly id: string;
  readonly kind: string;
  readonly title: string;
  readonly parts: Readonly<Record<string, DrawnPart | string>>;
  /** The cells it shows, for knowing when to draw it again. */
  readonly cells: readonly string[];
}

const MICRO = 1000;

function measured(value: Value): number {
  if (value.kind !== 'quantity') return Number.NaN;
  const { dimension } = value.type;
  if (dimension === LENGTH) return value.value / MICRO;
  return dimension === STITCH_GAUGE || dimension === ROW_GAUGE ? value.value * MICRO : value.value;
}

function partOf({ live, column: chosen, value: valueAt }: StepValues, name: string): DrawnPart | string {
  const id = live.sheet.idOf(name);
  const words = spacedName(name);
  if (id === undefined) return `There is no cell called “${words}”.`;
  const column = live.sheet.info(id).each ? Math.max(0, chosen) : 0;
  const value = valueAt(id, column);
  if (value.kind === 'empty') return `“${words}” is empty.`;
  if (value.kind === 'waiting') return `“${words}” is waiting for ${waitsFor(live, value)}.`;
  if (value.kind === 'problem') return `“${words}” has a problem.`;
  const part = {
    cell: id,
    name: words,
    value: measured(value),
    text: printed(printAt(live, id, column, value)),
  };
  return value.kind === 'plan' ? { ...part, plan: value.plan } : part;
}

/** Every drawing of the notebook, with the values of now or with those given. */
export function drawingsOf(live: Live, values = stepValues(live, undefined)): readonly DrawingView[] {
  return live.notebook.drawings.map((drawing) => {
    const parts = Object.entries(drawing.binds).map(([part, name]) => [part, partOf(values, name)] as const);
    return {
      id: drawing.id,
      kind: drawing.kind,
      title: drawing.title ?? '',
      parts: Object.fromEntries(parts),
      cells: parts.flatMap(([, part]) => (typeof part === 'string' ? [] : [part.cell])),
    };
  });
}
