/*
 * Tree → kinds. Everything a knitter can mix up is found here, before anything is worked out: stitches added to
 * rows, a length where a count belongs, a size column where there is one value. A check gives a type, whether the
 * value is one for each column, and a list of problems; it never stops at the first and never throws.
 *
 * `unknown` is the type of a cell that is empty or has a problem of its own; whatever uses it is checked as far as
 * it can be and waits.
 */

import {
  type Dimension,
  divided,
  isCount,
  LENGTH,
  multiplied,
  PLAIN,
  ROW,
  raised,
  readUnit,
  STITCH,
  snapped,
  TIME,
} from '../quantity/index.ts';
import { type Problem, problem } from './problem.ts';
import type { Accepts, FunctionSpec, Parameter } from './spec.ts';
import { nearest } from './spelling.ts';
import { below, type Node, type Place } from './tree.ts';
import {
  DATE,
  isDecided,
  isPercent,
  isPlain,
  LABEL,
  quantity,
  TRUTH,
  type Type,
  typeInWords,
  UNKNOWN,
} from './type.ts';

/** What a check knows of a cell that a text names. */
export interface Known {
  readonly type: Type;
  readonly each: boolean;
}

/** What a check can ask about the sheet around a formula. */
export interface Scope {
  cell(name: string): Known | undefined;
  /** Names of cells, for a suggestion. */
  cellNames(): Iterable<string>;
  spec(name: string): FunctionSpec | undefined;
  specNames(): Iterable<string>;
  /** Whether the notebook has columns, and what they are called. */
  readonly columns: boolean;
  readonly heading: string;
  /** The currency sign of the notebook, '' where none is set. */
  readonly money: string;
}

/** The outcome of a check. */
export interface Checked {
  readonly type: Type;
  readonly each: boolean;
  readonly problems: readonly Problem[];
}

interface Check {
  readonly text: string;
  readonly scope: Scope;
  readonly problems: Problem[];
}

const NOTHING: Known = { type: UNKNOWN, each: false };

function refuse(check: Check, code: string, at: Place, parts: Problem['parts'] = {}): Type {
  check.problems.push(problem(code, parts, at));
  return UNKNOWN;
}

/** What stands at a node in the text, with the brackets that belong to it: a tree keeps no place for them. */
function words(check: Check, node: Node): string {
  const text = check.text.normalize('NFC');
  let [from, to] = node.at;
  const open = (sign: string) => text.slice(from, to).split(sign).length - 1;
  for (let lacks = open(')') - open('('); lacks > 0 && from > 0; lacks -= 1)
    from = Math.max(0, text.lastIndexOf('(', from - 1));
  for (let lacks = open('(') - open(')'); lacks > 0 && text.indexOf(')', to) >= 0; lacks -= 1)
    to = text.indexOf(')', to) + 1;
  return text.slice(from, to);
}

function cellOf(check: Check, node: Node & { kind: 'cell' }): Known {
  const known = check.scope.cell(node.name);
  if (known) return known;
  const near = nearest(node.name, check.scope.cellNames());
  const isFunction = check.scope.spec(node.name) !== undefined;
  const code = isFunction ? 'function-without-brackets' : near ? 'unknown-name-near' : 'unknown-name';
  refuse(check, code, node.at, near ? { name: node.name, near } : { name: node.name });
  return NOTHING;
}

/** The rate that would turn one count into the other, as the offer in the sentence. */
function offer(left: Type, right: Type, check: Check, node: Node & { kind: 'binary' }): Problem['parts'] {
  const parts = {
    left: words(check, node.left),
    right: words(check, node.right),
    leftKind: typeInWords(left),
    rightKind: typeInWords(right),
  };
  return { ...parts, doing: node.op === '-' ? 'takes' : node.op === '+' ? 'adds' : 'compares' };
}

