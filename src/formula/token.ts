/*
 * Text → tokens. This is the first reader of everything a knitter or a stranger's file can write, so it bounds
 * length, nesting and the number of tokens before anything else looks, and gives a problem with a place for every
 * character it does not know. It knows how knitters write numbers: 3½, 3 1/2, 107,5, 5' 3", 10%, 18 st / 4 in.
 *
 * Positions are in characters of the NFC text.
 */

import { isMoneySign } from '../quantity/index.ts';
import { type Problem, problem } from './problem.ts';

export type TokenKind =
  | 'number'
  | 'percent'
  | 'name'
  | 'feet'
  | 'inches'
  | 'money'
  | 'label'
  | 'date'
  | 'operator'
  | 'open'
  | 'close'
  | 'comma'
  | 'plusminus';

export interface Token {
  readonly kind: TokenKind;
  readonly from: number;
  readonly to: number;
  /** The operator in its plain form, the name in NFC, the label without its quotes. */
  readonly text: string;
  /** For numbers and percentages (10% is 0.1), and the day number of a date. */
  readonly value: number;
  /** For numbers: written with a decimal comma. */
  readonly comma?: boolean;
}

/** What the tokeniser lets through; beyond these a text is refused before it is parsed. */
export const LIMITS = { characters: 2000, tokens: 600, nesting: 40, operatorsInARow: 4 } as const;

const OPERATORS: Readonly<Record<string, string>> = {
  '+': '+',
  '-': '-',
  '−': '-',
  '–': '-',
  '*': '*',
  '×': '*',
  '·': '*',
  '⋅': '*',
  '/': '/',
  '÷': '/',
  '⁄': '/',
  '^': '^',
  '<': '<',
  '>': '>',
  '≤': '<=',
  '≥': '>=',
  '≠': '!=',
  '<=': '<=',
  '>=': '>=',
  '==': '==',
  '!=': '!=',
  '?': '?',
  ':': ':',
};

const FRACTIONS: Readonly<Record<string, number>> = {
  '¼': 1 / 4,
  '½': 1 / 2,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅕': 1 / 5,
  '⅖': 2 / 5,
  '⅗': 3 / 5,
  '⅘': 4 / 5,
  '⅙': 1 / 6,
  '⅚': 5 / 6,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};
const GLYPH = '[¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]';

