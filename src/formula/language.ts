import type { Names } from './arrange.ts';
import { type Parsed, parse } from './parse.ts';
import type { FunctionSpec } from './spec.ts';

/** A language: the functions it has. Everything else about formulas is the same in every language. */
export interface Language {
  readonly specs: readonly FunctionSpec[];
  spec(name: string): FunctionSpec | undefined;
  /** Reads a text; `isCell` tells which names are cells, for offers. */
  parse(text: string, isCell: (name: string) => boolean): Parsed;
}

/** The language with these functions. Throws where two have the same name. */
export function createLanguage(specs: readonly FunctionSpec[]): Language {
  const byName = new Map(specs.map((spec) => [spec.name, spec]));
  if (byName.size !== specs.length) throw new Error('two functions have the same name');
  const isFunction = (name: string) => byName.has(name);
  return {
    specs,
    spec: (name) => byName.get(name),
    parse: (text, isCell) => parse(text, { isCell, isFunction } satisfies Names),
  };
}
