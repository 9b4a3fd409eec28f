/*
 * The steps to knit, as the page shows them: each filled in for the chosen column, its plans unfolded, its row
 * counter, and what ticking it pins. A step that was ticked shows what it printed then; where its counts would now
 * come out otherwise it offers that, and changes nothing by itself.
 */

import { countAt, onNeedle } from '../craft/index.ts';
import { isDecided, type Plan, spacedName } from '../formula/index.ts';
import { applyChange, isRefused, type Knitted, own, type Step } from '../notebook/index.ts';
import { PLAIN, printed, ROW, SKEIN, STITCH } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import {
  abbreviationsIn,
  inRounds,
  isRound,
  problemSentence,
  type ToldPlan,
  type ToldStep,
  tellPlan,
  tellStep,
} from '../telling/index.ts';
import { isAdvice } from './advice.ts';
import { appliesNow, columnsTold } from './applies.ts';
import { atKey, countKey, isBegun, isWorkedAgain, knittedNow, rowsDone, timesDone } from './begun.ts';
import { countAfter } from './count-after.ts';
import {
  beginsAfter,
  begunAfter,
  type Counted,
  countedOf,
  counterView,
  knittedPlan,
  planIn,
  resumed,
} from './counter.ts';
import { type FilledStep, fillAllSizes, fillStep, type PrintedCell, type SizePlan } from './fill-step.ts';
import type { Live } from './live.ts';
import type { StepLineView, StepOffer, StepsView, StepView } from './page.ts';
import { countWords, printAt, sameValue, unechoed } from './show.ts';
import { type StepValues, stepValues } from './step-values.ts';
import { knitOn } from './whose.ts';

/** A count that is pinned when a step is ticked: the text of the value, by cell and column id ("" for a single cell). */
export interface Pin {
  readonly cell: string;
  readonly column: string;
  readonly text: string;
}

/** Pins by cell and column; null for a cell that is freed. */
export type Pinned = Record<string, Readonly<Record<string, string>> | null>;

/** How the steps are told. */
export interface Telling {
  readonly values: StepValues;
  readonly allSizes: boolean;
  /** Whether offers can be made: not while a change is tried. */
  readonly offers: boolean;
  readonly undo: string;
}

/** Every step of the notebook with the key of the abbreviations they use. */
export function stepsView(telling: Telling): StepsView {
  const { live } = telling.values;
  let number = 0;
  const steps = live.notebook.steps.map((step) => {
    if (!isTold(telling, step)) return idle(step);
    if (isAdvice(step)) return stepView(telling, step, 0);
    number += 1;
    return stepView(telling, step, number);
  });
  const text = steps
    .filter((step) => step.applies)
    .flatMap((step) => [step.text, ...step.remarks, ...step.sums])
    .join('\n');
  return { steps, key: abbreviationsIn(text), undo: telling.undo };
}

/** Whether a step is told: for the chosen column, or for any where all are told at once. */
function isTold({ values, allSizes }: Telling, step: Step): boolean {
  if (allSizes && values.live.columns.length > 0) return columnsTold(values, step).length > 0;
  return appliesNow(values, step) ?? true;
}

/** Whom a step is for, where it is not for all: "Only Imke: ", "For Runa, Tobias: ". */
function whomFor({ columns, sheet }: Live, told: readonly number[]): string {
  if (told.length === columns.length) return '';
  const labels = told.map((column) => sheet.columnLabels[column] ?? '').join(', ');
  return `${told.length === 1 ? 'Only' : 'For'} ${labels}: `;
}

/** A step that does not apply: its own words, and nothing to do. */
function idle(step: Step): StepView {
  const text = step.text.replace(/\{([^{}]+)\}/gu, (_, name: string) => spacedName(name));
  return {
    id: step.id,
    number: 0,
    advice: isAdvice(step),
    applies: false,
    forOthers: false,
    runs: [{ text, cell: '' }],
    lines: [],
    sums: [],
    remarks: [],
    text,
    ticked: false,
    problems: [],
    counts: [],
    counter: undefined,
    recounts: false,
    offer: undefined,
  };
}

/** A step filled for the chosen column, with its plan as it is knitted. */
export function filledNow(values: StepValues, step: Step): FilledStep {
  const knitted = knittedNow(values);
  return fillStep(values, step, (plan) => knittedPlan(knitted, step.id, plan));
}

