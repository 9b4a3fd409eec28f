/*
 * The count that is on the needles after a step, read where patterns print it: in brackets or after a colon or an
 * equals sign, as the last count the step tells; of an evenly spread row, what the row ends with; of a cast-on that
 * tells no other count, what is cast on. Of any other step it is not known: "set 9 sts aside" tells a count too.
 */

import { isDecided } from '../formula/index.ts';
import { STITCH } from '../quantity/index.ts';
import { type Filled, isAlongRow } from '../telling/index.ts';
import type { FilledStep, PrintedCell } from './fill-step.ts';

/** A bracket opens with it: "(74 sts)", "(74 sts, 14 in from the edge)". */
const IN_BRACKETS = /\($/;
/** A sum or a clause ends with it: ": 74 sts.", "= 74 sts. Mark …", ": 74 sts in all." */
const SUMMED = /[:=] $/;
const CLAUSE_ENDS = /^(?: in all| left)?(?:[.,;)]|$)/;
/** What a step begins with may be all it tells of stitches. */
const BEGINS = /\b(?:cast on|begin with) $/i;

/** The stitches on the needles when a step is done; undefined where it does not say so. */
export function countAfter({ cells, parts, problems }: FilledStep): number | undefined {
  const counts = new Map(cells.filter(isStitches).map(({ cell, value }) => [cell, value.value]));
  const told = parts.filter((part) => tellsStitches(part, counts));
  const last = told.at(-1);
  if (last === undefined || problems.length > 0) return undefined;
  if (last.kind === 'plan') return last.plan.totals['stitches_after'];
  const at = parts.indexOf(last);
  const [before, after] = [wordsOf(parts[at - 1]), wordsOf(parts[at + 1])];
  const isSaid =
    IN_BRACKETS.test(before) ||
    (SUMMED.test(before) && CLAUSE_ENDS.test(after)) ||
    (told.length === 1 && BEGINS.test(before));
  return isSaid && last.kind === 'value' ? counts.get(last.cell) : undefined;
}

type Stitches = PrintedCell & { readonly value: { readonly kind: 'quantity' } };

const isStitches = (one: PrintedCell): one is Stitches =>
  one.value.kind === 'quantity' && one.value.type.dimension === STITCH && isDecided(one.value.type);

function tellsStitches(part: Filled, counts: ReadonlyMap<string, number>): boolean {
  return part.kind === 'plan' ? isAlongRow(part.plan) : part.kind === 'value' && counts.has(part.cell);
}

const wordsOf = (part: Filled | undefined): string => (part?.kind === 'words' ? part.text : '');
