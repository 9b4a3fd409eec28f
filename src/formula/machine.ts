/*
 * The machine that works the code out. A *lane* is one number: a cell with one value has one lane, a cell with a
 * value for each column has one for each. When "how far off" is asked, everything is worked out in several
 * *variants* at once (lane = variant × columns + column), and what was decided in variant 0 is held in the others.
 *
 * NaN is the only sign of "no value" in here; why there is none is asked of `evaluate` afterwards.
 */

import { same } from '../quantity/index.ts';
import { FROM_CONST, FROM_SINGLE, FROM_STACK, OP, type Pools, type RunCall } from './compile.ts';
import type { NumberSpec, PlanSpec, ReadingSpec, Run } from './spec.ts';
import type { Store } from './store.ts';

/** What a working-out happens on. */
export interface Field {
  /** Every cell's lanes: at offset × variants. */
  readonly values: Float64Array;
  readonly variants: number;
  readonly columns: number;
  /** Whether counts and labels decided in variant 0 are held in the others. */
  readonly held: boolean;
  /** Offset of the chosen column's number. */
  readonly chosenOffset: number;
  /** The label of a column, and the column of a label or −1. */
  labelOf(column: number): number;
  columnOf(label: number): number;
  /** Whether a column of a cell (by offset) is broken rather than empty. */
  isBroken(offset: number, each: boolean, column: number): boolean;
}

const NONE = Number.NaN;
const truth = (is: boolean): number => (is ? 1 : 0);

/** Whether there is a value: neither none at all nor one without end, which nothing may turn back into a value. */
const isNumber = (a: number): boolean => a - a === 0;

/** Compares as the language does: values within a billionth are equal. NaN where either has no value. */
export function compared(op: number, a: number, b: number): number {
  if (!isNumber(a) || !isNumber(b)) return NONE;
  const equal = same(a, b);
  switch (op) {
    case OP.LESS:
      return truth(a < b && !equal);
    case OP.MORE:
      return truth(a > b && !equal);
    case OP.AT_MOST:
      return truth(a < b || equal);
    case OP.AT_LEAST:
      return truth(a > b || equal);
    case OP.EQUAL:
      return truth(equal);
    default:
      return truth(!equal);
  }
}

/** `and`, `or`: what the first decides alone does not wait for the second. */
export function both(a: number, b: number): number {
  return a === 0 ? 0 : Number.isNaN(a) ? NONE : b;
}
export function either(a: number, b: number): number {
  return a === 1 ? 1 : Number.isNaN(a) ? NONE : b;
}

/** A quotient; nothing divided by nothing is no value, never Infinity. */
export function quotient(a: number, b: number): number {
  return b === 0 || !isNumber(b) ? NONE : a / b;
}

/** A power, NaN where it is not a finite number. */
export function power(a: number, exponent: number): number {
  if (!isNumber(a)) return NONE;
  const value = exponent === 2 ? a * a : exponent === 0.5 ? Math.sqrt(a) : a ** exponent;
  return isNumber(value) ? value : NONE;
}

function call(work: (...args: number[]) => number, stack: Float64Array, at: number, count: number): number {
  const a = stack[at] as number;
  if (!isNumber(a)) return NONE;
  if (count === 1) return work(a);
  const b = stack[at + 1] as number;
  if (!isNumber(b)) return NONE;
  if (count === 2) return work(a, b);
  const args = Array.from(stack.subarray(at, at + count));
  return args.every(isNumber) ? work(...args) : NONE;
}

/** Works out code, one machine for one sheet. */
export class Machine {
  private stack = new Float64Array(64);
  /** What `scalar` came to: a number given back from a call would be put in a box of its own each time. */
  readonly out = new Float64Array(1);
  private readonly work: Float64Array[] = [];

  constructor(
    private readonly pools: Pools,
    private readonly store: Store,
  ) {}

  /** Makes room for formulas that need a stack this deep. */
  reserve(depth: number, lanes: number): void {
    const size = (depth + 3) * Math.max(1, lanes);
    if (size > this.stack.length) this.stack = new Float64Array(size * 2);
  }

