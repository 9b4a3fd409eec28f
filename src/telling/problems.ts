/*
 * Every problem of a formula, as one sentence: what it is, and what to try. The code and its parts come from where
 * the problem was found; the words are only here. Names are shown with spaces, as on the sheet; so are they where a
 * formula is offered, which can be typed with them, but for names that hold a word of formulas.
 */

import { craftProblems } from '../craft/index.ts';
import { type Problem, spacedName, WORDS } from '../formula/index.ts';

type Parts = Problem['parts'];
type Sentence = (parts: Parts) => string;

const part = (parts: Parts, name: string): string => String(parts[name] ?? '');
const spaced = (parts: Parts, name: string): string => spacedName(part(parts, name));
const list = (parts: Parts, name: string): readonly string[] => {
  const items = parts[name];
  return Array.isArray(items) ? items : [];
};

/** Names of cells in a text of a formula; a name before a bracket is a function’s. */
const CELLS = /\p{L}[\p{L}\p{M}\p{N}_]*(?![\p{L}\p{M}\p{N}_(])/gu;

/** A text of a formula as it can be typed: cells with their spaces, where they can be read so. */
const typable = (text: string): string =>
  text.replace(CELLS, (name) => (name.split('_').some((word) => WORDS.has(word)) ? name : spacedName(name)));
const offered = (parts: Parts, name: string): string => typable(part(parts, name));

/** Brackets round what is more than one word, so that an offer can be pasted as it stands. */
const grouped = (text: string): string =>
  /^[\p{L}\p{N}_.]+$/u.test(text) ? typable(text) : `(${typable(text)})`;

/** Units by their symbols, in full. */
const UNITS: Readonly<Record<string, string>> = {
  mm: 'millimetres',
  cm: 'centimetres',
  m: 'metres',
  in: 'inches',
  ft: 'feet',
  yd: 'yards',
  g: 'grams',
  kg: 'kilograms',
  oz: 'ounces',
  lb: 'pounds',
  minute: 'minutes',
  hour: 'hours',
  day: 'days',
  week: 'weeks',
  st: 'stitches',
  row: 'rows',
  rnd: 'rounds',
  ridge: 'garter ridges',
  skein: 'skeins',
  ball: 'balls',
};

/** What a name stands for that is a unit: "metres" of m, "a unit" of one written in full. */
function unitNamed(parts: Parts): string {
  const unit = UNITS[part(parts, 'unit')] ?? part(parts, 'unit');
  return unit === part(parts, 'name') ? 'a unit' : unit;
}

function circle(parts: Parts): string {
  const ring = list(parts, 'ring').map(spacedName);
  if (ring.length === 0)
    return 'The chosen column depends on itself: choose a column by hand, or change one of the formulas.';
  if (ring.length === 1)
    return `“${ring[0]}” goes round in a circle of ${part(parts, 'count')} cells: type one of them in, or change its formula.`;
  if (ring.length === 2) return `“${ring[0]}” uses itself: take its own name out of its formula.`;
  const links = ring.slice(1).map((name, i) => `${i === 0 ? `“${ring[0]}” uses` : 'which uses'} “${name}”`);
  return `Going round in a circle: ${links.join(', ')}. Type one of them in, or change its formula.`;
}

const arguments_: Record<string, Sentence> = {
  'too-few-arguments': (p) =>
    `${part(p, 'function')} needs more in its brackets: ${part(p, 'function')}(${part(p, 'list')}).`,
  'too-many-arguments': (p) =>
    `${part(p, 'function')} takes less in its brackets: ${part(p, 'function')}(${part(p, 'list')}).`,
  'argument-kind': (p) =>
    `In ${part(p, 'function')}, ${spaced(p, 'parameter')} must be ${part(p, 'wanted')}, but ${spaced(p, 'what')} is ${part(p, 'kind')}.`,
  'length-to-count': (p) =>
    `${part(p, 'function')} is for counts, and ${spaced(p, 'what')} is a length: multiply it by a gauge first, or use to_nearest(${offered(p, 'what')}, 1/4 in).`,
  'needs-each': (p) =>
    `${part(p, 'function')} looks across every ${part(p, 'heading')}, but ${spaced(p, 'what')} has only one value: name a cell with one for each.`,
  'needs-single': (p) =>
    `In ${part(p, 'function')}, ${spaced(p, 'parameter')} must be one value, but ${spaced(p, 'what')} has one for each ${part(p, 'heading')}: use chosen(${offered(p, 'what')}).`,
  'no-columns': (p) =>
    `${part(p, 'function')} looks across columns and this notebook has none: add columns first.`,
  'given-needs-cell': () => 'given(…) asks about one cell: put just its name in the brackets.',
};

const names: Record<string, Sentence> = {
  'unknown-name': (p) => `There is no cell called “${spaced(p, 'name')}”: add it, or check the spelling.`,
  'unknown-name-near': (p) =>
    `There is no cell called “${spaced(p, 'name')}”: did you mean “${offered(p, 'near')}”?`,
  'unknown-function': (p) =>
    `There is no function called ${part(p, 'name')}: see the list under “units and functions”.`,
  'unknown-function-near': (p) =>
    `There is no function called ${part(p, 'name')}: did you mean ${part(p, 'near')}(…)?`,
  'function-without-brackets': (p) =>
    `${part(p, 'name')} is a function: give it something in brackets, as ${part(p, 'name')}(…).`,
  'cell-with-brackets': (p) =>
    `“${spaced(p, 'name')}” is a cell, not a function: to multiply, write ${offered(p, 'name')} * (…).`,
  'spaced-name': (p) =>
    `Names are joined with _ in a formula: write ${part(p, 'name')} for “${part(p, 'written')}”.`,
  'name-empty': () => 'A cell needs a name.',
  'name-long': (p) => `That name is longer than ${part(p, 'limit')} letters: shorten it.`,
  'name-letters': (p) =>
    `“${part(p, 'name')}” cannot be a name: begin with a letter and use only letters, digits and spaces.`,
  'name-word': (p) => `“${part(p, 'name')}” is a word of formulas: call it something else.`,
  'name-unit': (p) => `“${part(p, 'name')}” is ${unitNamed(p)} here: call it ${spaced(p, 'instead')}.`,
  'name-taken': (p) => `There is a cell called “${spaced(p, 'other')}” already: choose another name.`,
  circle,
};

/** "rows to stitches", as what is done with them has it. */
function bothKinds(p: Problem['parts']): string {
  const [left, right] = [part(p, 'leftKind'), part(p, 'rightKind')];
  if (part(p, 'doing') === 'compares') return `${left} with ${right}`;
  return `${right} ${part(p, 'doing') === 'adds' ? 'to' : 'from'} ${left}`;
}

/** How a plain number becomes a count: a typed one with its unit, any other multiplied by one. */
function asCount(p: Problem['parts']): string {
  const [number, unit] = [part(p, 'number'), part(p, 'unit')];
  if (!/^[\d.,]+$/.test(number)) return `make it a count, as in ${grouped(number)} * 1 ${unit}`;
  return `give the number its unit, as in ${number} ${unit === 'row' && number !== '1' ? 'rows' : unit}`;
}

const mixing: Record<string, Sentence> = {
  'rows-with-stitches': (p) =>
    `This ${part(p, 'doing')} ${bothKinds(p)}; say how many ${part(p, 'leftKind')} to how many ${part(p, 'rightKind')}, as in ${grouped(part(p, 'turned'))} * ${part(p, 'rate')}.`,
  'length-with-count': (p) =>
    `${spaced(p, 'left')} is ${part(p, 'leftKind')} and ${spaced(p, 'right')} is ${part(p, 'rightKind')}: multiply the length by a gauge, or divide the count by one.`,
  'length-with-number': (p) =>
    `${spaced(p, 'left')} is ${part(p, 'leftKind')} and ${spaced(p, 'right')} is ${part(p, 'rightKind')}: give the number its unit, as in 2 in or 5 cm.`,
  'count-with-number': (p) =>
    `${spaced(p, 'left')} is ${part(p, 'leftKind')} and ${spaced(p, 'right')} is ${part(p, 'rightKind')}: ${asCount(p)}.`,
  'percent-of-cell': (p) =>
    `${spaced(p, 'right')} is a percentage: write ${grouped(part(p, 'left'))} * (1 ${part(p, 'op')} ${grouped(part(p, 'right'))}).`,
  unlike: (p) =>
    `${spaced(p, 'left')} is ${part(p, 'leftKind')} and ${spaced(p, 'right')} is ${part(p, 'rightKind')}: only like can be added, taken away or compared.`,
  'compare-unlike': (p) =>
    `${spaced(p, 'left')} is ${part(p, 'leftKind')} and ${spaced(p, 'right')} is ${part(p, 'rightKind')}: they cannot be compared.`,
  'not-a-number': (p) => `${spaced(p, 'what')} is ${part(p, 'kind')}, and a number is needed here.`,
  'not-a-truth': (p) =>
    `${spaced(p, 'what')} is ${part(p, 'kind')}, and a yes or no is needed here: compare it with something.`,
  'arms-unlike': (p) =>
    `The two answers must be alike, but one is ${part(p, 'yes')} and the other ${part(p, 'no')}.`,
  'date-sum': (p) =>
    `A date goes with a time, as date + 3 weeks, or with another date, as date − date; ${spaced(p, 'left')} and ${spaced(p, 'right')} do not fit so.`,
  power: (p) => `A power must be a plain whole number or a half, and “${part(p, 'what')}” is not.`,
  'to-unlike': (p) => `${spaced(p, 'what')} is ${part(p, 'kind')} and cannot be shown in ${part(p, 'unit')}.`,
  'other-money': (p) => `This notebook counts in ${part(p, 'money')}, not ${part(p, 'sign')}.`,
  'column-kind': (p) =>
    `“${part(p, 'text')}” is another kind of thing than the first in this row: use the same unit throughout.`,
  'formula-in-column': () =>
    'One column of a row holds a plain value; for a formula, give the whole row one formula.',
};

const reading: Record<string, Sentence> = {
  'too-long': (p) => `This is longer than ${part(p, 'limit')} letters: split it into several cells.`,
  'too-many-parts': (p) => `This has more than ${part(p, 'limit')} parts: split it into several cells.`,
  'too-deep': (p) =>
    `This has brackets within brackets more than ${part(p, 'limit')} deep: split it into several cells.`,
  'operators-in-a-row': () => 'There are too many signs side by side: leave one.',
  'strange-character': (p) => `“${part(p, 'mark')}” means nothing in a formula: take it out.`,
  'single-equals': () => 'To ask whether two things are the same, write ==.',
  'percent-needs-number': () => 'A percent sign goes straight after a number, as 10%.',
  'comma-thousands': (p) =>
    `This could be ${part(p, 'point')} or ${part(p, 'whole')}: write it without the comma.`,
  'comma-decimal': (p) => `Write ${part(p, 'point')} with a point here; in a formula a comma separates.`,
  'number-gap': (p) =>
    `Two numbers side by side: write ${part(p, 'whole')} in one, or put a sign between them.`,
  'open-label': () => 'This label has no closing quote mark.',
  'no-such-day': (p) => `${part(p, 'text')} is not a day of the calendar.`,
  'bracket-not-opened': () => 'This bracket closes nothing.',
  'bracket-not-closed': () => 'This bracket is never closed.',
  'empty-brackets': () => 'There is nothing in these brackets.',
  'value-missing': (p) =>
    part(p, 'before')
      ? `Something is missing after “${offered(p, 'before')}”.`
      : `Something is missing before “${offered(p, 'after')}”.`,
  'comma-outside': () =>
    'A comma separates only inside a function’s brackets. For one value a size, write them as 36 (40, 44) in.',
  'condition-in-condition': () => 'Put brackets round the inner question: a ? (b ? 1 : 2) : 3.',
  'condition-needs-else': () => 'A question needs both answers: test ? this : that.',
  'colon-without-question': () => 'A colon belongs to a question: test ? this : that.',
  'chained-comparison': (p) =>
    `Compare two at a time: ${offered(p, 'a')} < ${offered(p, 'b')} and ${offered(p, 'b')} < ${offered(p, 'c')}.`,
  'in-unclear': (p) =>
    `“in” is unclear after ${offered(p, 'left')}: for inches put a number before it; to show in another unit write “to”.`,
  'unit-after': (p) =>
    `A unit follows a number: write ${offered(p, 'left')} * 1 ${part(p, 'right')}, or “to ${part(p, 'right')}” to show it so.`,
  'unknown-unit': (p) =>
    `There is no unit “${part(p, 'right')}”: did you mean ${offered(p, 'left')} ${part(p, 'unit')}?`,
  'sizes-unlike-columns': (p) =>
    `This line has ${part(p, 'count')} values, and the notebook has another number of columns: give one for each, with a dash for none.`,
  'side-by-side': (p) =>
    `A sign is missing between ${offered(p, 'left')} and ${offered(p, 'right')}: to multiply, write ${offered(p, 'left')} * ${offered(p, 'right')}.`,
  'day-without-year': (p) => `Which year is ${part(p, 'written')}? A day is written as 20 Dec 2026.`,
  'to-needs-unit': (p) =>
    part(p, 'unit')
      ? `“${part(p, 'unit')}” is not a unit to show things in.`
      : 'Say the unit after “to”, as in to cm.',
  'tolerance-needs-value': () => 'Write how far off it can be as 18 ± 0.5 st / 4 in.',
  'tolerance-unlike': (p) =>
    `What it can be off by is ${part(p, 'off')}, and the value is ${part(p, 'value')}: give both the same unit, as in 18 ± 0.5 st / 4 in.`,
  'tolerance-typed-only': () => '± goes with one typed value: type it there and use the cell in the formula.',
  'not-yet': () =>
    'The part of Ellwand that reads formulas is still on its way: this is read as soon as it is here.',
  unreadable: () => 'This could not be read: try it in smaller pieces.',
};

const working: Record<string, Sentence> = {
  'division-by-nothing': () =>
    'This divides by nothing: check the number below the line, often a gauge of 0.',
  'gauge-of-nothing': () => 'A gauge is more than nothing: count the stitches or the rows again.',
  'power-without-value': () => 'This power has no value: check the numbers in it.',
  'too-large': () => 'This comes out too large to be a number: check the numbers in it.',
  'multiple-of-nothing': () => 'A multiple must be of more than nothing: give the stitches of one repeat.',
  'step-of-nothing': () => 'A step must be more than nothing.',
  'root-of-negative': () => 'There is no square root of a number below nothing.',
  'no-such-column': () => 'No column has that label: check its spelling.',
  'slope-needs-two': () => 'A slope needs at least two columns with different values.',
  'broken-column': (p) =>
    `This looks at every column and waits for ${part(p, 'column')}, which has a problem further up.`,
  'no-answer': (p) => `${part(p, 'function')} has no answer for these numbers.`,
  'reading-without-value': (p) => `This plan has nothing that ${part(p, 'function')} could read.`,
};

const steps: Record<string, Sentence> = {
  'step-below-nothing': (p) =>
    `“${spaced(p, 'name')}” comes to ${part(p, 'value')}, fewer than none: check what it comes from.`,
  'step-undecided': (p) =>
    `“${spaced(p, 'name')}” comes to ${part(p, 'value')}, which cannot be knit: make it whole, with whole(…) or multiple(…).`,
  'step-whole-by-chance': (p) =>
    `“${spaced(p, 'name')}” comes to ${part(p, 'value')} now, but with other numbers it may not be whole: put it into whole(…), and it can be knit.`,
};

const SENTENCES: Readonly<Record<string, Sentence>> = {
  ...arguments_,
  ...names,
  ...mixing,
  ...reading,
  ...working,
  ...steps,
  ...craftProblems,
};

/** Every code there is a sentence for. */
export const problemCodes: readonly string[] = Object.keys(SENTENCES);

/** A problem as one sentence. */
export function problemSentence(problem: Problem): string {
  const sentence = Object.hasOwn(SENTENCES, problem.code) ? SENTENCES[problem.code] : undefined;
  return sentence ? sentence(problem.parts) : `Something is wrong here (${problem.code}).`;
}
