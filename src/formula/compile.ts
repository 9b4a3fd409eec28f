/*
 * Checked tree → code for the machine: small whole numbers in one array. The machine has one number at hand, and a
 * stack for numbers that wait. A cell or a constant is an *operand*: the place of its value, twice, plus one where it
 * has a value for each column. Constants have places among the cells' values, so that code need not tell them apart.
 * Operators take operands straight from their places; the plain functions a knitter writes all day have operations
 * of their own. Sums and products may be turned round (a + b is b + a, to the last bit) so that less has to wait.
 *
 * The last operation of a code is marked LAST. An operation that begins with operands and the one after it are often
 * written as one, a *pair*: to find out what comes next takes longer than to do it.
 *
 * Worked example: whole((chest + ease) * gauge) → ADD2 with MUL chest ease gauge, WHOLE and LAST.
 */

import type { FunctionSpec, NumberSpec, PlanSpec, ReadingSpec, RunSpec } from './spec.ts';
import type { Store } from './store.ts';
import type { Node, Operator } from './tree.ts';
import { walk } from './tree.ts';

/**
 * Operations of the machine. ADD2 … take two operands, ADD … one operand on the right of the number at hand, ADDS …
 * that number on the right of the one that waited last; RSUB and RDIV have their operand on the left.
 */
export const OP = {
  LOAD: 1,
  PUSH: 2,
  ADD2: 3,
  SUB2: 4,
  MUL2: 5,
  DIV2: 6,
  ADD: 7,
  SUB: 8,
  MUL: 9,
  DIV: 10,
  RSUB: 11,
  RDIV: 12,
  ADDS: 13,
  SUBS: 14,
  MULS: 15,
  DIVS: 16,
  NEG: 17,
  WHOLE: 18,
  MULTIPLE: 19,
  MAX: 20,
  MIN: 21,
  CALL: 22,
  NOT: 23,
  IF: 24,
  AND: 25,
  OR: 26,
  LESS: 27,
  MORE: 28,
  AT_MOST: 29,
  AT_LEAST: 30,
  EQUAL: 31,
  UNEQUAL: 32,
  SAME_LABEL: 33,
  OTHER_LABEL: 34,
  POWER: 35,
  PLAN: 36,
  READ: 37,
  RUN: 38,
  GIVEN: 39,
  /** From here on pairs: eight times the number of the first, plus the number of the second. */
  PAIR: 40,
} as const;

/** Added to the last operation of a code. */
export const LAST = 128;

/** What a pair may begin with, and what may follow. */
const FIRSTS: readonly number[] = [OP.ADD2, OP.SUB2, OP.MUL2, OP.DIV2, OP.LOAD];
const SECONDS: readonly number[] = [OP.ADD, OP.SUB, OP.MUL, OP.DIV, OP.WHOLE, OP.MULTIPLE, OP.MAX, OP.MIN];

/** The two operations that a pair is made of. */
export function firstOf(pair: number): number {
  return FIRSTS[(pair - OP.PAIR) >> 3]!;
}
export function secondOf(pair: number): number {
  return SECONDS[(pair - OP.PAIR) & 7]!;
}

/** What the compiler asks of the sheet: where a cell's values are, and what kind it is. */
export interface Linker {
  /** The offset of a cell's values; undefined where no cell has the name. */
  offset(name: string): number | undefined;
  isEach(name: string): boolean;
  isLabel(node: Node): boolean;
  isPercent(node: Node): boolean;
  spec(name: string): FunctionSpec | undefined;
  /** The offset of a constant, kept among the cells' values. */
  constant(value: number): number;
  readonly store: Store;
  /** Offset of the day and of the chosen column. */
  readonly todayOffset: number;
  readonly chosenOffset: number;
}

/** A call of a function over the columns, as the machine needs it. */
export interface RunCall {
  readonly spec: RunSpec;
  /** Code of each argument that is worked out column by column. */
  readonly programs: readonly Int32Array[];
  /** How many single arguments lie on the stack. */
  readonly singles: number;
  /** Offsets of the cells the column-wise arguments use: with one value for each column, and with one value. */
  readonly eachCells: readonly number[];
  readonly singleCells: readonly number[];
  readonly depth: number;
}

