/*
 * Help while a formula is typed: what can come next, which function's brackets the cursor stands in, and how each
 * piece of the text is to be coloured. All of it is drawn from the functions' own records and the sheet's cells.
 */

import {
  type FunctionSpec,
  type Parameter,
  spacedName,
  type Token,
  tokenise,
  WORDS,
} from '../formula/index.ts';
import { printed, UNIT_NAMES, unitNamed } from '../quantity/index.ts';
import { type Live, language } from './live.ts';
import type { CallHelp, Completion, TextToken } from './page.ts';
import { columnFor, printAt } from './show.ts';
import { inPlace } from './written.ts';

/** A function with its arguments: "multiple(x, n, plus)". */
export function signature(spec: FunctionSpec): string {
  const list = spec.parameters.map((parameter) =>
    parameter.optional ? `[${parameter.name}]` : parameter.name,
  );
  return `${spec.name}(${list.join(', ')})`;
}

/** What each unit is, in words. */
export const UNIT_HELP: Readonly<Record<string, string>> = {
  st: 'stitches',
  row: 'rows',
  rnd: 'rounds (1 rnd = 1 row)',
  ridge: 'garter ridges (2 rows)',
  in: 'inches',
  cm: 'centimetres',
  mm: 'millimetres',
  m: 'metres',
  ft: 'feet',
  yd: 'yards',
  g: 'grams',
  kg: 'kilograms',
  oz: 'ounces',
  lb: 'pounds',
};

function cellOption(live: Live, id: string): Completion {
  const name = live.sheet.nameOf(id);
  const value = live.sheet.value(id, columnFor(live, undefined));
  const help = printed(printAt(live, id, columnFor(live, undefined), value));
  return { label: spacedName(name), insert: name, kind: 'cell', help };
}

function functionOption(spec: FunctionSpec): Completion {
  return { label: signature(spec), insert: `${spec.name}(`, kind: 'function', help: spec.help };
}

/** How well a name fits what is typed: lower is better, undefined not at all. */
function closeness(name: string, typed: string): number | undefined {
  const [n, t] = [name.toLowerCase(), typed.toLowerCase()];
  if (t === '') return 1;
  if (n.startsWith(t)) return 0;
  if (n.split('_').some((word) => word.startsWith(t))) return 1;
  return n.includes(t) ? 2 : undefined;
}

function matching<T>(items: readonly T[], name: (item: T) => string, typed: string): T[] {
  return items
    .map((item) => ({ item, near: closeness(name(item), typed) }))
    .filter((one): one is { item: T; near: number } => one.near !== undefined)
    .sort((a, b) => a.near - b.near)
    .map((one) => one.item);
}

const MOST = 60;

/** The token the cursor is at the end of, and the one before it. */
function around(
  text: string,
  cursor: number,
): { readonly word: Token | undefined; readonly before: Token | undefined } {
  const { tokens } = tokenise(text.slice(0, cursor));
  const last = tokens.at(-1);
  const word = last?.kind === 'name' && last.to === cursor ? last : undefined;
  return { word, before: word ? tokens.at(-2) : last };
}

