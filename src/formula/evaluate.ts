/*
 * The slow, obvious way to work a formula out: walk the tree, one lane at a time, and where there is no value say
 * why. The sheet asks it when the machine gave NaN and wants the reason, and "how it's worked out" asks it for the
 * value of every part; in tests it is what the machine is compared with.
 *
 * Why there is no value is a number too (a *reason*): 1 is "empty", even numbers are "waiting for a cell", other
 * odd ones a problem. `Reasons` gives them out.
 */

import { isScaling, MINUTES_A_DAY, OP } from './compile.ts';
import { both, brokenColumn, compared, either, type Field, power, quotient, runOutcome } from './machine.ts';
import { type Problem, problem } from './problem.ts';
import type { FunctionSpec, NumberSpec, PlanSpec, ReadingSpec, Run, RunSpec } from './spec.ts';
import type { Store } from './store.ts';
import { type Node, walk } from './tree.ts';

/** The reason of a lane that holds nothing because nothing was typed. */
export const EMPTY = 1;

/** Gives out numbers for reasons. */
export class Reasons {
  private readonly problems: Problem[] = [];
  private readonly known = new Map<string, number>();
  private readonly missed = new Set<number>();

  /** Waiting for a cell, by its number in the sheet: because it is empty, or because something is wrong with it. */
  waiting(cell: number, wrong: boolean): number {
    this.missed.add(cell);
    return 2 + 4 * cell + (wrong ? 2 : 0);
  }

  broken(problem: Problem): number {
    const key = JSON.stringify(problem);
    let reason = this.known.get(key);
    if (reason === undefined) {
      reason = 3 + 2 * (this.problems.push(problem) - 1);
      this.known.set(key, reason);
    }
    return reason;
  }

  /** Whether there ever was a reason that waits for a cell of this number. */
  areFor(cell: number): boolean {
    return this.missed.has(cell);
  }

  /** The cell a reason waits for, or −1. */
  waitsFor(reason: number): number {
    return reason > 1 && reason % 2 === 0 ? Math.floor((reason - 2) / 4) : -1;
  }

  /** Whether a reason is a problem, of the lane itself or of the cell it waits for, rather than want of a value. */
  isWrong(reason: number): boolean {
    return reason > 1 && (reason % 2 === 1 || (reason - 2) % 4 === 2);
  }

  problemOf(reason: number): Problem | undefined {
    return reason > 1 && reason % 2 === 1 ? this.problems[(reason - 3) / 2] : undefined;
  }
}

/** What the walk asks of the sheet. */
export interface Surroundings {
  /** The value of a cell in a column (any column for a single one) and the reason it has none (0: it has one). */
  read(name: string, column: number): { readonly value: number; readonly reason: number };
  isEach(name: string): boolean;
  isLabel(node: Node): boolean;
  isPercent(node: Node): boolean;
  spec(name: string): FunctionSpec | undefined;
  readonly store: Store;
  readonly reasons: Reasons;
  readonly field: Field;
  readonly today: number;
  /** The chosen column or NaN, and why there is none. */
  readonly chosen: { readonly value: number; readonly reason: number };
  /** Offsets of the cells a tree uses, for finding the column that is broken. */
  offset(name: string): number;
}

/** A value and, where it is NaN, the reason. */
export interface Worked {
  readonly value: number;
  readonly reason: number;
}

const fine = (value: number): Worked => ({ value, reason: 0 });
const NONE = Number.NaN;
const BARE: Worked = { value: NONE, reason: 0 };

function own(around: Surroundings, made: Problem): Worked {
  return { value: NONE, reason: around.reasons.broken(made) };
}

const COMPARE: Readonly<Record<string, number>> = {
  '<': OP.LESS,
  '>': OP.MORE,
  '<=': OP.AT_MOST,
  '>=': OP.AT_LEAST,
  '==': OP.EQUAL,
  '!=': OP.UNEQUAL,
};

