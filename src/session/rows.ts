/*
 * Cells as the page sees them: a row for a cell, with everything printed and said.
 */

import { inWords, isDecided, type Node, spacedName } from '../formula/index.ts';
import { isKnitted, type Printed, printed, type Shown } from '../quantity/index.ts';
import type { Frozen, Value } from '../sheet/index.ts';
import { planInShort } from '../telling/index.ts';
import { valueAloud } from './aloud.ts';
import type { Live } from './live.ts';
import type { RowView, Tone, ValueView } from './page.ts';
import { type PlainRow, plainRow } from './plain.ts';
import {
  brokenColumn,
  printAt,
  printMove,
  printTolerance,
  sameValue,
  saysAt,
  unechoed,
  unitAt,
} from './show.ts';
import { isInRounds } from './shown-as.ts';

/** What waits for a unit typed elsewhere, or for a column broken further up, is calm: the trouble is there. */
function toneOf(live: Live, id: string, value: Value, says: string): Tone {
  if (value.kind === 'problem' && (live.blamedFor(id) || brokenColumn(value) !== undefined)) return 'waiting';
  if (value.kind === 'quantity' && live.blameOn(id)) return 'problem';
  if (value.kind === 'problem') return 'problem';
  if (value.kind === 'waiting') return 'waiting';
  if (value.kind === 'truth' && says !== '') return value.truth ? 'yes' : 'no';
  return 'plain';
}

function spokenOf(value: Value, shown: Printed, says: string, tone: Tone): string {
  if (value.kind === 'empty') return 'empty';
  if (value.kind === 'problem') return tone === 'waiting' ? says : `problem: ${says}`;
  if (value.kind === 'waiting') return says;
  return valueAloud(value.kind, shown);
}

function oldOf(
  live: Live,
  id: string,
  column: number,
  now: Value,
  { text: nowText, unit }: { readonly text: string; readonly unit: Shown | undefined },
  base: Frozen | undefined,
): ValueView['old'] {
  const old = base?.value(id, column);
  if (!old || sameValue(old, now)) return undefined;
  // What is of one kind is shown in one unit.
  const isAlike = old.kind === 'quantity' && now.kind === 'quantity' && old.type === now.type;
  const shown = printedAt(live, id, column, old, isAlike ? unit : undefined);
  const isOther = old.kind === 'quantity' && now.kind === 'quantity' && !isOneKind(old, now);
  const text = (old.kind === 'quantity' && !isOther) || old.kind === 'empty' ? shown.number : printed(shown);
  const difference = printMove(live, id, column, old, now, unit);
  return difference === '' && text === nowText ? undefined : { text: text || 'empty', difference };
}

/** Whether two values are of one kind, so that one is told from the other without units. */
export const isOneKind = (old: Value & { kind: 'quantity' }, now: Value & { kind: 'quantity' }): boolean =>
  old.type.dimension === now.type.dimension;

/** A value as its row shows it: a plan in a column, which is narrow, in few words; its workings have it whole. */
function printedAt(live: Live, id: string, column: number, value: Value, unit?: Shown): Printed {
  if (value.kind === 'plan' && live.sheet.info(id).each && live.columns.length > 0)
    return { number: planInShort(value.plan, isInRounds(live, id, column)), unit: '' };
  return printAt(live, id, column, value, unit);
}

/** A value at a place as the page sees it; `base` are the values before the change being tried. */
export function valueView(live: Live, id: string, column: number, base: Frozen | undefined): ValueView {
  const value = live.sheet.value(id, column);
  // Asked once, as thousands of values are printed at a nudge.
  const shown = value.kind === 'quantity' ? unitAt(live, id, column, value) : undefined;
  const { number, unit } = printedAt(live, id, column, value, shown);
  const says = saysAt(live, id, column, value);
  const pinned = live.sheet.isPinned(id, column);
  const old = oldOf(live, id, column, value, { text: number, unit: shown }, base);
  const tone = toneOf(live, id, value, says);
  // All in one piece: thousands are made at a nudge.
  return {
    kind: value.kind,
    text: number,
    unit,
    tolerance: printTolerance(live, id, column, value),
    decided: value.kind === 'quantity' && isDecided(value.type) && isKnitted(value.type.dimension),
    pinned,
    old,
    says: pinned ? pinnedSays(live, id, column, value, says) : says,
    tone,
    spoken: spokenOf(value, { number, unit }, says, tone),
  };
}

