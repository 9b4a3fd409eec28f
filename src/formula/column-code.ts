/*
 * Code for going along columns (`along-columns.ts`). It is another than `compile.ts` writes: no pairs, and an operation
 * says by itself whether its operand has one value for all columns (2 × operation) or one for each (that and 1), so that
 * neither is asked for. Of two operands (ADD2 …) the first has one for each, and what is said is of the second.
 */

import { firstOf, LAST, OP, secondOf } from './compile.ts';

/** The code of a step with an operation that is left to `recompute`. */
const OTHER: readonly number[] = [LAST];

/** The code of a cell, as `alongColumns` takes it. */
export function columnCode(code: readonly number[]): readonly number[] {
  const written: number[] = [];
  let last = 0;
  let pc = 0;
  const write = (op: number, ...operands: readonly number[]) => {
    last = written.length;
    written.push(op, ...operands);
  };
  const withCell = (op: number) => {
    const cell = code[pc++]!;
    write(2 * op + (cell & 1), cell >> 1);
  };
  /** Gives whether the operation is one of those that are known here. */
  const one = (op: number): boolean => {
    if (op >= OP.ADD2 && op <= OP.DIV2) {
      let a = code[pc++]!;
      let b = code[pc++]!;
      // Those that may be turned round are, so that the first has one for each.
      if ((a & 1) === 0 && (op === OP.ADD2 || op === OP.MUL2)) [a, b] = [b, a];
      if ((a & 1) === 1) write(2 * op + (b & 1), a >> 1, b >> 1);
      else {
        write(2 * OP.LOAD, a >> 1);
        write(2 * (op - OP.ADD2 + OP.ADD) + (b & 1), b >> 1);
      }
    } else if (op === OP.LOAD || (op >= OP.ADD && op <= OP.RDIV) || (op >= OP.MULTIPLE && op <= OP.MIN))
      withCell(op);
    else if (op <= OP.WHOLE) write(2 * op);
    else if (op === OP.CALL) write(2 * op, code[pc++]!, code[pc++]!);
    else return false;
    return true;
  };
  for (;;) {
    const word = code[pc++]!;
    const op = word & ~LAST;
    if (!(op >= OP.PAIR ? one(firstOf(op)) && one(secondOf(op)) : one(op))) return OTHER;
    if (word < LAST) continue;
    written[last]! |= LAST;
    return written;
  }
}
