/*
 * JSON, read by hand: everything `JSON.parse` accepts comes out the same (but for numbers past the largest there is, which
 * could not be written back), and besides
 * - nesting is bounded, so that no file can exhaust the stack;
 * - a key that stands twice in one object is told (the later one counts, as everywhere in JSON);
 * - small slips of a file edited by hand are forgiven and counted: a comma too many or missing, a line break in a text;
 * - a file that is cut off, or breaks, gives what stood whole before that place. Of the open brackets only those that hold
 *   a notebook together are closed and kept (its lists, its sections, its columns); a half cell is left out, since a half
 *   formula would be another formula.
 *
 * Objects have no prototype, so that `__proto__` is a key like any other. The time is linear in the text.
 */
import { limits } from './limits.ts';

/** Where reading stopped, counted from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** What a text holds. */
export interface Parsed {
  readonly value: unknown;
  /** Where the text stops being JSON; `cut` when it simply ends there. */
  readonly stopped?: Place & { readonly why: 'cut' | 'broken' | 'too_deep' };
  /** Small slips that were forgiven. */
  readonly slips: number;
  /** Keys that stand twice in one object, at most ten of them. */
  readonly repeated: readonly string[];
  /** Whether something stands after the end. */
  readonly tail: boolean;
}

/** Reads as much JSON as the text holds, brackets to `deepest`. Never throws. */
export function parse(text: string, deepest: number = limits.depth): Parsed {
  return new Parser(text, deepest).run();
}

/** Marks a value that was still open when reading stopped. */
const OPEN = Symbol('open');
type Result = unknown | typeof OPEN;

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const ESCAPES: Readonly<Record<string, string>> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
};
const WORDS: readonly (readonly [string, unknown])[] = [
  ['true', true],
  ['false', false],
  ['null', null],
];

class Parser {
  readonly #text: string;
  readonly #deepest: number;
  #at = 0;
  #slips = 0;
  #stopped: { at: number; why: 'cut' | 'broken' | 'too_deep' } | undefined;
  readonly #repeated: string[] = [];

  constructor(text: string, deepest: number) {
    this.#text = text;
    this.#deepest = deepest;
  }

