import type { Names } from './arrange.ts';
import { type Parsed, parse } from './parse.ts';
import type { FunctionSpec } from './spec.ts';

/** A language: the functions it has. Everything else about formulas is the same in every language. */
export interface Language {
  readonly specs: readonly FunctionSpec[];
  /** Takes in functions that have come later. Throws where it has one of that name. */
  learn(specs: readonly FunctionSpec[]): void;
  spec(name: string): FunctionSpec | undefined;
  /** Reads a text; `isCell` tells which names are cells, for offers. */
  parse(text: string, isCell: (name: string) => boolean): Parsed;
}

/** The language with these functions. Throws where two have the same name. */
export function createLanguage(specs: readonly FunctionSpec[]): Language {
  const byName = new Map<string, FunctionSpec>();
  const learn = (more: readonly FunctionSpec[]) => {
    for (const spec of more) {
      if (byName.has(spec.name)) throw new Error('two functions have the same name');
      byName.set(spec.name, spec);
    }
  };
  const isFunction = (name: string) => byName.has(name);
  learn(specs);
  return {
    get specs() {
      return [...byName.values()];
    },
    learn,
    spec: (name) => byName.get(name),
    parse: (text, isCell) => parse(text, { isCell, isFunction } satisfies Names),
  };
}
