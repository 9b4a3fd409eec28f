/*
 * A wave of changes through cells with a value for each column: operation by operation over all columns at once, the
 * outcome compared with what the cell held. Numbers wait in rows, one number a column. An operand with one value for all
 * is read with a stride of 0, one with a value for each column with a stride of 1, so that one loop does for both.
 *
 * This is `runPlain` of `wave.ts` for more than one value; it stands apart so that neither makes the other slower.
 */

import { multipleOf, wholeNear } from '../quantity/index.ts';
import { firstOf, LAST, OP, secondOf } from './compile.ts';
import { called, larger, type Machine, quotient, smaller } from './machine.ts';
import type { Cells, Going, Recompute, Wave } from './wave.ts';

/** Goes on through the wave up to a node that has not one value for each column, or is not plain for another reason. */
export function runColumns(
  { order, dirty, spans, dependents, words }: Wave,
  cells: Cells,
  machine: Machine,
  recompute: Recompute,
  going: Going,
): void {
  const { ran, slow, each, flags, places, starts, values, why, code, field } = cells;
  const { columns } = field;
  const { works } = machine.pools;
  const rows = machine.stack;
  let { word, count } = going;
  let bits = 0;
  wave: for (; word < words; word += 1) {
    bits = dirty[word]!;
    dirty[word] = 0;
    while (bits !== 0) {
      const bit = bits & -bits;
      const at = (word << 5) + 31 - Math.clz32(bit);
      const node = order[at]!;
      if ((flags[node]! & (slow | each)) !== each) break wave;
      bits ^= bit;
      const row = workColumns(code, starts[node]!, values, columns, rows, works);
      const outcome = row < 0 ? LONG_WAY : keep(rows, row, values, why, places[node]!, columns);
      const changed = outcome === LONG_WAY ? recompute(node) : outcome === CHANGED;
      ran[count++] = changed ? 2 * node + 1 : 2 * node;
      if (!changed) continue;
      const end = spans[2 * at + 1]!;
      for (let i = spans[2 * at]!; i < end; i += 1) {
        const dependent = dependents[i]!;
        if (dependent <= at) continue;
        if (dependent >> 5 === word) bits |= 1 << dependent;
        else dirty[dependent >> 5]! |= 1 << dependent;
      }
    }
  }
  if (bits !== 0) dirty[word] = bits;
  going.word = word;
  going.count = count;
}

/** What came of a cell: as it was, changed, or to be worked out the long way, with nothing written yet. */
const AS_IT_WAS = 0;
const CHANGED = 1;
const LONG_WAY = 2;

/**
 * Works the code at `start` out over so many columns; gives where the row with the outcome begins. −1 where there is an
 * operation that is left to the long way.
 */
function workColumns(
  code: Int32Array,
  start: number,
  values: Float64Array,
  columns: number,
  rows: Float64Array,
  works: readonly ((...args: number[]) => number)[],
): number {
  let pc = start;
  let to = 0;
  let one = 0;
  do {
    one = code[pc++]!;
    const op = one & ~LAST;
    if (op >= OP.PAIR || (op >= OP.ADD2 && op <= OP.DIV2)) {
      const first = op >= OP.PAIR ? firstOf(op) : op;
      if (first === OP.LOAD) load(rows, to, columns, values, code[pc++]!);
      else {
        pairs(first, rows, to, columns, values, code[pc]!, code[pc + 1]!);
        pc += 2;
      }
      if (op < OP.PAIR) continue;
      const second = secondOf(op);
      if (second === OP.WHOLE) alone(second, rows, to, columns);
      else beside(second, rows, to, columns, values, code[pc++]!);
      continue;
    }
    switch (op) {
      case OP.LOAD:
        load(rows, to, columns, values, code[pc++]!);
        break;
      case OP.PUSH:
        to += columns;
        break;
      case OP.ADDS:
      case OP.SUBS:
      case OP.MULS:
      case OP.DIVS:
        to -= columns;
        stacked(op, rows, to, columns);
        break;
      case OP.NEG:
      case OP.WHOLE:
        alone(op, rows, to, columns);
        break;
      case OP.CALL: {
        const work = works[code[pc]!]!;
        const taken = code[pc + 1]!;
        pc += 2;
        to -= (taken - 1) * columns;
        for (let i = to; i < to + columns; i += 1) rows[i] = called(work, rows, i, taken, columns);
        break;
      }
      default:
        if (op > OP.MIN) return -1;
        beside(op, rows, to, columns, values, code[pc++]!);
    }
  } while (one < LAST);
  return to;
}

