/*
 * Going along a way that is remembered, where cells have a value for each column: five columns at a time, each number at
 * hand in a variable of its own, so that it need not be put down between two operations. Where there are more, the step
 * is gone again for the next five; the last five may take in columns that were done before, which come out the same.
 * With fewer columns what is worked out beyond them is nobody's, and is not kept. Its code is that of `column-code.ts`.
 *
 * A place is written `& 0x3fffffff`, which changes nothing: it tells V8 that the four places behind it are whole numbers
 * of the same kind.
 */

import { nearMultiple, wholeNear } from '../quantity/index.ts';
import { LAST } from './compile.ts';
import { AT_ONCE, called, larger, type Machine, quotient, smaller } from './machine.ts';
import type { Cells, Recompute } from './wave.ts';
import type { Along } from './way.ts';

/** Whether a count is far from a tie, `beyond` being it and a half less the whole below: then it is rounded the quick way. */
const isFar = (beyond: number): boolean => Math.abs(beyond - 0.5) < 0.49;

/** Goes the steps of a turn that have a value for each column. */
export function alongColumns(
  along: Along,
  { values, field }: Cells,
  machine: Machine,
  recompute: Recompute,
): void {
  const { way, until } = along;
  const { nodes, code, starts } = way;
  const { works } = machine.pools;
  const { stack } = machine;
  const { columns } = field;
  const many = Math.min(AT_ONCE, columns);
  /** The first of the last five. */
  const final = columns - many;
  let { step } = along;
  let begin = starts[step]!;
  for (; step < until; step += 1) {
    let changed = false;
    let first = 0;
    let pc = begin;
    for (;;) {
      pc = begin;
      let sp = 0;
      let op = 0;
      let long = false;
      let t0 = 0;
      let t1 = 0;
      let t2 = 0;
      let t3 = 0;
      let t4 = 0;
      do {
        op = code[pc++]!;
        switch (op & ~LAST) {
          case 2: {
            // LOAD
            const v = values[code[pc++]!]!;
            t0 = v;
            t1 = v;
            t2 = v;
            t3 = v;
            t4 = v;
            break;
          }
          case 3: {
            // LOAD each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 = values[p]!;
            t1 = values[p + 1]!;
            t2 = values[p + 2]!;
            t3 = values[p + 3]!;
            t4 = values[p + 4]!;
            break;
          }
          case 4: // PUSH
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            sp += AT_ONCE;
            break;
          case 6: {
            // ADD2, the second single
            const p = (code[pc++]! + first) & 0x3fffffff;
            const v = values[code[pc++]!]!;
            t0 = values[p]! + v;
            t1 = values[p + 1]! + v;
            t2 = values[p + 2]! + v;
            t3 = values[p + 3]! + v;
            t4 = values[p + 4]! + v;
            break;
          }
          case 7: {
            // ADD2, both each
            const p = (code[pc++]! + first) & 0x3fffffff;
            const q = (code[pc++]! + first) & 0x3fffffff;
            t0 = values[p]! + values[q]!;
            t1 = values[p + 1]! + values[q + 1]!;
            t2 = values[p + 2]! + values[q + 2]!;
            t3 = values[p + 3]! + values[q + 3]!;
            t4 = values[p + 4]! + values[q + 4]!;
            break;
          }
          case 8: {
            // SUB2, the second single
            const p = (code[pc++]! + first) & 0x3fffffff;
            const v = values[code[pc++]!]!;
            t0 = values[p]! - v;
            t1 = values[p + 1]! - v;
            t2 = values[p + 2]! - v;
            t3 = values[p + 3]! - v;
            t4 = values[p + 4]! - v;
            break;
          }
          case 9: {
            // SUB2, both each
            const p = (code[pc++]! + first) & 0x3fffffff;
            const q = (code[pc++]! + first) & 0x3fffffff;
            t0 = values[p]! - values[q]!;
            t1 = values[p + 1]! - values[q + 1]!;
            t2 = values[p + 2]! - values[q + 2]!;
            t3 = values[p + 3]! - values[q + 3]!;
            t4 = values[p + 4]! - values[q + 4]!;
            break;
          }
          case 10: {
            // MUL2, the second single
            const p = (code[pc++]! + first) & 0x3fffffff;
            const v = values[code[pc++]!]!;
            t0 = values[p]! * v;
            t1 = values[p + 1]! * v;
            t2 = values[p + 2]! * v;
            t3 = values[p + 3]! * v;
            t4 = values[p + 4]! * v;
            break;
          }
          case 11: {
            // MUL2, both each
            const p = (code[pc++]! + first) & 0x3fffffff;
            const q = (code[pc++]! + first) & 0x3fffffff;
            t0 = values[p]! * values[q]!;
            t1 = values[p + 1]! * values[q + 1]!;
            t2 = values[p + 2]! * values[q + 2]!;
            t3 = values[p + 3]! * values[q + 3]!;
            t4 = values[p + 4]! * values[q + 4]!;
            break;
          }
          case 12: {
            // DIV2, the second single
            const p = (code[pc++]! + first) & 0x3fffffff;
            const v = values[code[pc++]!]!;
            t0 = values[p]! / v;
            t1 = values[p + 1]! / v;
            t2 = values[p + 2]! / v;
            t3 = values[p + 3]! / v;
            t4 = values[p + 4]! / v;
            break;
          }
          case 13: {
            // DIV2, both each
            const p = (code[pc++]! + first) & 0x3fffffff;
            const q = (code[pc++]! + first) & 0x3fffffff;
            t0 = values[p]! / values[q]!;
            t1 = values[p + 1]! / values[q + 1]!;
            t2 = values[p + 2]! / values[q + 2]!;
            t3 = values[p + 3]! / values[q + 3]!;
            t4 = values[p + 4]! / values[q + 4]!;
            break;
          }
          case 14: {
            // ADD
            const v = values[code[pc++]!]!;
            t0 += v;
            t1 += v;
            t2 += v;
            t3 += v;
            t4 += v;
            break;
          }
          case 15: {
            // ADD each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 += values[p]!;
            t1 += values[p + 1]!;
            t2 += values[p + 2]!;
            t3 += values[p + 3]!;
            t4 += values[p + 4]!;
            break;
          }
          case 16: {
            // SUB
            const v = values[code[pc++]!]!;
            t0 -= v;
            t1 -= v;
            t2 -= v;
            t3 -= v;
            t4 -= v;
            break;
          }
          case 17: {
            // SUB each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 -= values[p]!;
            t1 -= values[p + 1]!;
            t2 -= values[p + 2]!;
            t3 -= values[p + 3]!;
            t4 -= values[p + 4]!;
            break;
          }
          case 18: {
            // MUL
            const v = values[code[pc++]!]!;
            t0 *= v;
            t1 *= v;
            t2 *= v;
            t3 *= v;
            t4 *= v;
            break;
          }
          case 19: {
            // MUL each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 *= values[p]!;
            t1 *= values[p + 1]!;
            t2 *= values[p + 2]!;
            t3 *= values[p + 3]!;
            t4 *= values[p + 4]!;
            break;
          }
          case 20: {
            // DIV
            const v = values[code[pc++]!]!;
            t0 /= v;
            t1 /= v;
            t2 /= v;
            t3 /= v;
            t4 /= v;
            break;
          }
          case 21: {
            // DIV each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 /= values[p]!;
            t1 /= values[p + 1]!;
            t2 /= values[p + 2]!;
            t3 /= values[p + 3]!;
            t4 /= values[p + 4]!;
            break;
          }
          case 22: {
            // RSUB
            const v = values[code[pc++]!]!;
            t0 = v - t0;
            t1 = v - t1;
            t2 = v - t2;
            t3 = v - t3;
            t4 = v - t4;
            break;
          }
          case 23: {
            // RSUB each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 = values[p]! - t0;
            t1 = values[p + 1]! - t1;
            t2 = values[p + 2]! - t2;
            t3 = values[p + 3]! - t3;
            t4 = values[p + 4]! - t4;
            break;
          }
          case 24: {
            // RDIV
            const v = values[code[pc++]!]!;
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            for (let i = sp; i < sp + AT_ONCE; i += 1) stack[i] = quotient(v, stack[i]!);
            t0 = stack[sp]!;
            t1 = stack[sp + 1]!;
            t2 = stack[sp + 2]!;
            t3 = stack[sp + 3]!;
            t4 = stack[sp + 4]!;
            break;
          }
          case 25: {
            // RDIV each
            const p = (code[pc++]! + first) & 0x3fffffff;
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            for (let i = sp; i < sp + AT_ONCE; i += 1) stack[i] = quotient(values[p + i - sp]!, stack[i]!);
            t0 = stack[sp]!;
            t1 = stack[sp + 1]!;
            t2 = stack[sp + 2]!;
            t3 = stack[sp + 3]!;
            t4 = stack[sp + 4]!;
            break;
          }
          case 26: // ADDS
            sp -= AT_ONCE;
            t0 = stack[sp]! + t0;
            t1 = stack[sp + 1]! + t1;
            t2 = stack[sp + 2]! + t2;
            t3 = stack[sp + 3]! + t3;
            t4 = stack[sp + 4]! + t4;
            break;
          case 28: // SUBS
            sp -= AT_ONCE;
            t0 = stack[sp]! - t0;
            t1 = stack[sp + 1]! - t1;
            t2 = stack[sp + 2]! - t2;
            t3 = stack[sp + 3]! - t3;
            t4 = stack[sp + 4]! - t4;
            break;
          case 30: // MULS
            sp -= AT_ONCE;
            t0 = stack[sp]! * t0;
            t1 = stack[sp + 1]! * t1;
            t2 = stack[sp + 2]! * t2;
            t3 = stack[sp + 3]! * t3;
            t4 = stack[sp + 4]! * t4;
            break;
          case 32: // DIVS
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            sp -= AT_ONCE;
            for (let i = sp; i < sp + AT_ONCE; i += 1) stack[i] = quotient(stack[i]!, stack[i + AT_ONCE]!);
            t0 = stack[sp]!;
            t1 = stack[sp + 1]!;
            t2 = stack[sp + 2]!;
            t3 = stack[sp + 3]!;
            t4 = stack[sp + 4]!;
            break;
          case 34: // NEG
            t0 = 0 - t0;
            t1 = 0 - t1;
            t2 = 0 - t2;
            t3 = 0 - t3;
            t4 = 0 - t4;
            break;
          case 36: {
            // WHOLE
            const n0 = Math.floor(t0 + 0.5);
            const n1 = Math.floor(t1 + 0.5);
            const n2 = Math.floor(t2 + 0.5);
            const n3 = Math.floor(t3 + 0.5);
            const n4 = Math.floor(t4 + 0.5);
            if (
              isFar(t0 + 0.5 - n0) &&
              isFar(t1 + 0.5 - n1) &&
              isFar(t2 + 0.5 - n2) &&
              isFar(t3 + 0.5 - n3) &&
              isFar(t4 + 0.5 - n4)
            ) {
              t0 = n0;
              t1 = n1;
              t2 = n2;
              t3 = n3;
              t4 = n4;
              break;
            }
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            for (let i = sp; i < sp + AT_ONCE; i += 1) stack[i] = wholeNear(stack[i]!);
            t0 = stack[sp]!;
            t1 = stack[sp + 1]!;
            t2 = stack[sp + 2]!;
            t3 = stack[sp + 3]!;
            t4 = stack[sp + 4]!;
            break;
          }
          case 38: {
            // MULTIPLE
            const v = values[code[pc++]!]!;
            const q0 = t0 / v;
            const n0 = Math.floor(q0 + 0.5);
            const q1 = t1 / v;
            const n1 = Math.floor(q1 + 0.5);
            const q2 = t2 / v;
            const n2 = Math.floor(q2 + 0.5);
            const q3 = t3 / v;
            const n3 = Math.floor(q3 + 0.5);
            const q4 = t4 / v;
            const n4 = Math.floor(q4 + 0.5);
            if (
              v > 0 &&
              isFar(q0 + 0.5 - n0) &&
              isFar(q1 + 0.5 - n1) &&
              isFar(q2 + 0.5 - n2) &&
              isFar(q3 + 0.5 - n3) &&
              isFar(q4 + 0.5 - n4)
            ) {
              t0 = n0 * v;
              t1 = n1 * v;
              t2 = n2 * v;
              t3 = n3 * v;
              t4 = n4 * v;
              break;
            }
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            for (let i = sp; i < sp + AT_ONCE; i += 1) stack[i] = nearMultiple(stack[i]!, v);
            t0 = stack[sp]!;
            t1 = stack[sp + 1]!;
            t2 = stack[sp + 2]!;
            t3 = stack[sp + 3]!;
            t4 = stack[sp + 4]!;
            break;
          }
          case 39: {
            // MULTIPLE each
            const p = (code[pc++]! + first) & 0x3fffffff;
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            for (let i = sp; i < sp + AT_ONCE; i += 1)
              stack[i] = nearMultiple(stack[i]!, values[p + i - sp]!);
            t0 = stack[sp]!;
            t1 = stack[sp + 1]!;
            t2 = stack[sp + 2]!;
            t3 = stack[sp + 3]!;
            t4 = stack[sp + 4]!;
            break;
          }
          case 40: {
            // MAX
            const v = values[code[pc++]!]!;
            t0 = +larger(t0, v);
            t1 = +larger(t1, v);
            t2 = +larger(t2, v);
            t3 = +larger(t3, v);
            t4 = +larger(t4, v);
            break;
          }
          case 41: {
            // MAX each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 = +larger(t0, values[p]!);
            t1 = +larger(t1, values[p + 1]!);
            t2 = +larger(t2, values[p + 2]!);
            t3 = +larger(t3, values[p + 3]!);
            t4 = +larger(t4, values[p + 4]!);
            break;
          }
          case 42: {
            // MIN
            const v = values[code[pc++]!]!;
            t0 = +smaller(t0, v);
            t1 = +smaller(t1, v);
            t2 = +smaller(t2, v);
            t3 = +smaller(t3, v);
            t4 = +smaller(t4, v);
            break;
          }
          case 43: {
            // MIN each
            const p = (code[pc++]! + first) & 0x3fffffff;
            t0 = +smaller(t0, values[p]!);
            t1 = +smaller(t1, values[p + 1]!);
            t2 = +smaller(t2, values[p + 2]!);
            t3 = +smaller(t3, values[p + 3]!);
            t4 = +smaller(t4, values[p + 4]!);
            break;
          }
          case 44: {
            // CALL
            const work = works[code[pc]!]!;
            const taken = code[pc + 1]!;
            pc += 2;
            stack[sp] = t0;
            stack[sp + 1] = t1;
            stack[sp + 2] = t2;
            stack[sp + 3] = t3;
            stack[sp + 4] = t4;
            sp -= (taken - 1) * AT_ONCE;
            for (let i = sp; i < sp + many; i += 1) stack[i] = called(work, stack, i, taken, AT_ONCE);
            t0 = stack[sp]!;
            t1 = stack[sp + 1]!;
            t2 = stack[sp + 2]!;
            t3 = stack[sp + 3]!;
            t4 = stack[sp + 4]!;
            break;
          }
          default:
            long = true;
        }
      } while (op < LAST);
      const place = (code[pc]! + first) & 0x3fffffff;
      if (!long && many === AT_ONCE) {
        const d0 = t0 - values[place]!;
        const d1 = t1 - values[place + 1]!;
        const d2 = t2 - values[place + 2]!;
        const d3 = t3 - values[place + 3]!;
        const d4 = t4 - values[place + 4]!;
        const all = d0 + d1 + (d2 + d3) + d4;
        if (all - all !== 0) long = true;
        else if (d0 !== 0 || d1 !== 0 || d2 !== 0 || d3 !== 0 || d4 !== 0) {
          changed = true;
          values[place] = t0;
          values[place + 1] = t1;
          values[place + 2] = t2;
          values[place + 3] = t3;
          values[place + 4] = t4;
        }
      } else if (!long) {
        stack[0] = t0;
        stack[1] = t1;
        stack[2] = t2;
        stack[3] = t3;
        stack[4] = t4;
        let all = 0;
        for (let i = 0; i < many; i += 1) all += stack[i]! - values[place + i]!;
        if (all - all !== 0) long = true;
        for (let i = 0; i < many && !long; i += 1) {
          if (stack[i] !== values[place + i]) changed = true;
          values[place + i] = stack[i]!;
        }
      }
      if (long) {
        // There is an operation left to it, or a column without a value, before or now.
        changed = recompute(nodes[step]!) || changed;
        break;
      }
      if (first === final) break;
      first = Math.min(first + AT_ONCE, final);
    }
    if (!changed) break;
    begin = pc + 1;
  }
  along.step = step;
}
