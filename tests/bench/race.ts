/*
 * Races: contenders that do the same edit, each timed in blocks of its own by tinybench, so that none runs in caches and
 * with guesses of the just-in-time compiler that another has left. The blocks go to and fro (A B C, C B A, …), so that
 * what else the machine does falls on all alike. A ratio is taken block by block; the median of those is the figure, and
 * their median distance from it is its spread.
 */

import { Bench } from 'tinybench';
import { median, ratioOf } from './figure.ts';

/** Something that does one edit at a time. */
export interface Contender {
  readonly name: string;
  /** Does an edit, another one than the last, and gives a number that could not be there without it. */
  edit(): number;
  /** Takes the edit back, untimed, where the next one could not be done otherwise. */
  takeBack?(): void;
}

/** How long a block is, and how many there are of each contender. */
export interface Blocks {
  readonly blocks: number;
  readonly milliseconds: number;
  /** So many edits at least in a block, however long one takes. */
  readonly least: number;
}

/** What a sample takes at least, in milliseconds: many times what reading the clock takes. */
const SAMPLE = 0.2;
const MOST_AT_ONCE = 4096;
/** The block of each that is not counted, before all others, is so many times as long: the compiler is done by then. */
const WARMING = 10;

/** How many edits are timed as one, so that the clock is not what is measured. */
function editsAtOnce({ edit, takeBack }: Contender): number {
  if (takeBack) return 1;
  for (let count = 1; ; count *= 2) {
    const start = performance.now();
    for (let i = 0; i < count; i += 1) edit();
    if (performance.now() - start > SAMPLE || count >= MOST_AT_ONCE) return count;
  }
}

/** The median milliseconds of an edit in one block, after edits that are not counted. */
function block(contender: Contender, atOnce: number, { milliseconds, least }: Blocks): number {
  const bench = new Bench({
    time: milliseconds,
    iterations: least,
    warmupTime: milliseconds / 3,
    warmupIterations: Math.max(1, least >> 2),
    throws: true,
  });
  const { edit, takeBack } = contender;
  const many = () => {
    let sum = 0;
    for (let i = 0; i < atOnce; i += 1) sum += edit();
    return sum;
  };
  bench.add(contender.name, many, { async: false, ...(takeBack ? { afterEach: () => takeBack() } : {}) });
  const [task] = bench.runSync();
  const result = task?.result;
  if (!result || !('latency' in result)) throw new Error(`${contender.name} was not measured`);
  return result.latency.p50 / atOnce;
}

/** The milliseconds of an edit of each contender, block by block. */
export class Race {
  private readonly times = new Map<string, number[]>();

  constructor(contenders: readonly Contender[], blocks: Blocks) {
    process.stderr.write(`${contenders.map(({ name }) => name).join(', ')} …\n`);
    const atOnce = contenders.map(editsAtOnce);
    const long = { ...blocks, milliseconds: WARMING * blocks.milliseconds };
    for (const [i, contender] of contenders.entries()) block(contender, atOnce[i] ?? 1, long);
    for (let k = 0; k < blocks.blocks; k += 1)
      for (let i = 0; i < contenders.length; i += 1) {
        const at = k % 2 === 0 ? i : contenders.length - 1 - i;
        const contender = contenders[at] as Contender;
        const list = this.times.get(contender.name) ?? [];
        list.push(block(contender, atOnce[at] ?? 1, blocks));
        this.times.set(contender.name, list);
      }
  }

  of(name: string): readonly number[] {
    return this.times.get(name) ?? [];
  }

  /** The median milliseconds of an edit. */
  milliseconds(name: string): number {
    return median(this.of(name));
  }

  ratio(above: string, below: string): { readonly ratio: number; readonly spread: number } {
    return ratioOf(this.of(above), this.of(below));
  }
}