function stepView(telling: Telling, step: Step, number: number): StepView {
  const { values, allSizes } = telling;
  const { live } = values;
  const advice = isAdvice(step);
  const filled = filledNow(values, step);
  const whom = allSizes ? columnsTold(values, step) : [];
  const shown = allSizes ? fillAllSizes(values, step, whom) : filled;
  const told = led(allSizes ? whomFor(live, whom) : '', tellStep(shown.parts));
  if (allSizes && appliesNow(values, step) === false) return othersView(idle(step), number, told, shown);
  const knitted = knittedNow(values);
  const ticked = own(knitted?.ticked, step.id);
  const counted = advice ? undefined : countedOf(live, filled);
  const done = Math.max(rowsDone(knitted, step.id), beginsAfter(knitted, step.id, counted?.plan));
  const offer = telling.offers ? offerOf(values, step, filled, ticked) : undefined;
  const before = ticked !== undefined && offer && !allSizes ? ticked : undefined;
  return {
    id: step.id,
    number,
    advice,
    applies: true,
    forOthers: false,
    ...(before === undefined
      ? wordsOf(told, linesOf(told, shown, counted, allSizes ? 0 : done))
      : { runs: [{ text: before, cell: '' }], lines: [], sums: [], remarks: [], text: before }),
    ticked: ticked !== undefined,
    problems: shown.problems,
    counts: advice ? [] : countsOf(live, filled),
    counter:
      counted && counterView(counted, done, isWorkedAgain(knitted, step.id), timesDone(knitted, step.id)),
    recounts: !advice && (planIn(filled) !== undefined || countAfter(filled) !== undefined),
    offer,
  };
}

/** A step that is told for other columns than the chosen one: it is read, and there is nothing to do. */
function othersView(none: StepView, number: number, told: ToldStep, shown: FilledStep): StepView {
  const words = wordsOf(told, linesOf(told, shown, undefined, 0));
  return { ...none, ...words, number, applies: true, forOthers: true, problems: shown.problems };
}

/** A step led by words. */
const led = (lead: string, told: ToldStep): ToldStep =>
  lead === ''
    ? told
    : { ...told, runs: [{ text: lead, cell: '' }, ...told.runs], text: `${lead}${told.text}` };

const wordsOf = ({ runs, plans, text }: ToldStep, lines: readonly StepLineView[]) => ({
  runs,
  lines,
  sums: plans.flatMap(({ sum }) => (sum === '' ? [] : [sum])),
  remarks: plans.flatMap(({ remarks }) => remarks),
  text,
});

function linesOf(
  told: ToldStep,
  { sizes, parts }: FilledStep,
  counted: Counted | undefined,
  done: number,
): readonly StepLineView[] {
  const round = isRound(parts);
  const plans = told.plans.flatMap((plan, i) => planLines(plan, i === 0 && counted?.plan ? done : 0));
  return [...plans, ...sizes.flatMap((size) => sizeLines(size, round))];
}

/** A plan of more lines than this, as of a heel, is not told on one line. */
const MOST_ON_ONE_LINE = 4;

/** The plan of one size under its label, for all sizes at once: on one line, or unfolded where it is long. */
function sizeLines({ label: size, plan, round }: SizePlan, allRound: boolean): readonly StepLineView[] {
  const told = tellPlan(plan, allRound || round);
  if (told.lines.length > MOST_ON_ONE_LINE)
    return [{ ...PLAIN_LINE, text: `${size}:` }, ...planLines(told, 0)];
  const lines = told.lines.map(({ label, text, after }) =>
    label === '' ? text : `${label}: ${text}: ${after}`,
  );
  const text = [...lines, ...(told.more === '' ? [] : [told.more])].join('; ');
  return [{ ...PLAIN_LINE, label: size, text }];
}

const PLAIN_LINE: StepLineView = { label: '', text: '', after: '', done: false, here: false };

/** The lines of a plan, those marked whose rows are done and the one that holds the next row. */
export function planLines({ lines, more }: ToldPlan, done: number): readonly StepLineView[] {
  const views = lines.map(({ label, text, after, rows: [first, last] = [0, 0] }) => ({
    label,
    text,
    after,
    done: done > 0 && last <= done,
    here: done > 0 && first <= done + 1 && done + 1 <= last,
  }));
  return more === '' ? views : [...views, { ...PLAIN_LINE, text: more }];
}