/** Where compiled pieces other than code are kept, shared by a whole sheet. */
export interface Pools {
  /** Constant exponents. */
  readonly exponents: number[];
  readonly functions: (NumberSpec | PlanSpec | ReadingSpec)[];
  /** The work of each number function, beside `functions`: looked up in the hot path without going through its record. */
  readonly works: ((...args: number[]) => number)[];
  readonly functionAt: Map<string, number>;
  readonly runs: RunCall[];
}

/** Empty pools. */
export function createPools(): Pools {
  return { exponents: [], functions: [], works: [], functionAt: new Map(), runs: [] };
}

interface Compile {
  readonly link: Linker;
  readonly pools: Pools;
  readonly code: number[];
  /** Where the last operation stands in `code`; −1 before the first. */
  last: number;
  /** Whether there is a number at hand that must not be lost. */
  live: boolean;
  depth: number;
  deepest: number;
}

function begun(link: Linker, pools: Pools): Compile {
  return { link, pools, code: [], last: -1, live: false, depth: 0, deepest: 0 };
}

function functionAt(pools: Pools, spec: NumberSpec | PlanSpec | ReadingSpec): number {
  let at = pools.functionAt.get(spec.name);
  if (at === undefined) {
    at = pools.functions.push(spec) - 1;
    pools.works.push(
      spec.kind === 'number' ? (spec.work as (...args: number[]) => number) : () => Number.NaN,
    );
    pools.functionAt.set(spec.name, at);
  }
  return at;
}

/** Makes way for another number at hand; gives whether one has to wait meanwhile. */
function makeWay(c: Compile): boolean {
  const waits = c.live;
  if (waits) c.depth += 1;
  c.deepest = Math.max(c.deepest, c.depth);
  c.live = true;
  return waits;
}

/** Code that begins with operands, not with the number at hand. */
function begin(c: Compile, ...code: readonly number[]): void {
  if (makeWay(c)) write(c, [OP.PUSH]);
  write(c, code);
}

/** Writes an operation with its operands. */
function write(c: Compile, code: readonly number[]): void {
  c.last = c.code.length;
  c.code.push(...code);
}

/** Writes an operation as a pair with the one before it; gives whether that can be. */
function pair(c: Compile, [op = 0, ...operands]: readonly number[]): boolean {
  const first = FIRSTS.indexOf(c.code[c.last] ?? -1);
  const second = SECONDS.indexOf(op);
  if (first < 0 || second < 0) return false;
  c.code[c.last] = OP.PAIR + 8 * first + second;
  c.code.push(...operands);
  return true;
}

/** A whole code, its last operation marked. */
function ended(c: Compile): readonly number[] {
  c.code[c.last]! |= LAST;
  return c.code;
}

/** An operation that takes so many of the numbers that wait. */
function take(c: Compile, taken: number, ...code: readonly number[]): void {
  if (!pair(c, code)) write(c, code);
  c.depth -= taken;
}

const ARITHMETIC: Partial<Record<Operator, number>> = { '+': 0, '-': 1, '*': 2, '/': 3 };
/** The four with their operand on the left. */
const TURNED = [OP.ADD, OP.RSUB, OP.MUL, OP.RDIV] as const;
const OTHERS: Partial<Record<Operator, number>> = {
  '<': OP.LESS,
  '>': OP.MORE,
  '<=': OP.AT_MOST,
  '>=': OP.AT_LEAST,
  '==': OP.EQUAL,
  '!=': OP.UNEQUAL,
  and: OP.AND,
  or: OP.OR,
};

/** Whether a value is known as it stands: a literal, or arithmetic on literals. */
function folded(node: Node): number | undefined {
  if (node.kind === 'literal') return node.value;
  if (node.kind === 'minus') {
    const of = folded(node.of);
    return of === undefined ? undefined : -of;
  }
  if (node.kind !== 'binary') return undefined;
  const [left, right] = [folded(node.left), folded(node.right)];
  if (left === undefined || right === undefined) return undefined;
  if (node.op === '*') return left * right;
  return node.op === '/' && right !== 0 ? left / right : undefined;
}

