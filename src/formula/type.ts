import { type Dimension, dimensionInWords, isCount, PLAIN, type Shown } from '../quantity/index.ts';

/** What kind of value a formula gives, known before anything is worked out. */
export type Type =
  | {
      readonly kind: 'quantity';
      readonly dimension: Dimension;
      /** A whole count that will be knit, whatever the numbers are. */
      readonly decided: boolean;
      /** The unit it asks to be shown in, where it asks for one. */
      readonly shown?: Shown;
    }
  | {
      readonly kind: 'truth' | 'label' | 'date' | 'plan' | 'unknown';
      readonly dimension?: undefined;
      readonly decided?: undefined;
      /** Rounds, where a function was given its rows in rounds: its plan is told so. */
      readonly shown?: Shown | undefined;
    };

export const UNKNOWN: Type = { kind: 'unknown' };
export const TRUTH: Type = { kind: 'truth' };
export const LABEL: Type = { kind: 'label' };
export const DATE: Type = { kind: 'date' };

/** Types made before, by unit and then by twice the dimension, plus one where decided: a sheet has thousands of cells and few types. */
const bare: Type[] = [];
const withUnit = new WeakMap<Shown, Type[]>();

function made(shown: Shown | undefined): Type[] {
  if (!shown) return bare;
  let types = withUnit.get(shown);
  if (!types) {
    types = [];
    withUnit.set(shown, types);
  }
  return types;
}

/** A quantity type. */
export function quantity(dimension: Dimension, decided = false, shown?: Shown): Type {
  const types = made(shown);
  const at = 2 * dimension + (decided ? 1 : 0);
  types[at] ??= shown
    ? { kind: 'quantity', dimension, decided, shown }
    : { kind: 'quantity', dimension, decided };
  return types[at];
}

/** Whether a type is shown as a percentage. */
export function isPercent(type: Type): boolean {
  return type.kind === 'quantity' && type.shown?.label === '%';
}

/** Whether a type is a count that is decided. */
export function isDecided(type: Type): boolean {
  return type.kind === 'quantity' && type.decided && isCount(type.dimension);
}

/** Whether a type is a number without a unit. */
export function isPlain(type: Type): boolean {
  return type.kind === 'quantity' && type.dimension === PLAIN;
}

/** Whether two types are of the same kind, dimension, decidedness and unit. */
export function sameType(a: Type, b: Type): boolean {
  return (
    a.kind === b.kind &&
    a.dimension === b.dimension &&
    a.decided === b.decided &&
    a.shown?.label === b.shown?.label
  );
}

const WORDS = {
  truth: 'a yes or no',
  label: 'a label',
  date: 'a date',
  plan: 'a plan',
  unknown: 'nothing yet',
};

/** A type in words: "stitches", "a length", "a date". */
export function typeInWords(type: Type): string {
  return type.kind === 'quantity' ? dimensionInWords(type.dimension) : WORDS[type.kind];
}