function insideLabel(text: string, cursor: number): number | undefined {
  const before = text.slice(0, cursor);
  const at = before.lastIndexOf('"');
  const odd = (before.match(/(?<![\d½¼¾⅛⅜⅝⅞])"/gu)?.length ?? 0) % 2 === 1;
  return odd ? at + 1 : undefined;
}

/** What can be typed at the cursor. */
export function complete(
  live: Live,
  own: string,
  text: string,
  cursor: number,
): { readonly from: number; readonly options: readonly Completion[] } {
  const label = insideLabel(text, cursor);
  if (label !== undefined) {
    const labels = [...live.sheet.columnLabels, ...(live.cell(own)?.choices ?? [])];
    const help = live.notebook.columns?.heading ?? '';
    return {
      from: label,
      options: matching(labels, (l) => l, text.slice(label, cursor)).map((l) => ({
        label: l,
        insert: l,
        kind: 'word',
        help,
      })),
    };
  }
  const { word, before } = around(text, cursor);
  const typed = word?.text ?? '';
  const from = word?.from ?? cursor;
  if (before?.kind === 'number') {
    const units = matching(
      UNIT_NAMES.filter((name) => unitNamed(name)?.symbol === name),
      (name) => name,
      typed,
    );
    return {
      from,
      options: units.map((name) => ({
        label: name,
        insert: name,
        kind: 'unit',
        help: UNIT_HELP[name] ?? name,
      })),
    };
  }
  if (
    typed === '' &&
    before?.kind !== 'operator' &&
    before?.kind !== 'open' &&
    before?.kind !== 'comma' &&
    before !== undefined
  )
    return { from, options: [] };
  const cells = matching(
    live.sheet.cells.filter((id) => id !== own),
    (id) => live.sheet.nameOf(id),
    typed,
  ).slice(0, MOST);
  const functions = matching(language.specs, (spec) => spec.name, typed);
  return {
    from,
    options: [
      ...answers(typed, before),
      ...cells.map((id) => cellOption(live, id)),
      ...functions.map(functionOption),
    ].slice(0, MOST),
  };
}

/** Yes and no, where they can stand: at the beginning, or as an argument. */
function answers(typed: string, before: Token | undefined): readonly Completion[] {
  if (before !== undefined && before.kind !== 'comma' && before.kind !== 'open') return [];
  const begun = ['yes', 'no'].filter((word) => typed !== '' && word.startsWith(typed.toLowerCase()));
  return begun.map((word) => ({ label: word, insert: word, kind: 'word', help: `the answer ${word}` }));
}

/** The function whose brackets the cursor stands in, and which argument it is at. */
export function callHelp(text: string, cursor: number): CallHelp | undefined {
  const open: { readonly name: string | undefined; commas: number }[] = [];
  const { tokens } = tokenise(text.slice(0, cursor));
  tokens.forEach((token, i) => {
    const before = tokens[i - 1];
    if (token.kind === 'open')
      open.push({ name: before?.kind === 'name' ? before.text : undefined, commas: 0 });
    if (token.kind === 'close') open.pop();
    const top = open.at(-1);
    if (token.kind === 'comma' && top) top.commas += 1;
  });
  const inside = open.filter((one) => one.name !== undefined && language.spec(one.name)).at(-1);
  const spec = inside?.name === undefined ? undefined : language.spec(inside.name);
  if (!spec || !inside) return undefined;
  const parameters = spec.parameters.map((p: Parameter) => ({
    name: spacedName(p.name),
    help: p.help,
    optional: p.optional ?? false,
  }));
  return { name: spec.name, help: spec.help, parameters, at: inside.commas };
}

function kindOf(token: Token, next: Token | undefined, live: Live): TextToken['kind'] {
  switch (token.kind) {
    case 'number':
    case 'percent':
    case 'date':
      return 'number';
    case 'feet':
    case 'inches':
    case 'money':
      return 'unit';
    case 'label':
      return 'label';
    case 'open':
    case 'close':
    case 'comma':
      return 'bracket';
    case 'name': {
      if (next?.kind === 'open' && next.from === token.to && language.spec(token.text)) return 'function';
      if (WORDS.has(token.text)) return 'word';
      if (live.sheet.idOf(token.text) !== undefined) return 'cell';
      return unitNamed(token.text) ? 'unit' : 'unknown';
    }
    default:
      return 'operator';
  }
}

/** The pieces of a text, for colouring; a cell named with its spaces is one. */
export function textTokens(live: Live, typed: string): readonly TextToken[] {
  const { text, names } = inPlace(live, typed);
  const { tokens } = tokenise(text);
  return tokens.flatMap((token, i): readonly TextToken[] => {
    const named = names.find(({ from, to }) => from <= token.from && token.to <= to);
    if (!named) return [{ from: token.from, to: token.to, kind: kindOf(token, tokens[i + 1], live) }];
    return named.from === token.from ? [{ from: named.from, to: named.to, kind: 'cell' }] : [];
  });
}