/** `x ± 10%` scales x unless x is a percentage too. */
export function isScaling(
  node: Node & { kind: 'binary' },
  kinds: { isPercent(node: Node): boolean },
): node is Node & { kind: 'binary'; right: { kind: 'literal' } } {
  if (node.op !== '+' && node.op !== '-') return false;
  return node.right.kind === 'literal' && node.right.percent && !kinds.isPercent(node.left);
}

/** The number that a part stands for whatever the cells hold; undefined where it hangs on a cell. */
function constant(c: Compile, node: Node): number | undefined {
  switch (node.kind) {
    case 'truth':
      return node.value ? 1 : 0;
    case 'label':
      return c.link.store.label(node.text);
    case 'date':
      return node.day * MINUTES_A_DAY;
    default:
      return folded(node);
  }
}

const single = (offset: number): number => offset * 2;

function cellOperand(c: Compile, name: string): number {
  const offset = c.link.offset(name);
  if (offset === undefined) throw new Error(`compiled an unknown cell: ${name}`);
  return offset * 2 + (c.link.isEach(name) ? 1 : 0);
}

/** The operand that a part is; undefined where it must be worked out. */
function operand(c: Compile, node: Node): number | undefined {
  const value = constant(c, node);
  if (value !== undefined) return single(c.link.constant(value));
  if (node.kind === 'cell') return cellOperand(c, node.name);
  if (node.kind === 'to') return operand(c, node.of);
  const today = node.kind === 'call' && c.link.spec(node.name)?.kind === 'today';
  return today ? single(c.link.todayOffset) : undefined;
}

/** `kind` is 0 to 3: plus, minus, times, divided by. */
function emitArithmetic(c: Compile, kind: number, left: Node, right: Node): void {
  const [a, b] = [operand(c, left), operand(c, right)];
  if (a !== undefined && b !== undefined) return begin(c, OP.ADD2 + kind, a, b);
  if (b !== undefined) {
    emit(c, left);
    return take(c, 0, OP.ADD + kind, b);
  }
  if (a !== undefined) {
    emit(c, right);
    return take(c, 0, TURNED[kind]!, a);
  }
  emit(c, left);
  emit(c, right);
  take(c, 1, OP.ADDS + kind);
}

function emitScaling(c: Compile, node: Node & { kind: 'binary'; right: { kind: 'literal' } }): void {
  const scale = node.op === '-' ? 1 - node.right.value : 1 + node.right.value;
  emit(c, node.left);
  take(c, 0, OP.MUL, single(c.link.constant(scale)));
}

function exponentOf(node: Node): number {
  if (node.kind === 'literal') return node.value;
  if (node.kind === 'minus') return -exponentOf(node.of);
  return node.kind === 'binary' ? exponentOf(node.left) / exponentOf(node.right) : Number.NaN;
}

function emitBinary(c: Compile, node: Node & { kind: 'binary' }): void {
  if (isScaling(node, c.link)) return emitScaling(c, node);
  const kind = ARITHMETIC[node.op];
  if (kind !== undefined) return emitArithmetic(c, kind, node.left, node.right);
  emit(c, node.left);
  if (node.op === '^') return take(c, 0, OP.POWER, c.pools.exponents.push(exponentOf(node.right)) - 1);
  emit(c, node.right);
  const labels = c.link.isLabel(node.left) || c.link.isLabel(node.right);
  const plain = OTHERS[node.op] as number;
  const alike = plain === OP.EQUAL ? OP.SAME_LABEL : plain === OP.UNEQUAL ? OP.OTHER_LABEL : plain;
  take(c, 1, labels ? alike : plain);
}

/** Compiles an argument of a function over the columns as a program of its own. */
function program(c: Compile, node: Node): { readonly code: Int32Array; readonly depth: number } {
  const inner = begun(c.link, c.pools);
  emit(inner, node);
  return { code: Int32Array.from(ended(inner)), depth: inner.deepest };
}

