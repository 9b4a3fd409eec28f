/*
 * Random sheets whose formulas all make sense: typed cells of every kind over four columns, then formulas that use what
 * stands above them. A sheet is a list of small numbers, so that it shrinks well.
 */

import fc from 'fast-check';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { Sheet } from '../../src/sheet/index.ts';

const COLUMNS = ['S', 'M', 'L', 'XL'];

type Kind = 'length' | 'stitches' | 'gauge' | 'plain' | 'truth' | 'label';
type Pools = Record<Kind, string[]>;
type Pick = (kind: Kind) => string;

const TYPED: readonly (readonly [kind: Kind, name: string, text: string | readonly string[]])[] = [
  ['length', 'chest', '40 ± 0.5 in'],
  ['length', 'ease', '-1.5 ± 0.25 in'],
  ['length', 'girths', ['36 in', '40 ± 1 in', '44 in', '48 in']],
  ['length', 'odd', ['12 cm', '', '0 in', '31 cm']],
  ['stitches', 'printed', ['176 st', '198 st', '220 st', '242 st']],
  ['stitches', 'few', '8 st'],
  ['gauge', 'gauge', '18 ± 0.5 st / 4 in'],
  ['gauge', 'tight', '24 ± 0.25 st / 10 cm'],
  ['plain', 'share', '0.4'],
  ['plain', 'times', '3'],
  ['truth', 'flat', 'no'],
  ['label', 'wearer', '"M"'],
];

const FORMULAS: readonly (readonly [kind: Kind, text: (a: Pick) => string])[] = [
  ['length', (a) => `${a('length')} + ${a('length')}`],
  ['length', (a) => `${a('length')} - ${a('length')}`],
  ['length', (a) => `${a('stitches')} / ${a('gauge')}`],
  ['length', (a) => `${a('length')} * ${a('plain')}`],
  ['length', (a) => `${a('length')} - 10%`],
  ['length', (a) => `abs(${a('length')} - ${a('length')})`],
  ['length', (a) => `max(${a('length')}, ${a('length')}, 3 in)`],
  ['length', (a) => `min(${a('length')}, ${a('length')})`],
  ['length', (a) => `to_nearest(${a('length')}, 1/4 in)`],
  ['length', (a) => `sqrt(${a('length')} * ${a('length')})`],
  ['length', (a) => `(${a('length')} ^ 2) / 10 in`],
  ['length', (a) => `${a('truth')} ? ${a('length')} : ${a('length')}`],
  ['length', (a) => `average(${a('length')})`],
  ['length', (a) => `largest(${a('length')}) - smallest(${a('length')})`],
  ['length', (a) => `total(${a('length')})`],
  ['length', (a) => `chosen(${a('length')})`],
  ['length', (a) => `at(${a('length')}, ${a('label')})`],
  ['length', (a) => `total_until(${a('length')}, ${a('length')})`],
  ['stitches', (a) => `${a('length')} * ${a('gauge')}`],
  ['stitches', (a) => `whole(${a('length')} * ${a('gauge')})`],
  ['stitches', (a) => `multiple(${a('length')} * ${a('gauge')}, 4, 2)`],
  ['stitches', (a) => `multiple_up(${a('stitches')}, whole_up(${a('plain')}))`],
  ['stitches', (a) => `whole_down(${a('stitches')} / 3)`],
  ['stitches', (a) => `${a('stitches')} - 2 * ${a('stitches')}`],
  ['stitches', (a) => `total_up_to(${a('stitches')})`],
  ['gauge', (a) => `${a('stitches')} / ${a('length')}`],
  ['gauge', (a) => `slope(${a('stitches')}, ${a('length')})`],
  ['plain', (a) => `${a('length')} / ${a('length')}`],
  ['plain', (a) => `rank(${a('length')})`],
  ['plain', (a) => `1 / (${a('plain')} + 2)`],
  ['truth', (a) => `${a('length')} > ${a('length')}`],
  ['truth', (a) => `${a('stitches')} == ${a('stitches')} or ${a('truth')}`],
  ['truth', (a) => `not ${a('truth')} and ${a('length')} <= 41 in`],
  ['truth', (a) => `given(${a('length')})`],
  ['truth', (a) => `${a('label')} == "L"`],
  ['label', (a) => `nearest(${a('length')}, smallest(${a('length')}) + 2 in)`],
  ['label', (a) => `chosen(${a('truth')} ? "S" : "XL")`],
];

/** A formula by the number of its pattern, and numbers that say which cells fill it. */
type Drawn = readonly [pattern: number, ...cells: number[]];

const drawn = fc.tuple(fc.nat(FORMULAS.length - 1), fc.nat(999), fc.nat(999), fc.nat(999), fc.nat(999));

/** A random sheet as data. */
export const sheets = fc.array(drawn, { minLength: 1, maxLength: 14 });

/** The sheet that this data describes; typed cells first, then `f0`, `f1` …; the chosen size follows a label or is M. */
export function sheetFrom(data: readonly Drawn[]): Sheet {
  const sheet = new Sheet({ language: createLanguage(standard), columns: COLUMNS, heading: 'size' });
  const pools: Pools = { length: [], stitches: [], gauge: [], plain: [], truth: [], label: [] };
  for (const [kind, name, text] of TYPED) {
    sheet.add(name, name, text);
    pools[kind].push(name);
  }
  let follow: string | undefined;
  data.forEach(([pattern, ...cells], i) => {
    const [kind, text] = FORMULAS[pattern] as (typeof FORMULAS)[number];
    let used = 0;
    const pick: Pick = (of) => {
      const pool = pools[of];
      return pool[(cells[used++ % cells.length] as number) % pool.length] as string;
    };
    sheet.add(`f${i}`, `f${i}`, text(pick));
    pools[kind].push(`f${i}`);
    if (kind === 'label' && text(pick).startsWith('nearest') && follow === undefined) follow = `f${i}`;
  });
  sheet.setChoice(follow === undefined || data.length % 2 === 0 ? { column: 1 } : { follow });
  sheet.settle();
  return sheet;
}

/** The lanes of a cell: one, or one a column. */
export function lanesOf(
  sheet: Sheet,
  id: string,
): readonly { readonly id: string; readonly column: number }[] {
  return Array.from({ length: sheet.info(id).each ? sheet.columnLabels.length : 1 }, (_, column) => ({
    id,
    column,
  }));
}
