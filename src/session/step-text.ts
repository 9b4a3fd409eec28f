/* What a step's text says before it is filled in: the cells it names, and whether it is to be knitted at all. */

import type { Step } from '../notebook/index.ts';
import { isAdvice } from './advice.ts';
import type { StepValues } from './step-values.ts';

/** A piece of a step's text: words, or the name of a cell. */
export interface Piece {
  readonly text: string;
  readonly name?: string;
}

/** A text as words and names, in order. */
export function piecesOf(text: string): readonly Piece[] {
  return text.split(/(\{[^{}]{1,120}\})/u).flatMap((piece): Piece[] => {
    if (piece === '') return [];
    const name = /^\{([^{}]+)\}$/u.exec(piece)?.[1];
    return [name === undefined ? { text: piece } : { text: piece, name: cellName(name) }];
  });
}

/** The names of the cells that a step's text tells. */
export function cellsNamed(text: string): readonly string[] {
  return piecesOf(text).flatMap(({ name }) => name ?? []);
}

const cellName = (written: string): string => written.trim().replace(/\s+/g, '_').normalize('NFC');

/** The name of the cell that says whether a step applies, and whether it must say no. */
export function askedBy(when: string): { readonly name: string; readonly negated: boolean } {
  const [, negated, written = ''] = /^(not\s+)?(.*)$/su.exec(when.trim()) ?? [];
  return { name: cellName(written), negated: negated !== undefined };
}

/** Whether a step is called for; undefined while that is not known. Advice is not given before it is known to be. */
export function isCalledFor(values: StepValues, step: Step): boolean | undefined {
  const { when } = step;
  if (when === undefined) return true;
  const { name, negated } = askedBy(when);
  const { live } = values;
  const id = live.sheet.idOf(name);
  if (id === undefined) return undefined;
  const column = live.sheet.info(id).each ? values.column : 0;
  const value = column < 0 ? undefined : values.value(id, column);
  if (value?.kind !== 'truth') return isAdvice(step) ? false : undefined;
  return value.truth !== negated;
}
