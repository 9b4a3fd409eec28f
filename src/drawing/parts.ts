/*
 * Reading the parts that a drawing was given. A part that is missing, waiting, broken or absurd is left out, and the
 * reader keeps a sentence that says so; the drawing goes on with what there is.
 */

import type { Plan } from '../formula/index.ts';
import type { Measures, Part, PartSpec, Parts, Picture, Run } from './picture.ts';

/** The least and the most that can be drawn, in cm, per cm, in ones, in g. Beyond these it is a slip of the pen. */
const LIMITS: Readonly<Record<Measures, readonly [least: number, most: number]>> = {
  length: [0.1, 400],
  gauge: [0.2, 40],
  count: [1, 100_000],
  number: [0, 100_000],
  weight: [0, 1_000_000],
  plan: [0, 0],
};

/** The words before and after a value in a label. */
export interface Around {
  readonly before?: string;
  readonly after?: string;
}

/** The parts of one drawing, asked by name. */
export interface Reader {
  /** The value of a part, or undefined; a sentence is kept the first time it cannot be drawn. */
  value(name: string): number | undefined;
  plan(name: string): Plan | undefined;
  /** True where that plan is knitted in the round. */
  isRound(name: string): boolean;
  /** The spaced name of the cell it is bound to; empty when it is left out. */
  name(name: string): string;
  /** Its text as a run of a label, or nothing when it is left out. */
  runs(name: string, around?: Around): readonly Run[];
  /** Its text, taken as told; empty when it is left out. */
  text(name: string): string;
  cell(name: string): string;
  /** The first of some templates, "The body is {chest} around.", whose parts are all there; else nothing. */
  tell(...templates: readonly string[]): readonly string[];
  /** Passes over parts that have no place in what is drawn. */
  passOver(...names: readonly string[]): void;
  /** A sentence for each part that can be drawn and that nothing has told of yet: "Row gauge: 28 rows / 4 in." */
  tellRest(): readonly string[];
  /** Adds a sentence of the drawing's own. */
  leave(sentence: string): void;
  leftOut(): readonly string[];
}

/** Reads parts against what the drawing knows of them. */
export function readParts(parts: Parts, specs: readonly PartSpec[]): Reader {
  const known = new Map(specs.map((spec) => [spec.name, spec]));
  const sentences = new Set<string>();
  const told = new Set<string>();
  for (const sentence of specs.flatMap((spec) => sentenceFor(parts, spec))) sentences.add(sentence);

  const good = (name: string): Part | undefined => {
    const spec = known.get(name);
    const part = own(parts, name);
    return spec && typeof part === 'object' && faultOf(part, spec) === undefined ? part : undefined;
  };
  const tell = (templates: readonly string[]): readonly string[] => {
    for (const template of templates) {
      const filled = fill(template, (name) => good(name)?.text);
      if (filled === undefined) continue;
      for (const [, name = ''] of template.matchAll(PLACES)) told.add(name);
      return [filled];
    }
    return [];
  };
  return {
    value: (name) => good(name)?.value,
    plan: (name) => good(name)?.plan,
    isRound: (name) => good(name)?.round ?? false,
    name: (name) => good(name)?.name ?? '',
    runs: (name, around = {}) => {
      const part = good(name);
      return part ? [{ text: part.text, cell: part.cell, ...around }] : [];
    },
    text: (name) => {
      told.add(name);
      return good(name)?.text ?? '';
    },
    cell: (name) => good(name)?.cell ?? '',
    tell: (...templates) => tell(templates),
    passOver: (...names) => {
      for (const name of names) told.add(name);
    },
    tellRest: () =>
      specs.flatMap(({ name, measures }) => {
        const part = measures === 'plan' || told.has(name) ? undefined : good(name);
        return part ? [`${capital(part.name)}: ${part.text}.`] : [];
      }),
    leave: (sentence) => sentences.add(sentence),
    leftOut: () => [...sentences],
  };
}