function unlike(check: Check, node: Node & { kind: 'binary' }, left: Type, right: Type): Type {
  const parts = offer(left, right, check, node);
  const [l, r] = [left.dimension, right.dimension];
  if (isPercent(right) && !isPercent(left) && (node.op === '+' || node.op === '-'))
    return refuse(check, 'percent-of-cell', node.at, { ...parts, op: node.op });
  if (l === STITCH && r === ROW)
    return refuse(check, 'rows-with-stitches', node.at, {
      ...parts,
      rate: '1 st / 2 row',
      turned: words(check, node.right),
    });
  if (l === ROW && r === STITCH)
    return refuse(check, 'rows-with-stitches', node.at, {
      ...parts,
      rate: '2 row / 1 st',
      turned: words(check, node.right),
    });
  const pair = [l, r];
  if (pair.includes(LENGTH) && (pair.includes(STITCH) || pair.includes(ROW)))
    return refuse(check, 'length-with-count', node.at, parts);
  if (pair.includes(LENGTH) && pair.includes(PLAIN))
    return refuse(check, 'length-with-number', node.at, parts);
  if (pair.includes(PLAIN) && (pair.includes(STITCH) || pair.includes(ROW)) && ![left, right].some(isPercent))
    return refuse(check, 'count-with-number', node.at, {
      ...parts,
      number: words(check, l === PLAIN ? node.left : node.right),
      unit: pair.includes(STITCH) ? 'st' : 'row',
    });
  return refuse(check, 'unlike', node.at, parts);
}

/** A percentage written out after + or − scales what is before it: `chest - 10%`. */
function scalesBy(node: Node & { kind: 'binary' }, left: Type): boolean {
  return node.right.kind === 'literal' && node.right.percent && !isPercent(left);
}

function sumType(check: Check, node: Node & { kind: 'binary' }, left: Type, right: Type): Type {
  if (scalesBy(node, left))
    return left.kind === 'quantity'
      ? quantity(left.dimension, false, left.shown)
      : expectQuantity(check, node.left, left);
  if (left.kind === 'date' || right.kind === 'date') return dateSum(check, node, left, right);
  if (left.kind === 'unknown')
    return right.kind === 'unknown' ? UNKNOWN : expectQuantity(check, node.right, right);
  if (right.kind === 'unknown') return expectQuantity(check, node.left, left);
  if (left.kind !== 'quantity') return expectQuantity(check, node.left, left);
  if (right.kind !== 'quantity') return expectQuantity(check, node.right, right);
  if (left.dimension !== right.dimension) return unlike(check, node, left, right);
  return quantity(left.dimension, left.decided && right.decided, left.shown ?? right.shown);
}

function dateSum(check: Check, node: Node & { kind: 'binary' }, left: Type, right: Type): Type {
  if (left.kind === 'unknown' || right.kind === 'unknown')
    return left.kind === 'date' && right.kind === 'unknown' ? UNKNOWN : DATE;
  if (left.kind === 'date' && right.kind === 'date' && node.op === '-') return quantity(TIME, false, DAYS);
  const [date, time] = left.kind === 'date' ? [left, right] : [right, left];
  const inOrder = node.op === '+' || left.kind === 'date';
  if (date.kind === 'date' && time.kind === 'quantity' && time.dimension === TIME && inOrder) return DATE;
  return refuse(check, 'date-sum', node.at, {
    left: words(check, node.left),
    right: words(check, node.right),
  });
}

const DAYS = { label: 'day', factor: 1440, dimension: TIME };

function expectQuantity(check: Check, node: Node, type: Type): Type {
  if (type.kind === 'quantity' || type.kind === 'unknown') return type;
  return refuse(check, 'not-a-number', node.at, { what: words(check, node), kind: typeInWords(type) });
}

function productType(check: Check, node: Node & { kind: 'binary' }, left: Type, right: Type): Type {
  const [l, r] = [expectQuantity(check, node.left, left), expectQuantity(check, node.right, right)];
  if (l.kind !== 'quantity' || r.kind !== 'quantity') return UNKNOWN;
  if (node.op === '/') {
    const isGauge = l.shown?.label === 'rnd' && r.dimension === LENGTH;
    return quantity(divided(l.dimension, r.dimension), false, isGauge ? readUnit('rnd / 10 cm') : undefined);
  }
  const dimension = multiplied(l.dimension, r.dimension);
  const whole = isDecided(l) && isDecided(r) && (isPlain(l) || isPlain(r));
  // A length by a gauge that was typed in rounds is rounds.
  const inRounds = dimension === ROW && [l, r].some((side) => side.shown?.label.startsWith('rnd'));
  const rounds = inRounds ? readUnit('rnd') : undefined;
  const shown = isPlain(r) ? (isPlain(l) ? undefined : l.shown) : isPlain(l) ? r.shown : rounds;
  return quantity(dimension, whole, shown);
}

