/*
 * What a notebook's drawings are drawn from: each part is bound to a cell by name, and gets that cell's value for the
 * chosen column, in centimetres and ones, with the text the page prints. A cell that is missing, waits or has a
 * problem becomes a sentence instead.
 */

import type { Plan } from '../formula/index.ts';
import { spacedName } from '../formula/index.ts';
import type { Drawing, Step } from '../notebook/index.ts';
import { LENGTH, printed, ROW_GAUGE, STITCH_GAUGE } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { isRound } from '../telling/index.ts';
import { appliesNow } from './applies.ts';
import { isWorkedAgain, knittedNow, rowsDone } from './begun.ts';
import { fillStep } from './fill-step.ts';
import type { Live } from './live.ts';
import { blamedWords, printAt, waitsFor } from './show.ts';
import { isInRounds } from './shown-as.ts';
import { askedBy } from './step-text.ts';
import { type StepValues, stepValues } from './step-values.ts';

/** A part of a drawing, in the drawing's measures: cm, stitches or rows per cm, ones, g. */
export interface DrawnPart {
  readonly cell: string;
  readonly name: string;
  readonly value: number;
  readonly text: string;
  readonly plan?: Plan;
  /** True where its cell, or the step that knits it, has the plan knitted in the round. */
  readonly round?: boolean;
}

/** A drawing of the notebook with its parts as they are now. */
export interface DrawingView {
  readonly id: string;
  readonly kind: string;
  readonly title: string;
  readonly parts: Readonly<Record<string, DrawnPart | string>>;
  /** True where its plan is not knitted now: then it need not be seen. */
  readonly laidAside: boolean;
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

function partOf(values: StepValues, name: string, at?: number): DrawnPart | string {
  const { live, column: chosen, value: valueAt } = values;
  const id = live.sheet.idOf(name);
  const words = spacedName(name);
  if (id === undefined) return `There is no cell called “${words}”.`;
  const column = live.sheet.info(id).each ? Math.max(0, at ?? chosen) : 0;
  const value = valueAt(id, column);
  const label = at === undefined ? undefined : live.sheet.columnLabels[at];
  const what = label === undefined ? `“${words}”` : `“${words}” of ${label}`;
  if (value.kind === 'empty') return `${what} is empty.`;
  if (value.kind === 'waiting') return `${what} is waiting for ${waitsFor(live, value)}.`;
  if (value.kind === 'problem') {
    const blamed = live.blamedFor(id);
    return blamed ? `${what} is waiting for ${blamedWords(live, blamed)}.` : `${what} has a problem.`;
  }
  const part = {
    cell: id,
    name: label ?? words,
    value: measured(value),
    text: printed(printAt(live, id, column, value)),
  };
  if (value.kind !== 'plan') return part;
  if (isLaidAside(values, name)) return `${what} is not knitted here.`;
  const round = isInRounds(live, id, column) || isRoundIn(values, name);
  return { ...part, plan: value.plan, ...(round ? { round } : {}) };
}

/** The steps that knit the plan of a cell, in use or not. */
function stepsWith(values: StepValues, name: string): readonly Step[] {
  const place = `{${name}}`;
  return values.live.notebook.steps.filter((step) => step.text.includes(place));
}

/** The step in use that knits the plan of a cell. */
function stepWith(values: StepValues, name: string): Step | undefined {
  return stepsWith(values, name).find((step) => appliesNow(values, step) !== false);
}

/** Whether a plan is told in steps and none of them is in use: then there is nothing of it to draw. */
function isLaidAside(values: StepValues, name: string): boolean {
  return stepsWith(values, name).length > 0 && stepWith(values, name) === undefined;
}

/** The cells that say whether the plan of a drawing is knitted. */
function askedFirst(values: StepValues, { binds }: Drawing): readonly string[] {
  const steps = stepsWith(values, binds['plan'] ?? '');
  return steps.flatMap(({ when = '' }) => values.live.sheet.idOf(askedBy(when).name) ?? []);
}

/** Whether the plan of a cell is knitted in the round, as the step has it that knits it. */
function isRoundIn(values: StepValues, name: string): boolean {
  const step = stepWith(values, name);
  return step !== undefined && isRound(fillStep(values, step).parts);
}

type DrawnParts = readonly (readonly [part: string, what: DrawnPart | string])[];

/** A part bound under `each_…` is one part for every column: `each_part` is `part_c1`, `part_c2` … */
function partsFor(values: StepValues, part: string, name: string): DrawnParts {
  const every = /^each_(.+)$/.exec(part)?.[1];
  const { columns } = values.live;
  const id = values.live.sheet.idOf(name);
  if (every === undefined || id === undefined || !values.live.sheet.info(id).each)
    return [[every ?? part, partOf(values, name)]];
  return columns.map((column, at) => [`${every}_${column}`, partOf(values, name, at)]);
}

/** Which part says how far she is, by the kind of drawing, and what may say so already. */
const HERE: Readonly<Record<string, readonly [part: string, ...instead: string[]]>> = {
  shaping: ['row'],
  edging: ['rows_done', 'live_left'],
};

/**
 * The rows that are counted off in the step that knits a drawing's plan, where nothing else says how far she is; not
 * once the plan was worked out again from another count, as the drawing is of the plan before that.
 */
function hereOn(values: StepValues, { kind, binds }: Drawing): DrawnParts {
  const [part, ...instead] = HERE[kind] ?? [];
  const name = binds['plan'];
  if (part === undefined || name === undefined || [part, ...instead].some((one) => one in binds)) return [];
  const step = stepWith(values, name);
  const done = step ? rowsDone(knittedNow(values), step.id) : 0;
  const cell = values.live.sheet.idOf(name);
  if (done === 0 || !step || cell === undefined) return [];
  if (isWorkedAgain(knittedNow(values), step.id)) return [];
  const noun = isRound(fillStep(values, step).parts) ? 'rnd' : 'row';
  return [[part, { cell, name: `${noun}s done`, value: done, text: `${noun} ${done}` }]];
}

/** Every drawing of the notebook, with the values of now or with those given. */
export function drawingsOf(live: Live, values = stepValues(live, undefined)): readonly DrawingView[] {
  return live.notebook.drawings.map((drawing) => {
    const bound = Object.entries(drawing.binds).flatMap(([part, name]) => partsFor(values, part, name));
    const parts = [...bound, ...hereOn(values, drawing)];
    return {
      id: drawing.id,
      kind: drawing.kind,
      title: drawing.title ?? '',
      parts: Object.fromEntries(parts),
      laidAside: isLaidAside(values, drawing.binds['plan'] ?? ''),
      cells: [
        ...new Set([
          ...parts.flatMap(([, part]) => (typeof part === 'string' ? [] : [part.cell])),
          ...askedFirst(values, drawing),
        ]),
      ],
    };
  });
}
