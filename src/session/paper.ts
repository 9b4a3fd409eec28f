/*
 * The notebook as it goes on paper: for the chosen column, or for all at once as patterns print them, with the values it
 * stands by and not those of a change that is tried. Plans stand in the steps, for one column with a table of their
 * shapings to tick, and those that no step tells among the values; what is empty is left out. A short notebook goes on
 * paper whole; of a long one sums on the way are left out, and that is said. A cell whose name stands in quotes in what
 * is printed is on paper in any case.
 */

import { nextShaping, type PlanRow } from '../craft/index.ts';
import { type Plan, spacedName } from '../formula/index.ts';
import { allCells, type Drawing, type Section } from '../notebook/index.ts';
import { isCount, isGauge, PLAIN, type Printed, printed } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { nounOf, sizeLine } from '../telling/index.ts';
import { columnTitle } from './column-title.ts';
import { planIn } from './counter.ts';
import { type DrawingView, drawingsOf } from './drawings.ts';
import type { Live } from './live.ts';
import type { StepsView } from './page.ts';
import { printAt, printTolerance, saysAt, unechoed } from './show.ts';
import { shownWhen } from './shown-as.ts';
import { askedBy, cellsNamed } from './step-text.ts';
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
  /** "increase on row"; where a row goes the other way, what is after it says so. */
  readonly title: string;
  readonly rows: readonly { readonly row: number; readonly after: string }[];
  /** True where the plan has more than are listed. */
  readonly more: boolean;
}

