/*
 * Checked tree → postfix code: small whole numbers in one array, read by the machine. A cell is known in the code by
 * the offset of its values; constants by their place in a pool. Operators take their right operand straight from a
 * cell or a constant where they can, which saves a push and a jump in most formulas.
 *
 * Worked example: (chest + ease) * gauge → CELL chest, ADD+CELL ease, MUL+CELL gauge, END.
 */

import type { FunctionSpec, NumberSpec, PlanSpec, ReadingSpec, RunSpec } from './spec.ts';
import type { Store } from './store.ts';
import type { Node, Operator } from './tree.ts';
import { walk } from './tree.ts';

/** Operations of the machine. FROM_EACH, FROM_SINGLE and FROM_CONST are added to the four arithmetic ones. */
export const OP = {
  END: 0,
  CONST: 1,
  EACH: 2,
  SINGLE: 3,
  NEG: 4,
  NOT: 5,
  IF: 6,
  AND: 7,
  OR: 8,
  LESS: 9,
  MORE: 10,
  AT_MOST: 11,
  AT_LEAST: 12,
  EQUAL: 13,
  UNEQUAL: 14,
  SAME_LABEL: 15,
  OTHER_LABEL: 16,
  POWER: 17,
  CALL: 18,
  PLAN: 19,
  READ: 20,
  RUN: 21,
  GIVEN_EACH: 22,
  GIVEN_SINGLE: 23,
  ADD: 24,
  SUB: 28,
  MUL: 32,
  DIV: 36,
} as const;
export const FROM_STACK = 0;
export const FROM_EACH = 1;
export const FROM_SINGLE = 2;
export const FROM_CONST = 3;

/** What the compiler asks of the sheet: where a cell's values are, and what kind it is. */
export interface Linker {
  /** The offset of a cell's values; undefined where no cell has the name. */
  offset(name: string): number | undefined;
  isEach(name: string): boolean;
  isLabel(node: Node): boolean;
  isPercent(node: Node): boolean;
  spec(name: string): FunctionSpec | undefined;
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
  readonly constants: number[];
  readonly constantAt: Map<number, number>;
  readonly functions: (NumberSpec | PlanSpec | ReadingSpec)[];
  /** The work of each number function, beside `functions`: looked up in the hot path without going through its record. */
  readonly works: ((...args: number[]) => number)[];
  readonly functionAt: Map<string, number>;
  readonly runs: RunCall[];
}

/** Empty pools. */
export function createPools(): Pools {
  return { constants: [], constantAt: new Map(), functions: [], works: [], functionAt: new Map(), runs: [] };
}

interface Compile {
  readonly link: Linker;
  readonly pools: Pools;
  code: number[];
  depth: number;
  deepest: number;
}

