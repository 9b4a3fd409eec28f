/*
 * Small sheets for tests: cells by name and text. A text such as "36 (40, 44) in" makes columns "1", "2", "3".
 */

import { createLanguage, type FunctionSpec, readSizeLine, standard } from '../../src/formula/index.ts';
import { type Choice, Sheet, type Value } from '../../src/sheet/index.ts';

export type Given = Readonly<Record<string, string>>;

/** What a small sheet may be told beside its cells. */
export interface Setting {
  readonly columns?: readonly string[];
  readonly choice?: Choice;
  readonly today?: number;
  readonly money?: string;
  readonly specs?: readonly FunctionSpec[];
}

/** A text as a sheet takes it: one text, or one for each column where it is a size line. */
export function textOf(text: string): string | readonly string[] {
  return readSizeLine(text) ?? text;
}

/** Numbered labels for as many columns as the widest size line has. */
export function columnsFor(given: Given): readonly string[] {
  const widths = Object.values(given).map((text) => readSizeLine(text)?.length ?? 0);
  return Array.from({ length: Math.max(0, ...widths) }, (_, i) => String(i + 1));
}

/** A settled sheet of these cells; each cell's id is its name. */
export function sheetOf(given: Given, setting: Setting = {}): Sheet {
  const columns = setting.columns ?? columnsFor(given);
  const sheet = new Sheet({
    language: createLanguage(setting.specs ?? standard),
    heading: 'size',
    columns,
    choice: setting.choice ?? (columns.length > 0 ? { column: 0 } : undefined),
    today: setting.today ?? 0,
    money: setting.money ?? '',
  });
  for (const [name, text] of Object.entries(given)) sheet.add(name, name, textOf(text));
  sheet.settle();
  return sheet;
}

/** A value in a few words: "243 stitches", "no", "waiting for wrist", "problem circle". */
export function brief(value: Value): string {
  switch (value.kind) {
    case 'quantity':
      return `${Number(value.value.toPrecision(10))} #${value.type.dimension}`;
    case 'truth':
      return value.truth ? 'yes' : 'no';
    case 'label':
      return `"${value.text}"`;
    case 'date':
      return `day ${value.day}`;
    case 'plan':
      return value.plan.text;
    case 'empty':
      return 'empty';
    case 'waiting':
      return `waiting for ${value.name}`;
    case 'problem':
      return `problem ${value.problem.code}`;
  }
}
