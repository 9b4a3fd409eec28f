/*
 * Going along a way that is remembered (`way.ts`): step after step, without looking anything up.
 *
 * Cells on a way hold what their code gives, so this is the loop of `runPlain` in `wave.ts` over again; but a pair of
 * operations is taken as its two, each by a short switch of its own: the processor, led along the same steps each time,
 * guesses right what comes next. Steps with a value for each column are gone by `alongColumns`.
 */

import { nearMultiple, wholeNear } from '../quantity/index.ts';
import { alongColumns } from './along-columns.ts';
import { LAST } from './compile.ts';
import { called, larger, type Machine, quotient, smaller } from './machine.ts';
import type { Cells, Recompute } from './wave.ts';
import type { Along, Way } from './way.ts';

export { columnCode } from './column-code.ts';

/**
 * Works out what follows from a cell that changed, up to the first step that comes out as it was, that one with them; the
 * first goes to `ran` at `before`. Gives how many steps changed.
 */
export function runWay(
  way: Way,
  cells: Cells,
  machine: Machine,
  recompute: Recompute,
  before: number,
): number {
  const along: Along = { way, step: 0, until: 0 };
  for (let turn = 0; turn < way.turns.length && along.step === along.until; turn += 1) {
    along.until = way.turns[turn]!;
    if (turn % 2 === 0) alongPlain(along, cells, machine, recompute);
    else alongColumns(along, cells, machine, recompute);
  }
  const { step } = along;
  const { ran } = cells;
  if (step === way.changes.length) ran.set(way.changes, before);
  else {
    ran.set(way.changes.subarray(0, step + 1), before);
    ran[before + step]! -= 1; // The last came out as it was.
  }
  return along.step;
}

/** Goes the steps of a turn that have one value. */
function alongPlain(
  along: Along,
  { values, why, field }: Cells,
  machine: Machine,
  recompute: Recompute,
): void {
  const { way, until } = along;
  const { nodes, code, starts } = way;
  const { works } = machine.pools;
  const { stack } = machine;
  let pc = starts[along.step]!;
  let { step } = along;
  for (; step < until; step += 1) {
    let sp = -1;
    let top = 0;
    let op = 0;
    do {
      op = code[pc++]!;
      const now = op & ~LAST;
      if (now >= 40) {
        // A pair: its first operation, then its second.
        top = values[code[pc++]! >> 1]!;
        switch ((now - 40) >> 3) {
          case 0: // ADD2
            top += values[code[pc++]! >> 1]!;
            break;
          case 1: // SUB2
            top -= values[code[pc++]! >> 1]!;
            break;
          case 2: // MUL2
            top *= values[code[pc++]! >> 1]!;
            break;
          case 3: // DIV2
            top /= values[code[pc++]! >> 1]!;
            break;
          default: // LOAD
        }
        if ((now & 7) === 4) {
          top = +wholeNear(top); // WHOLE
          continue;
        }
        const by = values[code[pc++]! >> 1]!;
        switch (now & 7) {
          case 0: // ADD
            top += by;
            break;
          case 1: // SUB
            top -= by;
            break;
          case 2: // MUL
            top *= by;
            break;
          case 3: // DIV
            top /= by;
            break;
          case 5: // MULTIPLE
            top = +nearMultiple(top, by);
            break;
          case 6: // MAX
            top = +larger(top, by);
            break;
          default: // MIN
            top = +smaller(top, by);
        }
        continue;
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
        default: {
          stack[++sp] = top;
          const next = machine.rare(now, code, pc, sp, 1, values, field, false);
          pc = next.pc;
          sp = next.sp;
          top = stack[sp--]!;
        }
      }
    } while (op < LAST);
    const place = code[pc++]!;
    const by = top - values[place]!;
    if (by === 0) break;
    if (by - by === 0) values[place] = top;
    else if (top - top === 0) {
      values[place] = top;
      why[place] = 0;
    } else if (!recompute(nodes[step]!)) break; // No value: it is asked why.
  }
  along.step = step;
}
