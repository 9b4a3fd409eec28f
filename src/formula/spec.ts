/*
 * What a built-in function is: a record with its name, its parameters, a line of help, its examples and the
 * function itself. Argument checks, completion, the help line, the reference page and the tests are all drawn
 * from this record; nothing about a function is written down anywhere else.
 */

import type { Problem } from './problem.ts';

/** One step of a plan; steps that repeat are written once, with `times`. */
export interface PlanStep {
  /** First and last row (or round) this step covers, counted from 1; absent for a plan along one row. */
  readonly rows?: readonly [first: number, last: number];
  /** First and last stitch this step covers, counted from 1; absent for a plan over rows. */
  readonly stitches?: readonly [first: number, last: number];
  /** How many times the step is worked one after another. */
  readonly times: number;
  /** What is done, in one word of the craft: "increase", "decrease", "knit", "take2", "nojoin" … */
  readonly do: string;
  /** The step as a pattern would print it. */
  readonly says: string;
  /** How many stitches there are after it. */
  readonly after: number;
  /** The fewest and the most there may be on the needle, where that hangs on what only the knitter knows. */
  readonly left?: readonly [fewest: number, most: number];
}

/** A plan: steps a knitter follows, as data that text, drawing, counter and print all render. */
export interface Plan {
  /** Which function made it: "shape", "heel_turn" … */
  readonly kind: string;
  /** Its arguments by parameter name, in stitches, rows or plain numbers; those left out are absent. */
  readonly args: Readonly<Record<string, number>>;
  readonly steps: readonly PlanStep[];
  /** The whole plan as one printed text. */
  readonly text: string;
  /** What does not come out whole and the nearest ways out, each one sentence. */
  readonly remarks: readonly string[];
  /** What could be done before the plan is begun so that it comes out better, each one sentence; no step says it. */
  readonly beforehand?: readonly string[];
  /** The plan's own totals, read by the accessor functions ("rows", "shapings", "stitches_after" …). */
  readonly totals: Readonly<Record<string, number>>;
}

/**
 * What a parameter accepts.
 * - `quantity`: a number with any unit; `same`: of the same kind as the first argument
 * - `count`: stitches, rows, skeins or a plain number; `plain`: a plain number or stitches
 * - `stitches`, `rows`, `length`, `time`: just that (rows take plain numbers too, stitches likewise)
 * - `number`: a number without a unit; `truth`, `label`, `date`, `plan`, `anything`
 */
export type Accepts =
  | 'quantity'
  | 'same'
  | 'count'
  | 'plain'
  | 'stitches'
  | 'rows'
  | 'length'
  | 'time'
  | 'number'
  | 'truth'
  | 'label'
  | 'date'
  | 'plan'
  | 'anything';

/** A parameter: its name, what it accepts, and one line of help. */
export interface Parameter {
  readonly name: string;
  readonly accepts: Accepts;
  readonly help: string;
  /** True where it may be left out; only the last ones may. */
  readonly optional?: boolean;
  /** True where it is worked out column by column ("every size") for a function over the columns. */
  readonly each?: boolean;
}

/** What a function gives: the kind of its first argument, or a fixed kind. */
export type Gives =
  | 'first'
  | 'root'
  | 'stitches'
  | 'rows'
  | 'number'
  | 'truth'
  | 'label'
  | 'date'
  | 'plan'
  | 'ratio';

/** An example that is run as a test: a text, the cells it needs, and how its value prints in JSON-like words. */
export interface Example {
  readonly text: string;
  /** Cells the example uses, as texts; a text like `1 (2, 3) st` makes three columns. */
  readonly given?: Readonly<Record<string, string>>;
  /** What it gives, written as a formula that must be equal, or for a plan the plan's text. */
  readonly gives: string;
}

interface Base {
  readonly name: string;
  /** One line: what it gives. */
  readonly help: string;
  readonly parameters: readonly Parameter[];
  readonly gives: Gives;
  readonly examples: readonly Example[];
  /** Where the rule comes from: a published source, or "common practice". */
  readonly source: string;
  /** Whether its result is a count to be knitted. */
  readonly decided?: boolean;
  /** The call in words, for "how it's worked out": given its arguments in words. */
  says(words: readonly string[]): string;
}

/** A function of numbers in base units (stitches, rows, 10 µm, grams …). It gives NaN where it has no answer. */
export interface NumberSpec extends Base {
  readonly kind: 'number';
  work(...args: readonly number[]): number;
  /** Why it has no answer for these arguments; asked only after `work` gave NaN. */
  fails?(...args: readonly number[]): Problem | undefined;
  /** How it answers when it asks "how far off": `count` results are held, `length` results follow their input. */
  readonly holds?: 'count' | 'length';
  /** The operation that the machine has for it: the same as `work`, in the loop instead of behind a call. */
  readonly inline?: 'whole' | 'multiple' | 'max' | 'min';
}

/** A function that lays out a plan. Arguments that were left out are undefined. */
export interface PlanSpec extends Base {
  readonly kind: 'plan';
  work(...args: readonly (number | undefined)[]): Plan | Problem;
  /** The rest of the plan, worked out again after `row` (0: nothing done yet) with `count` stitches there. */
  resume(plan: Plan, row: number, count: number): Plan | Problem;
}

/** A function that reads a number off a plan; NaN where that kind of plan has none. */
export interface ReadingSpec extends Base {
  readonly kind: 'reading';
  work(plan: Plan): number;
}

/** What a function over the columns is given: one lane a column, NaN where a column is empty. */
export interface Run {
  readonly columns: number;
  /** Value of each-argument `k` in column `c`. */
  value(k: number, c: number): number;
  /** Value of the single argument `k`. */
  single(k: number): number;
  /** Number of the chosen column; NaN where none is chosen. */
  readonly chosen: number;
  /** The label id of a column, and the column of a label id (−1 where no column has it). */
  labelOf(c: number): number;
  columnOf(label: number): number;
}

/** A function over the columns: gives one value, or (with `givesEach`) one for column `at`. */
export interface RunSpec extends Base {
  readonly kind: 'run';
  readonly givesEach?: boolean;
  work(run: Run, at: number): number;
  fails?(run: Run, at: number): Problem | undefined;
  /** The one column it reads, where it reads only one; NaN or −1 where there is none. */
  only?(run: Run): number;
  /** Whether it reads the chosen column. */
  readonly followsChosen?: boolean;
}

/** `given(x)`: the one function that looks at whether a cell holds anything. */
export interface GivenSpec extends Base {
  readonly kind: 'given';
}

/** `today()`: the day, handed in from outside. */
export interface TodaySpec extends Base {
  readonly kind: 'today';
}

export type FunctionSpec = NumberSpec | PlanSpec | ReadingSpec | RunSpec | GivenSpec | TodaySpec;