  /**
   * Works out one lane, a sheet of one column (or a cell with one value) in one variant, into `out`. The cases are
   * numbers of `OP`, not its names: only of literal cases does V8 make a jump table.
   */
  scalar(code: Int32Array, start: number, values: Float64Array, field: Field): void {
    const { stack, pools } = this;
    const constants = pools.constants;
    let pc = start;
    let sp = -1;
    let top = 0;
    for (;;) {
      const op = code[pc++] as number;
      switch (op) {
        case 0: // END
          this.out[0] = isNumber(top) ? top : NONE;
          return;
        case 1: // CONST
          stack[++sp] = top;
          top = constants[code[pc++] as number] as number;
          break;
        case 2: // EACH
        case 3: // SINGLE
          stack[++sp] = top;
          top = values[code[pc++] as number] as number;
          break;
        case 24: // ADD
          top = (stack[sp--] as number) + top;
          break;
        case 25: // ADD + FROM_EACH
        case 26: // ADD + FROM_SINGLE
          top += values[code[pc++] as number] as number;
          break;
        case 27: // ADD + FROM_CONST
          top += constants[code[pc++] as number] as number;
          break;
        case 28: // SUB
          top = (stack[sp--] as number) - top;
          break;
        case 29: // SUB + FROM_EACH
        case 30: // SUB + FROM_SINGLE
          top -= values[code[pc++] as number] as number;
          break;
        case 31: // SUB + FROM_CONST
          top -= constants[code[pc++] as number] as number;
          break;
        case 32: // MUL
          top = (stack[sp--] as number) * top;
          break;
        case 33: // MUL + FROM_EACH
        case 34: // MUL + FROM_SINGLE
          top *= values[code[pc++] as number] as number;
          break;
        case 35: // MUL + FROM_CONST
          top *= constants[code[pc++] as number] as number;
          break;
        case 36: // DIV
          top = quotient(stack[sp--] as number, top);
          break;
        case 37: // DIV + FROM_EACH
        case 38: // DIV + FROM_SINGLE
          top = quotient(top, values[code[pc++] as number] as number);
          break;
        case 39: // DIV + FROM_CONST
          top = quotient(top, constants[code[pc++] as number] as number);
          break;
        case 4: // NEG
          top = 0 - top;
          break;
        case 18: {
          // CALL
          const work = pools.works[code[pc++] as number] as (...args: number[]) => number;
          const count = code[pc++] as number;
          if (count === 1) {
            top = isNumber(top) ? work(top) : NONE;
            break;
          }
          stack[++sp] = top;
          sp -= count - 1;
          top = call(work, stack, sp, count);
          sp -= 1;
          break;
        }
        default: {
          stack[++sp] = top;
          const next = this.rare(op, code, pc, sp, 1, values, field, false);
          pc = next.pc;
          sp = next.sp;
          top = stack[sp--] as number;
        }
      }
    }
  }

  private next = { pc: 0, sp: 0 };