/** The number a tree of literals is, for an exponent. */
function constant(node: Node): number | undefined {
  if (node.kind === 'literal' && node.shown.label === '') return node.value;
  if (node.kind === 'minus') {
    const of = constant(node.of);
    return of === undefined ? undefined : -of;
  }
  if (node.kind === 'binary' && node.op === '/') {
    const [above, under] = [constant(node.left), constant(node.right)];
    return above !== undefined && under ? above / under : undefined;
  }
  return undefined;
}

function powerType(check: Check, node: Node & { kind: 'binary' }, left: Type): Type {
  const of = expectQuantity(check, node.left, left);
  if (of.kind !== 'quantity') return UNKNOWN;
  const exponent = constant(node.right);
  if (exponent === undefined || !Number.isInteger(exponent * 2) || Math.abs(exponent) > 20)
    return refuse(check, 'power', node.right.at, { what: words(check, node.right) });
  const dimension = raised(of.dimension, exponent);
  if (dimension === undefined)
    return refuse(check, 'power', node.right.at, { what: words(check, node.right) });
  return quantity(
    dimension,
    of.decided && of.dimension === PLAIN && Number.isInteger(exponent) && exponent >= 0,
  );
}

function comparison(check: Check, node: Node & { kind: 'binary' }, left: Type, right: Type): Type {
  if (left.kind === 'unknown' || right.kind === 'unknown') return TRUTH;
  const equality = node.op === '==' || node.op === '!=';
  const alike = left.kind === right.kind && (left.kind === 'quantity' || left.kind === 'date' || equality);
  if (!alike || left.kind === 'plan') {
    refuse(check, 'compare-unlike', node.at, offer(left, right, check, node));
  } else if (left.dimension !== right.dimension) unlike(check, node, left, right);
  return TRUTH;
}

function expectTruth(check: Check, node: Node, type: Type): void {
  if (type.kind !== 'truth' && type.kind !== 'unknown')
    refuse(check, 'not-a-truth', node.at, { what: words(check, node), kind: typeInWords(type) });
}

function binaryType(check: Check, node: Node & { kind: 'binary' }, left: Type, right: Type): Type {
  switch (node.op) {
    case '+':
    case '-':
      return sumType(check, node, left, right);
    case '*':
    case '/':
      return productType(check, node, left, right);
    case '^':
      return powerType(check, node, left);
    case 'and':
    case 'or':
      expectTruth(check, node.left, left);
      expectTruth(check, node.right, right);
      return TRUTH;
    default:
      return comparison(check, node, left, right);
  }
}

function conditionType(check: Check, node: Node & { kind: 'if' }, test: Type, yes: Type, no: Type): Type {
  expectTruth(check, node.test, test);
  if (yes.kind === 'unknown') return no;
  if (no.kind === 'unknown') return yes;
  if (yes.kind !== no.kind || yes.dimension !== no.dimension)
    return refuse(check, 'arms-unlike', node.at, { yes: typeInWords(yes), no: typeInWords(no) });
  if (yes.kind !== 'quantity') return yes;
  return quantity(yes.dimension, yes.decided && no.decided === true, yes.shown ?? no.shown);
}