/**
 * The parts bound under one beginning of a name (`part_…`), as they stand or, where `order` says which is the first of
 * them (`order_…`), in that order; one whose place is not known comes last. What cannot be drawn is said.
 */
export function readMany(parts: Parts, many: PartSpec, read: Reader, order?: PartSpec): readonly Part[] {
  const place = (name: string): number => {
    const part = order && own(parts, order.name + name.slice(many.name.length));
    return typeof part === 'object' && Number.isFinite(part.value) ? part.value : Infinity;
  };
  const after = (a: string, b: string) => (place(a) === place(b) ? 0 : place(a) - place(b));
  return Object.keys(parts)
    .sort(after)
    .flatMap((name) => {
      const part = name.startsWith(many.name) ? parts[name] : undefined;
      if (part === undefined) return [];
      const fault = typeof part === 'string' ? part : faultOf(part, many);
      if (fault !== undefined) read.leave(fault);
      return typeof part === 'string' || fault !== undefined ? [] : [part];
    });
}

/** A part by its name, and never something every object has ("constructor"). */
export function own(parts: Parts, name: string): Part | string | undefined {
  return Object.hasOwn(parts, name) ? parts[name] : undefined;
}

function sentenceFor(parts: Parts, spec: PartSpec): readonly string[] {
  const part = own(parts, spec.name);
  if (part === undefined)
    return spec.needed ? [`No cell is bound to ${spaced(spec.name)}, so it cannot be drawn.`] : [];
  if (typeof part === 'string') return [part];
  const fault = faultOf(part, spec);
  return fault === undefined ? [] : [fault];
}

/** Why a part cannot be drawn, as a sentence; undefined when it can. */
export function faultOf(part: Part, spec: PartSpec): string | undefined {
  if (spec.measures === 'plan')
    return part.plan && isSound(part.plan)
      ? undefined
      : `${capital(part.name)} is not a plan, so it is left out.`;
  const [least, most] = LIMITS[spec.measures];
  if (Number.isNaN(part.value)) return `${capital(part.name)} has no number yet, so it is left out.`;
  if (part.value < least)
    return `${capital(part.name)} is ${part.text}: too little to draw, so it is left out.`;
  if (part.value > most) return `${capital(part.name)} is ${part.text}: too much to draw, so it is left out.`;
  return undefined;
}

/** Whether a plan can be walked: its rows run forward and its counts are numbers. */
function isSound({ steps, totals }: Plan): boolean {
  const known = [totals['start'], totals['stitches_after'], totals['rows'], totals['after_row'] ?? 0];
  const whole = (x: number | undefined) => Number.isSafeInteger(x) && (x ?? -1) >= 0;
  return (
    known.every(whole) &&
    steps.every(({ rows, times, after }) => {
      const [first, last] = rows ?? [1, 1];
      return (
        whole(after) && whole(times) && times >= 1 && whole(first) && whole(last) && last - first + 1 >= times
      );
    })
  );
}

const PLACES = /\{(\w+)\}/g;

/** Fills `{name}` from a look-up; undefined when one of them is not there. */
function fill(template: string, textOf: (name: string) => string | undefined): string | undefined {
  let whole = true;
  const filled = template.replace(PLACES, (_, name: string) => {
    const text = textOf(name);
    if (text === undefined) whole = false;
    return text ?? '';
  });
  return whole ? filled : undefined;
}

/** "body_length" as it is said. */
export function spaced(name: string): string {
  return name.replaceAll('_', ' ');
}

/** The first letter large, as a sentence begins. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The unit that the page shows lengths in, by the texts of the parts: inches as soon as one is in inches. */
export function unitShown(parts: Parts): 'in' | 'cm' {
  const inches = Object.values(parts).some(
    (part) => typeof part === 'object' && /\bin\b|[″"]/.test(part.text),
  );
  return inches ? 'in' : 'cm';
}

/** A picture with nothing in it but the reasons why. */
export function emptyPicture(kind: string, title: string, leftOut: readonly string[]): Picture {
  return { kind, title, block: undefined, describe: [], leftOut };
}