function cellsIn(c: Compile, nodes: readonly Node[], each: boolean): number[] {
  const found = new Set<number>();
  for (const node of nodes)
    walk(node, (n) => {
      if (n.kind === 'cell' && c.link.isEach(n.name) === each) found.add(c.link.offset(n.name) as number);
    });
  return [...found];
}

function emitRun(c: Compile, spec: RunSpec, args: readonly Node[]): void {
  const each = args.filter((_, i) => spec.parameters[i]?.each);
  const singles = args.filter((_, i) => !spec.parameters[i]?.each);
  for (const single of singles) emit(c, single);
  const programs = each.map((arg) => program(c, arg));
  const call: RunCall = {
    spec,
    programs: programs.map((p) => p.code),
    singles: singles.length,
    eachCells: cellsIn(c, each, true),
    singleCells: cellsIn(c, each, false),
    depth: Math.max(0, ...programs.map((p) => p.depth)),
  };
  if (singles.length === 0) makeWay(c);
  take(c, Math.max(0, singles.length - 1), OP.RUN, c.pools.runs.push(call) - 1);
}

/** Functions with operations of their own: those that take a number, and those that take an operand too. */
const INLINE = { whole: OP.WHOLE, multiple: OP.MULTIPLE, max: OP.MAX, min: OP.MIN } as const;

/** Gives whether the call could be written with an operation of its own. */
function emitInline(c: Compile, spec: NumberSpec, args: readonly Node[]): boolean {
  const [first, second] = args;
  if (!spec.inline || !first) return false;
  const op = INLINE[spec.inline];
  const beside = second && operand(c, second);
  if (args.length !== (op === OP.WHOLE ? 1 : 2) || (second && beside === undefined)) return false;
  emit(c, first);
  take(c, 0, op, ...(beside === undefined ? [] : [beside]));
  return true;
}

function emitCall(c: Compile, node: Node & { kind: 'call' }): void {
  const spec = c.link.spec(node.name);
  if (!spec) throw new Error(`compiled an unknown function: ${node.name}`);
  if (spec.kind === 'today') throw new Error('today() is an operand');
  if (spec.kind === 'run') return emitRun(c, spec, node.args);
  const [first] = node.args;
  if (spec.kind === 'given') {
    if (first?.kind !== 'cell') throw new Error('given() of something other than a cell');
    makeWay(c);
    return take(c, 0, OP.GIVEN, cellOperand(c, first.name));
  }
  if (spec.kind === 'number' && emitInline(c, spec, node.args)) return;
  for (const arg of node.args) emit(c, arg);
  const op = spec.kind === 'number' ? OP.CALL : spec.kind === 'plan' ? OP.PLAN : OP.READ;
  take(c, node.args.length - 1, op, functionAt(c.pools, spec), node.args.length);
}

function emit(c: Compile, node: Node): void {
  const alone = operand(c, node);
  if (alone !== undefined) return begin(c, OP.LOAD, alone);
  switch (node.kind) {
    case 'call':
      return emitCall(c, node);
    case 'binary':
      return emitBinary(c, node);
    case 'to':
      return emit(c, node.of);
    case 'minus':
    case 'not':
      emit(c, node.of);
      return take(c, 0, node.kind === 'minus' ? OP.NEG : OP.NOT);
    case 'if':
      emit(c, node.test);
      emit(c, node.yes);
      emit(c, node.no);
      return take(c, 2, OP.IF);
    default:
      throw new Error(`${node.kind} is an operand`);
  }
}

/** Dates are kept as minutes, so that a date less a date is a time and a date plus a time is a date. */
export const MINUTES_A_DAY = 1440;

/** The code of a checked tree without problems, and how deep a stack it needs. */
export function compile(
  tree: Node,
  link: Linker,
  pools: Pools,
): { readonly code: readonly number[]; readonly depth: number } {
  const c = begun(link, pools);
  emit(c, tree);
  return { code: ended(c), depth: c.deepest };
}
