/*
 * A wave of changes through cells: the next dirty cell in order, its code, the comparison with what it held, and the
 * marks on what hangs on it. This is where an edit spends its time. Cells that hold one value which their code gives are
 * *plain*: they are worked out one after another in one loop without a call in it; hence the cases written as plain
 * numbers (only of literal cases does V8 make a jump table), the arrays held in variables, and the pairs of operations
 * that are one case. Cells with a value for each column have a loop of their own (`wave-columns.ts`). Whatever is
 * neither (typed values, cells to be read again) is handed to `recompute` by a third: only there can an array be
 * replaced by a larger one, and were it elsewhere, none of them could be held. The three take turns.
 *
 * Dirty marks are bits by rank, 32 to a word: finding the next takes the lowest bit of a word, and marking one twice
 * costs nothing. The word at hand is held in a variable, as most marks are set shortly before they are found.
 */

import { nearMultiple, wholeNear } from '../quantity/index.ts';
import { LAST } from './compile.ts';
import { called, type Field, larger, type Machine, quotient, smaller } from './machine.ts';
import { runColumns } from './wave-columns.ts';

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

/** The cells as a wave sees them, by node; arrays may be replaced whenever a node that is not plain is recomputed. */
export interface Cells {
  readonly values: Float64Array;
  /** By the place of the value: why there is none, 0 where there is one. */
  readonly why: Int32Array;
  readonly places: Int32Array;
  readonly code: Int32Array;
  readonly starts: Int32Array;
  /** Nodes with none of the bits of `slow` hold what their code gives: with `each` one value a column, without it one. */
  readonly flags: Uint8Array;
  readonly slow: number;
  readonly each: number;
  readonly field: Field;
  /** Takes every node that was worked out, in order: twice the node, plus one where it changed. */
  readonly ran: Int32Array;
}

/** How far a wave has come: the word of marks it is at, and how many nodes were worked out. */
export interface Going {
  word: number;
  count: number;
}

/** Works out a node; says whether it changed. */
export type Recompute = (node: number) => boolean;

/** Works out every dirty node in order; gives how many were, with those `before`. */
export function runWave(
  wave: Wave,
  cells: Cells,
  machine: Machine,
  recompute: Recompute,
  before = 0,
): number {
  const going: Going = { word: wave.from, count: before };
  while (going.word < wave.words) {
    runOthers(wave, cells, recompute, going); // First, as a wave begins with what was typed.
    runPlain(wave, cells, machine, recompute, going);
    if (cells.field.columns > 0) runColumns(wave, cells, machine, recompute, going);
  }
  return going.count;
}

/** Goes on through the wave up to a node that one of the other loops is for. */
function runOthers(wave: Wave, cells: Cells, recompute: Recompute, going: Going): void {
  const { order, dirty, spans, dependents, words } = wave;
  const { ran, slow } = cells;
  for (; going.word < words; going.word += 1)
    for (let bits = dirty[going.word]!; bits !== 0; bits = dirty[going.word]!) {
      const bit = bits & -bits;
      const at = (going.word << 5) + 31 - Math.clz32(bit);
      const node = order[at]!;
      if ((cells.flags[node]! & slow) === 0) return;
      dirty[going.word] = bits ^ bit;
      const changed = recompute(node);
      ran[going.count++] = changed ? 2 * node + 1 : 2 * node;
      if (!changed) continue;
      const end = spans[2 * at + 1]!;
      for (let i = spans[2 * at]!; i < end; i += 1) {
        const dependent = dependents[i]!;
        // In a ring a dependent may come before: nothing waits for its own turn again.
        if (dependent > at) dirty[dependent >> 5]! |= 1 << dependent;
      }
    }
}

