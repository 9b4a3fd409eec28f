/*
 * Random edits of a sheet, as plain data that shrinks well: every edit names its cell and its name by number, and is
 * read against the sheet as it is by then, so that a shorter sequence still makes sense.
 */

import fc from 'fast-check';
import type { Choice, Sheet, Text } from '../../src/sheet/index.ts';
import type { Whole } from '../support/naive-sheet.ts';

export type Edit =
  | { readonly do: 'add'; readonly name: number; readonly text: string }
  | { readonly do: 'set'; readonly cell: number; readonly text: string }
  | { readonly do: 'list'; readonly cell: number; readonly texts: readonly string[] }
  | { readonly do: 'lane'; readonly cell: number; readonly column: number; readonly text: string }
  | { readonly do: 'rename'; readonly cell: number; readonly name: number }
  | { readonly do: 'remove'; readonly cell: number }
  | { readonly do: 'columns'; readonly from: readonly number[]; readonly labels: number }
  | { readonly do: 'choose'; readonly choice: number }
  | { readonly do: 'pin'; readonly cell: number; readonly column: number; readonly text: string }
  | { readonly do: 'unpin'; readonly cell: number }
  | { readonly do: 'today'; readonly day: number }
  | { readonly do: 'money'; readonly sign: string }
  | { readonly do: 'settle' };

/** Names by the kind of thing they mostly hold, so that many formulas make sense and some do not; one is a unit too. */
const LENGTHS = ['chest', 'ease', 'größe', 'finished_chest'];
const COUNTS = ['stitches', 'cast_on', 'edge'];
const GAUGES = ['gauge', 'tight_gauge'];
const OTHERS = ['fits', 'size_to_follow', 'n'];
export const NAMES = [...LENGTHS, ...COUNTS, ...GAUGES, ...OTHERS];
const LABELS = [
  ['S', 'M', 'L', 'XL'],
  ['S', 'm', 'Large', '1'],
  ['1', '2', '3', '4'],
];

const length = fc.constantFrom('42 in', '40 1/2 in', '0 in', '96.5 cm', '4 in', '38 in', '41 ± 1 in', '');
const count = fc.constantFrom('198 st', '200 st', '8 st', '0 st', '60.75 st', '12 sts', '');
const gauge = fc.constantFrom('18 st / 4 in', '20 ± 0.5 st / 4 in', '22 st / 10 cm', '0 st / 4 in', '');
const other = fc.constantFrom(
  'yes',
  'no',
  '"M"',
  '"S"',
  '"nowhere"',
  '8',
  '2',
  '10%',
  '24 rows',
  '2026-05-04',
  '€4',
);
const wrong = fc.constantFrom(
  'chest +',
  '12 stiches',
  '1,000 m',
  'finished chest - chest',
  'a < b < c',
  '=',
  '"M',
);
const typed = fc.oneof(length, count, gauge, other);

const anyName = fc.constantFrom(...NAMES, 'elbow', 'chesst');
const some = (kind: readonly string[]) =>
  fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...kind) }, { weight: 1, arbitrary: anyName });
const l = some(LENGTHS);
const c = some(COUNTS);
const g = some(GAUGES);
const o = some(OTHERS);

/** A formula from a pattern and the names that fill it. */
function formula(
  text: (...names: string[]) => string,
  ...names: fc.Arbitrary<string>[]
): fc.Arbitrary<string> {
  return fc.tuple(...names).map((filled) => text(...filled));
}

const formulas = fc.oneof(
  formula((a, b) => `${a} + ${b}`, l, l),
  formula((a, b) => `${a} - ${b}`, l, l),
  formula((a, b) => `${a} * ${b}`, l, g),
  formula((a, b) => `${a} / ${b}`, c, g),
  formula((a, b) => `whole(${a} * ${b})`, l, g),
  formula((a, b, d) => `multiple((${a} + ${b}) * ${d}, 4, 2)`, l, l, g),
  formula((a) => `whole_up(${a} / 3)`, c),
  formula((a) => `to_nearest(${a}, 1 in)`, l),
  formula((a) => `${a} - 10%`, anyName),
  formula((a, b) => `max(${a}, ${b})`, c, c),
  formula((a, b, d) => `${a} > ${b} ? ${d} : 40 in`, l, l, l),
  formula((a, b, d, e) => `${a} ? ${b} : ${d} / ${e}`, o, l, c, g),
  formula((a, b) => `not ${a} == ${b} and ${b} > 3 in`, l, l),
  formula((a, b) => `given(${a}) or ${b}`, anyName, o),
  formula((a, b) => `nearest(${a}, ${b})`, l, l),
  formula((a) => `chosen(${a})`, l),
  formula((a) => `chosen(${a}) * 2`, c),
  formula((a, b) => `at(${a}, ${b})`, l, o),
  formula((a) => `at(${a}, "M")`, l),
  formula((a, b) => `total(${a} * ${b})`, l, g),
  formula((a) => `total_up_to(${a})`, c),
  formula((a) => `average(${a})`, l),
  formula((a) => `largest(${a}) - smallest(${a})`, c),
  formula((a, b) => `slope(${a}, ${b})`, c, l),
  formula((a) => `total(${a}) > 100 st`, c),
  formula((a, b) => `${a} * ${b}`, anyName, anyName),
  formula((a, b) => `${a} + ${b}`, anyName, anyName),
  formula((a) => `-${a}`, anyName),
  formula((a) => a, anyName),
  fc.constant('today() - 2026-01-01'),
);

