/*
 * The texts of a row by column. Where one formula stands for all columns, these are what could have been typed instead:
 * each value with its unit and all its digits. So one column of such a row can be typed and the others stay as they are.
 */

import { dayText, spacedName } from '../formula/index.ts';
import type { Cell } from '../notebook/index.ts';
import type { Value } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { unitAt } from './show.ts';
import { typedText } from './typed-text.ts';

/** By column id. */
export type RowTexts = Readonly<Record<string, string>>;

/** Where a value of a row is read: of now, or of before the change being tried. */
export type ValueIn = (column: number) => Value | undefined;

/** The texts of a row with one value for each column; 'plans' where no text could say them; undefined for one value. */
export function rowTexts(live: Live, cell: Cell, valueIn?: ValueIn): RowTexts | 'plans' | undefined {
  const { each } = live.topText(cell.id);
  if (each) return each;
  if (!isWorkedOutRow(live, cell.id)) return undefined;
  if (live.sheet.info(cell.id).type.kind === 'plan') return 'plans';
  const at = valueIn ?? ((column: number) => live.sheet.value(cell.id, column));
  return Object.fromEntries(live.columns.map((id, c) => [id, asTyped(live, cell.id, c, at(c))]));
}

/** Whether one formula stands for all columns of a row. */
export function isWorkedOutRow(live: Live, id: string): boolean {
  if (!live.sheet.has(id) || live.columns.length === 0) return false;
  const { each, typed } = live.sheet.info(id);
  return each && !typed;
}

/** What one would type for a value; "" where there is none. */
function asTyped(live: Live, id: string, column: number, value: Value | undefined): string {
  switch (value?.kind) {
    case 'quantity':
      return typedText(value.value, 0, unitAt(live, id, column, value, true));
    case 'truth':
      return value.truth ? 'yes' : 'no';
    case 'label':
      return `"${value.text}"`;
    case 'date':
      return dayText(value.day);
    default:
      return '';
  }
}

/** What is said when a value has been typed into one column of a row with a formula. */
export function nowTyped({ name, text = '' }: Cell, label: string, typed: string, columns: number): string {
  const mine = typed === '' ? `${label} is empty` : `${label} is ${typed}`;
  const others = columns > 1 ? ', the others stay as they were' : '';
  return `${spacedName(name)} was worked out as “${text}”. Now it is typed in each column: ${mine}${others}. Undo brings the formula back.`;
}

/** Why one value of a row of plans cannot be typed. */
export const plansStay = ({ name }: Cell): string =>
  `${spacedName(name)} is a plan in each column, and one of them cannot be typed: change what it is worked out from.`;

/** What to write in one column of a row of typed values, where a formula or an unknown word was written. */
export function valueWanted(live: Live, { id, choices = [] }: Cell, column: string, text: string): string {
  const { type } = live.sheet.info(id);
  if (type.kind === 'truth') return 'Write yes or no here.';
  if (type.kind === 'date') return 'Write a day here, as 20 Dec 2026.';
  const isWord = /^[\p{L}\p{N}_ ]+$/u.test(text) && live.sheet.idOf(text) === undefined;
  if (type.kind === 'label' && isWord)
    return choices.length > 0
      ? `Write one of these here: ${choices.map((choice) => `"${choice}"`).join(', ')}.`
      : `Write words in quotes here, as "${spacedName(text)}".`;
  const example = exampleOf(live, id, column);
  if (isWord && example !== '') return `Write a value here, as ${example}.`;
  return 'A formula stands for the whole row: choose “one value for all” in the row’s menu (…), then write it.';
}

/** A value that stands in another column of the row, or in this one. */
function exampleOf(live: Live, id: string, column: string): string {
  const each = live.topText(id).each ?? {};
  const others = live.columns.filter((one) => one !== column).map((one) => each[one] ?? '');
  return [...others, each[column] ?? ''].find((text) => text.trim() !== '') ?? '';
}