function constantAt(pools: Pools, value: number): number {
  let at = pools.constantAt.get(value);
  if (at === undefined) {
    at = pools.constants.push(value) - 1;
    pools.constantAt.set(value, at);
  }
  return at;
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

function push(c: Compile, ...code: readonly number[]): void {
  c.code.push(...code);
  c.depth += 1;
  c.deepest = Math.max(c.deepest, c.depth);
}

function pop(c: Compile, taken: number, ...code: readonly number[]): void {
  c.code.push(...code);
  c.depth -= taken;
}

function emitCell(c: Compile, name: string): void {
  const offset = c.link.offset(name);
  if (offset === undefined) throw new Error(`compiled an unknown cell: ${name}`);
  push(c, c.link.isEach(name) ? OP.EACH : OP.SINGLE, offset);
}

const ARITHMETIC: Partial<Record<Operator, number>> = { '+': OP.ADD, '-': OP.SUB, '*': OP.MUL, '/': OP.DIV };
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

function emitArithmetic(c: Compile, op: number, right: Node): void {
  const value = folded(right);
  if (value !== undefined) c.code.push(op + FROM_CONST, constantAt(c.pools, value));
  else if (right.kind === 'cell') {
    const offset = c.link.offset(right.name) as number;
    c.code.push(op + (c.link.isEach(right.name) ? FROM_EACH : FROM_SINGLE), offset);
  } else {
    emit(c, right);
    pop(c, 1, op + FROM_STACK);
  }
}

function exponentOf(node: Node): number {
  if (node.kind === 'literal') return node.value;
  if (node.kind === 'minus') return -exponentOf(node.of);
  return node.kind === 'binary' ? exponentOf(node.left) / exponentOf(node.right) : Number.NaN;
}

function emitBinary(c: Compile, node: Node & { kind: 'binary' }): void {
  emit(c, node.left);
  const op = ARITHMETIC[node.op];
  if (isScaling(node, c.link)) {
    const scale = node.op === '-' ? 1 - node.right.value : 1 + node.right.value;
    c.code.push(OP.MUL + FROM_CONST, constantAt(c.pools, scale));
  } else if (op !== undefined) emitArithmetic(c, op, node.right);
  else if (node.op === '^') c.code.push(OP.POWER, constantAt(c.pools, exponentOf(node.right)));
  else {
    emit(c, node.right);
    const labels = c.link.isLabel(node.left) || c.link.isLabel(node.right);
    const plain = OTHERS[node.op] as number;
    pop(
      c,
      1,
      labels && plain === OP.EQUAL ? OP.SAME_LABEL : labels && plain === OP.UNEQUAL ? OP.OTHER_LABEL : plain,
    );
  }
}

/** Compiles an argument of a function over the columns as a program of its own. */
function program(c: Compile, node: Node): { readonly code: Int32Array; readonly depth: number } {
  const inner: Compile = { link: c.link, pools: c.pools, code: [], depth: 0, deepest: 0 };
  emit(inner, node);
  inner.code.push(OP.END);
  return { code: Int32Array.from(inner.code), depth: inner.deepest };
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
  c.depth -= singles.length;
  push(c, OP.RUN, c.pools.runs.push(call) - 1);
}

function emitCall(c: Compile, node: Node & { kind: 'call' }): void {
  const spec = c.link.spec(node.name);
  if (!spec) throw new Error(`compiled an unknown function: ${node.name}`);
  if (spec.kind === 'today') return push(c, OP.SINGLE, c.link.todayOffset);
  if (spec.kind === 'run') return emitRun(c, spec, node.args);
  const [first] = node.args;
  if (spec.kind === 'given' && first?.kind === 'cell')
    return push(
      c,
      c.link.isEach(first.name) ? OP.GIVEN_EACH : OP.GIVEN_SINGLE,
      c.link.offset(first.name) as number,
    );
  if (spec.kind === 'given') throw new Error('given() of something other than a cell');
  for (const arg of node.args) emit(c, arg);
  c.depth -= node.args.length;
  const op = spec.kind === 'number' ? OP.CALL : spec.kind === 'plan' ? OP.PLAN : OP.READ;
  push(c, op, functionAt(c.pools, spec), node.args.length);
}

function emit(c: Compile, node: Node): void {
  const value = folded(node);
  if (value !== undefined) return push(c, OP.CONST, constantAt(c.pools, value));
  switch (node.kind) {
    case 'literal':
      return push(c, OP.CONST, constantAt(c.pools, node.value));
    case 'truth':
      return push(c, OP.CONST, constantAt(c.pools, node.value ? 1 : 0));
    case 'label':
      return push(c, OP.CONST, constantAt(c.pools, c.link.store.label(node.text)));
    case 'date':
      return push(c, OP.CONST, constantAt(c.pools, node.day * MINUTES_A_DAY));
    case 'cell':
      return emitCell(c, node.name);
    case 'call':
      return emitCall(c, node);
    case 'binary':
      return emitBinary(c, node);
    case 'to':
      return emit(c, node.of);
    case 'minus':
    case 'not':
      emit(c, node.of);
      return void c.code.push(node.kind === 'minus' ? OP.NEG : OP.NOT);
    case 'if':
      emit(c, node.test);
      emit(c, node.yes);
      emit(c, node.no);
      return pop(c, 2, OP.IF);
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
  const c: Compile = { link, pools, code: [], depth: 0, deepest: 0 };
  emit(c, tree);
  c.code.push(OP.END);
  return { code: c.code, depth: c.deepest };
}
