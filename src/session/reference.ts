/*
 * The reference: every function, unit and sign of formulas, drawn from the records they are made of.
 */

import type { FunctionSpec } from '../formula/index.ts';
import { UNIT_NAMES, unitNamed } from '../quantity/index.ts';
import { signature, UNIT_HELP } from './complete.ts';
import { language } from './live.ts';

export interface FunctionReference {
  /** "multiple(x, n, [plus])". */
  readonly signature: string;
  readonly name: string;
  readonly help: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly help: string;
    readonly optional: boolean;
  }[];
  /** A text and what it gives. */
  readonly examples: readonly { readonly text: string; readonly gives: string }[];
  readonly source: string;
}

export interface UnitReference {
  readonly symbol: string;
  readonly help: string;
  /** Other names it can be written by. */
  readonly also: readonly string[];
}

export interface Reference {
  readonly counting: readonly FunctionReference[];
  readonly columns: readonly FunctionReference[];
  readonly plans: readonly FunctionReference[];
  readonly units: readonly UnitReference[];
  /** How things are written: a sign, and what it means. */
  readonly signs: readonly (readonly [written: string, means: string])[];
}

const SIGNS: Reference['signs'] = [
  ['3 1/2 in, 3½ in', 'three and a half inches'],
  ['42", 5\' 3"', 'inches, feet and inches'],
  ['18 st / 4 in', 'a gauge: 18 stitches to 4 inches'],
  ['18 ± 0.5 st / 4 in', 'the same, and how far off it can be'],
  ['10%', 'a tenth; chest - 10% is a tenth less than the chest'],
  ['107,5 cm', 'a decimal comma in a typed value is kept as a point'],
  ['176 (198, 220) sts', 'one value for each column, as patterns print them'],
  ['a + b, a - b, a * b, a / b, a ^ 2', 'added, less, times, divided by, squared'],
  ['a < b, a <= b, a == b, a != b', 'comparing; ≤, ≥ and ≠ can be typed too'],
  ['a and b, a or b, not a', 'yes or no together'],
  ['test ? this : that', 'this where the test is yes, else that'],
  ['x to cm', 'shown in another unit'],
  ['per', 'the same as /: 20 st per 10 cm'],
  ['"M"', 'a label: one of the columns, or one of a cell’s choices'],
  ['2026-12-24', 'a day; a day less a day is a time'],
  ['yes, no', 'what a cell can be that is neither number nor label'],
];

function functionReference(spec: FunctionSpec): FunctionReference {
  return {
    signature: signature(spec),
    name: spec.name,
    help: spec.help,
    parameters: spec.parameters.map(({ name, help, optional }) => ({
      name: name.replace(/_/g, ' '),
      help,
      optional: optional ?? false,
    })),
    examples: spec.examples.map(({ text, gives }) => ({ text, gives })),
    source: spec.source,
  };
}

function unitReferences(): readonly UnitReference[] {
  const names = new Map<string, string[]>();
  for (const name of UNIT_NAMES) {
    const symbol = unitNamed(name)?.symbol ?? name;
    names.set(symbol, [...(names.get(symbol) ?? []), ...(name === symbol ? [] : [name])]);
  }
  return [...names].map(([symbol, also]) => ({
    symbol,
    help: UNIT_HELP[symbol] ?? also.at(-1) ?? symbol,
    also,
  }));
}

/** The whole reference. */
export function reference(): Reference {
  const of = (kinds: readonly FunctionSpec['kind'][]) =>
    language.specs.filter((spec) => kinds.includes(spec.kind)).map(functionReference);
  return {
    counting: of(['number', 'given', 'today']),
    columns: of(['run']),
    plans: of(['plan', 'reading']),
    units: unitReferences(),
    signs: SIGNS,
  };
}