  run(): Parsed {
    const value = this.#value(0, true);
    this.#space();
    const tail = this.#stopped === undefined && this.#at < this.#text.length;
    const found = {
      value: value === OPEN ? undefined : value,
      slips: this.#slips,
      repeated: this.#repeated,
      tail,
    };
    return this.#stopped
      ? { ...found, stopped: { ...this.#place(this.#stopped.at), why: this.#stopped.why } }
      : found;
  }

  /** One value; OPEN when reading stopped inside it and what there is of it is not worth keeping. */
  #value(depth: number, root: boolean): Result {
    this.#space();
    const character = this.#text[this.#at];
    if (character === '{') return this.#object(depth + 1, root);
    if (character === '[') return this.#list(depth + 1);
    if (character === '"') return this.#string();
    if (character === undefined) return this.#stop();
    return this.#wordOrNumber(root);
  }

  #object(depth: number, root: boolean): Result {
    if (depth > this.#deepest) return this.#stop('too_deep');
    const made = Object.create(null) as Record<string, unknown>;
    this.#at++;
    while (this.#more('}')) {
      if (this.#text[this.#at] !== '"') this.#stop();
      const key = this.#stopped ? OPEN : this.#string();
      if (typeof key !== 'string') break;
      this.#space();
      if (this.#text[this.#at] !== ':') this.#stop();
      else this.#at++;
      const value = this.#stopped ? OPEN : this.#value(depth, false);
      if (value !== OPEN) this.#put(made, key, value);
    }
    return this.#stopped && !root && !holdsTogether(made) ? OPEN : made;
  }

  #put(made: Record<string, unknown>, key: string, value: unknown): void {
    if (key in made && this.#repeated.length < 10) this.#repeated.push(key);
    made[key] = value;
  }

  #list(depth: number): Result {
    if (depth > this.#deepest) return this.#stop('too_deep');
    const made: unknown[] = [];
    this.#at++;
    while (this.#more(']')) {
      const value = this.#value(depth, false);
      if (value !== OPEN) made.push(value);
    }
    return made;
  }

  /** Past commas and spaces: whether another member follows, rather than the closing bracket or the end. */
  #more(close: '}' | ']'): boolean {
    if (this.#stopped) return false;
    const opened = this.#text[this.#at - 1];
    const first = opened === '[' || opened === '{';
    this.#space();
    let commas = 0;
    while (this.#text[this.#at] === ',') {
      commas++;
      this.#at++;
      this.#space();
    }
    const character = this.#text[this.#at];
    if (character === close) {
      this.#slips += commas;
      this.#at++;
      return false;
    }
    if (character === undefined || character === '}' || character === ']') {
      this.#stop();
      return false;
    }
    this.#slips += Math.abs(commas - (first ? 0 : 1));
    return true;
  }

  #string(): Result {
    const start = ++this.#at;
    let made = '';
    let from = start;
    for (;;) {
      const code = this.#text.charCodeAt(this.#at);
      if (Number.isNaN(code)) return this.#stop();
      if (code === 0x22) break;
      if (code === 0x5c) {
        made += this.#text.slice(from, this.#at) + this.#escape();
        if (this.#stopped) return OPEN;
        from = this.#at;
      } else {
        if (code < 0x20) this.#slips++;
        this.#at++;
      }
    }
    const end = this.#at++;
    return from === start ? this.#text.slice(start, end) : made + this.#text.slice(from, end);
  }

  #escape(): string {
    const letter = this.#text[this.#at + 1];
    if (letter === 'u') return this.#unicode();
    if (letter === undefined) this.#stop('cut');
    if (letter === undefined) return '';
    this.#at += 2;
    const plain = Object.hasOwn(ESCAPES, letter) ? ESCAPES[letter] : undefined;
    if (plain === undefined) this.#slips++;
    return plain ?? `\\${letter}`;
  }

  #unicode(): string {
    const digits = this.#text.slice(this.#at + 2, this.#at + 6);
    if (this.#at + 6 > this.#text.length) this.#stop('cut');
    if (this.#stopped) return '';
    this.#at += 2;
    if (!/^[0-9a-fA-F]{4}$/.test(digits)) {
      this.#slips++;
      return '\\u';
    }
    this.#at += 4;
    return String.fromCharCode(Number.parseInt(digits, 16));
  }

  #wordOrNumber(root: boolean): Result {
    for (const [word, value] of WORDS) {
      if (this.#text.startsWith(word, this.#at)) {
        this.#at += word.length;
        return value;
      }
    }
    NUMBER.lastIndex = this.#at;
    const digits = NUMBER.exec(this.#text)?.[0];
    if (digits === undefined) return this.#stop(this.#halfWord() ? 'cut' : undefined);
    this.#at += digits.length;
    // A number that ends the text inside brackets may have lost its last digits.
    if (this.#at === this.#text.length && !root) return this.#stop('cut');
    const number = Number(digits);
    if (Number.isFinite(number)) return number;
    // No JSON can hold what lies past the largest number: it could not be written back.
    this.#slips++;
    return null;
  }

  #halfWord(): boolean {
    const rest = this.#text.slice(this.#at, this.#at + 6);
    return rest === '-' || WORDS.some(([word]) => word.startsWith(rest));
  }

  #space(): void {
    for (;;) {
      const code = this.#text.charCodeAt(this.#at);
      if (code !== 0x20 && code !== 0x0a && code !== 0x0d && code !== 0x09) return;
      this.#at++;
    }
  }

  #stop(why: 'cut' | 'broken' | 'too_deep' = this.#at >= this.#text.length ? 'cut' : 'broken'): typeof OPEN {
    this.#stopped ??= { at: this.#at, why };
    return OPEN;
  }

  #place(at: number): Place {
    const before = this.#text.slice(0, at);
    const line = before.split('\n').length;
    return { line, column: at - before.lastIndexOf('\n') };
  }
}

/** Whether a half-read object is kept: a section, the columns or a notebook among others, with what they already hold. */
const holdsTogether = (made: Record<string, unknown>): boolean =>
  ['cells', 'list', 'sections'].some((key) => key in made);
