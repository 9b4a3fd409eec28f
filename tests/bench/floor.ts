/*
 * The floor: the same arithmetic as a loop written by hand over arrays, one case for each of the eight shapes. Nothing
 * is checked, nothing can be changed; no engine that can be changed should be expected to come below it.
 */

import type { Generated } from './generate.ts';

const NEAR = 1e-9;

/** The whole that is nearest, as the language rounds. */
function whole(x: number): number {
  const near = Math.round(x);
  const snapped = Math.abs(x - near) <= NEAR * Math.max(1, Math.abs(x)) ? near : x;
  const below = Math.floor(snapped);
  const rest = x - below;
  return rest > 0.5 || Math.abs(rest - 0.5) <= NEAR * Math.max(1, Math.abs(rest)) ? below + 1 : below;
}

/** Works out the formulas at `which` (indexes of formulas, in order) for `lanes` columns. */
export class Floor {
  readonly values: Float64Array;
  private readonly code: Int32Array;

  constructor(
    private readonly sheet: Generated,
    private readonly lanes: number,
  ) {
    this.values = new Float64Array(sheet.names.length * lanes);
    for (const [i, value] of sheet.typed.entries()) this.values.fill(value, i * lanes, (i + 1) * lanes);
    this.code = Int32Array.from(
      sheet.formulas.flatMap(({ shape, a, b, g }) => [shape, a * lanes, b * lanes, g * lanes]),
    );
  }

  setChest(inches: number): void {
    const at = this.sheet.chest * this.lanes;
    for (let l = 0; l < this.lanes; l += 1) this.values[at + l] = (inches + l) * 2540;
  }

  run(which: Int32Array): void {
    const { code, values, lanes } = this;
    const first = this.sheet.inputs * lanes;
    for (let i = 0; i < which.length; i += 1) {
      const f = which[i]!;
      const at = f * 4;
      const a = code[at + 1]!;
      const b = code[at + 2]!;
      const g = code[at + 3]!;
      const to = first + f * lanes;
      switch (code[at]) {
        case 0:
          for (let l = 0; l < lanes; l += 1) values[to + l] = (values[a + l]! + values[b + l]!) / 2;
          break;
        case 1:
          for (let l = 0; l < lanes; l += 1)
            values[to + l] = values[a + l]! * values[g + l]! + values[b + l]! * (1 - values[g + l]!);
          break;
        case 2:
          for (let l = 0; l < lanes; l += 1) values[to + l] = Math.max(values[a + l]!, values[b + l]!) - 635;
          break;
        case 3:
          for (let l = 0; l < lanes; l += 1) values[to + l] = values[a + l]! / values[g + l]! + 317.5;
          break;
        case 4:
          for (let l = 0; l < lanes; l += 1) values[to + l] = values[a + l]! * values[g + l]!;
          break;
        case 5:
          for (let l = 0; l < lanes; l += 1)
            values[to + l] = whole((values[a + l]! * values[g + l]!) / 4) * 4;
          break;
        case 6:
          for (let l = 0; l < lanes; l += 1) values[to + l] = whole((values[a + l]! + values[b + l]!) / 2);
          break;
        default:
          for (let l = 0; l < lanes; l += 1) values[to + l] = values[a + l]! + whole(values[b + l]! * 0.1);
      }
    }
  }

  /** The formulas that hang on chest, in order. */
  dirty(): Int32Array {
    const { formulas, inputs, chest } = this.sheet;
    const hangs = new Uint8Array(inputs + formulas.length);
    hangs[chest] = 1;
    const uses = (shape: number): readonly ('a' | 'b' | 'g')[] =>
      shape === 1 ? ['a', 'b', 'g'] : shape === 3 || shape === 4 || shape === 5 ? ['a', 'g'] : ['a', 'b'];
    return Int32Array.from(
      formulas.flatMap((formula, i) => {
        if (!uses(formula.shape).some((part) => hangs[formula[part]])) return [];
        hangs[inputs + i] = 1;
        return [i];
      }),
    );
  }
}
