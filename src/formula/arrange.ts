/*
 * Tokens → pieces: numbers take their units, words find out what they are, and everything that could be meant two
 * ways is refused here with an offer. What is left is a row of operands and operators that mathjs can group, with
 * stand-ins (v0, v1, f0 …) for everything a knitter named, so that mathjs sees only what we let through.
 *
 * The one rule of the walk: a text alternates between "an operand must come" and "an operator must come". Each
 * reader below is asked in the state it belongs to and says how many tokens it took.
 */

import { raised, readUnit, type Shown, unitNamed } from '../quantity/index.ts';
import { type Problem, problem } from './problem.ts';
import { nearest } from './spelling.ts';
import { LIMITS, type Token } from './token.ts';
import type { Node, Place } from './tree.ts';

/** Words of the language: no cell may be called one of these. */
export const WORDS: ReadonlySet<string> = new Set(['and', 'or', 'not', 'to', 'per', 'yes', 'no', 'pi']);

/** What a name can be, as far as the reader must know: whether a cell or a function has it, and the money sign. */
export interface Names {
  isCell(name: string): boolean;
  isFunction(name: string): boolean;
}

/** The stand-in text for mathjs, with what each stand-in stands for. */
export interface Arranged {
  readonly text: string;
  readonly operands: readonly Node[];
  readonly calls: readonly { readonly name: string; readonly at: Place }[];
  /** A decimal comma was used: allowed in a typed value only. */
  readonly comma: Token | undefined;
}

interface Bracket {
  readonly call: boolean;
  readonly from: number;
  /** A `?` is open at this depth and waits for its `:`. */
  asking: boolean;
  /** How many `not(` are open at this depth. */
  nots: number;
}

interface Walk {
  readonly text: string;
  readonly tokens: readonly Token[];
  readonly names: Names;
  at: number;
  out: string;
  readonly operands: Node[];
  readonly calls: { readonly name: string; readonly at: Place }[];
  readonly brackets: Bracket[];
  wantsOperand: boolean;
  signs: number;
  bad: Problem | undefined;
}

const NOUNIT = readUnit('') as Shown;
const PERCENT = readUnit('%') as Shown;

function fail(walk: Walk, code: string, at: Place, parts: Problem['parts'] = {}): true {
  walk.bad = problem(code, parts, at);
  return true;
}

const token = (walk: Walk, ahead = 0): Token | undefined => walk.tokens[walk.at + ahead];
const textAt = (walk: Walk, [from, to]: Place): string => walk.text.slice(from, to);
const top = (walk: Walk): Bracket => walk.brackets[walk.brackets.length - 1] as Bracket;

function operand(walk: Walk, node: Node, taken: number): true {
  walk.out += `v${walk.operands.push(node) - 1} `;
  walk.at += taken;
  walk.wantsOperand = false;
  walk.signs = 0;
  return true;
}

/** The unit that starts `ahead` tokens on, with a power, and how many tokens it takes. */
function unitAhead(walk: Walk, ahead: number): { readonly shown: Shown; readonly taken: number } | undefined {
  const word = token(walk, ahead);
  if (!word || !['name', 'inches', 'feet', 'money'].includes(word.kind)) return undefined;
  if (word.kind === 'name' && (WORDS.has(word.text) || !unitNamed(word.text))) return undefined;
  const shown = readUnit(word.text);
  if (!shown) return undefined;
  const power = token(walk, ahead + 1)?.text === '^' ? token(walk, ahead + 2) : undefined;
  if (power?.kind !== 'number') return { shown, taken: 1 };
  const dimension = raised(shown.dimension, power.value);
  if (dimension === undefined || !Number.isInteger(power.value)) return { shown, taken: 1 };
  return {
    shown: { label: `${shown.label}^${power.value}`, factor: shown.factor ** power.value, dimension },
    taken: 3,
  };
}

/** `5' 3"` and `5 ft 3 in`: the inches that belong to the feet just read, in base units. */
function inchesAfterFeet(
  walk: Walk,
  ahead: number,
  shown: Shown,
): { readonly value: number; readonly taken: number } {
  const number = token(walk, ahead);
  const unit = number?.kind === 'number' ? unitAhead(walk, ahead + 1) : undefined;
  if (shown.label !== 'ft' || !number || unit?.shown.label !== 'in') return { value: 0, taken: 0 };
  return { value: number.value * unit.shown.factor, taken: 1 + unit.taken };
}