  /** Every operation that is not in the hot path, over `lanes` lanes; the stack holds rows of `lanes`. */
  private rare(
    op: number,
    code: Int32Array,
    at: number,
    top: number,
    lanes: number,
    values: Float64Array,
    field: Field,
    each: boolean,
  ): { pc: number; sp: number } {
    const { stack } = this;
    let pc = at;
    let sp = top;
    const row = (k: number) => k * lanes;
    switch (op) {
      case OP.NOT:
        for (let i = 0; i < lanes; i += 1) stack[row(sp) + i] = 1 - (stack[row(sp) + i] as number);
        break;
      case OP.IF:
        sp -= 2;
        for (let i = 0; i < lanes; i += 1) {
          const test = stack[row(sp) + i] as number;
          stack[row(sp) + i] = Number.isNaN(test) ? NONE : (stack[row(sp + (test ? 1 : 2)) + i] as number);
        }
        break;
      case OP.POWER: {
        const exponent = this.pools.constants[code[pc++] as number] as number;
        for (let i = 0; i < lanes; i += 1) stack[row(sp) + i] = power(stack[row(sp) + i] as number, exponent);
        break;
      }
      case OP.GIVEN_EACH:
      case OP.GIVEN_SINGLE: {
        sp += 1;
        const offset = (code[pc++] as number) * field.variants;
        const columns = each && op === OP.GIVEN_SINGLE ? field.columns : 1;
        for (let i = 0; i < lanes; i += 1)
          stack[row(sp) + i] = truth(!Number.isNaN(values[offset + Math.floor(i / columns)] as number));
        break;
      }
      case OP.PLAN:
      case OP.READ: {
        const spec = this.pools.functions[code[pc++] as number] as PlanSpec | ReadingSpec;
        const count = code[pc++] as number;
        sp -= count - 1;
        this.plans(spec, sp, count, lanes, field, each);
        break;
      }
      case OP.RUN: {
        const run = this.pools.runs[code[pc++] as number] as RunCall;
        sp -= run.singles - 1;
        this.run(run, sp, lanes, values, field, each);
        break;
      }
      default:
        sp -= 1;
        for (let i = 0; i < lanes; i += 1)
          stack[row(sp) + i] = this.pair(op, stack[row(sp) + i] as number, stack[row(sp + 1) + i] as number);
    }
    this.next.pc = pc;
    this.next.sp = sp;
    return this.next;
  }

  private pair(op: number, a: number, b: number): number {
    switch (op) {
      case OP.AND:
        return both(a, b);
      case OP.OR:
        return either(a, b);
      case OP.SAME_LABEL:
        return Number.isNaN(a) || Number.isNaN(b) ? NONE : truth(this.store.sameLabel(a, b));
      case OP.OTHER_LABEL:
        return Number.isNaN(a) || Number.isNaN(b) ? NONE : truth(!this.store.sameLabel(a, b));
      default:
        return compared(op, a, b);
    }
  }

  private plans(
    spec: PlanSpec | ReadingSpec,
    sp: number,
    count: number,
    lanes: number,
    field: Field,
    each: boolean,
  ): void {
    const { stack } = this;
    const free = field.held ? (each ? field.columns : 1) : lanes;
    for (let i = 0; i < lanes; i += 1) {
      if (i >= free) {
        stack[sp * lanes + i] = stack[sp * lanes + (i % free)] as number;
        continue;
      }
      const args = Array.from({ length: count }, (_, k) => stack[(sp + k) * lanes + i] as number);
      stack[sp * lanes + i] = !args.every(isNumber)
        ? NONE
        : spec.kind === 'plan'
          ? this.store.plan(spec, args)
          : spec.work(this.store.planAt(args[0] as number));
    }
  }

  /** Works out a function over the columns in every variant; its single arguments lie at row `sp`. */
  private run(
    call: RunCall,
    sp: number,
    lanes: number,
    values: Float64Array,
    field: Field,
    each: boolean,
  ): void {
    const { columns, variants } = field;
    const results = call.programs.map((program, k) => {
      const out = this.scratch(k + this.level * 4, variants * columns);
      this.inner(program, out, values, field, call.depth);
      return out;
    });
    const { stack } = this;
    const perVariant = each ? columns : 1;
    const free = field.held && call.spec.gives === 'label' ? perVariant : lanes;
    const singles = Array.from({ length: call.singles }, (_, k) =>
      Array.from(stack.subarray((sp + k) * lanes, (sp + k + 1) * lanes)),
    );
    for (let i = 0; i < lanes; i += 1) {
      const variant = Math.floor(i / perVariant);
      const from = variant * columns;
      if (i >= free) stack[sp * lanes + i] = stack[sp * lanes + (i % free)] as number;
      else {
        const ask: Run = {
          columns,
          value: (k, c) => (results[k] as Float64Array)[from + c] as number,
          single: (k) => (singles[k] as number[])[i] as number,
          chosen: values[field.chosenOffset * variants + variant] as number,
          labelOf: field.labelOf,
          columnOf: field.columnOf,
        };
        stack[sp * lanes + i] = runOutcome(call, ask, each ? i % columns : 0, field);
      }
    }
  }

