/*
 * The notebook as it goes on paper: for the chosen column, with the values it stands by and not those of a change
 * that is tried. Plans stand in the steps, with a table of their shapings to tick; what is empty is left out.
 */

import { nextShaping } from '../craft/index.ts';
import { type Plan, spacedName } from '../formula/index.ts';
import type { Section } from '../notebook/index.ts';
import { isCount, isGauge, PLAIN, printed } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { nounOf } from '../telling/index.ts';
import { planIn } from './counter.ts';
import { type DrawingView, drawingsOf } from './drawings.ts';
import type { StepsView } from './page.ts';
import { printAt, printTolerance, saysAt, unechoed } from './show.ts';
import type { StepValues } from './step-values.ts';
import { filledNow } from './steps.ts';

/** A line of a table on paper. */
export interface PaperRow {
  readonly name: string;
  /** With its unit and tolerance: "20 ± ½ sts / 4 in". */
  readonly value: string;
  readonly note: string;
  /** Typed by the knitter, not worked out. */
  readonly typed: boolean;
}

export interface PaperSection {
  readonly title: string;
  readonly rows: readonly PaperRow[];
}

/** The rows of a plan on which something happens, to tick one by one. */
export interface ShapingTable {
  readonly step: string;
  /** "increase on row". */
  readonly title: string;
  readonly rows: readonly { readonly row: number; readonly after: string }[];
  /** True where the plan has more than are listed. */
  readonly more: boolean;
}

/** What is printed. */
export interface PaperView {
  readonly title: string;
  readonly about: string;
  /** "size S"; "" where there are no columns. */
  readonly size: string;
  /** The change these values try, "stitch gauge 18½ sts / 4 in"; "" on paper of the notebook as it stands. */
  readonly tried: string;
  readonly gauge: readonly PaperRow[];
  readonly sections: readonly PaperSection[];
  readonly drawings: readonly DrawingView[];
  readonly steps: StepsView;
  readonly shapings: readonly ShapingTable[];
  /** What the checks of the notebook find wrong. */
  readonly findings: readonly string[];
  readonly cautions: readonly string[];
  /** What is not worked out here: sections of words alone. */
  readonly notes: readonly string[];
}

/** The most shapings of one plan that are listed. */
const MOST_SHAPINGS = 60;

/** Everything that goes on paper; `tried` is the change that is tried, in words, where the values are those of it. */
export function paperView(values: StepValues, steps: StepsView, tried = ''): PaperView {
  const { live } = values;
  const { notebook } = live;
  const all = notebook.sections.map((section) => sectionOf(values, section));
  return {
    title: notebook.title,
    about: notebook.about ?? '',
    size: sizeOf(values),
    tried,
    gauge: all.flatMap(({ gauge }) => gauge),
    sections: all.flatMap(({ title, rows }) => (rows.length > 0 ? [{ title, rows }] : [])),
    drawings: drawingsOf(live, values),
    steps,
    shapings: shapingsOf(values, steps),
    findings: findingsOf(values),
    cautions: notebook.cautions.map(({ text }) => text),
    notes: notebook.sections.flatMap(noteOf),
  };
}

/** A section of words alone, led by its heading: "Not worked out here: …". */
function noteOf({ title, about = '', cells }: Section): readonly string[] {
  if (cells.length > 0 || about === '') return [];
  return [about.toLowerCase().startsWith(title.toLowerCase()) ? about : `${title}: ${about}`];
}

function sizeOf({ live, column }: StepValues): string {
  const label = live.sheet.columnLabels[column];
  return label === undefined ? '' : `${live.notebook.columns?.heading ?? 'size'} ${label}`;
}

function sectionOf(
  values: StepValues,
  { title, cells }: Section,
): PaperSection & { readonly gauge: readonly PaperRow[] } {
  const gauge: PaperRow[] = [];
  const rows: PaperRow[] = [];
  for (const { id, note = '' } of cells) {
    const value = valueIn(values, id);
    if (!value || !isForPaper(values, id, value)) continue;
    const row = rowOf(values, id, value, note);
    if (isGaugeOfFabric(value) && row.typed) gauge.push(row);
    else rows.push(row);
  }
  return { title, gauge, rows };
}

const columnOf = ({ live, column }: StepValues, id: string): number =>
  live.sheet.info(id).each ? column : 0;

function valueIn(values: StepValues, id: string): Value | undefined {
  const column = columnOf(values, id);
  return column < 0 ? undefined : values.value(id, column);
}

/** Fewer than 2 to 10 cm is no fabric, but how far a gauge may be off, or how well it is known; in base units. */
const LEAST_GAUGE = 2 / 10_000;

/** Stitches or rows to a length, whatever the cell is called. */
const isGaugeOfFabric = (value: Value): boolean =>
  value.kind === 'quantity' && isGauge(value.type.dimension) && value.value >= LEAST_GAUGE;

/** What was typed, and of what is worked out measures, decided counts and dates; sums on the way are left out. */
function isForPaper({ live }: StepValues, id: string, value: Value): boolean {
  const { typed } = live.sheet.info(id);
  if (value.kind === 'label' || value.kind === 'date') return true;
  if (value.kind !== 'quantity') return false;
  const { dimension, decided } = value.type;
  return typed || (dimension !== PLAIN && value.value !== 0 && (decided || !isCount(dimension)));
}

function rowOf(values: StepValues, id: string, value: Value, note: string): PaperRow {
  const { live } = values;
  const column = columnOf(values, id);
  const off = printTolerance(live, id, column, value);
  const name = spacedName(live.sheet.nameOf(id));
  const shown = unechoed(name, printAt(live, id, column, value));
  return {
    name,
    value: printed(off === '' ? shown : { ...shown, number: `${shown.number} ${off}` }),
    note,
    typed: live.sheet.info(id).typed,
  };
}

function findingsOf(values: StepValues): readonly string[] {
  const { live } = values;
  const found = live.sheet.cells.flatMap((id) => {
    const value = valueIn(values, id);
    if (value?.kind !== 'truth' || value.truth || live.cell(id)?.says?.no === undefined) return [];
    return [`${spacedName(live.sheet.nameOf(id))}: ${saysAt(live, id, columnOf(values, id), value)}`];
  });
  return [...new Set(found)];
}

function shapingsOf(values: StepValues, { steps }: StepsView): readonly ShapingTable[] {
  return values.live.notebook.steps.flatMap((step) => {
    const view = steps.find(({ id }) => id === step.id);
    const plan = view?.applies ? planIn(filledNow(values, step)) : undefined;
    const round = view?.counter?.noun === 'rnd';
    return plan && ['shape', 'toe'].includes(plan.kind) ? [tableOf(step.id, plan, round)] : [];
  });
}

function tableOf(step: string, plan: Plan, round: boolean): ShapingTable {
  const rows: { row: number; after: string }[] = [];
  const noun = nounOf(plan, round);
  const first = nextShaping(plan, plan.totals['after_row'] ?? 0);
  let next = first;
  while (next && rows.length < MOST_SHAPINGS) {
    rows.push({ row: next.row, after: `${next.after}` });
    next = nextShaping(plan, next.row);
  }
  return { step, title: `${first?.do ?? 'shape'} on ${noun}`, rows, more: next !== undefined };
}