/** `243/4 st`: the plain number below, when a unit follows it. */
function dividedBy(walk: Walk): Token | undefined {
  const below = token(walk, 2);
  if (token(walk, 1)?.text !== '/' || token(walk, 1)?.kind !== 'operator' || below?.kind !== 'number')
    return undefined;
  return unitAhead(walk, 3) && below.value !== 0 ? below : undefined;
}

function readNumber(walk: Walk): boolean {
  const number = token(walk);
  if (number?.kind !== 'number') return false;
  const below = dividedBy(walk);
  const taken = below ? 3 : 1;
  const value = below ? number.value / below.value : number.value;
  const unit = unitAhead(walk, taken);
  const shown = unit?.shown ?? NOUNIT;
  const after = taken + (unit?.taken ?? 0);
  const inches = inchesAfterFeet(walk, after, shown);
  const total = after + inches.taken;
  const at: Place = [number.from, token(walk, total - 1)?.to ?? number.to];
  if (!Number.isFinite(value * shown.factor)) return fail(walk, 'too-large', at);
  return operand(
    walk,
    {
      kind: 'literal',
      value: value * shown.factor + inches.value,
      shown: inches.taken ? (readUnit('in') as Shown) : shown,
      percent: false,
      at,
    },
    total,
  );
}

function readMoney(walk: Walk): boolean {
  const [sign, number] = [token(walk), token(walk, 1)];
  if (sign?.kind !== 'money' || number?.kind !== 'number') return false;
  const shown = readUnit(sign.text) as Shown;
  return operand(
    walk,
    { kind: 'literal', value: number.value, shown, percent: false, at: [sign.from, number.to] },
    2,
  );
}

function readSimple(walk: Walk): boolean {
  const next = token(walk) as Token;
  const at: Place = [next.from, next.to];
  if (next.kind === 'percent')
    return operand(walk, { kind: 'literal', value: next.value, shown: PERCENT, percent: true, at }, 1);
  if (next.kind === 'label') return operand(walk, { kind: 'label', text: next.text, at }, 1);
  if (next.kind === 'date') return operand(walk, { kind: 'date', day: next.value, at }, 1);
  return false;
}

function openBracket(walk: Walk, call: boolean, from: number, taken: number): true {
  walk.brackets.push({ call, from, asking: false, nots: 0 });
  walk.at += taken;
  walk.wantsOperand = true;
  walk.signs = 0;
  return true;
}

function readCall(walk: Walk): boolean {
  const [name, open] = [token(walk) as Token, token(walk, 1)];
  if (open?.kind !== 'open') return false;
  const straight = open.from === name.to;
  if (!straight && !walk.names.isFunction(name.text)) return false;
  walk.out += `f${walk.calls.push({ name: name.text, at: [name.from, name.to] }) - 1}(`;
  openBracket(walk, true, open.from, 2);
  if (token(walk)?.kind === 'close') {
    walk.wantsOperand = false;
    closeBracket(walk);
  }
  return true;
}

function readWord(walk: Walk): boolean {
  const name = token(walk) as Token;
  if (name.kind !== 'name') return false;
  const at: Place = [name.from, name.to];
  if (name.text === 'yes' || name.text === 'no')
    return operand(walk, { kind: 'truth', value: name.text === 'yes', at }, 1);
  if (name.text === 'pi')
    return operand(walk, { kind: 'literal', value: Math.PI, shown: NOUNIT, percent: false, at }, 1);
  if (name.text === 'not') return readNot(walk);
  if (WORDS.has(name.text)) return false;
  return readCall(walk) || readUnitAlone(walk) || operand(walk, { kind: 'cell', name: name.text, at }, 1);
}

/** `not` binds looser than a comparison, so it is given brackets that reach to the next `and`, `or`, `?`, `:` or end. */
function readNot(walk: Walk): true {
  walk.out += 'not(';
  top(walk).nots += 1;
  walk.at += 1;
  return true;
}

function closeNots(walk: Walk): void {
  walk.out += ')'.repeat(top(walk).nots);
  top(walk).nots = 0;
}