  private level = 0;
  private scratch(k: number, size: number): Float64Array {
    const kept = this.work[k];
    if (kept && kept.length >= size) return kept;
    const made = new Float64Array(size);
    this.work[k] = made;
    return made;
  }

  /** Runs a program of its own on a stack of its own, so that the one above it is left as it is. */
  private inner(
    program: Int32Array,
    out: Float64Array,
    values: Float64Array,
    field: Field,
    depth: number,
  ): void {
    const outer = this.stack;
    this.stack = new Float64Array((depth + 2) * field.columns * field.variants + 64);
    this.level += 1;
    try {
      this.lanes(program, 0, values, field, true, out, 0);
    } finally {
      this.level -= 1;
      this.stack = outer;
    }
  }

  /** Works out every lane of a cell at once, into `out` from `outAt` on. */
  lanes(
    code: Int32Array,
    start: number,
    values: Float64Array,
    field: Field,
    each: boolean,
    out: Float64Array,
    outAt: number,
  ): void {
    const { variants, columns } = field;
    const lanes = each ? variants * columns : variants;
    const { constants } = this.pools;
    const { stack } = this;
    let pc = start;
    let sp = -1;
    for (;;) {
      const op = code[pc++] as number;
      if (op === OP.END) break;
      if (op >= OP.ADD) {
        const source = op & 3;
        const left = (source === FROM_STACK ? sp - 1 : sp) * lanes;
        if (source === FROM_CONST)
          withConstant(stack, op - source, left, constants[code[pc++] as number] as number, lanes);
        else if (source === FROM_STACK) {
          arithmetic(stack, op, left, stack, sp * lanes, lanes);
          sp -= 1;
        } else if (source === FROM_SINGLE && each) {
          this.load(values, (code[pc++] as number) * variants, true, lanes, columns, (sp + 1) * lanes);
          arithmetic(stack, op - source, left, stack, (sp + 1) * lanes, lanes);
        } else arithmetic(stack, op - source, left, values, (code[pc++] as number) * variants, lanes);
        continue;
      }
      switch (op) {
        case OP.CONST: {
          sp += 1;
          stack.fill(constants[code[pc++] as number] as number, sp * lanes, (sp + 1) * lanes);
          break;
        }
        case OP.EACH:
        case OP.SINGLE:
          sp += 1;
          this.load(
            values,
            (code[pc++] as number) * variants,
            op === OP.SINGLE && each,
            lanes,
            columns,
            sp * lanes,
          );
          break;
        case OP.NEG:
          for (let i = sp * lanes; i < (sp + 1) * lanes; i += 1) stack[i] = 0 - (stack[i] as number);
          break;
        case OP.CALL: {
          const spec = this.pools.functions[code[pc++] as number] as NumberSpec;
          const count = code[pc++] as number;
          sp -= count - 1;
          this.calls(spec, sp, count, lanes, field, each);
          break;
        }
        default: {
          const next = this.rare(op, code, pc, sp, lanes, values, field, each);
          pc = next.pc;
          sp = next.sp;
        }
      }
    }
    for (let i = 0; i < lanes; i += 1) {
      const value = stack[i] as number;
      out[outAt + i] = isNumber(value) ? value : NONE;
    }
  }

  /** Puts a cell's lanes on the stack; one value is repeated over the columns. */
  private load(
    values: Float64Array,
    from: number,
    spread: boolean,
    lanes: number,
    columns: number,
    to: number,
  ): void {
    const { stack } = this;
    if (!spread) for (let i = 0; i < lanes; i += 1) stack[to + i] = values[from + i] as number;
    else
      for (let i = 0, v = from; i < lanes; v += 1)
        for (let c = 0; c < columns; c += 1, i += 1) stack[to + i] = values[v] as number;
  }

