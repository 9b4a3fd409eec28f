/*
 * The machine that works code out over many lanes at once; `wave.ts` does it for plain cells, one after another. A *lane* is one number: a cell with one value has one lane, a cell with a
 * value for each column has one for each. When "how far off" is asked, everything is worked out in several
 * *variants* at once (lane = variant × columns + column), and what was decided in variant 0 is held in the others.
 *
 * NaN is the only sign of "no value" in here; why there is none is asked of `evaluate` afterwards.
 */

import { nearMultiple, same, wholeNear } from '../quantity/index.ts';
import { LAST, OP, type Pools, type RunCall } from './compile.ts';
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

/** So many columns of a remembered way are gone at once (`along-columns.ts`). */
export const AT_ONCE = 5;

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

/*
 * In what follows NaN is the outcome of a sum: to V8 a constant of this module is any object, and where one may come out,
 * every number is put into an object, and looked at before it is used. Half as long again took an edit so. For the same
 * reason the loops write a `+` before what a call gives.
 */

/** A quotient; nothing divided by nothing is no value, never Infinity. */
export function quotient(a: number, b: number): number {
  return b === 0 || !isNumber(b) ? (b - b) / 0 : a / b;
}

/** A power, NaN where it is not a finite number. */
export function power(a: number, exponent: number): number {
  if (!isNumber(a)) return NONE;
  const value = exponent === 2 ? a * a : exponent === 0.5 ? Math.sqrt(a) : a ** exponent;
  return isNumber(value) ? value : NONE;
}

/** The larger or smaller of two; a number without end is no value and must not be dropped for the other. */
export function larger(a: number, b: number): number {
  // biome-ignore lint/complexity/useMathMinMax: ten columns take a twentieth longer with it.
  return (a > b ? a : b) + (a - a);
}
export function smaller(a: number, b: number): number {
  // biome-ignore lint/complexity/useMathMinMax: as above.
  return (a < b ? a : b) + (a - a);
}

/** A function of numbers called with `count` numbers on the stack from `at` on, each `apart` from the one before. */
export function called(
  work: (...args: number[]) => number,
  stack: Float64Array,
  at: number,
  count: number,
  apart: number,
): number {
  const a = stack[at] as number;
  if (!isNumber(a)) return NONE;
  if (count === 1) return work(a);
  const b = stack[at + apart] as number;
  if (!isNumber(b)) return NONE;
  if (count === 2) return work(a, b);
  const args = Array.from({ length: count }, (_, k) => stack[at + k * apart] as number);
  return args.every(isNumber) ? work(...args) : NONE;
}

/** How many lanes are worked out where counts are held: those of the first variant, which the others take. */
const freeLanes = ({ held, columns }: Field, each: boolean, lanes: number): number =>
  held ? (each ? columns : 1) : lanes;

/** Works out code, one machine for one sheet. */
export class Machine {
  private rows = new Float64Array(64);
  private readonly work: Float64Array[] = [];

  constructor(
    readonly pools: Pools,
    private readonly store: Store,
  ) {}

  /** Where numbers wait; another array after more room was reserved. */
  get stack(): Float64Array {
    return this.rows;
  }

  /**
   * Makes room for formulas in which so many numbers wait at once; rows of an odd number of lanes are one wider, and on a
   * way at least as wide as is gone at once.
   */
  reserve(depth: number, lanes: number): void {
    const size = (depth + 4) * Math.max(AT_ONCE, lanes + 1);
    if (size > this.rows.length) this.rows = new Float64Array(size * 2);
  }

  private next = { pc: 0, sp: 0 };

