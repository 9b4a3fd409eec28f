/*
 * What every race runs on: sheets of generated notebooks, the floor for them, and both as contenders.
 */

import { create, parseDependencies } from 'mathjs/number';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { Sheet } from '../../src/sheet/index.ts';
import { Floor } from './floor.ts';
import type { Generated } from './generate.ts';
import { CHESTS, toAndFro } from './peers.ts';
import type { Contender } from './race.ts';

export const language = createLanguage(standard);

/** "10,000 cells": how the names of figures begin. */
export const cellsOf = (count: number): string => `${count.toLocaleString('en-GB')} cells`;

/** mathjs's own reading of a text, made anew. */
export const mathjsParse = () =>
  (create(parseDependencies as never) as unknown as { parse: (text: string) => unknown }).parse;

/** The text of chest: one value, or one for each column, an inch more each. */
export function chestText(inches: number, columns: number): string | readonly string[] {
  return columns === 1 ? `${inches} in` : Array.from({ length: columns }, (_, c) => `${inches + c} in`);
}

/** A sheet of the generated notebook, settled; `ids` are those of its cells, made before where they are not to count. */
export function sheetOf(generated: Generated, columns: number, ids = idsOf(generated)): Sheet {
  const labels = columns === 1 ? [] : Array.from({ length: columns }, (_, c) => String(c + 1));
  const sheet = new Sheet({ language, columns: labels });
  generated.names.forEach((name, i) => {
    const text = i === generated.chest ? chestText(42, columns) : (generated.texts[i] ?? '');
    sheet.add(ids[i] ?? '', name, text);
  });
  sheet.settle();
  return sheet;
}

/** An id for each cell. */
export function idsOf(generated: Generated): readonly string[] {
  return generated.names.map((_, i) => `k${i}`);
}

/** Our sheet: chest is written, the sheet settled, and a cell that hangs on chest is asked for its value. */
export function ours(generated: Generated, columns: number, dirty: Int32Array): Contender {
  return editing('ours', sheetOf(generated, columns), generated, columns, dirty);
}

/**
 * Ours, where two cells are edited in turn, so that no way is remembered; nothing hangs on the other, and its edit is
 * counted with.
 */
export function oursInTurn(generated: Generated, dirty: Int32Array): Contender {
  const sheet = sheetOf(generated, 1);
  sheet.add('alone', 'alone_here', '1 in');
  sheet.settle();
  let turn = 0;
  return editing('ours in turn', sheet, generated, 1, dirty, () => {
    turn += 1;
    sheet.setText('alone', `${1 + (turn % 2)} in`);
    sheet.settle();
  });
}

function editing(
  name: string,
  sheet: Sheet,
  generated: Generated,
  columns: number,
  dirty: Int32Array,
  first: () => void = () => undefined,
): Contender {
  const chest = `k${generated.chest}`;
  const last = `k${generated.inputs + (dirty.at(-1) ?? 0)}`;
  const texts = new Map(CHESTS.map((inches) => [inches as number, chestText(inches, columns)]));
  return toAndFro(name, (inches) => {
    first();
    sheet.setText(chest, texts.get(inches) ?? '');
    sheet.settle();
    const value = sheet.value(last, columns - 1);
    return value.kind === 'quantity' ? value.value : Number.NaN;
  });
}

/** The floor, with its own copy of the numbers. */
export function floorOf(generated: Generated, columns: number, dirty: Int32Array): Contender {
  const floor = new Floor(generated, columns);
  floor.setChest(42);
  floor.run(Int32Array.from(generated.formulas.keys()));
  const last = (generated.inputs + (dirty.at(-1) ?? 0)) * columns + columns - 1;
  return toAndFro('floor', (inches) => {
    floor.setChest(inches);
    floor.run(dirty);
    return floor.values[last] ?? Number.NaN;
  });
}
