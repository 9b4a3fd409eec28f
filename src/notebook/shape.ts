/*
 * One group of the file, read key by key. A key of the wrong kind is left out with a remark, never with an error; keys that
 * nobody asks for are what this version does not know, and come back from `rest` in their order.
 */
import type { Extra } from './document.ts';
import { limits } from './limits.ts';
import { isRecord, record } from './record.ts';
import { kindOf, type Remarks } from './remark.ts';

/** Fields of which some may be undefined. */
type Loose<T> = { readonly [K in keyof T]: T[K] | undefined };

/** The fields that are there: a key whose value is undefined is left out. */
export function present<T extends object>(fields: Loose<T>): T {
  const there: Partial<T> = {};
  for (const key in fields) if (fields[key] !== undefined) there[key] = fields[key];
  return there as T;
}

/** A group of the file, and where it stands, being read. */
export class Shape {
  readonly #group: Readonly<Record<string, unknown>>;
  readonly #asked = new Set<string>();
  readonly path: string;
  readonly remarks: Remarks;

  constructor(group: Readonly<Record<string, unknown>>, path: string, remarks: Remarks) {
    this.#group = group;
    this.path = path;
    this.remarks = remarks;
  }

  at(key: string): string {
    return this.path === '' ? key : `${this.path}.${key}`;
  }

  has(key: string): boolean {
    return Object.hasOwn(this.#group, key);
  }

  /** The raw value; asking makes the key a known one. */
  value(key: string): unknown {
    this.#asked.add(key);
    return this.has(key) ? this.#group[key] : undefined;
  }

  /** A text; a number or truth is read as its text; too long a one is cut. */
  text(key: string, most: number): string | undefined {
    const text = this.loneText(this.value(key), this.at(key));
    if (text === undefined || text.length <= most) return text;
    this.remarks.add('too_long', this.at(key), { length: text.length, limit: most });
    return text.slice(0, most);
  }

  /** A formula's text: cut, it would be another formula, so that too long a one is left out. */
  formula(value: unknown, path: string): string | undefined {
    const text = this.loneText(value, path);
    if (text === undefined || text.length <= limits.text) return text;
    this.remarks.add('formula_too_long', path, {
      length: text.length,
      limit: limits.text,
      start: text.slice(0, 40),
    });
    return undefined;
  }

  loneText(value: unknown, path: string): string | undefined {
    if (typeof value === 'string' || value === undefined) return value;
    if (typeof value !== 'number' && typeof value !== 'boolean') return this.wrong(path, 'text', value);
    this.remarks.add('read_as_text', path, { text: String(value) });
    return String(value);
  }

  /** A whole number from `least` to `most`. */
  count(key: string, least: number, most: number): number | undefined {
    const value = this.value(key);
    if (value === undefined) return undefined;
    if (typeof value === 'number' && Number.isInteger(value) && value >= least && value <= most) return value;
    return this.wrong(this.at(key), 'a whole number', value);
  }

  /** One of a few words. */
  word<W extends string>(key: string, words: readonly W[]): W | undefined {
    const value = this.value(key);
    const found = words.find((word) => word === value);
    if (found !== undefined || value === undefined) return found;
    return this.wrong(this.at(key), words.join(' or '), value);
  }

  /** A group of its own. */
  group(key: string): Shape | undefined {
    const value = this.value(key);
    if (value === undefined) return undefined;
    if (isRecord(value)) return new Shape(value, this.at(key), this.remarks);
    return this.wrong(this.at(key), 'a group', value);
  }

  /** A list, up to `most` members; empty when there is none. */
  list(key: string, most: number): readonly unknown[] {
    const value = this.value(key);
    if (value === undefined) return [];
    if (!Array.isArray(value)) return this.wrong(this.at(key), 'a list', value) ?? [];
    if (value.length <= most) return value;
    this.remarks.add('too_many', this.at(key), { count: value.length, limit: most });
    return value.slice(0, most);
  }

  /** A list of groups, each read with `read`; what is no group is left out. */
  groups<T>(key: string, most: number, read: (shape: Shape) => T): readonly T[] {
    return this.list(key, most).flatMap((member, index) => {
      const path = `${this.at(key)}.${index}`;
      if (isRecord(member)) return [read(new Shape(member, path, this.remarks))];
      this.wrong(path, 'a group', member);
      return [];
    });
  }

  /** The keys and values of this group, up to `most` of them. */
  entries(most: number): readonly (readonly [string, unknown])[] {
    const entries = Object.entries(this.#group);
    for (const [key] of entries) this.#asked.add(key);
    if (entries.length <= most) return entries;
    this.remarks.add('too_many', this.path, { count: entries.length, limit: most });
    return entries.slice(0, most);
  }

  /** What nobody asked for, in its order. */
  rest(): Extra | undefined {
    const unknown = Object.entries(this.#group).filter(([key]) => !this.#asked.has(key));
    return unknown.length > 0 ? record(unknown) : undefined;
  }

  wrong(path: string, expected: string, found: unknown): undefined {
    this.remarks.add('wrong_kind', path, { expected, found: kindOf(found), value: short(found) });
    return undefined;
  }
}

/** A value in at most 40 characters, for a sentence. */
function short(value: unknown): string {
  return typeof value === 'object' && value !== null ? '' : String(value).slice(0, 40);
}
