import type { Plan, Problem, Type } from '../formula/index.ts';

/** What a cell holds, in one column. Quantities are in base units: 10 µm, g, stitches, rows, minutes. */
export type Value =
  | { readonly kind: 'quantity'; readonly value: number; readonly type: Type & { kind: 'quantity' } }
  | { readonly kind: 'truth'; readonly truth: boolean }
  | { readonly kind: 'label'; readonly text: string }
  /** The day number, days since 1970-01-01. */
  | { readonly kind: 'date'; readonly day: number }
  | { readonly kind: 'plan'; readonly plan: Plan }
  | { readonly kind: 'empty' }
  /** Waiting for the named cell; '' is the chosen column. */
  | { readonly kind: 'waiting'; readonly name: string }
  | { readonly kind: 'problem'; readonly problem: Problem };
