/*
 * Moving a typed value by its step: to the next multiple of the step in the unit shown, counted from what is
 * shown. Only the number in the text is rewritten; its unit, its tolerance and everything else stay as they were typed.
 */

import { dayText, type Node, printTyped, tokenise, typedNumber } from '../formula/index.ts';
import {
  inSystem,
  isCount,
  LENGTH,
  printDecimals,
  ROW_GAUGE,
  type Shown,
  STITCH_GAUGE,
  snapped,
} from '../quantity/index.ts';
import type { Live } from './live.ts';
import { asShown, mannerOf, ownStep } from './show.ts';
import { plusMinusAt } from './typed-text.ts';

function usualStep(shown: Shown): number {
  if (shown.label === '%') return 1;
  if (shown.dimension === STITCH_GAUGE || shown.dimension === ROW_GAUGE) return 0.5;
  if (shown.dimension === LENGTH)
    return { in: 0.25, cm: 0.5, mm: 1, ft: 0.25, m: 1, yd: 1 }[shown.label] ?? 1;
  return isCount(shown.dimension) && shown.label === '' ? 1 : 1;
}

/** A plain number moves by one, or by a tenth or hundredth where it was typed so finely (1.25). */
function plainStep(number: number): number {
  const decimals = Math.min(2, (printDecimals(Math.abs(number), 4).split('.')[1] ?? '').length);
  return 10 ** -decimals;
}

function moved(number: number, step: number, by: number): number {
  const at = snapped(number / step);
  const next = by > 0 ? Math.floor(at) + by : Math.ceil(at) + by;
  return Number((next * step).toPrecision(12));
}

function nudgedNumber(text: string, tree: Node, live: Live, id: string, by: number): string | undefined {
  const typed = typedNumber(tree);
  if (!typed) return undefined;
  const shown = inSystem(typed.shown, mannerOf(live));
  const value = typed.number * typed.shown.factor;
  const own = ownStep(live, id, shown.dimension);
  const step = own ? own / shown.factor : shown.label === '' ? plainStep(typed.number) : usualStep(shown);
  const isElsewhere = shown.label !== typed.shown.label;
  const next = moved((isElsewhere ? asShown(live, id, value, shown) : value) / shown.factor, step, by);
  if (isElsewhere) {
    const tail = text.slice(plusMinusAt(text));
    return `${asTyped(next, shown)} ${shown.label}${tail && ` ${tail}`}`;
  }
  const number = numberAt(text);
  return number && text.slice(0, number[0]) + asTyped(next, shown) + text.slice(number[1]);
}

/** A number as a knitter would type it: quarters beside inches as 1/4, else decimals. */
function asTyped(number: number, shown: Shown): string {
  return printTyped({ number, shown }).number.replace('−', '-');
}

/** Where the (signed) number of a simple typed value stands in its text; feet and inches are one number only alone. */
function numberAt(text: string): readonly [number, number] | undefined {
  const { tokens } = tokenise(text);
  const at = tokens.findIndex((token) => token.kind === 'number' || token.kind === 'percent');
  const token = tokens[at];
  if (!token || tokens[at + 1]?.kind === 'feet' || tokens[at + 1]?.text === 'ft') return undefined;
  const below =
    tokens[at + 1]?.text === '/' && tokens[at + 2]?.kind === 'number' ? tokens[at + 2] : undefined;
  const from = tokens[at - 1]?.text === '-' ? (tokens[at - 1]?.from ?? token.from) : token.from;
  return [from, (below ?? token).to - (token.kind === 'percent' ? 1 : 0)];
}

function nudgedDate(tree: Node, by: number): string | undefined {
  return tree.kind === 'date' ? dayText(tree.day + by) : undefined;
}

function nudgedChoice(text: string, choices: readonly string[], by: number): string | undefined {
  const now = choices.findIndex((choice) => text.trim() === `"${choice}"`);
  const next = choices[(((now + by) % choices.length) + choices.length) % choices.length];
  return next === undefined ? undefined : `"${next}"`;
}

/** The text of a typed value moved by so many steps; undefined where there is nothing to move. */
export function nudgedText(live: Live, id: string, text: string, by: number): string | undefined {
  const { parsed } = live.sheet.look(text);
  if (parsed.kind !== 'tree' || !parsed.typed) return undefined;
  const { tree } = parsed;
  if (tree.kind === 'truth') return tree.value ? 'no' : 'yes';
  if (tree.kind === 'label') return nudgedChoice(text, live.cell(id)?.choices ?? [], by);
  return nudgedDate(tree, by) ?? nudgedNumber(text, tree, live, id, by);
}
