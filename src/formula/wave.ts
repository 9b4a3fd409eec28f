/*
 * A wave of changes through cells that hold one value each, in one loop: the next dirty cell in order, its code, the
 * comparison with what it held, and the marks on what hangs on it, without a call in between. This is where an edit
 * spends its time; hence the cases written as plain numbers (only of literal cases does V8 make a jump table) and
 * arrays held in variables. Whatever is not plain (cells with a value for each column, typed values, cells to be read
 * again, and every value that comes out as none) is handed to `recompute`, after which nothing held is trusted.
 *
 * Dirty marks are bits by rank, 32 to a word: finding the next takes the lowest bit of a word, and marking one twice
 * costs nothing.
 */

import { multipleOf, wholeNear } from '../quantity/index.ts';
import { called, type Field, larger, type Machine, quotient, smaller } from './machine.ts';

/** The graph as a wave sees it, by rank: nodes in order, which are dirty (a bit each), and the ranks that hang on each. */
export interface Wave {
  readonly order: Int32Array;
  readonly dirty: Int32Array;
  /** By rank, two numbers: where the ranks that hang on it begin in `dependents`, and where they end. */
  readonly spans: Int32Array;
  readonly dependents: Int32Array;
  /** The first word of `dirty` with a mark in it, and how many words there are. */
  readonly from: number;
  readonly words: number;
}

/** The cells as a wave sees them, by node; arrays may be replaced whenever a node is recomputed. */
export interface Cells {
  readonly values: Float64Array;
  /** By the place of the value: why there is none, 0 where there is one. */
  readonly why: Int32Array;
  readonly places: Int32Array;
  readonly code: Int32Array;
  readonly starts: Int32Array;
  /** Nodes with none of the bits of `notPlain` hold one value that their code gives. */
  readonly flags: Uint8Array;
  readonly notPlain: number;
  readonly field: Field;
  /** Takes every node that was worked out, in order: twice the node, plus one where it changed. */
  readonly ran: Int32Array;
}

/** Works out every dirty node in order; gives how many were. `recompute` says whether a node changed. */
export function runWave(
  { order, dirty, spans, dependents, from, words }: Wave,
  cells: Cells,
  machine: Machine,
  recompute: (node: number) => boolean,
): number {
  const { ran, notPlain } = cells;
  const { works } = machine.pools;
  let { values, why, places, code, starts, flags } = cells;
  let { stack } = machine;
  let count = 0;
  for (let word = from; word < words; word += 1)
    for (let bits = dirty[word]!; bits !== 0; bits = dirty[word]!) {
      const bit = bits & -bits;
      dirty[word] = bits ^ bit;
      const at = (word << 5) + 31 - Math.clz32(bit);
      const node = order[at]!;
      let changed = false;
      let slow = (flags[node]! & notPlain) !== 0;
      if (!slow) {
        let pc = starts[node]!;
        let sp = -1;
        let top = 0;
        run: for (;;)
          switch (code[pc++]) {
            case 0: // END
              break run;
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
              top += values[code[pc++]! >> 1]!;
              break;
            case 8: // SUB
              top -= values[code[pc++]! >> 1]!;
              break;
            case 9: // MUL
              top *= values[code[pc++]! >> 1]!;
              break;
            case 10: // DIV
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
              top = wholeNear(top);
              break;
            case 19: // MULTIPLE
              top = multipleOf(wholeNear, top, values[code[pc++]! >> 1]!, 0);
              break;
            case 20: // MAX
              top = larger(top, values[code[pc++]! >> 1]!);
              break;
            case 21: // MIN
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
              const next = machine.rare(code[pc - 1]!, code, pc, sp, 1, values, cells.field, false);
              pc = next.pc;
              sp = next.sp;
              top = stack[sp--]!;
            }
          }
        const place = places[node]!;
        const old = values[place]!;
        if (top !== old)
          if (top - top === 0) {
            values[place] = top;
            if (old - old !== 0) why[place] = 0;
            changed = true;
          } else slow = true;
      }
      if (slow) {
        changed = recompute(node);
        ({ values, why, places, code, starts, flags } = cells);
        stack = machine.stack;
      }
      ran[count++] = changed ? 2 * node + 1 : 2 * node;
      if (!changed) continue;
      const end = spans[2 * at + 1]!;
      for (let i = spans[2 * at]!; i < end; i += 1) {
        const dependent = dependents[i]!;
        // In a ring a dependent may come before: nothing waits for its own turn again.
        if (dependent > at) dirty[dependent >> 5]! |= 1 << dependent;
      }
    }
  return count;
}