/** Goes on through the wave up to a node that is not plain. */
function runPlain(
  { order, dirty, spans, dependents, words }: Wave,
  cells: Cells,
  machine: Machine,
  recompute: Recompute,
  going: Going,
): void {
  const { ran, slow, each, values, why, places, code, starts, flags, field } = cells;
  const { works } = machine.pools;
  const { stack } = machine;
  const notPlain = slow | each;
  let { word, count } = going;
  let bits = 0;
  wave: for (; word < words; word += 1) {
    bits = dirty[word]!;
    dirty[word] = 0;
    while (bits !== 0) {
      const bit = bits & -bits;
      const at = (word << 5) + 31 - Math.clz32(bit);
      const node = order[at]!;
      if ((flags[node]! & notPlain) !== 0) break wave;
      bits ^= bit;
      let pc = starts[node]!;
      let sp = -1;
      let top = 0;
      let op = 0;
      do {
        op = code[pc++]!;
        switch (op & ~LAST) {
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
            top = +quotient(values[code[pc++]! >> 1]!, top);
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
            top = +quotient(stack[sp--]!, top);
            break;
          case 17: // NEG
            top = 0 - top;
            break;
          case 18: // WHOLE
            top = +wholeNear(top);
            break;
          case 19: // MULTIPLE
            top = +nearMultiple(top, values[code[pc++]! >> 1]!);
            break;
          case 20: // MAX
            top = +larger(top, values[code[pc++]! >> 1]!);
            break;
          case 21: // MIN
            top = +smaller(top, values[code[pc++]! >> 1]!);
            break;
          case 22: {
            // CALL
            const work = works[code[pc]!]!;
            const taken = code[pc + 1]!;
            pc += 2;
            stack[++sp] = top;
            sp -= taken - 1;
            top = +called(work, stack, sp, taken, 1);
            sp -= 1;
            break;
          }
          case 40: // ADD2 ADD
            top = values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]! + values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 41: // ADD2 SUB
            top = values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]! - values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 42: // ADD2 MUL
            top = (values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]!) * values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 43: // ADD2 DIV
            top = (values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]!) / values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 44: // ADD2 WHOLE
            top = +wholeNear(values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]!);
            pc += 2;
            break;
          case 45: // ADD2 MULTIPLE
            top = +nearMultiple(
              values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 46: // ADD2 MAX
            top = +larger(values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]!, values[code[pc + 2]! >> 1]!);
            pc += 3;
            break;
          case 47: // ADD2 MIN
            top = +smaller(
              values[code[pc]! >> 1]! + values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 48: // SUB2 ADD
            top = values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]! + values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 49: // SUB2 SUB
            top = values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]! - values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 50: // SUB2 MUL
            top = (values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]!) * values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 51: // SUB2 DIV
            top = (values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]!) / values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 52: // SUB2 WHOLE
            top = +wholeNear(values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]!);
            pc += 2;
            break;
          case 53: // SUB2 MULTIPLE
            top = +nearMultiple(
              values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 54: // SUB2 MAX
            top = +larger(values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]!, values[code[pc + 2]! >> 1]!);
            pc += 3;
            break;
          case 55: // SUB2 MIN
            top = +smaller(
              values[code[pc]! >> 1]! - values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 56: // MUL2 ADD
            top = values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]! + values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 57: // MUL2 SUB
            top = values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]! - values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 58: // MUL2 MUL
            top = values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]! * values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 59: // MUL2 DIV
            top = (values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]!) / values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 60: // MUL2 WHOLE
            top = +wholeNear(values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]!);
            pc += 2;
            break;
          case 61: // MUL2 MULTIPLE
            top = +nearMultiple(
              values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 62: // MUL2 MAX
            top = +larger(values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]!, values[code[pc + 2]! >> 1]!);
            pc += 3;
            break;
          case 63: // MUL2 MIN
            top = +smaller(
              values[code[pc]! >> 1]! * values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 64: // DIV2 ADD
            top = values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]! + values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 65: // DIV2 SUB
            top = values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]! - values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 66: // DIV2 MUL
            top = (values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]!) * values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 67: // DIV2 DIV
            top = values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]! / values[code[pc + 2]! >> 1]!;
            pc += 3;
            break;
          case 68: // DIV2 WHOLE
            top = +wholeNear(values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]!);
            pc += 2;
            break;
          case 69: // DIV2 MULTIPLE
            top = +nearMultiple(
              values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 70: // DIV2 MAX
            top = +larger(values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]!, values[code[pc + 2]! >> 1]!);
            pc += 3;
            break;
          case 71: // DIV2 MIN
            top = +smaller(
              values[code[pc]! >> 1]! / values[code[pc + 1]! >> 1]!,
              values[code[pc + 2]! >> 1]!,
            );
            pc += 3;
            break;
          case 76: // LOAD WHOLE
            top = +wholeNear(values[code[pc]! >> 1]!);
            pc += 1;
            break;
          case 77: // LOAD MULTIPLE
            top = +nearMultiple(values[code[pc]! >> 1]!, values[code[pc + 1]! >> 1]!);
            pc += 2;
            break;
          case 78: // LOAD MAX
            top = +larger(values[code[pc]! >> 1]!, values[code[pc + 1]! >> 1]!);
            pc += 2;
            break;
          case 79: // LOAD MIN
            top = +smaller(values[code[pc]! >> 1]!, values[code[pc + 1]! >> 1]!);
            pc += 2;
            break;
          default: {
            stack[++sp] = top;
            const next = machine.rare(op & ~LAST, code, pc, sp, 1, values, field, false);
            pc = next.pc;
            sp = next.sp;
            top = stack[sp--]!;
          }
        }
      } while (op < LAST);
      const place = places[node]!;
      const old = values[place]!;
      let changed = false;
      if (top !== old)
        if (top - top === 0) {
          values[place] = top;
          if (old - old !== 0) why[place] = 0;
          changed = true;
        } else changed = recompute(node); // No value: it is asked why.
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
