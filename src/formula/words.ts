/*
 * A formula said in the words of the page: names with spaces, × and ÷, functions as they say themselves. Given a way
 * to print a cell's value, the same walk gives the line with the numbers put in.
 */

import { printed, printValue, type Shown } from '../quantity/index.ts';
import { spacedName } from './names.ts';
import type { FunctionSpec } from './spec.ts';
import { dayText } from './token.ts';
import type { Node, Operator } from './tree.ts';
import { printTyped, typedNumber } from './typed.ts';

/** How cells are put into words, and which functions there are. */
export interface Wording {
  cell(name: string): string;
  /** A cell that a function looks at across all columns; left out: as any cell. */
  across?(name: string): string;
  spec(name: string): FunctionSpec | undefined;
}

const RANK: Readonly<Record<Operator, number>> = {
  or: 1,
  and: 2,
  '==': 3,
  '!=': 3,
  '<': 3,
  '>': 3,
  '<=': 3,
  '>=': 3,
  '+': 4,
  '-': 4,
  '*': 5,
  '/': 5,
  '^': 6,
};
const SIGN: Readonly<Record<Operator, string>> = {
  or: 'or',
  and: 'and',
  '==': '=',
  '!=': '≠',
  '<': '<',
  '>': '>',
  '<=': '≤',
  '>=': '≥',
  '+': '+',
  '-': '−',
  '*': '×',
  '/': '÷',
  '^': 'to the power',
};

function literal(value: number, shown: Shown, node: Node): string {
  const typed = typedNumber(node);
  return typed ? printed(printTyped(typed)) : printed(printValue(value, shown, false));
}

function binary(node: Node & { kind: 'binary' }, rank: number, wording: Wording): string {
  const typed = node.op === '/' ? typedNumber(node) : undefined;
  const own = RANK[node.op];
  if (typed) return printed(printTyped(typed));
  const right = inWords(node.right, node.op === '-' || node.op === '/' ? own + 1 : own, wording);
  const text = `${inWords(node.left, own, wording)} ${SIGN[node.op]} ${right}`;
  return own < rank ? `(${text})` : text;
}

/** A tree in words; `rank` is how tightly what stands around it binds. */
export function inWords(node: Node, rank: number, wording: Wording): string {
  switch (node.kind) {
    case 'literal':
      return literal(node.value, node.shown, node);
    case 'truth':
      return node.value ? 'yes' : 'no';
    case 'label':
      return node.text;
    case 'date':
      return dayText(node.day);
    case 'cell':
      return wording.cell(node.name);
    case 'call': {
      const spec = wording.spec(node.name);
      const across = wording.across ? { ...wording, cell: wording.across } : wording;
      const words = node.args.map((arg, i) => inWords(arg, 0, spec?.parameters[i]?.each ? across : wording));
      const said = spec?.says(words) ?? `${spacedName(node.name)} of ${words.join(', ')}`;
      return rank > 4 || rank === RANK['=='] ? `(${said})` : said;
    }
    case 'binary':
      return binary(node, rank, wording);
    case 'minus':
      return `−${inWords(node.of, 6, wording)}`;
    case 'not':
      return `not ${inWords(node.of, 3, wording)}`;
    case 'to':
      return inWords(node.of, rank, wording);
    case 'if': {
      const [test, yes, no] = [node.test, node.yes, node.no].map((part) => inWords(part, 1, wording));
      const text = `if ${test}: ${yes}, else ${no}`;
      return rank > 0 ? `(${text})` : text;
    }
  }
}
