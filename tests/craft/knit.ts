/*
 * Knits what a plan prints, stitch by stitch, without knowing how the plan was made. A line is read as a knitter
 * reads it; anything she could not read throws.
 */

import { craftProblems } from '../../src/craft/index.ts';
import type { Plan, Problem } from '../../src/formula/index.ts';

/** The stitches of a printed line, one word each, brackets within brackets and "N times" unfolded. */
export function unfolded(line: string): string[] {
  const outer = /^\[([^\]]*)\](?: (\d+) times)?$/.exec(line);
  if (outer) {
    const inner = unfolded(outer[1] ?? '');
    return Array.from({ length: Number(outer[2] ?? 1) }, () => inner).flat();
  }
  const pieces = line.match(/\([^)]*\)(?: once| \d+ times)?|[^,()]+/g) ?? [];
  return pieces.flatMap((piece) => {
    const text = piece.trim();
    if (text === '') return [];
    const [, bracketed, plain, often] = /^(?:\(([^)]*)\)|(.*?))(?: (\d+) times)?$/.exec(text) ?? [];
    const words = (bracketed ?? plain ?? '').split(',').map((word) => word.trim());
    return Array.from({ length: Number(often ?? 1) }, () => words).flat();
  });
}

/** Stitches a word takes from one needle and leaves on the other. */
export function takesAndLeaves(word: string): readonly [takes: number, leaves: number] {
  const plain = /^[kp](\d+)$/.exec(word);
  if (plain) return [Number(plain[1]), Number(plain[1])];
  if (word === 'sl1') return [1, 1];
  if (word === 'k2tog' || word === 'p2tog') return [2, 1];
  if (word === 'm1' || word === 'm1p') return [0, 1];
  throw new Error(`cannot knit "${word}"`);
}

/** What a whole line takes and leaves. */
export function knitLine(line: string): { takes: number; leaves: number } {
  let [takes, leaves] = [0, 0];
  for (const word of unfolded(line)) {
    const [took, left] = takesAndLeaves(word);
    takes += took;
    leaves += left;
  }
  return { takes, leaves };
}

/** The plain stitches before, between and after the increases and decreases of a line. */
export function gapsOf(line: string): number[] {
  const gaps = [0];
  for (const word of unfolded(line)) {
    const plain = /^[kp](\d+)$/.exec(word);
    if (plain) gaps[gaps.length - 1] = (gaps.at(-1) ?? 0) + Number(plain[1]);
    else gaps.push(0);
  }
  return gaps;
}

/** A plan, where one is expected. */
export function planned(given: Plan | Problem): Plan {
  if ('code' in given) throw new Error(`${given.code} ${JSON.stringify(given.parts)}`);
  return given;
}

/** The sentence of a problem, where one is expected. */
export function sentence(given: Plan | Problem): string {
  if (!('code' in given)) throw new Error(`a plan: ${given.text}`);
  const say = craftProblems[given.code];
  if (!say) throw new Error(`no sentence for ${given.code}`);
  return say(given.parts);
}
