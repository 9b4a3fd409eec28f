/*
 * What a change being tried does to the yarn, for where it moves no count and no length she would get: weights, and
 * lengths of yarn.
 */

import { spacedName } from '../formula/index.ts';
import { allCells } from '../notebook/index.ts';
import { LENGTH, MASS } from '../quantity/index.ts';
import type { Frozen } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { MOST_TOLD, textOf, toldCells } from './outcome.ts';
import { columnFor, unitAt } from './show.ts';
import { cellsNamed } from './step-text.ts';
import { unmovedOf } from './unmoved.ts';

/** Yarn is measured in these, what is knitted of it in others. */
const OF_YARN: ReadonlySet<string> = new Set(['m', 'yd']);

/**
 * The amounts of yarn among `ids` that moved, in one line: those that the steps and the drawings tell; where none of
 * them moved those that a verdict tells, and else those at the end of the sheet. "" where none moved.
 */
export function amountsMoved(live: Live, base: Frozen, ids: readonly string[]): string {
  const lines = new Map(ids.map((id) => [id, lineOf(live, base, id)]));
  const seen = ids.filter((id) => lines.get(id) !== '');
  const [inSteps, inVerdicts] = [toldCells(live), saidCells(live)];
  const told = [
    seen.filter((id) => inSteps.has(id)),
    seen.filter((id) => inVerdicts.has(id)),
    seen.filter((id) => live.sheet.usedBy(id).length === 0),
  ].find((some) => some.length > 0);
  const { places } = unmovedOf(live.notebook);
  return (told ?? [])
    .sort((a, b) => (places.get(a) ?? 0) - (places.get(b) ?? 0))
    .slice(0, MOST_TOLD)
    .map((id) => lines.get(id))
    .join('; ');
}

/** "metres by gauge: 299 m → 290 m"; "" of what is no yarn, or prints as it did. */
function lineOf(live: Live, base: Frozen, id: string): string {
  if (!live.sheet.has(id) || live.sheet.info(id).typed) return '';
  const column = live.sheet.info(id).each ? columnFor(live, undefined) : 0;
  const [old, now] = [base.value(id, column), live.sheet.value(id, column)];
  if (old?.kind !== 'quantity' || now.kind !== 'quantity') return '';
  const { dimension } = now.type;
  const isYarn = dimension === LENGTH && OF_YARN.has(unitAt(live, id, column, now).label);
  if (dimension !== MASS && !isYarn) return '';
  const [was, is] = [old, now].map((value) => textOf(live, id, column, value));
  return was === is ? '' : `${spacedName(live.sheet.nameOf(id))}: ${was} → ${is}`;
}

/** The cells that are told beside a yes or no. */
function saidCells(live: Live): ReadonlySet<string> {
  const names = [...allCells(live.notebook)].flatMap(({ says }) =>
    [says?.yes, says?.no].flatMap((text) => cellsNamed(text ?? '')),
  );
  return new Set(names.flatMap((name) => live.sheet.idOf(name) ?? []));
}