const SPACE = /[\s\u00a0\u2009\u202f]+/y;
const MIXED = /(\d+)[ \u00a0\u2009]+(\d+)[/⁄](\d+)(?![\d.,]*\s*[/⁄])/y;
const NUMBER = /(?:\d+(?:\.\d+)?|\.\d+)/y;
const COMMA_TAIL = /,(\d+)(?!\d)/y;
const GLYPHS = new RegExp(GLYPH, 'uy');
const NAME = /\p{L}[\p{L}\p{M}\p{N}_]*/uy;
const RAISED = /(mm|cm|m|in|ft|yd)([²³])(?![\p{L}\p{M}\p{N}_])/uy;
const SYMBOL = /<=|>=|==|!=|[+\-−–*×·⋅/÷⁄^<>≤≥≠?:]/uy;
const PLUS_MINUS = /±|\+\/-|\+-/y;
const INCHES = /''|’’|′′|["″”]/y;
const FEET = /['′’]/y;
const DATE = /(\d{4})-(\d{2})-(\d{2})(?![\d-])/y;

/** The day number of a calendar date (days since 1970-01-01), or NaN where there is no such day. */
export function dayNumber(year: number, month: number, day: number): number {
  const date = new Date(Date.UTC(year, month - 1, day));
  if (year < 1000 || year > 9999 || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day)
    return Number.NaN;
  return Math.floor(date.getTime() / 86_400_000);
}

/** A day number as a formula has it: "2026-12-20". */
export function dayText(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10);
}

/** The state of one reading: where it is, what it has, how deep in brackets. */
interface Reader {
  readonly text: string;
  at: number;
  depth: number;
  readonly tokens: Token[];
  bad: Problem | undefined;
}

function match(reader: Reader, pattern: RegExp): RegExpExecArray | null {
  pattern.lastIndex = reader.at;
  return pattern.exec(reader.text);
}

function push(
  reader: Reader,
  kind: TokenKind,
  length: number,
  text: string,
  value = Number.NaN,
  comma = false,
): true {
  const token = { kind, from: reader.at, to: reader.at + length, text, value };
  reader.tokens.push(comma ? { ...token, comma } : token);
  reader.at += length;
  return true;
}

function fail(reader: Reader, code: string, length: number, parts: Problem['parts'] = {}): false {
  reader.bad = problem(code, parts, [reader.at, reader.at + length]);
  return false;
}

function readDate(reader: Reader): boolean {
  const found = match(reader, DATE);
  if (!found) return false;
  const [text = '', year, month, day] = found;
  const value = dayNumber(Number(year), Number(month), Number(day));
  return Number.isNaN(value)
    ? fail(reader, 'no-such-day', text.length, { text })
    : push(reader, 'date', text.length, text, value);
}

/** 107,5 is a decimal comma outside brackets; 1,000 could be either and is asked about. */
function readComma(reader: Reader, number: string): boolean | undefined {
  if (reader.depth > 0 || number.includes('.')) return undefined;
  COMMA_TAIL.lastIndex = reader.at + number.length;
  const tail = COMMA_TAIL.exec(reader.text)?.[1];
  if (tail === undefined) return undefined;
  const length = number.length + 1 + tail.length;
  if (tail.length === 3)
    return fail(reader, 'comma-thousands', length, { point: `${number}.${tail}`, whole: number + tail });
  if (tail.length > 3) return fail(reader, 'comma-decimal', length, { point: `${number}.${tail}` });
  return push(reader, 'number', length, `${number}.${tail}`, Number(`${number}.${tail}`), true);
}

function readNumber(reader: Reader): boolean {
  const mixed = match(reader, MIXED);
  if (mixed && Number(mixed[3]) > 0 && Number(mixed[2]) < Number(mixed[3]))
    return push(
      reader,
      'number',
      mixed[0].length,
      mixed[0],
      Number(mixed[1]) + Number(mixed[2]) / Number(mixed[3]),
    );
  const number = match(reader, NUMBER)?.[0] ?? '';
  const comma = number === '' ? undefined : readComma(reader, number);
  if (comma !== undefined) return comma;
  GLYPHS.lastIndex = reader.at + number.length;
  const glyph = GLYPHS.exec(reader.text)?.[0] ?? '';
  const length = number.length + glyph.length;
  if (length === 0 || (glyph && number.includes('.'))) return false;
  return push(reader, 'number', length, number + glyph, Number(number || 0) + (FRACTIONS[glyph] ?? 0));
}

/** A percent sign after a number is a percentage; a quote mark straight after a digit is feet or inches. */
function readAfterNumber(reader: Reader): boolean {
  const last = reader.tokens.at(-1);
  if (last?.kind !== 'number') return false;
  if (reader.text[reader.at] === '%') {
    reader.at += 1;
    reader.tokens[reader.tokens.length - 1] = {
      ...last,
      kind: 'percent',
      to: reader.at,
      value: last.value / 100,
    };
    return true;
  }
  if (last.to !== reader.at) return false;
  const inches = match(reader, INCHES);
  if (inches) return push(reader, 'inches', inches[0].length, 'in');
  return match(reader, FEET) ? push(reader, 'feet', 1, 'ft') : false;
}

const CLOSING: Readonly<Record<string, string>> = { '"': '"', '“': '”', '„': '“', '«': '»' };

function readLabel(reader: Reader): boolean {
  const opening = reader.text[reader.at] ?? '';
  const closing = CLOSING[opening];
  if (closing === undefined) return false;
  let end = reader.text.indexOf(closing, reader.at + 1);
  if (end < 0 && opening === '“') end = reader.text.indexOf('"', reader.at + 1);
  if (end < 0) return fail(reader, 'open-label', reader.text.length - reader.at);
  return push(reader, 'label', end + 1 - reader.at, reader.text.slice(reader.at + 1, end));
}

function readBracket(reader: Reader): boolean {
  const mark = reader.text[reader.at];
  if (mark === '(') {
    reader.depth += 1;
    if (reader.depth > LIMITS.nesting) return fail(reader, 'too-deep', 1, { limit: LIMITS.nesting });
    return push(reader, 'open', 1, '(');
  }
  if (mark === ')') {
    reader.depth -= 1;
    return reader.depth < 0 ? fail(reader, 'bracket-not-opened', 1) : push(reader, 'close', 1, ')');
  }
  return mark === ',' || mark === ';' ? push(reader, 'comma', 1, ',') : false;
}

/** An area as one writes it, 144 cm²: the same as 144 cm^2. */
function readRaised(reader: Reader): boolean {
  const [, unit, raised] = match(reader, RAISED) ?? [];
  if (unit === undefined) return false;
  const power = raised === '²' ? 2 : 3;
  push(reader, 'name', unit.length, unit);
  push(reader, 'operator', 0, '^');
  return push(reader, 'number', 1, `${power}`, power);
}

function readWord(reader: Reader): boolean {
  const name = match(reader, NAME)?.[0];
  if (name !== undefined) return push(reader, 'name', name.length, name);
  const mark = String.fromCodePoint(reader.text.codePointAt(reader.at) ?? 0);
  return isMoneySign(mark) ? push(reader, 'money', mark.length, mark) : false;
}

function readSymbol(reader: Reader): boolean {
  const both = match(reader, PLUS_MINUS);
  if (both) return push(reader, 'plusminus', both[0].length, '±');
  const symbol = match(reader, SYMBOL)?.[0];
  if (symbol !== undefined) return push(reader, 'operator', symbol.length, OPERATORS[symbol] ?? symbol);
  if (reader.text[reader.at] === '=') return fail(reader, 'single-equals', 1);
  if (reader.text[reader.at] === '%')
    return reader.tokens.at(-1)?.text === 'to'
      ? push(reader, 'name', 1, '%')
      : fail(reader, 'percent-needs-number', 1);
  const mark = String.fromCodePoint(reader.text.codePointAt(reader.at) ?? 0);
  return fail(reader, 'strange-character', mark.length, { mark });
}

const READERS = [
  readAfterNumber,
  readDate,
  readNumber,
  readLabel,
  readRaised,
  readWord,
  readBracket,
  readSymbol,
];

function tooMuch(reader: Reader): boolean {
  if (reader.tokens.length > LIMITS.tokens) fail(reader, 'too-many-parts', 1, { limit: LIMITS.tokens });
  return reader.bad !== undefined;
}

/** The tokens of a text (in NFC), and the first thing in it that could not be read. */
export function tokenise(text: string): { readonly tokens: readonly Token[]; readonly bad?: Problem } {
  const reader: Reader = { text: text.normalize('NFC'), at: 0, depth: 0, tokens: [], bad: undefined };
  if (text.length > LIMITS.characters)
    return { tokens: [], bad: problem('too-long', { limit: LIMITS.characters }) };
  while (reader.at < reader.text.length && !tooMuch(reader)) {
    const space = match(reader, SPACE);
    if (space) reader.at += space[0].length;
    else if (!READERS.some((read) => reader.bad !== undefined || read(reader))) break;
  }
  return reader.bad ? { tokens: reader.tokens, bad: reader.bad } : { tokens: reader.tokens };
}
