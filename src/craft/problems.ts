/* What is said when a plan cannot be laid out: for each problem one sentence that says what to do. */

import type { Problem } from '../formula/index.ts';
import { rows, spaced, sts } from './words.ts';

type Parts = Problem['parts'];

const number = (parts: Parts, name: string): number => Number(parts[name]);
/** What the arguments of plans are to a knitter; others are called as they are. */
const CALLED: Readonly<Record<string, string>> = {
  from: 'the count it begins with',
  to: 'the count it ends with',
  over: 'the number of stitches to work over',
  rows: 'the number of rows for the shaping',
  per: 'the number of stitches a shaping',
  joins: 'the number of joins a repeat',
  live: 'the number of live stitches',
  repeats: 'the number of repeats',
  flap: 'the number of heel stitches',
};

const name = (parts: Parts): string => CALLED[String(parts['name'])] ?? spaced(String(parts['name']));
const Name = (parts: Parts): string => name(parts).replace(/^./, (letter) => letter.toUpperCase());
const shown = (parts: Parts, part: string): string =>
  number(parts, part).toLocaleString('en-GB', { maximumFractionDigits: 3 }).replace('-', '−');
const list = (parts: Parts, part: string): string => {
  const items = parts[part];
  return Array.isArray(items) ? items.join(' or ') : String(items);
};

function tooManyShapings(parts: Parts): string {
  const [shapings, over, needs] = [number(parts, 'shapings'), number(parts, 'rows'), number(parts, 'needs')];
  const one = shapings === 1;
  const ways = [`give it ${rows(needs)}`];
  if (number(parts, 'per') > 0) {
    ways.push(`shape ${sts(number(parts, 'per'))} at a time`, `stop at ${sts(number(parts, 'reaches'))}`);
  }
  if (number(parts, 'every') === 2) ways.push('shape on any row');
  const last = ways.length > 1 ? ` or ${ways.pop()}` : '';
  return `${shapings} shaping${one ? ' needs' : 's need'} ${rows(needs)} and there ${over === 1 ? 'is' : 'are'} ${over}: ${ways.join(', ')}${last}.`;
}

function toeEnd(parts: Parts): string {
  const { from, to } = { from: number(parts, 'from'), to: number(parts, 'to') };
  const ends = list(parts, 'ends');
  const instead = ends === '' ? 'begin with more stitches' : `end with ${ends}`;
  return `A toe loses 4 sts at a time, and ${from} to ${to} is not a whole number of fours: ${instead}.`;
}

/** In how many rows so many changes can be worked; `next` gives what is at most, or at least, on the needle after one. */
function rowsFor(parts: Parts, next: (sts: number) => number): string {
  const [changes, over] = [number(parts, 'changes'), number(parts, 'over')];
  let rows = 0;
  for (let sts = over; Math.abs(sts - over) < changes && rows < MOST_ROWS; sts = next(sts)) rows += 1;
  return `${rows === 2 ? 'two' : rows} rows`;
}

/** More doublings than any count of stitches takes. */
const MOST_ROWS = 64;

/** One sentence for each problem of a plan, made from its parts. */
export const craftProblems: Readonly<Record<string, (parts: Parts) => string>> = {
  'plan-no-number': (parts) => `There is no number for ${name(parts)}: give it one.`,
  'plan-not-whole': (parts) =>
    `${Name(parts)} comes to ${shown(parts, 'value')}, which cannot be knit: make it whole, with whole(…) or multiple(…).`,
  'plan-too-small': (parts) =>
    `${Name(parts)} is ${shown(parts, 'value')} and must be at least ${shown(parts, 'least')}: check what it comes from.`,
  'plan-no-rows': (parts) =>
    `The rows left for this shaping come to ${shown(parts, 'value')}: make the piece longer, or work fewer rows plain.`,
  'plan-too-large': (parts) =>
    `${Name(parts)} is ${shown(parts, 'value')}: plans go up to ${shown(parts, 'most')}, so check the numbers it comes from.`,
  'plan-turn-long': (parts) =>
    `This turn would have ${shown(parts, 'rows')} rows and ${shown(parts, 'most')} is the most: check the stitches of the flap.`,
  'plan-too-many-increases': (parts) =>
    `${sts(number(parts, 'changes'))} more ${number(parts, 'changes') === 1 ? 'does' : 'do'} not fit among ${sts(number(parts, 'over'))}: ` +
    `at most ${number(parts, 'most')} in one row, so work the increase in ${rowsFor(parts, (sts) => 2 * sts + number(parts, 'most') - number(parts, 'over'))}.`,
  'plan-too-many-decreases': (parts) =>
    `${sts(number(parts, 'changes'))} fewer ${number(parts, 'changes') === 1 ? 'does' : 'do'} not come out of ${sts(number(parts, 'over'))}: each decrease takes two, ` +
    `so at most ${number(parts, 'most')} in one row; ${
      number(parts, 'changes') < number(parts, 'over')
        ? `work the decrease in ${rowsFor(parts, (sts) => Math.ceil(sts / 2))}`
        : 'one stitch at least must stay'
    }.`,
  'plan-every': (parts) =>
    `Shaping falls on any row (every 1) or on right-side rows (every 2), not every ${shown(parts, 'every')}: choose 1 or 2.`,
  'plan-too-many-shapings': tooManyShapings,
  'plan-no-rows-left': (parts) =>
    `After row ${number(parts, 'row')} there is no row left to come from ${sts(number(parts, 'count'))} to ` +
    `${number(parts, 'to')}: put it right in the next plain row.`,
  'plan-turn-first': (parts) =>
    `A heel of ${sts(number(parts, 'flap'))} cannot begin its turn with ${number(parts, 'first')}: ` +
    `work between ${number(parts, 'least')} and ${number(parts, 'most')}, usually half + 1 or half + 2.`,
  'plan-far-off': (parts) =>
    `There are ${sts(number(parts, 'count'))} after row ${number(parts, 'row')} and the plan has ` +
    `${number(parts, 'planned')}, too far off to put right in one row: undo to where they agree.`,
  'plan-toe-grows': (parts) =>
    `A toe ends with fewer stitches than it begins with: ${number(parts, 'to')} must be less than ${number(parts, 'from')}.`,
  'plan-toe-end': toeEnd,
  'plan-toe-short': (parts) =>
    `There are ${sts(number(parts, 'count'))} and the toe ends with ${number(parts, 'to')}: graft what is there, or undo a decrease round.`,
  'plan-one-live': () =>
    'One live stitch is no edge to knit an edging on to: give the live stitches of the whole edge.',
  'plan-half-repeat': (parts) =>
    `${sts(number(parts, 'live'))} are not half of a repeat of ${number(parts, 'joins')} joins: ` +
    'choose an edging of fewer rows, or say 1 repeat.',
  'plan-too-few-repeats': (parts) =>
    `${number(parts, 'repeats')} repeats of ${number(parts, 'joins')} joins cannot take in ${sts(number(parts, 'live'))}, ` +
    `even two at a time: work at least ${number(parts, 'least')}.`,
  'plan-too-many-mends': (parts) =>
    `${number(parts, 'repeats')} repeats would want ${shown(parts, 'mends')} joins that take 2 or none: ` +
    `${number(parts, 'near')} repeats come nearest.`,
  'plan-mend-at': (parts) =>
    `A repeat has ${number(parts, 'joins')} joins, so mends cannot be in join ${number(parts, 'mend_at')}: name one of them.`,
  'plan-joins-done': (parts) =>
    `A repeat has ${number(parts, 'joins')} joins and ${number(parts, 'done')} are said to be done in it: ` +
    `count those since the last whole repeat.`,
};
