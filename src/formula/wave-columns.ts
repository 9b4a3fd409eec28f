/*
 * A wave of changes through cells with a value for each column: operation by operation over all columns at once, the
 * outcome compared with what the cell held. Numbers wait in rows, one number a column. An operand with one value for all
 * is read with a stride of 0, one with a value for each column with a stride of 1, so that one loop does for both.
 *
 * This is `runPlain` of `wave.ts` for more than one value; it stands apart so that neither makes the other slower. Here,
 * too, all is in one function, and operations are literal cases: a row of ten is done before a call of a function for it
 * would have begun. Of a pair the first operation is done over all columns, and then the second. What a loop does
 * around its arithmetic takes longer than the arithmetic: so they go four columns at a time, and then two. Where the
 * number of columns is odd, they take a number more, which is nobody's and is not kept.
 */

import { nearMultiple, wholeNear } from '../quantity/index.ts';
import { LAST } from './compile.ts';
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
  const { ran, slow, each, flags, places, code, starts, values, why, field } = cells;
  const { columns } = field;
  /** How far rows are apart. */
  const wide = columns + (columns & 1);
  const { works } = machine.pools;
  const rows = machine.stack;
  let { count } = going;
  let word = going.word - 1;
  let bits = 0;
  next: for (;;) {
    while (bits === 0) {
      word += 1;
      if (word >= words) break next;
      bits = dirty[word]!;
      dirty[word] = 0;
    }
    const at = (word << 5) + 31 - Math.clz32(bits & -bits);
    const node = order[at]!;
    if ((flags[node]! & (slow | each)) !== each) break;
    bits &= bits - 1;
    let pc = starts[node]!;
    let from = 0;
    let op = 0;
    /** Whether the long way must be gone: there is an operation left to it, or a column without a value. */
    let long = false;
    do {
      op = code[pc++]!;
      const end = from + columns;
      let now = op & ~LAST;
      let a = code[pc]! >> 1;
      let stepA = code[pc]! & 1;
      let i = from;
      /** As long as at least three are left. */
      const four = end - 2;
      if (now >= 40 || (now >= 3 && now <= 6)) {
        let b = code[pc + 1]! >> 1;
        const stepB = code[pc + 1]! & 1;
        pc += 2;
        switch (now >= 40 ? (now - 40) >> 3 : now - 3) {
          case 0: // ADD2
            for (; i < four; i += 4) {
              rows[i] = values[a]! + values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 1] = values[a]! + values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 2] = values[a]! + values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 3] = values[a]! + values[b]!;
              a += stepA;
              b += stepB;
            }
            if (i < end) {
              rows[i] = values[a]! + values[b]!;
              rows[i + 1] = values[a + stepA]! + values[b + stepB]!;
            }
            break;
          case 1: // SUB2
            for (; i < four; i += 4) {
              rows[i] = values[a]! - values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 1] = values[a]! - values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 2] = values[a]! - values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 3] = values[a]! - values[b]!;
              a += stepA;
              b += stepB;
            }
            if (i < end) {
              rows[i] = values[a]! - values[b]!;
              rows[i + 1] = values[a + stepA]! - values[b + stepB]!;
            }
            break;
          case 2: // MUL2
            for (; i < four; i += 4) {
              rows[i] = values[a]! * values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 1] = values[a]! * values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 2] = values[a]! * values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 3] = values[a]! * values[b]!;
              a += stepA;
              b += stepB;
            }
            if (i < end) {
              rows[i] = values[a]! * values[b]!;
              rows[i + 1] = values[a + stepA]! * values[b + stepB]!;
            }
            break;
          case 3: // DIV2
            for (; i < four; i += 4) {
              rows[i] = values[a]! / values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 1] = values[a]! / values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 2] = values[a]! / values[b]!;
              a += stepA;
              b += stepB;
              rows[i + 3] = values[a]! / values[b]!;
              a += stepA;
              b += stepB;
            }
            if (i < end) {
              rows[i] = values[a]! / values[b]!;
              rows[i + 1] = values[a + stepA]! / values[b + stepB]!;
            }
            break;
          default: // LOAD
            if (now === 78) {
              // LOAD MAX
              for (; i < end; i += 1, a += stepA, b += stepB) rows[i] = larger(values[a]!, values[b]!);
              continue;
            }
            if (now === 79) {
              // LOAD MIN
              for (; i < end; i += 1, a += stepA, b += stepB) rows[i] = smaller(values[a]!, values[b]!);
              continue;
            }
            pc -= 1;
            for (; i < end; i += 1, a += stepA) rows[i] = values[a]!;
        }
        if (now < 40) continue;
        a = code[pc]! >> 1;
        stepA = code[pc]! & 1;
        i = from;
        now = 40 + (now & 7);
      }
      switch (now) {
        case 1: // LOAD
          pc += 1;
          for (let i = from; i < end; i += 1, a += stepA) rows[i] = values[a]!;
          break;
        case 2: // PUSH
          from += wide;
          break;
        case 7: // ADD
        case 40:
          pc += 1;
          for (; i < four; i += 4) {
            rows[i]! += values[a]!;
            a += stepA;
            rows[i + 1]! += values[a]!;
            a += stepA;
            rows[i + 2]! += values[a]!;
            a += stepA;
            rows[i + 3]! += values[a]!;
            a += stepA;
          }
          if (i < end) {
            rows[i]! += values[a]!;
            rows[i + 1]! += values[a + stepA]!;
          }
          break;
        case 8: // SUB
        case 41:
          pc += 1;
          for (; i < four; i += 4) {
            rows[i]! -= values[a]!;
            a += stepA;
            rows[i + 1]! -= values[a]!;
            a += stepA;
            rows[i + 2]! -= values[a]!;
            a += stepA;
            rows[i + 3]! -= values[a]!;
            a += stepA;
          }
          if (i < end) {
            rows[i]! -= values[a]!;
            rows[i + 1]! -= values[a + stepA]!;
          }
          break;
        case 9: // MUL
        case 42:
          pc += 1;
          for (; i < four; i += 4) {
            rows[i]! *= values[a]!;
            a += stepA;
            rows[i + 1]! *= values[a]!;
            a += stepA;
            rows[i + 2]! *= values[a]!;
            a += stepA;
            rows[i + 3]! *= values[a]!;
            a += stepA;
          }
          if (i < end) {
            rows[i]! *= values[a]!;
            rows[i + 1]! *= values[a + stepA]!;
          }
          break;
        case 10: // DIV
        case 43:
          pc += 1;
          for (; i < four; i += 4) {
            rows[i]! /= values[a]!;
            a += stepA;
            rows[i + 1]! /= values[a]!;
            a += stepA;
            rows[i + 2]! /= values[a]!;
            a += stepA;
            rows[i + 3]! /= values[a]!;
            a += stepA;
          }
          if (i < end) {
            rows[i]! /= values[a]!;
            rows[i + 1]! /= values[a + stepA]!;
          }
          break;
        case 11: // RSUB
          pc += 1;
          for (let i = from; i < end; i += 1, a += stepA) rows[i] = values[a]! - rows[i]!;
          break;
        case 12: // RDIV
          pc += 1;
          for (let i = from; i < end; i += 1, a += stepA) rows[i] = quotient(values[a]!, rows[i]!);
          break;
        case 13: // ADDS
          from -= wide;
          for (let i = from; i < from + columns; i += 1) rows[i]! += rows[i + wide]!;
          break;
        case 14: // SUBS
          from -= wide;
          for (let i = from; i < from + columns; i += 1) rows[i]! -= rows[i + wide]!;
          break;
        case 15: // MULS
          from -= wide;
          for (let i = from; i < from + columns; i += 1) rows[i]! *= rows[i + wide]!;
          break;
        case 16: // DIVS
          from -= wide;
          for (let i = from; i < from + columns; i += 1) rows[i] = quotient(rows[i]!, rows[i + wide]!);
          break;
        case 17: // NEG
          for (let i = from; i < end; i += 1) rows[i] = 0 - rows[i]!;
          break;
        case 18: // WHOLE
        case 44:
          for (let i = from; i < end; i += 1) rows[i] = wholeNear(rows[i]!);
          break;
        case 19: // MULTIPLE
        case 45:
          pc += 1;
          for (let i = from; i < end; i += 1, a += stepA) rows[i] = nearMultiple(rows[i]!, values[a]!);
          break;
        case 20: // MAX
        case 46:
          pc += 1;
          for (let i = from; i < end; i += 1, a += stepA) rows[i] = larger(rows[i]!, values[a]!);
          break;
        case 21: // MIN
        case 47:
          pc += 1;
          for (let i = from; i < end; i += 1, a += stepA) rows[i] = smaller(rows[i]!, values[a]!);
          break;
        case 22: {
          // CALL
          const work = works[code[pc]!]!;
          const taken = code[pc + 1]!;
          pc += 2;
          from -= (taken - 1) * wide;
          for (let i = from; i < from + columns; i += 1) rows[i] = called(work, rows, i, taken, wide);
          break;
        }
        default:
          long = true;
      }
    } while (op < LAST && !long);
    let changed = false;
    if (!long) {
      let place = places[node]!;
      const end = from + columns;
      let i = from;
      for (; i < end - 1; i += 2, place += 2) {
        const value = rows[i]!;
        const beside = rows[i + 1]!;
        const by = value - values[place]!;
        const byBeside = beside - values[place + 1]!;
        if (by === 0 && byBeside === 0) continue;
        if (by - by !== byBeside - byBeside) break; // A column without a value, before or now.
        values[place] = value;
        values[place + 1] = beside;
        changed = true;
      }
      for (; i < end; i += 1, place += 1) {
        const value = rows[i]!;
        const by = value - values[place]!;
        if (by === 0) continue;
        if (value - value === 0) {
          values[place] = value;
          if (by - by !== 0) why[place] = 0;
          changed = true;
        } else long = true; // No value: it is asked why.
      }
    }
    if (long) changed = recompute(node) || changed;
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
  if (bits !== 0) dirty[word] = bits;
  going.word = word;
  going.count = count;
}