const SINGLE: Partial<Record<Accepts, readonly Dimension[]>> = {
  plain: [PLAIN, STITCH],
  stitches: [STITCH, PLAIN],
  rows: [ROW, PLAIN],
  length: [LENGTH],
  time: [TIME],
  number: [PLAIN],
};
const WANTED: Record<Accepts, string> = {
  quantity: 'a number',
  same: 'the same kind as the first',
  count: 'a count (stitches, rows or a plain number)',
  plain: 'a plain number or stitches',
  stitches: 'stitches',
  rows: 'rows',
  length: 'a length',
  time: 'a time',
  number: 'a number without a unit',
  truth: 'a yes or no',
  label: 'a label in quotes',
  date: 'a date',
  plan: 'a plan',
  anything: 'anything',
};

function fits(accepts: Accepts, type: Type, first: Type | undefined): boolean {
  if (type.kind === 'unknown' || accepts === 'anything') return true;
  if (accepts === 'same') {
    if (!first || first.kind === 'unknown') return true;
    return first.kind === type.kind && first.dimension === type.dimension;
  }
  if (type.kind !== 'quantity') return accepts === type.kind;
  if (accepts === 'quantity') return true;
  if (accepts === 'count') return isCount(type.dimension);
  return SINGLE[accepts]?.includes(type.dimension) ?? false;
}

function checkArgument(
  check: Check,
  spec: FunctionSpec,
  parameter: Parameter,
  node: Node,
  arg: Known,
  first: Type | undefined,
): void {
  const parts = {
    function: spec.name,
    parameter: parameter.name,
    what: words(check, node),
    kind: typeInWords(arg.type),
    wanted: WANTED[parameter.accepts],
  };
  if (!fits(parameter.accepts, arg.type, first)) {
    const rounding = parameter.accepts === 'count' && arg.type.dimension === LENGTH;
    refuse(check, rounding ? 'length-to-count' : 'argument-kind', node.at, parts);
  } else if (parameter.each && !arg.each && (arg.type.kind !== 'unknown' || !check.scope.columns)) {
    refuse(check, check.scope.columns ? 'needs-each' : 'no-columns', node.at, {
      ...parts,
      heading: check.scope.heading,
    });
  } else if (!parameter.each && arg.each && spec.kind === 'run' && !spec.givesEach) {
    refuse(check, 'needs-single', node.at, { ...parts, heading: check.scope.heading });
  }
}

function wrongNumber(check: Check, spec: FunctionSpec, node: Node & { kind: 'call' }): boolean {
  const least = spec.parameters.filter((p) => !p.optional).length;
  if (node.args.length >= least && node.args.length <= spec.parameters.length) return false;
  const list = spec.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ');
  refuse(check, node.args.length < least ? 'too-few-arguments' : 'too-many-arguments', node.at, {
    function: spec.name,
    list,
    count: node.args.length,
  });
  return true;
}

function givenType(spec: FunctionSpec, args: readonly Known[]): Type {
  const first = args[0]?.type ?? UNKNOWN;
  switch (spec.gives) {
    case 'first': {
      if (first.kind !== 'quantity') return first;
      const passes = args.every(
        (a, i) => spec.parameters[i]?.accepts === 'label' || a.type.kind === 'unknown' || isDecided(a.type),
      );
      const decided = spec.decided ?? (spec.kind === 'run' ? isDecided(first) : passes);
      return quantity(first.dimension, decided, first.shown);
    }
    case 'root': {
      const root = first.kind === 'quantity' ? raised(first.dimension, 0.5) : undefined;
      return root === undefined ? UNKNOWN : quantity(root);
    }
    case 'ratio': {
      const second = args[1]?.type ?? UNKNOWN;
      return first.kind === 'quantity' && second.kind === 'quantity'
        ? quantity(divided(first.dimension, second.dimension))
        : UNKNOWN;
    }
    case 'stitches':
      return quantity(STITCH, spec.decided ?? true);
    case 'rows':
      return quantity(ROW, spec.decided ?? true);
    case 'number':
      return quantity(PLAIN, spec.decided ?? false);
    default:
      return { kind: spec.gives, shown: args.find(({ type }) => type.shown?.label === 'rnd')?.type.shown };
  }
}

