/*
 * A count so far from the expected one that decreases are no answer: more likely other stitches were counted too, or
 * a repeat, a round or a needle was passed over. It is asked about first; the way to mend it waits until she is sure.
 */

import { type Plan, spacedName } from '../formula/index.ts';
import { STITCH } from '../quantity/index.ts';
import type { FilledStep, PrintedCell } from './fill-step.ts';
import type { Live } from './live.ts';
import { countWords } from './show.ts';

/** A miss is far when it is more than this many stitches and more than this share of the count (common practice). */
const FAR_STITCHES = 4;
const FAR_SHARE = 1 / 5;

/** Whether a count is so far off that it is counted again before anything is mended. */
export function isFarOff(count: number, wanted: number): boolean {
  const miss = Math.abs(count - wanted);
  return miss > FAR_STITCHES && miss > wanted * FAR_SHARE;
}

/** "nearly twice as many", "about half": how far off in words, for one that is far off. */
export function howFar(count: number, wanted: number): string {
  const share = wanted === 0 ? Number.POSITIVE_INFINITY : count / wanted;
  if (share > 2) return share <= 2.15 ? 'about twice as many' : 'more than twice as many';
  if (share >= 1.8) return share === 2 ? 'just twice as many' : 'nearly twice as many';
  if (share > 1) return `${count - wanted} too many, and that is a good deal`;
  return share >= 0.4 && share <= 0.6
    ? 'about half of them'
    : `${wanted - count} too few, and that is a good deal`;
}

/** The stitches that are meant, and others that may have been counted with them. */
interface Meant {
  /** "heel", "instep"; "" where the words do not name a part of the work. */
  readonly part: string;
  /** "instep stitches, 32,"; "" where no others are named. */
  readonly others: string;
}

/** What she is asked, a sentence each: what to count and where, and what may have gone wrong. */
export function questionsOf(
  live: Live,
  filled: FilledStep,
  plan: Plan | undefined,
  wanted: number,
  count: number,
): readonly string[] {
  const { part, others } = plan ? meantBy(plan) : meantIn(live, filled);
  const all = countWords(wanted, 'stitch', 'stitches');
  const where =
    part === ''
      ? `only the stitches of this step: ${all}.`
      : `only what is on the ${part} needle: the ${wanted} ${part} stitches.`;
  const counted = others === '' ? 'the stitches of another needle' : `the ${others}`;
  const asked =
    count > wanted
      ? `Were ${counted} counted too, or was a repeat or a row missed?`
      : 'Are some on another needle or a holder, or was a repeat or a row missed?';
  return [`Count again, ${where}`, asked];
}

/** A heel is turned on the heel needle while the instep waits. */
function meantBy({ kind }: Plan): Meant {
  return kind === 'heel_turn' ? { part: 'heel', others: 'instep stitches' } : NO_PART;
}

const NO_PART: Meant = { part: '', others: '' };

/** From a step that says what waits: "leave 32 sts waiting for the instep, on the other 32 sts …". */
function meantIn(live: Live, { cells, parts }: FilledStep): Meant {
  const words = parts.map((one) => (one.kind === 'words' ? one.text : '')).join(' ');
  const wanted = cells.findLast(isStitches);
  if (!wanted || !/\bwaiting\b|\bon hold\b|\bon a holder\b/i.test(words)) return NO_PART;
  const other = cells.find((one) => isStitches(one) && one.cell !== wanted.cell && partOf(live, one) !== '');
  const part = partOf(live, wanted);
  if (!other || part === '' || other.value.kind !== 'quantity') return NO_PART;
  return { part, others: `${partOf(live, other)} stitches, ${other.value.value},` };
}

const isStitches = ({ value }: PrintedCell): boolean =>
  value.kind === 'quantity' && value.type.dimension === STITCH;

/** "heel" of a cell called heel stitches; "" of any that is not called so. */
function partOf(live: Live, { cell }: PrintedCell): string {
  return /^(\p{L}+) stitches$/u.exec(spacedName(live.sheet.nameOf(cell)))?.[1] ?? '';
}
