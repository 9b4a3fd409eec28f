/*
 * What a number means that is typed without its unit. It takes the unit its cell is shown in: 22 over "20 st / 4 in" is
 * "22 st / 4 in", and so is "22 st". With its unit or without, how far off another number may be stays until a ± is typed: 22
 * over "20 ± 0.5 st / 4 in" is "22 ± 0.5 st / 4 in", and "22 ± 0" is exact. An empty cell gives the unit that its notebook
 * names for it; one that holds a plain number has none to give.
 */

import { inSystem, isGauge, LENGTH, PLAIN, type Shown, same } from '../quantity/index.ts';
import type { Live } from './live.ts';
import type { Place } from './page.ts';
import { mannerOf, numberIn, offIn, unitAt } from './show.ts';
import { shownAs } from './shown-as.ts';
import { A_NUMBER, digits, inserted, offDigits, plusMinusAt, withLabel } from './typed-text.ts';

/** What a place gives to a number typed there: its unit, and its tolerance in base units (0 for none). */
export interface Held {
  readonly shown: Shown;
  readonly off: number;
  /** The unit that the tolerance was typed in. */
  readonly typed?: string;
  /** In base units, where it is off by anything. */
  readonly value?: number;
}

/** What a place holds now; in an empty column, what another column of its row holds; else the unit named for the cell. */
export function heldAt(live: Live, { cell, column }: Place): Held | undefined {
  if (!live.sheet.has(cell)) return undefined;
  const isEach = live.sheet.info(cell).each;
  const here = isEach && column !== null ? Math.max(0, live.columns.indexOf(column)) : 0;
  const held = heldIn(live, cell, here);
  if (held) return held;
  const [first] = isEach ? live.columns.flatMap((_, at) => heldIn(live, cell, at) ?? []) : [];
  const shown = first?.shown ?? (live.sheet.value(cell, here).kind === 'empty' && named(live, cell, here));
  return shown ? { shown, off: 0 } : undefined;
}

/** The unit that an empty cell is to be shown in, is searched in or steps by, in the system of the notebook. */
function named(live: Live, cell: string, column: number): Shown | undefined {
  const { range = [], step } = live.cell(cell) ?? {};
  const units = [shownAs(live, cell, column), ...[...range, step].map((text) => numberIn(live, text)?.shown)];
  const shown = units.find((unit) => unit !== undefined && unit.label !== '');
  return shown && inSystem(shown, mannerOf(live));
}

function heldIn(live: Live, cell: string, column: number): Held | undefined {
  const value = live.sheet.value(cell, column);
  if (value.kind !== 'quantity') return undefined;
  const shown = unitAt(live, cell, column, value);
  const off = live.sheet.info(cell).typed ? live.sheet.tolerance(cell, column) : 0;
  const typed = unitAt(live, cell, column, value, true).label;
  return shown.label === '' ? undefined : { shown, off, typed, value: value.value };
}

const BARE = new RegExp(String.raw`^(${A_NUMBER})(?:\s*(?:±|\+\/-|\+-)\s*(${A_NUMBER}))?$`, 'u');

/** A number to a length, as one writes a gauge whose stitches or rows go without saying: 30/10 cm. */
const UNCOUNTED = new RegExp(String.raw`^(${A_NUMBER})\s*\/\s*(\d[\d.]*\s*)?([a-z]+)$`, 'iu');

/** The text with the unit that was left out, and with how far off it still may be; any other text as it is. */
export function meant(live: Live, typed: string, held: Held | undefined): string {
  if (!held) return typed;
  const text = withItsUnit(live, typed, held);
  if (held.off === 0 || plusMinusAt(text) < text.length) return text;
  const written = numberIn(live, text);
  if (written?.shown.dimension !== held.shown.dimension) return text;
  // The same number without its ± is how one takes that away.
  const isSame = same(written.number, (held.value ?? Number.NaN) / written.shown.factor);
  return isSame ? text : inserted(text, offOf(held, written.shown), written);
}

function withItsUnit(live: Live, typed: string, held: Held): string {
  const text = typed.trim();
  const [, number, off] = BARE.exec(text) ?? [];
  if (number !== undefined) return withUnit(number, off, held);
  const sum = sumIn(live, text);
  if (sum !== undefined) return withUnit(digits(sum, held.shown), undefined, held);
  const [above, below] = held.shown.label.split(/ (?=\/ )/);
  const [, count, over = '', length = ''] = (isGauge(held.shown.dimension) && UNCOUNTED.exec(text)) || [];
  if (count !== undefined && numberIn(live, `1 ${length}`)?.shown.dimension === LENGTH)
    return `${count} ${above} / ${over}${length}`;
  return below !== undefined && writtenUnit(live, text) === above ? `${text} ${below}` : typed;
}

/** Numbers and signs, and nothing else. */
const SUM = /^[\d\s.½¼¾⅓⅔⅛⅜⅝⅞()+*/×÷−-]+$/u;
/** 3-1/2 is more likely three and a half than two and a half: it is left to be asked about. */
const DASHED = /\d-\d+\/\d/;

/** What a sum of numbers without units comes to; undefined for anything else. */
function sumIn(live: Live, text: string): number | undefined {
  if (!SUM.test(text) || DASHED.test(text)) return undefined;
  const { parsed } = live.sheet.look(text);
  const value = parsed.kind === 'tree' ? live.sheet.workOut(parsed.tree, 0) : undefined;
  return value?.kind === 'quantity' && value.type.dimension === PLAIN ? value.value : undefined;
}

/** The texts of a size line, each with the unit that was left out. */
export function meantSizes(live: Live, sizes: readonly string[], held: Held | undefined): readonly string[] {
  return sizes.map((size) => meant(live, size, held && { shown: held.shown, off: 0 }));
}

/** The tolerance there was, in base units, as it is written in a unit. */
const offOf = ({ off, typed }: Held, shown: Shown): number =>
  typed === shown.label ? off : offIn(off, shown) * shown.factor;

/** A number with a unit, and a tolerance typed with it or else the one there was. */
function withUnit(number: string, off: string | undefined, held: Held): string {
  const { shown } = held;
  return withLabel(number, off ?? (held.off > 0 ? offDigits(offOf(held, shown), shown) : ''), shown);
}

function writtenUnit(live: Live, text: string): string | undefined {
  if (!/^[-−]?[\d½¼¾⅓⅔⅛⅜⅝⅞.]/u.test(text)) return undefined;
  return numberIn(live, text)?.shown.label;
}
