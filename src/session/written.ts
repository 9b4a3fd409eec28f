/*
 * What is written otherwise than a formula has it, and can mean one thing only: a day as the page and calendars print it
 * (20 Dec 2026, December 20, 2026, 20/12/2026), the name of a cell with its spaces, an x between two things, y and n, a
 * gauge as one says it (21 sts = 4 in, 21 sts over 4 in), a weight in two units (1 lb 3 oz), thousands set apart by spaces
 * (10 000 m), an = in front, a rounding in the page's own words (head × stitch gauge, to the nearest multiple of 4). It is
 * read as what it means. A day that could be two (5/6/2026) is asked about.
 */

import { dayNumber, dayText } from '../formula/index.ts';
import type { Live } from './live.ts';
import type { Place } from './page.ts';
import { A_NUMBER } from './typed-text.ts';

const MONTHS = 'january february march april may june july august september october november december'.split(
  ' ',
);
const DAY_FIRST = /^(\d{1,2})(?:st|nd|rd|th)?\.?\s+(\p{L}{3,9})\.?,?\s+(\d{4})$/u;
const MONTH_FIRST = /^(\p{L}{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})$/u;
const NUMBERS = /^(\d{1,2})([/.])(\d{1,2})\2(\d{4})$/u;

/** So many names in one text are read with their spaces. */
const MOST_NAMES = 40;

/** The text as formulas have it; as it is where it is one already, or means nothing for certain. */
export function asFormula(live: Live, typed: string, { cell }: Place): string {
  const text = unsaid(typed.normalize('NFC'));
  if (live.sheet.has(cell) && live.sheet.info(cell).type.kind === 'truth') {
    const answer = answerIn(live, text.trim());
    if (answer) return answer;
  }
  return dayIn(text.trim()) ?? rounded(live, withSigns(live, text));
}

/** So many stitches or rows to a length. */
const GAUGE = new RegExp(
  String.raw`^(${A_NUMBER}\s*(?:sts?|stitch(?:es)?|rows?|rnds?|rounds?))\s*(?:=|over|to|on)\s*((?:${A_NUMBER})?\s*(?:cm|in|inch(?:es)?|"))$`,
  'iu',
);
const POUNDS = new RegExp(String.raw`^(${A_NUMBER}\s*(?:lb|kg))\s+(${A_NUMBER}\s*(?:oz|g))$`, 'iu');

/** An = before all else. */
const SAID_FIRST = /^\s*=(?!=)\s*/;

/**
 * Thousands set apart by spaces: narrow ones, or before a nought, since 176 198 can be two sizes and 10 000 cannot. Not
 * the digits of a name, nor the upper half of a fraction.
 */
const THOUSANDS =
  /(?<![\p{L}\p{N}_.,/]\s*)\d{1,3}(?:[\u00a0\u2009\u202f]\d{3}| 0\d{2})+(?![\d/⁄½¼¾⅓⅔⅛⅜⅝⅞])/gu;

/**
 * Without what is said and not meant: an = in front of all, a word where a gauge is divided, a weight in two units,
 * spaces within a number.
 */
function unsaid(text: string): string {
  const bare = joinedNumbers(text.replace(SAID_FIRST, ''));
  const [, count, over] = GAUGE.exec(bare.trim()) ?? [];
  if (count !== undefined) return `${count} / ${over}`;
  const [, large, small] = POUNDS.exec(bare.trim()) ?? [];
  return large === undefined ? bare : `${large} + ${small}`;
}

function joinedNumbers(text: string): string {
  return text.includes('"') ? text : text.replace(THOUSANDS, (number) => number.replace(/\D/g, ''));
}

/** Yes or no by its first letter, where no cell is called that. */
function answerIn(live: Live, text: string): string | undefined {
  if (live.sheet.idOf(text) !== undefined) return undefined;
  if (/^(y|yes)$/i.test(text)) return 'yes';
  return /^(n|no)$/i.test(text) ? 'no' : undefined;
}

/** An x that stands alone between two things is the sign it looks like, where no cell is called x. */
function withSigns(live: Live, text: string): string {
  if (!/\s[xX]\s/.test(text) || text.includes('"') || live.sheet.idOf('x') !== undefined) return text;
  return text.replace(/(?<=[\p{L}\p{N}_)%]\s+)[xX](?=\s+[\p{L}\p{N}_(])/gu, '*');
}

/** What is rounded, and how, as the page says it of whole, multiple and to_nearest. */
const COUNTED =
  /^(.+), (to the nearest|up to a|down to a) (?:whole(?: \p{L}+)?|multiple of (.+?)(?: plus (.+))?)$/iu;