/** What is on the needles stays; where it would come out otherwise now, that is offered, never done. */
function pinnedSays(live: Live, id: string, column: number, value: Value, says: string): string {
  const now = live.sheet.unpinned(id, column);
  if (sameValue(now, value) || (now.kind !== 'quantity' && now.kind !== 'label')) return says;
  return `would now be ${printed(printAt(live, id, column, now))}`;
}

/** The unit that stands once beside the name of a row with many values. */
function sharedUnit(each: readonly string[]): string {
  const [first = ''] = each;
  if (each.every((unit) => unit === first)) return first;
  const units = new Set(each);
  const many = [...units].find((unit) => /s( |$)/.test(unit)) ?? first;
  return units.size === 2 &&
    [...units].every((u) => u.replace(/^(\w+?)s?( |$)/, '$1$2') === many.replace(/^(\w+?)s?( |$)/, '$1$2'))
    ? many
    : '';
}

/** How a worked-out cell comes about, in short and in words; "" for a typed one. */
export function howOf(live: Live, id: string): string {
  if (live.sheet.info(id).typed) return '';
  const tree = live.sheet.tree(id);
  if (!tree) return '';
  let words = hows.get(tree);
  if (words === undefined) {
    words = inWords(tree, 0, { cell: spacedName, spec: (name) => live.sheet.spec(name) });
    hows.set(tree, words);
  }
  return words;
}

/** A formula says the same however its values move. */
const hows = new WeakMap<Node, string>();

/** What a row is told from beside the sheet. */
export interface RowContext {
  readonly live: Live;
  readonly base: Frozen | undefined;
  isTried(id: string): boolean;
  nudges(id: string): boolean;
}

/** A cell as a row of the sheet. */
export function rowView(context: RowContext, id: string): RowView {
  const { live, base } = context;
  const each = live.sheet.info(id).each && live.columns.length > 0;
  const columns = each ? live.columns.length : 1;
  const plain = plainRow(live, id, columns, base);
  if (plain) return new PlainRowView(context, id, each, plain);
  const values = Array.from({ length: columns }, (_, column) => valueView(live, id, column, base));
  const units = values.flatMap(({ kind, unit }) => (kind === 'quantity' ? unit : []));
  return { ...factsOf(context, id, each, units), values };
}

/** All of a row but its values. */
type Facts = Omit<RowView, 'values' | 'plain'>;

function factsOf(context: RowContext, id: string, each: boolean, units: readonly string[]): Facts {
  const { live } = context;
  const cell = live.cell(id);
  const formulaName = live.sheet.nameOf(id);
  const name = spacedName(formulaName);
  return {
    id,
    name,
    formulaName,
    typed: live.sheet.info(id).typed,
    each,
    unit: each ? unechoed(name, { number: '', unit: sharedUnit(units) }).unit : '',
    how: howOf(live, id),
    note: cell?.note ?? '',
    cautions: cautionsFor(live, id),
    tried: context.isTried(id),
    nudges: context.nudges(id),
    choices: cell?.choices ?? NONE,
  };
}

/** A plain row: its values in full are made when they are asked for, which they are of few of the rows that a nudge moves. */
class PlainRowView implements RowView {
  readonly id: string;
  readonly name: string;
  readonly formulaName: string;
  readonly typed = false;
  readonly each: boolean;
  readonly unit: string;
  readonly how: string;
  readonly note: string;
  readonly cautions: readonly string[];
  readonly tried: boolean;
  readonly nudges = false;
  readonly choices: readonly string[];
  readonly plain: PlainRow;
  #values: readonly ValueView[] | undefined;

  constructor(context: RowContext, id: string, each: boolean, plain: PlainRow) {
    const facts = factsOf(context, id, each, plain.units());
    this.id = id;
    this.name = facts.name;
    this.formulaName = facts.formulaName;
    this.each = each;
    this.unit = facts.unit;
    this.how = facts.how;
    this.note = facts.note;
    this.cautions = facts.cautions;
    this.tried = facts.tried;
    this.choices = facts.choices;
    this.plain = plain;
  }

  get values(): readonly ValueView[] {
    this.#values ??= this.plain.views();
    return this.#values;
  }
}

const NONE: readonly string[] = [];

function cautionsFor(live: Live, id: string): readonly string[] {
  const { cautions } = live.notebook;
  return cautions.length === 0 ? NONE : cautions.flatMap((one) => (one.for === id ? one.text : NONE));
}