/** A unit where a value must come is one of it: `20 st / in`. */
function readUnitAlone(walk: Walk): boolean {
  const word = token(walk) as Token;
  const unit = unitAhead(walk, 0);
  if (!unit || walk.names.isCell(word.text)) return false;
  const at: Place = [word.from, token(walk, unit.taken - 1)?.to ?? word.to];
  return operand(
    walk,
    { kind: 'literal', value: unit.shown.factor, shown: unit.shown, percent: false, at },
    unit.taken,
  );
}

function readSign(walk: Walk): boolean {
  const sign = token(walk) as Token;
  if (sign.kind !== 'operator' || (sign.text !== '-' && sign.text !== '+')) return false;
  walk.signs += 1;
  if (walk.signs > LIMITS.operatorsInARow) return fail(walk, 'operators-in-a-row', [sign.from, sign.to]);
  if (sign.text === '-') walk.out += '-';
  walk.at += 1;
  return true;
}

function readOpen(walk: Walk): boolean {
  const open = token(walk) as Token;
  if (open.kind !== 'open') return false;
  walk.out += '(';
  return openBracket(walk, false, open.from, 1);
}

function missingOperand(walk: Walk): true {
  const next = token(walk) as Token;
  const before = walk.tokens[walk.at - 1];
  const code = next.kind === 'close' && before?.kind === 'open' ? 'empty-brackets' : 'value-missing';
  return fail(walk, code, [next.from, next.to], {
    before: before ? textAt(walk, [before.from, before.to]) : '',
    after: next.text,
  });
}

const OPERAND_READERS = [readNumber, readMoney, readSimple, readWord, readSign, readOpen, missingOperand];

function closeBracket(walk: Walk): true {
  closeNots(walk);
  walk.out += ') ';
  walk.brackets.pop();
  walk.at += 1;
  walk.wantsOperand = false;
  return true;
}

function operator(walk: Walk, text: string): true {
  walk.out += `${text} `;
  walk.at += 1;
  walk.wantsOperand = true;
  walk.signs = 0;
  return true;
}

function readAsk(walk: Walk, next: Token): true {
  const bracket = top(walk);
  if (next.text === '?' && bracket.asking) return fail(walk, 'condition-in-condition', [next.from, next.to]);
  if (next.text === ':' && !bracket.asking) return fail(walk, 'colon-without-question', [next.from, next.to]);
  closeNots(walk);
  bracket.asking = next.text === '?';
  return operator(walk, next.text);
}

function readOperator(walk: Walk): boolean {
  const next = token(walk) as Token;
  if (next.kind === 'close') {
    // Half of a text with ± in its brackets has a bracket that opens in the other half.
    if (walk.brackets.length < 2) return fail(walk, 'bracket-not-opened', [next.from, next.to]);
    return closeBracket(walk);
  }
  if (next.kind === 'comma') {
    if (!top(walk).call) return fail(walk, 'comma-outside', [next.from, next.to]);
    closeNots(walk);
    return operator(walk, ',');
  }
  if (next.kind !== 'operator') return false;
  return next.text === '?' || next.text === ':' ? readAsk(walk, next) : operator(walk, next.text);
}

function readWordOperator(walk: Walk): boolean {
  const next = token(walk) as Token;
  if (next.kind !== 'name') return false;
  if (next.text === 'per') return operator(walk, '/');
  if (next.text !== 'and' && next.text !== 'or') return false;
  closeNots(walk);
  return operator(walk, next.text);
}

/** `… to st / 10 cm`: everything up to the end of this bracket is a unit. */
function readTo(walk: Walk): boolean {
  const next = token(walk) as Token;
  if (next.kind !== 'name' || next.text !== 'to') return false;
  let taken = 1;
  while (token(walk, taken) && token(walk, taken)?.kind !== 'close' && token(walk, taken)?.kind !== 'comma')
    taken += 1;
  const last = token(walk, taken - 1) as Token;
  const written = textAt(walk, [next.to, last.to])
    .replace(/\bper\b/g, '/')
    .trim();
  const shown = written === '' ? undefined : readUnit(written);
  const spaced = shown ? undefined : spacedName(walk);
  if (spaced) return failSpaced(walk, spaced);
  if (!shown) return fail(walk, 'to-needs-unit', [next.from, last.to], { unit: written });
  walk.out += 'to ';
  return operand(walk, { kind: 'literal', value: 1, shown, percent: false, at: [next.to, last.to] }, taken);
}

interface Spaced {
  readonly name: string;
  readonly at: Place;
}