/** The lines of a plan that was worked out again, for what is said of a recount. */
export function restLines(plan: Plan, round: boolean): { lines: readonly StepLineView[]; sum: string } {
  const told = tellPlan(plan, round);
  return { lines: planLines(told, begunAfter(plan)), sum: told.sum };
}

// ── Counts and pins ──────────────────────────────────────────────────────────────────────────────────────────────

const isPinnable = (value: Value): value is Value & { kind: 'quantity' } =>
  value.kind === 'quantity' && isDecided(value.type);

function countsOf(live: Live, { cells }: FilledStep): StepView['counts'] {
  const seen = new Set<string>();
  return cells.flatMap(({ cell, column, value }) => {
    if (!isPinnable(value) || value.type.dimension === PLAIN || seen.has(cell)) return [];
    seen.add(cell);
    const name = spacedName(live.sheet.nameOf(cell));
    return [{ cell, name, text: printed(printAt(live, cell, column, value)) }];
  });
}

/** The decided counts a step is knitted with: those it prints, and those its plans are laid out from. */
function countedCells(values: StepValues, { cells }: FilledStep): readonly PrintedCell[] {
  const { live } = values;
  const fromPlans = cells
    .filter(({ value }) => value.kind === 'plan')
    .flatMap(({ cell }) => live.sheet.uses(cell))
    .flatMap((cell): PrintedCell[] => {
      const { each } = live.sheet.info(cell);
      const column = each ? values.column : 0;
      return column < 0 ? [] : [{ cell, column, each, value: values.value(cell, column) }];
    });
  const all = [...cells, ...fromPlans].filter(({ value }) => isPinnable(value));
  return [...new Map(all.map((one) => [`${one.cell} ${one.column}`, one])).values()];
}

const SYMBOLS: ReadonlyMap<number, string> = new Map([
  [STITCH, ' st'],
  [ROW, ' row'],
  [SKEIN, ' skein'],
]);

/** A value as a text that reads back as just that value. */
function pinText(value: Value): string | undefined {
  if (value.kind === 'label') return `"${value.text}"`;
  return isPinnable(value) ? `${value.value}${SYMBOLS.get(value.type.dimension) ?? ''}` : undefined;
}

/**
 * What ticking a step pins: its counts, those in the chosen column among them, and, where that column follows a cell,
 * the cell too, so that what is left to knit stays in the size that was begun.
 */
export function pinsOf(values: StepValues, step: Step): readonly Pin[] {
  const { live } = values;
  if (isAdvice(step)) return [];
  const cells = countedCells(values, filledNow(values, step));
  const all = cells.length > 0 ? [...cells, ...followedCell(values)] : [];
  return all.flatMap(({ cell, column, each, value }): readonly Pin[] => {
    const text = pinText(value);
    return text === undefined ? [] : [{ cell, column: each ? (live.columns[column] ?? '') : '', text }];
  });
}

/** What is pinned of the cells of some pins once these are taken out; null where nothing is left of a cell's. */
export function withoutPins(knitted: Knitted | undefined, pins: readonly Pin[]): Pinned {
  const old = knitted?.pinned ?? {};
  const pinned: Pinned = {};
  for (const { cell, column } of pins) {
    const { [column]: _freed, ...rest } = pinned[cell] ?? own(old, cell) ?? {};
    pinned[cell] = Object.keys(rest).length > 0 ? rest : null;
  }
  return pinned;
}

/** The pins of those cells with some more; what is pinned already stays as it was knitted. */
export function withPins(old: Knitted['pinned'] | undefined, pins: readonly Pin[]): Pinned {
  const pinned: Pinned = {};
  for (const { cell, column, text } of pins) {
    const lanes = pinned[cell] ?? own(old, cell) ?? {};
    if (own(lanes, column) === undefined) pinned[cell] = { ...lanes, [column]: text };
  }
  return pinned;
}

/** The cell that the chosen column follows, where it is worked out: the size that was begun. */
function followedCell({ live, value }: StepValues): readonly PrintedCell[] {
  const cell = live.sheet.followed;
  if (cell === undefined || live.sheet.info(cell).typed) return [];
  return [{ cell, column: 0, each: false, value: value(cell, 0) }];
}

// ── Offers ───────────────────────────────────────────────────────────────────────────────────────────────────────

