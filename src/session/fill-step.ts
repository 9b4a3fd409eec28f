/*
 * A step's text with its cells filled in, as parts that can be printed, and what stands in the way of knitting it.
 * Counts that are not decided are never printed as if they were: they are a problem of the step.
 */

import { isDecided, type Plan, problem, spacedName } from '../formula/index.ts';
import type { Step } from '../notebook/index.ts';
import { isCount, isKnitted, PLAIN, type Printed, printed, printValue, snapped } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { type Filled, problemSentence, sizeLine } from '../telling/index.ts';
import type { Live } from './live.ts';
import { printAt, unitAt, unknownName, waitsFor } from './show.ts';
import { isInRounds } from './shown-as.ts';
import { type Piece, piecesOf } from './step-text.ts';
import type { StepValues } from './step-values.ts';

/** A cell that a step prints, in a column. */
export interface PrintedCell {
  readonly cell: string;
  readonly column: number;
  readonly each: boolean;
  readonly value: Value;
}

/** A plan of one size, for steps that are told for all sizes at once. */
export interface SizePlan {
  readonly label: string;
  readonly plan: Plan;
  /** Whether its rows are rounds. */
  readonly round: boolean;
}

/** A step filled in. */
export interface FilledStep {
  readonly parts: readonly Filled[];
  readonly cells: readonly PrintedCell[];
  /** Each one sentence: why the step cannot be knit yet. */
  readonly problems: readonly string[];
  /** Plans that differ between the sizes, when all sizes are told. */
  readonly sizes: readonly SizePlan[];
}

const GAP = '…';

/** Fills a step; `planOf` may put a plan that was worked out again in the place of the sheet's. */
export function fillStep(
  values: StepValues,
  step: Step,
  planOf: (plan: Plan) => Plan = (plan) => plan,
): FilledStep {
  const filling = new Filling(values, planOf);
  for (const piece of piecesOf(step.text)) filling.add(piece);
  return titled(values, filling);
}

/** A step filled for all sizes at once, of which those in `told` (indices of columns) have numbers. */
export function fillAllSizes(values: StepValues, step: Step, told: readonly number[]): FilledStep {
  const filling = new Filling(values, (plan) => plan);
  const pieces = piecesOf(step.text);
  for (const [i, piece] of pieces.entries()) {
    if (piece.name === undefined || !isEach(values, piece.name)) filling.add(piece);
    else if (filling.addSizes(piece.name, told)) {
      // The plans stand below: where they end the sentence it ends with a colon, elsewhere it says where they are.
      if (pieces.slice(i + 1).every(endsSentence)) {
        filling.endWithColon();
        break;
      }
      filling.add({ text: 'as below' });
    }
  }
  return titled(values, filling);
}

const endsSentence = ({ text, name }: Piece): boolean => name === undefined && /^[\s.;:]*$/.test(text);

/** A step that is nothing but a plan is called by the name of its cell. */
function titled({ live }: StepValues, filled: FilledStep): FilledStep {
  const bare = filled.parts.every(
    ({ kind, ...part }) => kind === 'plan' || ('text' in part && !/\w/.test(part.text)),
  );
  const cell = filled.cells.find(({ value }) => value.kind === 'plan')?.cell;
  if (!bare || cell === undefined) return filled;
  const name = spacedName(live.sheet.nameOf(cell)).replace(/^\p{L}/u, (letter) => letter.toUpperCase());
  const { cells, problems, sizes } = filled;
  return { parts: [{ kind: 'words', text: `${name}: ` }, ...filled.parts], cells, problems, sizes };
}

function isEach({ live }: StepValues, name: string): boolean {
  const id = live.sheet.idOf(name);
  return id !== undefined && live.sheet.info(id).each && live.columns.length > 0;
}

class Filling implements FilledStep {
  readonly parts: Filled[] = [];
  readonly cells: PrintedCell[] = [];
  readonly problems: string[] = [];
  readonly sizes: SizePlan[] = [];
  private readonly values: StepValues;
  private readonly planOf: (plan: Plan) => Plan;

  constructor(values: StepValues, planOf: (plan: Plan) => Plan) {
    this.values = values;
    this.planOf = planOf;
  }

  add({ text, name }: Piece): void {
    if (name === undefined) return void this.parts.push({ kind: 'words', text });
    const { live } = this.values;
    const id = live.sheet.idOf(name);
    if (id === undefined) return this.gap('', unknownName(live, name));
    const { each } = live.sheet.info(id);
    const column = each ? this.values.column : 0;
    if (column < 0) return this.gap(id, `Choose a ${live.notebook.columns?.heading ?? 'column'} first.`);
    this.addValue({ cell: id, column, each, value: this.values.value(id, column) });
  }

  private addValue(one: PrintedCell): void {
    const { cell, value } = one;
    const trouble = this.trouble(one);
    if (trouble !== '') return this.gap(cell, trouble);
    this.cells.push(one);
    if (value.kind === 'plan')
      this.parts.push({ kind: 'plan', cell, plan: this.planOf(value.plan), round: this.isRound(one) });
    else this.parts.push({ kind: 'value', cell, text: printed(this.print(one)) });
  }