function failSpaced(walk: Walk, { name, at }: Spaced): true {
  return fail(walk, 'spaced-name', at, { written: textAt(walk, at), name });
}

/** `finished chest`, `stitches to cast on`: the cell whose name, with spaces, these words are. */
function spacedName(walk: Walk): Spaced | undefined {
  const isWord = (i: number) => walk.tokens[i]?.kind === 'name';
  let from = walk.at - 1;
  if (!isWord(from)) return undefined;
  while (isWord(from - 1)) from -= 1;
  let to = walk.at;
  while (isWord(to + 1)) to += 1;
  for (let first = from; first < walk.at; first += 1)
    for (let last = to; last >= walk.at; last -= 1) {
      const name = walk.tokens
        .slice(first, last + 1)
        .map((t) => t.text)
        .join('_');
      if (walk.names.isCell(name))
        return { name, at: [walk.tokens[first]?.from ?? 0, walk.tokens[last]?.to ?? 0] };
    }
  return undefined;
}

/** Two things side by side: say which of the things it can mean would be written how. */
function sideBySide(walk: Walk): true {
  const left = walk.tokens[walk.at - 1] as Token;
  const right = token(walk) as Token;
  const at: Place = [left.from, right.to];
  const parts = { left: textAt(walk, [left.from, left.to]), right: textAt(walk, [right.from, right.to]) };
  const spaced = right.kind === 'name' ? spacedName(walk) : undefined;
  if (spaced) return failSpaced(walk, spaced);
  if (right.text === 'in' && right.kind === 'name') return fail(walk, 'in-unclear', at, parts);
  if (left.kind === 'number' && right.kind === 'number')
    return fail(walk, 'number-gap', at, { whole: parts.left + parts.right, ...parts });
  if (unitAhead(walk, 0)) return fail(walk, 'unit-after', at, parts);
  if (isDayOfMonth(walk, left, right) || isDayOfMonth(walk, right, left))
    return fail(walk, 'day-without-year', at, { written: textAt(walk, at) });
  if (left.kind === 'number' && right.kind === 'name' && !walk.names.isCell(right.text)) {
    const unit = nearest(right.text, [
      'st',
      'sts',
      'rows',
      'row',
      'rnds',
      'inches',
      'inch',
      'skeins',
      'yards',
      'stitches',
    ]);
    if (unit) return fail(walk, 'unknown-unit', at, { ...parts, unit });
  }
  return fail(walk, 'side-by-side', at, parts);
}

const MONTH =
  /^(jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?)$/i;

/** A number and a month side by side, as "20 December": a day whose year is not said. */
function isDayOfMonth(walk: Walk, day: Token, month: Token): boolean {
  return (
    day.kind === 'number' &&
    /^\d\d?$/.test(day.text) &&
    MONTH.test(month.text) &&
    !walk.names.isCell(month.text)
  );
}

const OPERATOR_READERS = [readOperator, readWordOperator, readTo, sideBySide];

function finish(walk: Walk): void {
  const last = walk.tokens[walk.tokens.length - 1];
  const end: Place = [last?.from ?? 0, last?.to ?? 0];
  if (walk.wantsOperand)
    fail(walk, 'value-missing', end, { before: last ? textAt(walk, end) : '', after: '' });
  else if (walk.brackets.length > 1) fail(walk, 'bracket-not-closed', [top(walk).from, top(walk).from + 1]);
  else if (top(walk).asking) fail(walk, 'condition-needs-else', end);
  else closeNots(walk);
}

/** Arranges tokens for mathjs, or says what is wrong with them and where. */
export function arrange(text: string, tokens: readonly Token[], names: Names): Arranged | Problem {
  const walk: Walk = {
    text,
    tokens,
    names,
    at: 0,
    out: '',
    operands: [],
    calls: [],
    brackets: [{ call: false, from: 0, asking: false, nots: 0 }],
    wantsOperand: true,
    signs: 0,
    bad: undefined,
  };
  while (walk.at < tokens.length && !walk.bad) {
    const readers: readonly ((walk: Walk) => boolean)[] = walk.wantsOperand
      ? OPERAND_READERS
      : OPERATOR_READERS;
    readers.some((read) => read(walk));
  }
  if (!walk.bad) finish(walk);
  if (walk.bad) return walk.bad;
  return { text: walk.out, operands: walk.operands, calls: walk.calls, comma: tokens.find((t) => t.comma) };
}
