/*
 * A plan unfolded as a pattern prints it: a line for each of its steps, with the rows it covers, what is done and the
 * count after it, and at the end the sum that shows it comes out. Nothing is worked out here that the plan does not
 * say; rows become rounds where the step says that it is knitted round.
 */

import type { Plan, PlanStep } from '../formula/index.ts';

/** One printed line of a plan. */
export interface PlanLine {
  /** "Rows 1–35", "Row 1 (RS)", "Rnd 1"; "" for a plan along one row. */
  readonly label: string;
  readonly text: string;
  /** The count after it: "53 sts". */
  readonly after: string;
  /** The rows it covers, counted from 1; absent along one row. */
  readonly rows?: readonly [first: number, last: number];
}

/** A plan as it is printed. */
export interface ToldPlan {
  readonly lines: readonly PlanLine[];
  /** What was left out of a plan too long to print, in words; "" for none. */
  readonly more: string;
  /** "35 + 72 = 107 rows; 43 + 14 × 2 = 71 sts"; "" where there is nothing to add up. */
  readonly sum: string;
  readonly remarks: readonly string[];
}

/** The most lines of one plan that are printed. */
const MOST_LINES = 120;

const count = (n: number | string, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

/** Rows of a text as rounds. */
export const inRounds = (text: string): string =>
  text.replace(/\b(r)ow(s?)\b/gi, (_, r: string, s: string) => `${r}nd${s}`);

/** Whether a plan lies along one row, so that it is one line of text. */
export function isAlongRow(plan: Plan): boolean {
  return plan.steps.length > 0 && !plan.steps.some((step) => step.rows);
}

/** A plan's own text, in rounds where it is knitted round. */
export function planText(plan: Plan, round: boolean): string {
  return round ? inRounds(plan.text) : plan.text;
}

/** What is remarked about a plan, in rounds where it is knitted round. */
function planRemarks(plan: Plan, round: boolean): readonly string[] {
  return round ? plan.remarks.map(inRounds) : plan.remarks;
}

/** What stands beside a plan on the sheet: what is remarked, and what could be done before it is begun. */
export function planSays(plan: Plan, round: boolean): readonly string[] {
  const { beforehand = [] } = plan;
  return [...planRemarks(plan, round), ...(round ? beforehand.map(inRounds) : beforehand)];
}

const TERMS: Readonly<Record<string, string>> = {
  take2: 'Take 2: k3tog, the last stitch of the edging with the next two live stitches.',
  nojoin: 'No join: end with the last stitch of the edging alone, and turn.',
};

/** What the words for the mends of an edging mean, those that its plan has. */
function termsOf({ steps }: Plan): readonly string[] {
  return Object.entries(TERMS).flatMap(([does, says]) =>
    steps.some((step) => step.do === does) ? [says] : [],
  );
}

/** The longest text of a plan along one row that stands in a narrow place as it is. */
const SHORT = 24;

/** A plan in a few words, for a narrow place: "26 to 16 sts, 10 rows". */
export function planInShort(plan: Plan, round: boolean): string {
  if (plan.steps.length === 0) return planText(plan, round);
  const [start = 0, after = 0, rows = 0] = ['start', 'stitches_after', 'rows'].map(
    (name) => plan.totals[name],
  );
  const left = after === 0 ? `${count(start, 'st')} to none` : `${start} to ${count(after, 'st')}`;
  const stitches = start === after ? count(after, 'st') : left;
  if (isAlongRow(plan)) return plan.text.length <= SHORT ? plan.text : stitches;
  return `${stitches}, ${count(rows, nounOf(plan, round))}`;
}

/** "row" or "rnd": what a plan counts, by its kind or because its step is knitted round. */
export function nounOf(plan: Plan, round: boolean): 'row' | 'rnd' {
  return round || plan.kind === 'toe' ? 'rnd' : 'row';
}

/** The lines of a plan with the count after each, and their sum. */
export function tellPlan(plan: Plan, round: boolean): ToldPlan {
  if (isAlongRow(plan) || plan.steps.length === 0) {
    const after = count(plan.totals['stitches_after'] ?? 0, 'st');
    return { lines: [{ label: '', text: plan.text, after }], more: '', sum: '', remarks: plan.remarks };
  }
  const noun = nounOf(plan, round);
  let before = plan.totals['start'] ?? 0;
  const lines = plan.steps.slice(0, MOST_LINES).map((step) => {
    const line = lineOf(plan, step, before, noun);
    before = step.after;
    return line;
  });
  const left = plan.steps.length - lines.length;
  return {
    lines,
    more: left > 0 ? `and ${count(left, 'line')} more` : '',
    sum: sumOf(plan, noun),
    remarks: [...termsOf(plan), ...planRemarks(plan, noun === 'rnd')],
  };
}

function lineOf(plan: Plan, step: PlanStep, before: number, noun: 'row' | 'rnd'): PlanLine {
  const [first, last] = step.rows ?? [0, 0];
  const side = first === last ? (/\((RS|WS)\)/.exec(step.says)?.[0] ?? '') : '';
  const Noun = noun === 'rnd' ? 'Rnd' : 'Row';
  const label = first === last ? `${Noun} ${first}` : `${Noun}s ${first}–${last}`;
  const text = whatIsDone(step, before, noun).replace(side, '').trim();
  return {
    label: `${label} ${side}`.trim(),
    text: noun === 'rnd' ? inRounds(text) : text,
    after: afterIn(plan, step),
    rows: [first, last],
  };
}

/** "decrease 2 sts every 7th row 5 times": what is done, how much of it, and when. */
function whatIsDone(step: PlanStep, before: number, noun: string): string {
  const { do: does, says, times, after } = step;
  if (does !== 'increase' && does !== 'decrease') return says;
  const each = `${does} ${count(Math.abs(after - before) / times, 'st')}`;
  const [first, last] = step.rows ?? [0, 0];
  if (first === last && !says.startsWith(`${each} `)) return each;
  if (times === 1 && !says.startsWith(does)) return `${each} on ${noun} ${last}`;
  if (says.startsWith(does)) return says.replace(new RegExp(` on (row|${noun}) \\d+`), '');
  return `${each} ${says}`;
}

/** The count after a line: "53 sts"; of an edging, the live stitches that are left: "198 to 206 sts left". */
function afterIn(plan: Plan, { after, left }: PlanStep): string {
  if (plan.kind !== 'join') return count(after, 'st');
  return after === 0 ? 'none left' : `${count(left?.join(' to ') ?? after, 'st')} left`;
}

function sumOf(plan: Plan, noun: 'row' | 'rnd'): string {
  if (plan.kind === 'join') return plan.text.split('; ').at(-1) ?? '';
  if (plan.kind === 'heel_turn') return '';
  return [rowSum(plan, noun), stitchSum(plan)].filter((sum) => sum !== '').join('; ');
}

function rowSum(plan: Plan, noun: string): string {
  const spans = plan.steps.map(({ rows }) => (rows ? rows[1] - rows[0] + 1 : 0));
  const whole = spans.reduce((sum, span) => sum + span, 0);
  return spans.length > 1 ? `${spans.join(' + ')} = ${count(whole, noun)}` : '';
}

/** "43 + 14 × 2 = 71 sts": the stitches at the start, the shapings, and what they come to. */
function stitchSum(plan: Plan): string {
  const start = plan.totals['start'] ?? 0;
  const changes = new Map<number, number>();
  let before = start;
  for (const step of plan.steps) {
    const change = (step.after - before) / step.times;
    before = step.after;
    if (change !== 0) changes.set(change, (changes.get(change) ?? 0) + step.times);
  }
  const terms = [...changes].map(([change, times]) => {
    const size = Math.abs(change);
    const product = times === 1 || size === 1 ? `${times * size}` : `${times} × ${size}`;
    return `${change < 0 ? '−' : '+'} ${product}`;
  });
  return terms.length === 0 ? '' : `${start} ${terms.join(' ')} = ${count(before, 'st')}`;
}
