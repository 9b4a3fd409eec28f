/*
 * When the count on the needles differs. With a plan, the rest of it is worked out again from where she is, so that it
 * ends as it should; without one, the nearest way to mend is as many stitches spread evenly over the next plain row.
 */

import { countAt, onNeedle, spreadFlat, spreadRound } from '../craft/index.ts';
import type { Plan } from '../formula/index.ts';
import { inRounds, isRound, problemSentence } from '../telling/index.ts';
import { countAfter } from './count-after.ts';
import { begunAfter, countedOf, planIn, resumed, stitchesAfter } from './counter.ts';
import { howFar, isFarOff, questionsOf } from './far-off.ts';
import type { FilledStep } from './fill-step.ts';
import type { Live } from './live.ts';
import type { RecountView } from './page.ts';
import { countWords } from './show.ts';
import { restLines } from './steps.ts';

/** How far around the row she counted at a row is looked for where her count would be right. */
const NEAR_ROWS = 24;

const sts = (n: number): string => countWords(n, 'st', 'sts');

/** "2 too few", "1 too many"; of a count that is far off, how far. */
function off(count: number, wanted: number): string {
  if (isFarOff(count, wanted)) return howFar(count, wanted);
  return `${Math.abs(count - wanted)} too ${count < wanted ? 'few' : 'many'}`;
}

/** What she is told of `count` stitches after `row` of a step; `whole` is the plan before any recount. */
export function recountView(
  live: Live,
  filled: FilledStep,
  whole: Plan | undefined,
  row: number,
  count: number,
): RecountView | undefined {
  const plan = planIn(filled);
  if (plan && whole && (row < lastRow(plan) || plan.kind === 'join')) {
    const wanted = plannedCount(row >= begunAfter(plan) ? plan : whole, row, count);
    const view = ofPlan(plan, whole, isRound(filled.parts), row, count);
    return { ...view, asks: asksOf(live, filled, plan, wanted, count) };
  }
  const wanted = plan ? countAt(plan, row) : countAfter(filled);
  if (wanted === undefined) return undefined;
  return { ...ofCount(live, filled, wanted, count), asks: asksOf(live, filled, undefined, wanted, count) };
}

/** The count a plan has after a row; where it may be one of several, the nearest to what there is. */
function plannedCount(plan: Plan, row: number, count: number): number {
  const [fewest, most] = onNeedle(plan, row);
  return Math.min(Math.max(count, fewest), most);
}

/** The last row of a plan, after which nothing of it is left to work out again. */
const lastRow = (plan: Plan): number => begunAfter(plan) + (plan.totals['rows'] ?? 0);

function asksOf(live: Live, filled: FilledStep, plan: Plan | undefined, wanted: number, count: number) {
  return isFarOff(count, wanted) ? questionsOf(live, filled, plan, wanted, count) : [];
}

/** What is said of a count but for what is asked about it. */
type Said = Omit<RecountView, 'asks'>;

function ofPlan(plan: Plan, whole: Plan, round: boolean, row: number, count: number): Said {
  const knitted = row >= begunAfter(plan) ? plan : whole;
  const rest = resumed(whole, row, count);
  const noun = round || plan.kind === 'toe' ? 'rnd' : 'row';
  const planned = plannedCount(knitted, row, count);
  const corners = count === planned ? cornersSaid(knitted, whole, row, count) : '';
  const sentence = `${plannedSentence(stitchesAfter(knitted, row), planned, noun, row, count)}${corners}`;
  if ('code' in rest)
    return {
      sentence,
      hint: hintOf(knitted, noun, row, count),
      mend: problemSentence(rest),
      lines: [],
      sum: '',
      canGoOn: false,
    };
  const isRight = count === planned;
  return {
    sentence,
    hint: isRight ? '' : hintOf(knitted, noun, row, count),
    mend: isRight ? 'Go on as planned.' : mendOf(rest, noun),
    ...restLines(rest, round),
    canGoOn: !isRight,
  };
}

function plannedSentence(said: string, planned: number, noun: string, row: number, count: number): string {
  const where = row === 0 ? 'before it begins' : `after ${noun} ${row}`;
  if (count === planned) return `${sts(count)} ${where}: just as planned.`;
  return `The plan has ${said} ${where}, and there ${count === 1 ? 'is' : 'are'} ${count}: ${off(count, planned)}.`;
}

/** How many extra joins at corners are behind her where her count is right; "" for an edging without any. */
function cornersSaid(plan: Plan, whole: Plan, row: number, count: number): string {
  const all = whole.totals['corner'] ?? 0;
  if (all === 0 || row === 0) return '';
  const toCome = countAt(plan, row) - count;
  return ` That is with ${all - toCome} of ${all} extra joins at corners done.`;
}

/** The row nearest by after which the plan has that count. */
function hintOf(plan: Plan, noun: string, row: number, count: number): string {
  const first = begunAfter(plan);
  const last = lastRow(plan);
  for (let away = 1; away <= NEAR_ROWS; away += 1)
    for (const near of [row - away, row + away])
      if (near >= first && near <= last && plannedCount(plan, near, count) === count)
        return `${sts(count)} would be right after ${noun} ${near}: look first whether that is where you are.`;
  return '';
}

/** The first words of the rest that put the count right, or that nothing needs to be. */
function mendOf(rest: Plan, noun: string): string {
  const turned = (text: string) => (noun === 'rnd' ? inRounds(text) : text);
  const mend = rest.steps.find((step) => step.says.includes('to put the count right'));
  if (rest.kind === 'join') return [`${capital(rest.text)}.`, ...rest.remarks].map(turned).join(' ');
  const said = [...(mend ? [`${capital(mend.says)}.`] : []), ...rest.remarks].map(turned);
  if (said.length > 0) return said.join(' ');
  const end = sts(rest.totals['stitches_after'] ?? 0);
  return rest.steps.length === 0
    ? `Nothing is left to do: ${end}.`
    : `No stitch has to be mended: the rest, spread anew, ends with ${end}.`;
}

const capital = (text: string): string => text.replace(/^\p{L}/u, (letter) => letter.toUpperCase());

function ofCount(live: Live, filled: FilledStep, wanted: number, count: number): Said {
  const noun = countedOf(live, filled)?.noun ?? (isRound(filled.parts) ? 'rnd' : 'row');
  const nothing = { hint: '', lines: [], sum: '', canGoOn: false };
  if (count === wanted)
    return { ...nothing, sentence: `${sts(count)}: just as it should be.`, mend: 'Go on as planned.' };
  const sentence = `There should be ${wanted}, and there ${count === 1 ? 'is' : 'are'} ${count}: ${off(count, wanted)}.`;
  const spec = noun === 'rnd' ? spreadRound : spreadFlat;
  const plan = spec.work(wanted - count, count);
  if ('code' in plan) return { ...nothing, sentence, mend: problemSentence(plan) };
  return { ...nothing, sentence, mend: `In the next plain ${noun}: ${plan.text}.` };
}