  /** Ends what is written so far with a colon: lines follow. */
  endWithColon(): void {
    const last = this.parts.at(-1);
    const ended = last && last.kind !== 'plan' ? last.text.replace(/[\s.;:,]+$/, '') : '';
    if (last?.kind === 'words' && ended !== '')
      this.parts[this.parts.length - 1] = { ...last, text: `${ended}:` };
  }

  /**
   * The values of a cell with one for each column, as a size line, a dash where a column is not told; gives whether
   * they are plans told below instead.
   */
  addSizes(name: string, told: readonly number[]): boolean {
    const { live } = this.values;
    const cell = live.sheet.idOf(name) ?? '';
    const all = told.map(
      (column): PrintedCell => ({ cell, column, each: true, value: this.values.value(cell, column) }),
    );
    const troubles = all.map((one) => this.trouble(one));
    const held = all.map((one) => this.unknittable(one)).find((sentence) => sentence !== '');
    const [first = ''] = troubles;
    if (held !== undefined || troubles.every((trouble) => trouble !== '')) {
      this.gap(cell, held ?? first);
      return false;
    }
    this.cells.push(...all.filter((_, i) => troubles[i] === ''));
    if (all.some(({ value }) => value.kind === 'plan')) return this.addPlans(all);
    const texts = all.map((one, i): Printed => (troubles[i] === '' ? this.print(one) : NOTHING));
    const isOne = texts.every(({ number }) => number === texts[0]?.number);
    const line = live.columns.map((_, column) => texts[told.indexOf(column)] ?? NOTHING);
    this.parts.push({ kind: 'value', cell, text: sizeLine(isOne ? texts : line) });
    return false;
  }

  private addPlans(all: readonly PrintedCell[]): boolean {
    const { live } = this.values;
    const plans = all.flatMap((one) => {
      const { column, value } = one;
      const label = live.sheet.columnLabels[column] ?? '';
      return value.kind === 'plan' ? [{ label, plan: value.plan, round: this.isRound(one) }] : [];
    });
    const [first] = plans;
    const isOne = first && plans.every(({ plan }) => plan.text === first.plan.text);
    if (isOne)
      this.parts.push({ kind: 'plan', cell: all[0]?.cell ?? '', plan: first.plan, round: first.round });
    else this.sizes.push(...plans);
    return !isOne;
  }

  private isRound({ cell, column }: PrintedCell): boolean {
    return isInRounds(this.values.live, cell, column);
  }

  private print({ cell, column, value }: PrintedCell): Printed {
    return printAt(this.values.live, cell, column, value);
  }

  private gap(cell: string, sentence: string): void {
    this.parts.push({ kind: 'value', cell, text: GAP });
    if (!this.problems.includes(sentence)) this.problems.push(sentence);
  }

  /** Why a value cannot be printed in a step; "" when it can. */
  private trouble(one: PrintedCell): string {
    const { live } = this.values;
    const { value } = one;
    const name = spacedName(live.sheet.nameOf(one.cell));
    switch (value.kind) {
      case 'empty':
        return `Waiting for “${name}”.`;
      case 'waiting':
        return `Waiting for ${quoted(live, waitsFor(live, value))}.`;
      case 'problem': {
        const blamed = live.blamedFor(one.cell);
        if (blamed) return `Waiting for “${spacedName(live.sheet.nameOf(blamed.cell))}”.`;
        return `“${name}”: ${problemSentence(value.problem)}`;
      }
      default:
        return this.unknittable(one);
    }
  }

  /** Why a count cannot be knit: it is below nothing, or not decided; "" when it can. */
  private unknittable(one: PrintedCell): string {
    return this.belowNothing(one) || this.undecided(one);
  }

  private belowNothing(one: PrintedCell): string {
    const { value, cell } = one;
    if (value.kind !== 'quantity' || value.value >= 0 || !isKnitted(value.type.dimension)) return '';
    const name = this.values.live.sheet.nameOf(cell);
    return problemSentence(problem('step-below-nothing', { name, value: printed(this.print(one)) }));
  }

  private undecided(one: PrintedCell): string {
    const { value, cell } = one;
    if (value.kind !== 'quantity' || isDecided(value.type)) return '';
    const { dimension } = value.type;
    if (dimension === PLAIN || !isCount(dimension)) return '';
    const name = this.values.live.sheet.nameOf(cell);
    if (!Number.isInteger(snapped(value.value)))
      return problemSentence(problem('step-undecided', { name, value: printed(this.print(one)) }));
    const whole = printValue(value.value, unitAt(this.values.live, cell, one.column, value), true);
    return problemSentence(problem('step-whole-by-chance', { name, value: printed(whole) }));
  }
}

/** The name of a cell in quotes; "the chosen size" is none. */
function quoted(live: Live, words: string): string {
  return live.sheet.idOf(words.replaceAll(' ', '_')) === undefined ? words : `“${words}”`;
}

const NOTHING: Printed = { number: '', unit: '' };