/** What is printed. */
export interface PaperView {
  readonly title: string;
  readonly about: string;
  /** "size S", "every size: S (M, L)"; "" where there are no columns. */
  readonly size: string;
  /** Whether its columns are put in an order among themselves: then they are one plan, and one of them says little. */
  readonly isOnePlan?: boolean;
  /** Whether sums on the way are left out. */
  readonly leavesOut: boolean;
  /** Whether a note stands beside every cell, as in a short notebook, and not beside the gauge alone. */
  readonly withNotes: boolean;
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

/** A notebook of no more cells than this goes on paper whole, with its notes. */
const SHORT = 41;
const isShort = (live: Live): boolean => live.sheet.cells.length <= SHORT;

/** What puts columns in an order. */
const RANKS = /\brank\s*\(/;

/** What is asked of paper. */
export interface PaperAsked {
  readonly values: StepValues;
  readonly steps: StepsView;
  /** The change that is tried, in words, where the values are those of it; else "". */
  readonly tried: string;
  /** All columns at once. */
  readonly allSizes: boolean;
}

/** Everything that goes on paper. */
export function paperView(asked: PaperAsked): PaperView {
  const { values, steps, tried, allSizes } = asked;
  const { live } = values;
  const { notebook } = live;
  const findings = findingsOf(asked);
  const notes = notebook.sections.flatMap(noteOf);
  const cautions = notebook.cautions.map(({ text }) => text);
  const named = namedIn(live, [notebook.about, ...findings, ...notes, ...cautions, ...wordsOf(steps)]);
  const all = notebook.sections.map((section) => sectionOf(asked, section, named));
  const gauge = all.flatMap((section) => section.gauge);
  // The gauge stands above all under that heading: a section called so has none again.
  const headed = (title: string) => (gauge.length > 0 && /^gauge$/i.test(title.trim()) ? '' : title);
  return {
    title: notebook.title,
    about: notebook.about ?? '',
    size: sizeOf(asked),
    isOnePlan: allCells(notebook).some(({ text = '' }) => RANKS.test(text)),
    leavesOut: all.some(({ leavesOut }) => leavesOut),
    withNotes: isShort(live),
    tried,
    gauge,
    sections: all.flatMap(({ title, rows }) => (rows.length > 0 ? [{ title: headed(title), rows }] : [])),
    drawings: drawingsOf(live, values),
    steps,
    shapings: allSizes ? [] : shapingsOf(values, steps),
    findings,
    cautions,
    notes,
  };
}

/** Every sentence of the steps. */
function wordsOf({ steps }: StepsView): readonly string[] {
  return steps
    .filter(({ applies }) => applies)
    .flatMap(({ text, lines, sums, remarks, problems }) => {
      return [text, ...lines.map((line) => line.text), ...sums, ...remarks, ...problems];
    });
}

/** The cells whose names stand in quotes in what is printed, and in the notes beside a gauge. */
function namedIn(live: Live, printed: readonly (string | undefined)[]): ReadonlySet<string> {
  const notes = live.sheet.cells.flatMap((id) => {
    return isGaugeOfFabric(live.sheet.value(id, 0)) ? (live.cell(id)?.note ?? []) : [];
  });
  const said = [...printed, ...notes].join('\n').replace(/[“”‘’']/g, '"');
  return new Set(live.sheet.cells.filter((id) => said.includes(`"${spacedName(live.sheet.nameOf(id))}"`)));
}

/** A section of words alone, led by its heading: "Not worked out here: …". */
function noteOf({ title, about = '', cells }: Section): readonly string[] {
  if (cells.length > 0 || about === '') return [];
  return [about.toLowerCase().startsWith(title.toLowerCase()) ? about : `${title}: ${about}`];
}

function sizeOf({ values: { live, column }, allSizes }: PaperAsked): string {
  const heading = live.notebook.columns?.heading ?? 'size';
  const labels = live.sheet.columnLabels;
  const label = labels[column];
  const one = label === undefined ? '' : columnTitle(heading, label);
  if (!allSizes) return one;
  const drawn = one !== '' && live.notebook.drawings.some(isOfOneColumn) ? `; drawings: ${one}` : '';
  const [first = '', ...rest] = labels;
  return `every ${heading}: ${first} (${rest.join(', ')})${drawn}`;
}

/** Whether a drawing shows a column, and not something of each. */
const isOfOneColumn = ({ binds }: Drawing): boolean =>
  Object.keys(binds).some((part) => !part.startsWith('each_'));

interface SectionOnPaper extends PaperSection {
  readonly gauge: readonly PaperRow[];
  readonly leavesOut: boolean;
}

function sectionOf(asked: PaperAsked, { title, cells }: Section, named: ReadonlySet<string>): SectionOnPaper {
  const { live } = asked.values;
  const isWhole = isShort(live);
  const gauge: PaperRow[] = [];
  const rows: PaperRow[] = [];
  let leavesOut = false;
  for (const { id, note = '' } of cells) {
    const shown = columnsOf(asked, id).map((column) => ({ column, value: asked.values.value(id, column) }));
    if (!shown.some(({ value }) => isOnPaper(live, id, value))) continue;
    if (!isWhole && !named.has(id) && !shown.some(({ value }) => isForPaper(asked.values, id, value))) {
      leavesOut ||= shown.some(({ value }) => value.kind !== 'truth');
      continue;
    }
    const row = rowOf(live, id, shown, note);
    if (row.typed && shown.some(({ value }) => isGaugeOfFabric(value))) gauge.push(row);
    else rows.push(row);
  }
  return { title, gauge, rows, leavesOut };
}

/** The columns a cell is printed in: the chosen one or all; none where it has one value each and none is chosen. */
function columnsOf({ values, allSizes }: PaperAsked, id: string): readonly number[] {
  const { live } = values;
  if (allSizes && live.sheet.info(id).each) return live.columns.map((_, column) => column);
  const column = columnOf(values, id);
  return column < 0 ? [] : [column];
}

/** A value in a column. */
interface Shown {
  readonly column: number;
  readonly value: Value;
}

const columnOf = ({ live, column }: StepValues, id: string): number =>
  live.sheet.info(id).each ? column : 0;

/** Fewer than 2 to 10 cm is no fabric, but how far a gauge may be off, or how well it is known; in base units. */
const LEAST_GAUGE = 2 / 10_000;

/** Stitches or rows to a length, whatever the cell is called. */
const isGaugeOfFabric = (value: Value): boolean =>
  value.kind === 'quantity' && isGauge(value.type.dimension) && value.value >= LEAST_GAUGE;

/** Numbers, truths, names and dates, and a plan that no step tells. */
const isOnPaper = (live: Live, id: string, { kind }: Value): boolean =>
  ['quantity', 'truth', 'label', 'date'].includes(kind) || (kind === 'plan' && !isInStep(live, id));

/** Whether a step tells a cell; one that does not apply now would tell it if it did. */
function isInStep({ sheet, notebook }: Live, id: string): boolean {
  const name = sheet.nameOf(id);
  return notebook.steps.some(({ text }) => cellsNamed(text).includes(name));
}

/** What was typed, and of what is worked out plans, measures, decided counts and dates; sums on the way are left out. */
function isForPaper({ live }: StepValues, id: string, value: Value): boolean {
  const { typed } = live.sheet.info(id);
  if (value.kind === 'label' || value.kind === 'date' || value.kind === 'plan') return true;
  if (value.kind === 'truth') return typed || (!isCheck(live, id) && !isOnTheWay(live, id));
  if (value.kind !== 'quantity') return false;
  const { dimension, decided } = value.type;
  return typed || (dimension !== PLAIN && value.value !== 0 && (decided || !isCount(dimension)));
}

/** Whether a truth says something when it is a "no": that is found among the findings. */
const isCheck = (live: Live, id: string): boolean => live.cell(id)?.says?.no !== undefined;

/** Whether something hangs on a cell: a formula, whether a step is told, or whether another is shown in rounds. */
function isOnTheWay({ sheet, notebook }: Live, id: string): boolean {
  if (sheet.usedBy(id).length > 0) return true;
  const name = sheet.nameOf(id);
  return (
    notebook.steps.some(({ when = '' }) => askedBy(when).name === name) ||
    allCells(notebook).some(({ shown }) => shownWhen(shown) === name)
  );
}

function rowOf(live: Live, id: string, shown: readonly Shown[], note: string): PaperRow {
  const name = spacedName(live.sheet.nameOf(id));
  const values = shown.map(({ column, value }): Printed => {
    if (!isOnPaper(live, id, value)) return { number: '', unit: '' };
    const one = unechoed(name, printAt(live, id, column, value));
    const off = printTolerance(live, id, column, value);
    return off === '' ? one : { ...one, number: `${one.number} ${off}` };
  });
  const [first] = values;
  return {
    name,
    value: values.length === 1 && first ? printed(first) : sizeLine(values),
    note,
    typed: live.sheet.info(id).typed,
  };
}

/** The checks that say no; of all columns at once each says which it is of, where it has one answer for each. */
function findingsOf(asked: PaperAsked): readonly string[] {
  const { values, allSizes } = asked;
  const { live } = values;
  const found = live.sheet.cells.flatMap((id) =>
    columnsOf(asked, id).flatMap((column) => {
      const value = values.value(id, column);
      if (value.kind !== 'truth' || value.truth || !isCheck(live, id)) return [];
      const of = allSizes && live.sheet.info(id).each ? `, ${live.sheet.columnLabels[column]}` : '';
      return [`${spacedName(live.sheet.nameOf(id))}${of}: ${saysAt(live, id, column, value)}`];
    }),
  );
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
  const events: PlanRow[] = [];
  let next = nextShaping(plan, plan.totals['after_row'] ?? 0);
  while (next && events.length < MOST_SHAPINGS) {
    events.push(next);
    next = nextShaping(plan, next.row);
  }
  // The first may be there to put a count right, and go the other way.
  const way = events.at(-1)?.do ?? 'shape';
  const rows = events.map((one) => ({
    row: one.row,
    after: one.do === way ? `${one.after}` : `${one.after}, ${one.do}`,
  }));
  return { step, title: `${way} on ${nounOf(plan, round)}`, rows, more: next !== undefined };
}
