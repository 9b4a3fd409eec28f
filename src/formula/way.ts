/*
 * The way of a wave, remembered. A knitter nudges one number again and again, and each time the same cells follow, in
 * the same order. The second time they are written down one behind the other, each with its code and the place of its
 * value (`sheet/way.ts`); from then on the wave goes straight along them. Nothing is looked up, marked or searched for,
 * which takes longer than the arithmetic.
 *
 * It stops where a wave of `wave.ts` would. As long as every cell changed there is nothing to ask: whatever comes next
 * hangs on one that did. From the first that came out as it was, each step asks whether any that it uses changed.
 *
 * Cells on a way are plain, so this is the loop of `runPlain` over again; but a pair of operations is taken as its two
 * here, since the processor, led along the same steps each time, guesses right what comes next.
 */

import { multipleOf, wholeNear } from '../quantity/index.ts';
import { LAST } from './compile.ts';
import { called, larger, type Machine, quotient, smaller } from './machine.ts';
import type { Cells, Recompute } from './wave.ts';

/** What follows from one cell, in order. A *step* is one of these cells. */
export interface Way {
  /** By step: its node. */
  readonly nodes: Int32Array;
  /** The code of every step, with the place of its value behind it. */
  readonly code: Int32Array;
  /** By step: where its code begins. */
  readonly starts: Int32Array;
  /** By step: where the steps it uses begin in `uses`, and after the last where they end. */
  readonly spans: Int32Array;
  /** Steps counted from 1; 0 is the cell that all follow from. */
  readonly uses: Int32Array;
  /** Of steps counted so, which changed; written and read only while it is gone along. */
  readonly changed: Uint8Array;
}

/** Whether any step that this one uses changed. */
function follows({ spans, uses, changed }: Way, step: number): boolean {
  const end = spans[step + 1]!;
  for (let i = spans[step]!; i < end; i += 1) if (changed[uses[i]!] === 1) return true;
  return false;
}

/** Works out whatever follows from a cell that changed; gives how many were, with those `before`. */
export function runWay(
  way: Way,
  { ran, values, why, field }: Cells,
  machine: Machine,
  recompute: Recompute,
  before: number,
): number {
  const { nodes, code, starts } = way;
  const { works } = machine.pools;
  const { stack } = machine;
  const steps = nodes.length;
  let count = before;
  let all = true;
  let pc = 0;
  for (let step = 0; step < steps; step += 1) {
    if (!all) {
      if (!follows(way, step)) continue;
      pc = starts[step]!;
    }
    let sp = -1;
    let top = 0;
    let op = 0;
    do {
      op = code[pc++]!;
      let now = op & ~LAST;
      if (now >= 40) {
        const first = values[code[pc++]! >> 1]!;
        switch ((now - 40) >> 3) {
          case 0: // ADD2
            top = first + values[code[pc++]! >> 1]!;
            break;
          case 1: // SUB2
            top = first - values[code[pc++]! >> 1]!;
            break;
          case 2: // MUL2
            top = first * values[code[pc++]! >> 1]!;
            break;
          case 3: // DIV2
            top = first / values[code[pc++]! >> 1]!;
            break;
          default: // LOAD
            top = first;
        }
        now = 40 + (now & 7);
      }
      switch (now) {
        case 1: // LOAD
          top = values[code[pc++]! >> 1]!;
          break;
        case 2: // PUSH
          stack[++sp] = top;
          break;
        case 3: // ADD2
          top = values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]!;
          pc += 2;
          break;
        case 4: // SUB2
          top = values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]!;
          pc += 2;
          break;
        case 5: // MUL2
          top = values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]!;
          pc += 2;
          break;
        case 6: // DIV2
          top = values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]!;
          pc += 2;
          break;
        case 7: // ADD
        case 40:
          top += values[code[pc++]! >> 1]!;
          break;
        case 8: // SUB
        case 41:
          top -= values[code[pc++]! >> 1]!;
          break;
        case 9: // MUL
        case 42:
          top *= values[code[pc++]! >> 1]!;
          break;
        case 10: // DIV
        case 43:
          top /= values[code[pc++]! >> 1]!;
          break;
        case 11: // RSUB
          top = values[code[pc++]! >> 1]! - top;
          break;
        case 12: // RDIV
          top = quotient(values[code[pc++]! >> 1]!, top);
          break;
        case 13: // ADDS
          top = stack[sp--]! + top;
          break;
        case 14: // SUBS
          top = stack[sp--]! - top;
          break;
        case 15: // MULS
          top = stack[sp--]! * top;
          break;
        case 16: // DIVS
          top = quotient(stack[sp--]!, top);
          break;
        case 17: // NEG
          top = 0 - top;
          break;
        case 18: // WHOLE
        case 44:
          top = wholeNear(top);
          break;
        case 19: // MULTIPLE
        case 45:
          top = multipleOf(wholeNear, top, values[code[pc++]! >> 1]!, 0);
          break;
        case 20: // MAX
        case 46:
          top = larger(top, values[code[pc++]! >> 1]!);
          break;
        case 21: // MIN
        case 47:
          top = smaller(top, values[code[pc++]! >> 1]!);
          break;
        case 22: {
          // CALL
          const work = works[code[pc]!]!;
          const taken = code[pc + 1]!;
          pc += 2;
          stack[++sp] = top;
          sp -= taken - 1;
          top = called(work, stack, sp, taken, 1);
          sp -= 1;
          break;
        }
        default: {
          stack[++sp] = top;
          const next = machine.rare(now, code, pc, sp, 1, values, field, false);
          pc = next.pc;
          sp = next.sp;
          top = stack[sp--]!;
        }
      }
    } while (op < LAST);
    const node = nodes[step]!;
    const place = code[pc++]!;
    const old = values[place]!;
    let changed = false;
    if (top !== old)
      if (top - top === 0) {
        values[place] = top;
        if (old - old !== 0) why[place] = 0;
        changed = true;
      } else changed = recompute(node); // No value: it is asked why.
    ran[count++] = changed ? 2 * node + 1 : 2 * node;
    if (!all) way.changed[step + 1] = changed ? 1 : 0;
    else if (!changed) {
      all = false;
      way.changed.fill(1, 0, step + 1).fill(0, step + 1);
    }
  }
  return count;
}