/** What other sheets and languages call some of our functions. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  round: 'whole',
  ceil: 'whole_up',
  ceiling: 'whole_up',
  roundup: 'whole_up',
  floor: 'whole_down',
  rounddown: 'whole_down',
  mround: 'multiple',
  sum: 'total',
};

function callOf(check: Check, node: Node & { kind: 'call' }): Known {
  const spec = check.scope.spec(node.name);
  const args = node.args.map((arg) => check_(check, arg));
  if (!spec) {
    const near = ELSEWHERE[node.name.toLowerCase()] ?? nearest(node.name, check.scope.specNames());
    const isCell = check.scope.cell(node.name) !== undefined;
    const code = isCell ? 'cell-with-brackets' : near ? 'unknown-function-near' : 'unknown-function';
    refuse(
      check,
      code,
      [node.at[0], node.at[0] + node.name.length],
      near ? { name: node.name, near } : { name: node.name },
    );
    return NOTHING;
  }
  const bad = check.problems.length;
  if (!wrongNumber(check, spec, node))
    args.forEach((arg, i) => {
      const parameter = spec.parameters[i];
      if (parameter) checkArgument(check, spec, parameter, node.args[i] as Node, arg, args[0]?.type);
    });
  if (spec.kind === 'given' && node.args[0]?.kind !== 'cell')
    refuse(check, 'given-needs-cell', node.at, { what: node.args[0] ? words(check, node.args[0]) : '' });
  const each = spec.kind === 'run' ? (spec.givesEach ?? false) : args.some((a) => a.each);
  return { type: check.problems.length > bad ? UNKNOWN : givenType(spec, args), each };
}

/** Whether a typed value is a count that is whole: it is decided. */
export function isWholeCount(dimension: Dimension, value: number): boolean {
  return isCount(dimension) && Number.isInteger(snapped(value));
}

function literalType(check: Check, node: Node & { kind: 'literal' }): Type {
  const { shown } = node;
  const { money } = check.scope;
  if (money && /\p{Sc}/u.test(shown.label) && !shown.label.includes(money))
    return refuse(check, 'other-money', node.at, { sign: shown.label, money });
  const whole = !node.percent && isWholeCount(shown.dimension, node.value);
  return quantity(shown.dimension, whole, shown.label === '' ? undefined : shown);
}

function toType(check: Check, node: Node & { kind: 'to' }, of: Type): Type {
  if (of.kind === 'unknown') return UNKNOWN;
  if (of.kind !== 'quantity' || of.dimension !== node.shown.dimension)
    return refuse(check, 'to-unlike', node.at, {
      what: words(check, node.of),
      kind: typeInWords(of),
      unit: node.shown.label,
    });
  return quantity(of.dimension, of.decided, node.shown);
}

function check_(check: Check, node: Node): Known {
  if (node.kind === 'cell') return cellOf(check, node);
  if (node.kind === 'call') return callOf(check, node);
  if (node.kind === 'literal') return { type: literalType(check, node), each: false };
  const parts = below(node).map((child) => check_(check, child));
  const each = parts.some((p) => p.each);
  const [a = UNKNOWN, b = UNKNOWN, c = UNKNOWN] = parts.map((p) => p.type);
  return { type: typeOf(check, node, a, b, c), each };
}

function typeOf(
  check: Check,
  node: Exclude<Node, { kind: 'cell' | 'call' | 'literal' }>,
  a: Type,
  b: Type,
  c: Type,
): Type {
  switch (node.kind) {
    case 'truth':
      return TRUTH;
    case 'label':
      return LABEL;
    case 'date':
      return DATE;
    case 'binary':
      return binaryType(check, node, a, b);
    case 'minus':
      return expectQuantity(check, node.of, a);
    case 'not':
      expectTruth(check, node.of, a);
      return TRUTH;
    case 'if':
      return conditionType(check, node, a, b, c);
    case 'to':
      return toType(check, node, a);
  }
}

/** The type of a tree, whether it is one value for each column, and every problem in it. */
export function checkTree(text: string, tree: Node, scope: Scope): Checked {
  const check: Check = { text, scope, problems: [] };
  const { type, each } = check_(check, tree);
  return { type: check.problems.length > 0 ? UNKNOWN : type, each, problems: check.problems };
}