const text = fc.oneof(
  { weight: 5, arbitrary: formulas },
  { weight: 4, arbitrary: typed },
  { weight: 1, arbitrary: wrong },
);
/** Texts of one cell over the columns: mostly of one kind. */
const texts = fc.oneof(
  ...[length, count, gauge].map((kind) => fc.array(kind, { minLength: 4, maxLength: 4 })),
  fc.array(fc.oneof(typed, formulas), { minLength: 4, maxLength: 4 }),
);
const cell = fc.nat(20);
const name = fc.nat(NAMES.length - 1);

export const edit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 8, arbitrary: fc.record({ do: fc.constant('add' as const), name, text }) },
  { weight: 8, arbitrary: fc.record({ do: fc.constant('set' as const), cell, text }) },
  { weight: 5, arbitrary: fc.record({ do: fc.constant('list' as const), cell, texts }) },
  {
    weight: 3,
    arbitrary: fc.record({ do: fc.constant('lane' as const), cell, column: fc.nat(3), text: typed }),
  },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('rename' as const), cell, name }) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('remove' as const), cell }) },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant('columns' as const),
      from: fc.array(fc.integer({ min: -1, max: 3 }), { maxLength: 4 }),
      labels: fc.nat(2),
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('choose' as const), choice: fc.nat(7) }) },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant('pin' as const),
      cell,
      column: fc.nat(2),
      text: fc.constantFrom('88 st', '200 st', '41 in', '9'),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('unpin' as const), cell }) },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant('today' as const), day: fc.constantFrom(20_500, 20_501) }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('money' as const), sign: fc.constantFrom('€', '$') }) },
  { weight: 6, arbitrary: fc.constant({ do: 'settle' } as const) },
);

/** A sheet's content as data that edits change, beside the sheet itself. */
export interface Draft {
  cells: { id: string; name: string; text: Text }[];
  columns: readonly string[];
  choice: Choice;
  today: number;
  money: string;
  /** Texts of what was knitted, by cell and column. */
  pins: Map<string, Map<number, string>>;
  made: number;
}

/** The draft that sequences of edits begin from: three columns, nothing in them. */
export function emptyDraft(): Draft {
  return {
    cells: [],
    columns: ['S', 'M', 'L'],
    choice: undefined,
    today: 20_500,
    money: '€',
    pins: new Map(),
    made: 0,
  };
}

/** A draft as the naive sheet takes it. */
export function wholeOf({ cells, columns, choice, today, money, pins }: Draft): Whole {
  return { cells: cells.map((one) => ({ ...one })), columns, choice, today, money, heading: 'size', pins };
}

function choiceOf(number: number, columns: number): Choice {
  if (number === 0) return undefined;
  if (number < 4) return { follow: 'size_to_follow' };
  if (number === 4) return { follow: 'n' };
  return { column: (number - 5) % Math.max(1, columns + 1) };
}

/** Does one edit to a draft and to the sheet beside it. What makes no sense by now is left out. */
export function apply(change: Edit, draft: Draft, sheet: Sheet): void {
  const { cells } = draft;
  const named = (number: number) => NAMES[number] as string;
  const isTaken = (wanted: string) => cells.some((one) => one.name === wanted);
  const target = 'cell' in change ? cells[change.cell % Math.max(1, cells.length)] : undefined;
  switch (change.do) {
    case 'add': {
      if (isTaken(named(change.name))) return;
      const made = { id: `k${draft.made++}`, name: named(change.name), text: change.text };
      cells.push(made);
      return sheet.add(made.id, made.name, made.text);
    }
    case 'columns': {
      const columns = change.from.map((_, i) => LABELS[change.labels]?.[i] ?? '');
      for (const one of cells) {
        const old = one.text;
        if (typeof old !== 'string')
          one.text = change.from.map((from) => (from < 0 ? '' : (old[from] ?? '')));
      }
      draft.columns = columns;
      draft.pins.clear();
      sheet.setPins(draft.pins);
      return sheet.setColumns(columns, change.from);
    }
    case 'choose':
      draft.choice = choiceOf(change.choice, draft.columns.length);
      return sheet.setChoice(draft.choice);
    case 'today':
      draft.today = change.day;
      return sheet.setToday(change.day);
    case 'money':
      draft.money = change.sign;
      return sheet.setMoney(change.sign);
    case 'settle':
      return void sheet.settle();
  }
  if (!target) return;
  switch (change.do) {
    case 'set':
      target.text = change.text;
      return sheet.setText(target.id, change.text);
    case 'list':
      target.text = draft.columns.map((_, i) => change.texts[i] ?? '');
      return sheet.setText(target.id, target.text);
    case 'lane': {
      if (typeof target.text === 'string' || change.column >= draft.columns.length) return;
      target.text = target.text.map((old, i) => (i === change.column ? change.text : old));
      return sheet.setColumnText(target.id, change.column, change.text);
    }
    case 'pin':
      draft.pins.set(target.id, new Map(draft.pins.get(target.id)).set(change.column, change.text));
      return sheet.setPins(draft.pins);
    case 'unpin':
      draft.pins.delete(target.id);
      return sheet.setPins(draft.pins);
    case 'rename':
      if (isTaken(named(change.name))) return;
      target.name = named(change.name);
      return sheet.rename(target.id, target.name);
    case 'remove':
      cells.splice(cells.indexOf(target), 1);
      draft.pins.delete(target.id);
      return sheet.remove(target.id);
  }
}