function offerOf(
  values: StepValues,
  step: Step,
  filled: FilledStep,
  ticked: string | undefined,
): StepOffer | undefined {
  const { live } = values;
  if (!isBegun(knittedNow(values), step.id)) return undefined;
  const moved = [...followedCell(values), ...countedCells(values, filled)].filter(
    ({ cell, column, value }) =>
      live.sheet.isPinned(cell, column) && !sameValue(live.sheet.unpinned(cell, column), value),
  );
  const rewritten = ticked !== undefined && isRewritten(live, filled, ticked);
  if (moved.length === 0 && !rewritten) return undefined;
  const freed = freedValues(values, step);
  const now = tellStep(fillStep(freed, step).parts).text;
  const { cannot } = goingOn(values, freed, step);
  const sentence = moved.length > 0 ? movedSentence(live, moved) : `It printed “${ticked}” then.`;
  return { sentence: cannot === '' ? sentence : `${sentence} ${cannot}`, now, canTake: cannot === '' };
}

/** That more rows of a step are done than it would have by other values, so that none of them is forgotten; "" else. */
function tooMany(done: number, counted: Counted | undefined): string {
  if (!counted || done <= counted.of) return '';
  const { of, noun } = counted;
  const words = `${done} ${noun}s are done, ${done - of} more than ${countWords(of, noun, `${noun}s`)}`;
  return `${words}: they stay as they are.`;
}

/** How a step that is begun goes on by other values. */
interface GoingOn {
  /** What is kept with its rows where its plan is worked out again: after which of them, and with how many stitches. */
  readonly rows: Readonly<Record<string, number>>;
  /** Why it cannot, in a sentence; "" where it can. */
  readonly cannot: string;
}

/** Going on by the values of `now`: what is knitted by those of `values` stays, and the plan begins from its stitches. */
export function goingOn(values: StepValues, now: StepValues, step: Step): GoingOn {
  const knitted = knittedNow(values);
  const done = rowsDone(knitted, step.id);
  const next = filledNow(now, step);
  const counted = countedOf(now.live, next);
  const cannot = tooMany(done, counted);
  const asItIs = { rows: {}, cannot };
  if (cannot !== '' || done === 0 || own(knitted?.ticked, step.id) !== undefined) return asItIs;
  const before = planIn(filledNow(values, step));
  const whole = planIn(fillStep(now, step));
  if (!before || !whole) return asItIs;
  const [fewest, most] = onNeedle(before, done);
  if (fewest < most || countAt(planIn(next) ?? whole, done) === fewest) return asItIs;
  const rest = resumed(whole, done, fewest);
  if (!('code' in rest)) return { rows: { [atKey(step.id)]: done, [countKey(step.id)]: fewest }, cannot };
  const noun = counted?.noun ?? 'row';
  const why = problemSentence(rest);
  const there = `After ${noun} ${done} there are ${countWords(fewest, 'st', 'sts')}.`;
  return { rows: {}, cannot: `${there} ${noun === 'rnd' ? inRounds(why) : why}` };
}

/** The values there would be once the pins of a step are freed: what its offer brings, down to the last length. */
export function freedValues(values: StepValues, step: Step): StepValues {
  const { live } = values;
  const pinned = withoutPins(knittedNow(values), pinsOf(values, step));
  const freed = applyChange(live.notebook, knitOn(values, { pinned }));
  return isRefused(freed) ? values : stepValues(live.besides(freed), undefined);
}

function movedSentence(live: Live, moved: readonly PrintedCell[]): string {
  const told = (cell: string, column: number, value: Value) =>
    printed(unechoed(spacedName(live.sheet.nameOf(cell)), printAt(live, cell, column, value)));
  const was = moved.map(
    ({ cell, column, value }) => `${spacedName(live.sheet.nameOf(cell))} ${told(cell, column, value)}`,
  );
  const now = moved.map(({ cell, column }) => {
    const value = live.sheet.unpinned(cell, column);
    return value.kind === 'quantity' || value.kind === 'label' ? told(cell, column, value) : 'not known';
  });
  return `Knitted with ${was.join(', ')}; it would now be ${now.join(', ')}.`;
}

/** Whether a ticked step prints other counts, or another plan, than it did when it was ticked. */
function isRewritten(live: Live, filled: FilledStep, ticked: string): boolean {
  if (filled.problems.length > 0) return false;
  if (planIn(filled)) return tellStep(filled.parts).text !== ticked;
  return countsOf(live, filled).some(({ text }) => !ticked.includes(text));
}