const STEPPED = /^(.+), to the nearest (.+)$/iu;
/** The words between what is rounded and what to. */
const ROUNDING = /, (?:to the nearest|up to a|down to a) (?:whole(?: \p{L}+)?$|multiple of )?/giu;

/** The text with its names joined; one that ends in words of rounding as the function they stand for, where that can be read. */
function rounded(live: Live, text: string): string {
  const call = callIn(text.trim());
  const joined = call === undefined ? '' : withJoinedNames(live, call);
  const { parsed } = live.sheet.look(joined);
  return parsed.kind === 'tree' ? joined : withJoinedNames(live, text);
}

function callIn(text: string): string | undefined {
  const [, what, way = '', of, plus] = COUNTED.exec(text) ?? [];
  const [, stepped, step] = STEPPED.exec(text) ?? [];
  if (what === undefined)
    return stepped === undefined ? undefined : `to_nearest(${callIn(stepped) ?? stepped}, ${step})`;
  const direction = /^up/i.test(way) ? '_up' : /^down/i.test(way) ? '_down' : '';
  const inner = callIn(what) ?? what;
  if (of === undefined) return `whole${direction}(${inner})`;
  return `multiple${direction}(${inner}, ${of}${plus === undefined ? '' : `, ${plus}`})`;
}

/** What is asked about a text that could be one of two days; undefined for any other. */
export function unsureDay(typed: string): string | undefined {
  const text = typed.trim();
  if (!NUMBERS.test(text) || dayIn(text) !== undefined) return undefined;
  return `Which day is ${text}? Write it as 20 Dec 2026.`;
}

function dayIn(text: string): string | undefined {
  const [, day, month = '', year] = DAY_FIRST.exec(text) ?? [];
  if (day !== undefined) return dayOf(year, monthCalled(month), Number(day));
  const [, name = '', dayAfter, yearAfter] = MONTH_FIRST.exec(text) ?? [];
  if (dayAfter !== undefined) return dayOf(yearAfter, monthCalled(name), Number(dayAfter));
  const [, first, , second, last] = NUMBERS.exec(text) ?? [];
  const [one, two] = [Number(first), Number(second)];
  if (one > 12) return dayOf(last, two, one);
  return two > 12 || one === two ? dayOf(last, one, two) : undefined;
}

/** From 1; 0 for no month. A name is at least three letters of it. */
const monthCalled = (name: string): number =>
  MONTHS.findIndex((month) => month.startsWith(name.toLowerCase())) + 1;

/** The day as formulas have it; undefined where there is no such day. */
function dayOf(year: string | undefined, month: number, day: number): string | undefined {
  const number = dayNumber(Number(year), month, day);
  return Number.isNaN(number) ? undefined : dayText(number);
}

/** The text with the names of cells joined. */
function withJoinedNames(live: Live, text: string): string {
  const names = [...spacedNames(live, text)].reverse();
  return names.reduce((whole, { from, to, name }) => whole.slice(0, from) + name + whole.slice(to), text);
}

/** A cell that a text names with spaces, and where it stands there. */
interface SpacedName {
  readonly from: number;
  readonly to: number;
  readonly name: string;
}

/** The cells that a text names with their spaces, from left to right, as far as it can be read. */
function spacedNames(live: Live, text: string): readonly SpacedName[] {
  const found: SpacedName[] = [];
  let joined = text;
  while (found.length < MOST_NAMES) {
    const { parsed } = live.sheet.look(joined);
    if (parsed.kind !== 'problem' || parsed.problem.code !== 'spaced-name' || !parsed.problem.at) break;
    const [from, to] = parsed.problem.at;
    const name = String(parsed.problem.parts['name']);
    const gone = text.length - joined.length;
    found.push({ from: from + gone, to: to + gone, name });
    joined = joined.slice(0, from) + name + joined.slice(to);
  }
  return found;
}

/** The text with each thing at its place that a formula has there, and the cells it names with spaces, for colouring. */
export function inPlace(
  live: Live,
  typed: string,
): { readonly text: string; readonly names: readonly SpacedName[] } {
  const text = withSigns(
    live,
    typed.replace(SAID_FIRST, (said) => ' '.repeat(said.length)).replace(ROUNDING, apart),
  );
  return { text, names: spacedNames(live, text) };
}

/** Words of rounding as a sign of the same length, so that all else keeps its place. */
function apart(said: string): string {
  return (/whole/i.test(said) ? '' : ' +').padEnd(said.length);
}