  /**
   * Every operation that is not in the hot path, over `lanes` lanes; the stack holds rows of `lanes`, `top` is the row
   * of the number at hand. Gives where the code goes on, and the row its outcome is in.
   */
  rare(
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
        const exponent = this.pools.exponents[code[pc++] as number] as number;
        for (let i = 0; i < lanes; i += 1) stack[row(sp) + i] = power(stack[row(sp) + i] as number, exponent);
        break;
      }
      case OP.GIVEN: {
        sp += 1;
        const cell = code[pc++] as number;
        const offset = (cell >> 1) * field.variants;
        const columns = each && (cell & 1) === 0 ? field.columns : 1;
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
    const free = freeLanes(field, each, lanes);
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
    const outer = this.rows;
    this.rows = new Float64Array((depth + 4) * field.columns * field.variants + 64);
    this.level += 1;
    try {
      this.lanes(program, 0, values, field, true, out, 0);
    } finally {
      this.level -= 1;
      this.rows = outer;
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
    const lanes = each ? field.variants * field.columns : field.variants;
    const { rows: stack } = this;
    let pc = start;
    let to = 0;
    let one = 0;
    do {
      one = code[pc++]!;
      const op = one & ~LAST;
      if (op >= 40) {
        // A pair: its first operation, then its second.
        const first = (op - 40) >> 3;
        if (first === 4) this.load(code[pc++]!, to, values, field, each, lanes);
        else {
          this.pair2(first, to, code[pc]!, code[pc + 1]!, values, field, each, lanes);
          pc += 2;
        }
        const second = op & 7;
        if (second < 4) this.beside(second, to, code[pc++]!, values, field, each, lanes);
        else if (second === 4) this.whole(to, field, each, lanes);
        else this.second(second, to, code[pc++]!, values, field, each, lanes);
        continue;
      }
      switch (op) {
        case 1: // LOAD
          this.load(code[pc++]!, to, values, field, each, lanes);
          break;
        case 2: // PUSH
          to += lanes;
          break;
        case 3: // ADD2
        case 4: // SUB2
        case 5: // MUL2
        case 6: // DIV2
          this.pair2(op - 3, to, code[pc]!, code[pc + 1]!, values, field, each, lanes);
          pc += 2;
          break;
        case 7: // ADD
        case 8: // SUB
        case 9: // MUL
        case 10: // DIV
          this.beside(op - 7, to, code[pc++]!, values, field, each, lanes);
          break;
        case 11: // RSUB
          this.load(code[pc++]!, to + lanes, values, field, each, lanes);
          arithmetic(1, stack, to, stack, to + lanes, stack, to, lanes);
          break;
        case 12: // RDIV
          this.load(code[pc++]!, to + lanes, values, field, each, lanes);
          divided(stack, to, to + lanes, to, lanes);
          break;
        case 13: // ADDS
        case 14: // SUBS
        case 15: // MULS
          to -= lanes;
          arithmetic(op - 13, stack, to, stack, to, stack, to + lanes, lanes);
          break;
        case 16: // DIVS
          to -= lanes;
          divided(stack, to, to, to + lanes, lanes);
          break;
        case 17: // NEG
          for (let i = to; i < to + lanes; i += 1) stack[i] = 0 - stack[i]!;
          break;
        case 18: // WHOLE
          this.whole(to, field, each, lanes);
          break;
        case 19: // MULTIPLE
        case 20: // MAX
        case 21: // MIN
          this.second(op - 14, to, code[pc++]!, values, field, each, lanes);
          break;
        case 22: {
          // CALL
          const spec = this.pools.functions[code[pc]!] as NumberSpec;
          const count = code[pc + 1]!;
          pc += 2;
          to -= (count - 1) * lanes;
          this.calls(spec, to, count, lanes, field, each);
          break;
        }
        default: {
          const next = this.rare(op, code, pc, to / lanes, lanes, values, field, each);
          pc = next.pc;
          to = next.sp * lanes;
        }
      }
    } while (one < LAST);
    for (let i = 0; i < lanes; i += 1) {
      const value = stack[to + i]!;
      out[outAt + i] = value - value === 0 ? value : value - value;
    }
  }

  /** Two operands, the outcome in a row that was free. */
  private pair2(
    kind: number,
    to: number,
    a: number,
    b: number,
    values: Float64Array,
    field: Field,
    each: boolean,
    lanes: number,
  ): void {
    const { variants } = field;
    if (each && (a & b & 1) === 0) {
      this.load(a, to, values, field, each, lanes);
      this.beside(kind, to, b, values, field, each, lanes);
    } else arithmetic(kind, this.rows, to, values, (a >> 1) * variants, values, (b >> 1) * variants, lanes);
  }

  /** An operand on the right of a row. */
  private beside(
    kind: number,
    to: number,
    operand: number,
    values: Float64Array,
    field: Field,
    each: boolean,
    lanes: number,
  ): void {
    const { rows } = this;
    const from = (operand >> 1) * field.variants;
    if (!each || (operand & 1) === 1) arithmetic(kind, rows, to, rows, to, values, from, lanes);
    else if (field.variants === 1) withNumber(kind, rows, to, values[from]!, lanes);
    else {
      this.load(operand, to + lanes, values, field, each, lanes);
      arithmetic(kind, rows, to, rows, to, rows, to + lanes, lanes);
    }
  }

  /** Puts an operand's lanes into a row; one value is repeated over the columns. */
  private load(
    operand: number,
    to: number,
    values: Float64Array,
    { variants, columns }: Field,
    each: boolean,
    lanes: number,
  ): void {
    const { rows } = this;
    const from = (operand >> 1) * variants;
    if (!each || (operand & 1) === 1) for (let i = 0; i < lanes; i += 1) rows[to + i] = values[from + i]!;
    else
      for (let i = 0, v = from; i < lanes; v += 1) {
        const value = values[v]!;
        for (const end = i + columns; i < end; i += 1) rows[to + i] = value;
      }
  }

  /** To whole counts; where counts are held, to those of the first variant. */
  private whole(to: number, field: Field, each: boolean, lanes: number): void {
    const { rows } = this;
    const free = freeLanes(field, each, lanes);
    for (let i = to; i < to + free; i += 1) rows[i] = +wholeNear(rows[i]!);
    for (let i = to + free; i < to + lanes; i += 1) rows[i] = rows[i - free]!;
  }

  /** The functions of two numbers that have operations of their own (5 to 7: multiple, max, min), with an operand. */
  private second(
    kind: number,
    to: number,
    operand: number,
    values: Float64Array,
    field: Field,
    each: boolean,
    lanes: number,
  ): void {
    const { rows } = this;
    let right = values;
    let at = (operand >> 1) * field.variants;
    if (each && (operand & 1) === 0) {
      this.load(operand, to + lanes, values, field, each, lanes);
      right = rows;
      at = to + lanes;
    }
    if (kind === 6) for (let i = 0; i < lanes; i += 1) rows[to + i] = +larger(rows[to + i]!, right[at + i]!);
    else if (kind === 7)
      for (let i = 0; i < lanes; i += 1) rows[to + i] = +smaller(rows[to + i]!, right[at + i]!);
    else {
      const free = freeLanes(field, each, lanes);
      for (let i = 0; i < free; i += 1) rows[to + i] = +nearMultiple(rows[to + i]!, right[at + i]!);
      for (let i = to + free; i < to + lanes; i += 1) rows[i] = rows[i - free]!;
    }
  }

  private calls(
    spec: NumberSpec,
    first: number,
    count: number,
    lanes: number,
    field: Field,
    each: boolean,
  ): void {
    const { stack } = this;
    const width = each ? field.columns : 1;
    const work = spec.work as (...args: number[]) => number;
    const holds = field.held && field.variants > 1 ? spec.holds : undefined;
    const inputs = holds === 'length' ? Array.from(stack.subarray(first, first + lanes)) : [];
    for (let i = 0; i < lanes; i += 1) {
      const at = first + i;
      if (holds && i >= width) {
        const base = stack[first + (i % width)] as number;
        stack[at] = holds === 'count' ? base : base + (inputs[i] as number) - (inputs[i % width] as number);
      } else stack[at] = called(work, stack, at, count, lanes);
    }
  }
}

/** left op right, lane by lane; `kind` is 0 to 3: plus, minus, times, divided by a cell or a constant. */
function arithmetic(
  kind: number,
  to: Float64Array,
  at: number,
  left: Float64Array,
  leftAt: number,
  right: Float64Array,
  rightAt: number,
  lanes: number,
): void {
  switch (kind) {
    case 0:
      for (let i = 0; i < lanes; i += 1) to[at + i] = left[leftAt + i]! + right[rightAt + i]!;
      break;
    case 1:
      for (let i = 0; i < lanes; i += 1) to[at + i] = left[leftAt + i]! - right[rightAt + i]!;
      break;
    case 2:
      for (let i = 0; i < lanes; i += 1) to[at + i] = left[leftAt + i]! * right[rightAt + i]!;
      break;
    default:
      for (let i = 0; i < lanes; i += 1) to[at + i] = left[leftAt + i]! / right[rightAt + i]!;
  }
}

/** Divided by what was worked out on the way, which may be without end: then the quotient is no value, not nothing. */
function divided(rows: Float64Array, at: number, leftAt: number, rightAt: number, lanes: number): void {
  for (let i = 0; i < lanes; i += 1) rows[at + i] = +quotient(rows[leftAt + i]!, rows[rightAt + i]!);
}

/** The same with one number on the right of every lane. */
function withNumber(kind: number, rows: Float64Array, at: number, right: number, lanes: number): void {
  switch (kind) {
    case 0:
      for (let i = at; i < at + lanes; i += 1) rows[i]! += right;
      break;
    case 1:
      for (let i = at; i < at + lanes; i += 1) rows[i]! -= right;
      break;
    case 2:
      for (let i = at; i < at + lanes; i += 1) rows[i]! *= right;
      break;
    default:
      for (let i = at; i < at + lanes; i += 1) rows[i]! /= right;
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