/** Writes a row over what the cell held, unless some column has no value. */
function keep(
  rows: Float64Array,
  from: number,
  values: Float64Array,
  why: Int32Array,
  place: number,
  columns: number,
): number {
  let none = 0; // Stays 0 while every number is one.
  for (let i = from; i < from + columns; i += 1) none += rows[i]! - rows[i]!;
  if (none !== 0) return LONG_WAY;
  let outcome = AS_IT_WAS;
  for (let i = 0; i < columns; i += 1) {
    const value = rows[from + i]!;
    const old = values[place + i]!;
    if (value === old) continue;
    values[place + i] = value;
    if (old - old !== 0) why[place + i] = 0;
    outcome = CHANGED;
  }
  return outcome;
}

/** An operand, by itself. */
function load(rows: Float64Array, to: number, lanes: number, values: Float64Array, operand: number): void {
  let a = operand >> 1;
  for (let i = to; i < to + lanes; i += 1, a += operand & 1) rows[i] = values[a]!;
}

/** What takes the row at hand and nothing else. */
function alone(op: number, rows: Float64Array, to: number, lanes: number): void {
  const end = to + lanes;
  if (op === OP.WHOLE) for (let i = to; i < end; i += 1) rows[i] = wholeNear(rows[i]!);
  else for (let i = to; i < end; i += 1) rows[i] = 0 - rows[i]!;
}

/** Two operands, the outcome in a row that was free. */
function pairs(
  op: number,
  rows: Float64Array,
  to: number,
  lanes: number,
  values: Float64Array,
  left: number,
  right: number,
): void {
  const end = to + lanes;
  let a = left >> 1;
  let b = right >> 1;
  const nextA = left & 1;
  const nextB = right & 1;
  switch (op) {
    case OP.ADD2:
      for (let i = to; i < end; i += 1, a += nextA, b += nextB) rows[i] = values[a]! + values[b]!;
      break;
    case OP.SUB2:
      for (let i = to; i < end; i += 1, a += nextA, b += nextB) rows[i] = values[a]! - values[b]!;
      break;
    case OP.MUL2:
      for (let i = to; i < end; i += 1, a += nextA, b += nextB) rows[i] = values[a]! * values[b]!;
      break;
    default:
      for (let i = to; i < end; i += 1, a += nextA, b += nextB) rows[i] = values[a]! / values[b]!;
  }
}

/** A row and an operand. */
function beside(
  op: number,
  rows: Float64Array,
  to: number,
  lanes: number,
  values: Float64Array,
  operand: number,
): void {
  const end = to + lanes;
  let a = operand >> 1;
  const next = operand & 1;
  switch (op) {
    case OP.ADD:
      for (let i = to; i < end; i += 1, a += next) rows[i]! += values[a]!;
      break;
    case OP.SUB:
      for (let i = to; i < end; i += 1, a += next) rows[i]! -= values[a]!;
      break;
    case OP.MUL:
      for (let i = to; i < end; i += 1, a += next) rows[i]! *= values[a]!;
      break;
    case OP.DIV:
      for (let i = to; i < end; i += 1, a += next) rows[i]! /= values[a]!;
      break;
    case OP.RSUB:
      for (let i = to; i < end; i += 1, a += next) rows[i] = values[a]! - rows[i]!;
      break;
    case OP.RDIV:
      for (let i = to; i < end; i += 1, a += next) rows[i] = quotient(values[a]!, rows[i]!);
      break;
    case OP.MULTIPLE:
      for (let i = to; i < end; i += 1, a += next) rows[i] = multipleOf(wholeNear, rows[i]!, values[a]!, 0);
      break;
    case OP.MAX:
      for (let i = to; i < end; i += 1, a += next) rows[i] = larger(rows[i]!, values[a]!);
      break;
    default:
      for (let i = to; i < end; i += 1, a += next) rows[i] = smaller(rows[i]!, values[a]!);
  }
}

/** A row, and the one above it. */
function stacked(op: number, rows: Float64Array, to: number, lanes: number): void {
  const end = to + lanes;
  switch (op) {
    case OP.ADDS:
      for (let i = to; i < end; i += 1) rows[i]! += rows[i + lanes]!;
      break;
    case OP.SUBS:
      for (let i = to; i < end; i += 1) rows[i]! -= rows[i + lanes]!;
      break;
    case OP.MULS:
      for (let i = to; i < end; i += 1) rows[i]! *= rows[i + lanes]!;
      break;
    default:
      for (let i = to; i < end; i += 1) rows[i] = quotient(rows[i]!, rows[i + lanes]!);
  }
}