  private calls(
    spec: NumberSpec,
    sp: number,
    count: number,
    lanes: number,
    field: Field,
    each: boolean,
  ): void {
    const { stack } = this;
    const width = each ? field.columns : 1;
    const work = spec.work as (...args: number[]) => number;
    const first = sp * lanes;
    const holds = field.held && field.variants > 1 ? spec.holds : undefined;
    const inputs = holds === 'length' ? Array.from(stack.subarray(first, first + lanes)) : [];
    for (let i = 0; i < lanes; i += 1) {
      const at = first + i;
      if (holds && i >= width) {
        const base = stack[first + (i % width)] as number;
        stack[at] = holds === 'count' ? base : base + (inputs[i] as number) - (inputs[i % width] as number);
        continue;
      }
      const a = stack[at] as number;
      if (!isNumber(a)) {
        stack[at] = NONE;
        continue;
      }
      if (count === 1) stack[at] = work(a);
      else if (count === 2) {
        const b = stack[at + lanes] as number;
        stack[at] = isNumber(b) ? work(a, b) : NONE;
      } else {
        const args = Array.from({ length: count }, (_, k) => stack[at + k * lanes] as number);
        stack[at] = args.every(isNumber) ? work(...args) : NONE;
      }
    }
  }
}

/** left op right, lane by lane, into the stack; the right side lies in the stack or among the cells. */
function arithmetic(
  stack: Float64Array,
  op: number,
  left: number,
  source: Float64Array,
  right: number,
  lanes: number,
): void {
  switch (op) {
    case OP.ADD:
      for (let i = 0; i < lanes; i += 1) stack[left + i]! += source[right + i]!;
      break;
    case OP.SUB:
      for (let i = 0; i < lanes; i += 1) stack[left + i]! -= source[right + i]!;
      break;
    case OP.MUL:
      for (let i = 0; i < lanes; i += 1) stack[left + i]! *= source[right + i]!;
      break;
    default:
      for (let i = 0; i < lanes; i += 1) stack[left + i] = quotient(stack[left + i]!, source[right + i]!);
  }
}

/** The same with one number on the right of every lane. */
function withConstant(stack: Float64Array, op: number, left: number, constant: number, lanes: number): void {
  switch (op) {
    case OP.ADD:
      for (let i = 0; i < lanes; i += 1) stack[left + i]! += constant;
      break;
    case OP.SUB:
      for (let i = 0; i < lanes; i += 1) stack[left + i]! -= constant;
      break;
    case OP.MUL:
      for (let i = 0; i < lanes; i += 1) stack[left + i]! *= constant;
      break;
    default:
      for (let i = 0; i < lanes; i += 1) stack[left + i] = quotient(stack[left + i]!, constant);
  }
}

/** The first column in which an argument of a function over the columns is broken, or −1. */
export function brokenColumn(
  call: Pick<RunCall, 'eachCells' | 'singleCells' | 'programs'>,
  run: Run,
  field: Field,
): number {
  for (let c = 0; c < run.columns; c += 1) {
    const missing = call.programs.some((_, k) => Number.isNaN(run.value(k, c)));
    if (missing && columnIsBroken(call, c, field)) return c;
  }
  return -1;
}

function columnIsBroken(
  call: Pick<RunCall, 'eachCells' | 'singleCells'>,
  column: number,
  field: Field,
): boolean {
  const { values } = field;
  const each = call.eachCells.filter((offset) =>
    Number.isNaN(values[offset * field.variants + column] as number),
  );
  const single = call.singleCells.filter((offset) => Number.isNaN(values[offset * field.variants] as number));
  if (each.length + single.length === 0) return true;
  return (
    each.some((offset) => field.isBroken(offset, true, column)) ||
    single.some((offset) => field.isBroken(offset, false, 0))
  );
}

/** What a function over the columns gives; NaN where a column is broken or there is nothing to go on. */
export function runOutcome(
  call: Pick<RunCall, 'spec' | 'eachCells' | 'singleCells' | 'programs' | 'singles'>,
  run: Run,
  at: number,
  field: Field,
): number {
  for (let k = 0; k < call.singles; k += 1) if (!isNumber(run.single(k))) return NONE;
  if (!call.spec.only && brokenColumn(call, run, field) >= 0) return NONE;
  return call.spec.work(run, at);
}