function arithmetic(op: string, a: number, b: number): number {
  switch (op) {
    case '+':
      return a + b;
    case '-':
      return a - b;
    case '*':
      return a * b;
    case '/':
      return quotient(a, b);
    default:
      return power(a, b);
  }
}

/** Arithmetic on two numbers, with the reason where it comes to none. */
function calculated(node: Node & { kind: 'binary' }, a: number, b: number, around: Surroundings): Worked {
  const value = arithmetic(node.op, a, b);
  if (Number.isFinite(value)) return fine(value);
  if (node.op === '/' && b === 0) return own(around, problem('division-by-nothing', {}, node.right.at));
  const none = node.op === '^' && (a === 0 || Number.isNaN(a ** b));
  return own(around, problem(none ? 'power-without-value' : 'too-large', {}, node.at));
}

/** How much `± 10%` makes of what stands before it. */
function scaleOf(node: Node & { kind: 'binary'; right: { kind: 'literal' } }): number {
  return node.op === '-' ? 1 - node.right.value : 1 + node.right.value;
}

function binary(node: Node & { kind: 'binary' }, column: number, around: Surroundings): Worked {
  const left = evaluate(node.left, column, around);
  if (node.op === 'and' || node.op === 'or') {
    const value = (node.op === 'and' ? both : either)(left.value, 0);
    if (Number.isNaN(left.value)) return left;
    return (node.op === 'and' && left.value === 0) || (node.op === 'or' && left.value === 1)
      ? fine(value)
      : evaluate(node.right, column, around);
  }
  if (Number.isNaN(left.value)) return left;
  if (isScaling(node, around)) return calculated({ ...node, op: '*' }, left.value, scaleOf(node), around);
  const right = evaluate(node.right, column, around);
  if (Number.isNaN(right.value)) return right;
  const compare = COMPARE[node.op];
  if (compare === undefined) return calculated(node, left.value, right.value, around);
  if (around.isLabel(node.left) || around.isLabel(node.right)) {
    const alike = around.store.sameLabel(left.value, right.value);
    return fine(alike === (node.op === '==') ? 1 : 0);
  }
  return fine(compared(compare, left.value, right.value));
}

function argumentsOf(node: Node & { kind: 'call' }, column: number, around: Surroundings): Worked[] {
  return node.args.map((arg) => evaluate(arg, column, around));
}

function plainCall(
  spec: NumberSpec | PlanSpec | ReadingSpec,
  node: Node & { kind: 'call' },
  column: number,
  around: Surroundings,
): Worked {
  const args = argumentsOf(node, column, around);
  const missing = args.find((arg) => Number.isNaN(arg.value));
  if (missing) return missing;
  const values = args.map((arg) => arg.value);
  if (spec.kind === 'reading') {
    const value = spec.work(around.store.planAt(values[0] as number));
    return Number.isNaN(value)
      ? own(around, problem('reading-without-value', { function: spec.name }, node.at))
      : fine(value);
  }
  if (spec.kind === 'plan') {
    const value = around.store.plan(spec, values);
    if (!Number.isNaN(value)) return fine(value);
    return own(around, placed(around.store.planProblem(spec, values), spec, node));
  }
  const value = spec.work(...values);
  return Number.isFinite(value) ? fine(value) : own(around, placed(spec.fails?.(...values), spec, node));
}

function placed(made: Problem | undefined, spec: FunctionSpec, node: Node): Problem {
  return made ? { ...made, at: made.at ?? node.at } : problem('no-answer', { function: spec.name }, node.at);
}

function namesIn(nodes: readonly Node[]): string[] {
  const names = new Set<string>();
  for (const node of nodes)
    walk(node, (n) => {
      if (n.kind === 'cell') names.add(n.name);
    });
  return [...names];
}

/** The run a call over the columns looks at, with the lanes of its arguments in the first variant. */
export function runAt(
  spec: RunSpec,
  node: Node & { kind: 'call' },
  column: number,
  around: Surroundings,
): { readonly run: Run; readonly each: readonly Node[]; readonly singles: readonly Worked[] } {
  const each = node.args.filter((_, i) => spec.parameters[i]?.each);
  const singles = node.args
    .filter((_, i) => !spec.parameters[i]?.each)
    .map((arg) => evaluate(arg, column, around));
  const columns = around.field.columns;
  const lanes = each.map((arg) => Array.from({ length: columns }, (_, c) => evaluate(arg, c, around).value));
  const run: Run = {
    columns,
    value: (k, c) => lanes[k]?.[c] ?? NONE,
    single: (k) => singles[k]?.value ?? NONE,
    chosen: around.chosen.value,
    labelOf: around.field.labelOf,
    columnOf: around.field.columnOf,
  };
  return { run, each, singles };
}

function runCall(spec: RunSpec, node: Node & { kind: 'call' }, column: number, around: Surroundings): Worked {
  const { run, each, singles } = runAt(spec, node, column, around);
  const missing = singles.find((single) => Number.isNaN(single.value));
  if (missing) return missing;
  const offsets = (isEach: boolean) =>
    namesIn(each)
      .filter((name) => around.isEach(name) === isEach)
      .map((name) => around.offset(name));
  const call = {
    spec,
    programs: each.map(() => new Int32Array()),
    singles: singles.length,
    eachCells: offsets(true),
    singleCells: offsets(false),
  };
  const value = runOutcome(call, run, column, around.field);
  if (!Number.isNaN(value)) return fine(value);
  const broken = spec.only ? -1 : brokenColumn(call, run, around.field);
  if (broken >= 0) {
    const label = around.store.labelText(around.field.labelOf(broken));
    return own(around, problem('broken-column', { function: spec.name, column: label }, node.at));
  }
  if (spec.followsChosen && Number.isNaN(around.chosen.value)) return around.chosen;
  return why(spec, run, each, column, node, around);
}

/** Why a function over the columns has nothing to give: its own reason, or the first empty thing it looks at. */
function why(
  spec: RunSpec,
  run: Run,
  each: readonly Node[],
  column: number,
  node: Node,
  around: Surroundings,
): Worked {
  const reason = spec.fails?.(run, column);
  if (reason) return own(around, { ...reason, at: reason.at ?? node.at });
  const looked = spec.only ? [spec.only(run)] : Array.from({ length: run.columns }, (_, c) => c);
  for (const arg of each)
    for (const c of looked) {
      const worked = evaluate(arg, c, around);
      if (Number.isNaN(worked.value)) return worked;
    }
  return own(around, problem('no-answer', { function: spec.name }, node.at));
}

function call(node: Node & { kind: 'call' }, column: number, around: Surroundings): Worked {
  const spec = around.spec(node.name);
  if (!spec) return BARE;
  switch (spec.kind) {
    case 'given': {
      const [cell] = node.args;
      return fine(cell && !Number.isNaN(evaluate(cell, column, around).value) ? 1 : 0);
    }
    case 'today':
      return fine(around.today);
    case 'run':
      return runCall(spec, node, column, around);
    default:
      return plainCall(spec, node, column, around);
  }
}

/** The value of a tree in a column, and where it has none the reason. */
export function evaluate(node: Node, column: number, around: Surroundings): Worked {
  switch (node.kind) {
    case 'literal':
      return fine(node.value);
    case 'truth':
      return fine(node.value ? 1 : 0);
    case 'label':
      return fine(around.store.label(node.text));
    case 'date':
      return fine(node.day * MINUTES_A_DAY);
    case 'cell':
      return around.read(node.name, column);
    case 'call':
      return call(node, column, around);
    case 'binary':
      return binary(node, column, around);
    case 'to':
      return evaluate(node.of, column, around);
    case 'minus':
    case 'not': {
      const of = evaluate(node.of, column, around);
      return Number.isNaN(of.value) ? of : fine(node.kind === 'minus' ? 0 - of.value : 1 - of.value);
    }
    case 'if': {
      const test = evaluate(node.test, column, around);
      return Number.isNaN(test.value) ? test : evaluate(test.value ? node.yes : node.no, column, around);
    }
  }
}
