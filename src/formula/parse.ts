/*
 * Text → tree. Our tokeniser and arranger come first and refuse what is not ours; the mathjs parser then groups
 * the operators by its own precedence (`grouping.ts`), and what the stand-ins stand for is put back. mathjs evaluates
 * nothing.
 *
 * Worked example: `chest + 1/2 in` → tokens → operands v0 = chest, v1 = ½ in → mathjs reads "v0 + v1" →
 * { binary '+', cell chest, literal 1270 } with the places of both.
 */

import type { Shown } from '../quantity/index.ts';
import { type Arranged, arrange, type Names } from './arrange.ts';
import { type Grouping, groupingOf, NotYet } from './grouping.ts';
import { type Problem, problem } from './problem.ts';
import { parseSimple } from './simple.ts';
import { readSizeLine } from './size-line.ts';
import { type Token, tokenise } from './token.ts';
import { below, type Node, type Operator, type Place } from './tree.ts';

/** What a text says: a tree, or a problem. `tolerance` is how far off a typed value can be, in base units. */
export type Parsed =
  | { readonly kind: 'empty' }
  | { readonly kind: 'tree'; readonly tree: Node; readonly typed: boolean; readonly tolerance?: Node }
  | { readonly kind: 'problem'; readonly problem: Problem };

const BINARY: ReadonlySet<string> = new Set([
  '+',
  '-',
  '*',
  '/',
  '^',
  '<',
  '>',
  '<=',
  '>=',
  '==',
  '!=',
  'and',
  'or',
]);

/** The code of the problem that a text has until the parser has come. */
export const NOT_YET = 'not-yet';

/** A problem met while turning nodes, carried up past the nodes above it. */
class Refused {
  constructor(readonly problem: Problem) {}
}

const spanning = (a: Node, b: Node): Place => [a.at[0], b.at[1]];

function operatorNode(op: string, [left, right]: readonly Node[]): Node {
  if (!left) throw new Error(`operator without operands: ${op}`);
  if (!right) return { kind: op === 'not' ? 'not' : 'minus', of: left, at: left.at };
  if (op === 'to' && right.kind === 'literal')
    return { kind: 'to', of: left, shown: right.shown, at: spanning(left, right) };
  if (!BINARY.has(op)) throw new Error(`operator ${op}`);
  return { kind: 'binary', op: op as Operator, left, right, at: spanning(left, right) };
}

function callNode(name: string, args: readonly Node[], arranged: Arranged, text: string): Node {
  const call = arranged.calls[Number(name.slice(1))];
  if (!call) throw new Error(`call ${name}`);
  const end = args.at(-1)?.at[1] ?? call.at[1] + 1;
  const closing = text.indexOf(')', end);
  return { kind: 'call', name: call.name, args, at: [call.at[0], closing < 0 ? end : closing + 1] };
}

function conditionNode([test, yes, no]: readonly Node[]): Node {
  if (!test || !yes || !no) throw new Error('a condition without its parts');
  return { kind: 'if', test, yes, no, at: spanning(test, no) };
}

function chained(nodes: readonly Node[], text: string): Refused {
  const [a, b, c] = nodes.map((n) => text.slice(...n.at));
  const at: Place = [nodes[0]?.at[0] ?? 0, nodes.at(-1)?.at[1] ?? 0];
  return new Refused(problem('chained-comparison', { a: a ?? '', b: b ?? '', c: c ?? '' }, at));
}

/** A grouping with what its stand-ins stand for put back. */
function convert(grouping: Grouping, arranged: Arranged, text: string): Node {
  if (typeof grouping === 'number') return arranged.operands[grouping] as Node;
  const { what } = grouping;
  const nodes = grouping.parts.map((part) => convert(part, arranged, text));
  if (what === '?') return conditionNode(nodes);
  if (what === 'chain') throw chained(nodes, text);
  return /^f\d/.test(what) ? callNode(what, nodes, arranged, text) : operatorNode(what, nodes);
}

function grouped(arranged: Arranged, text: string): Node | Problem {
  const [alone] = arranged.operands;
  if (alone && arranged.text === 'v0 ') return alone; // Most typed values are one number: nothing to group.
  try {
    return convert(groupingOf(arranged.text), arranged, text);
  } catch (stop) {
    if (stop instanceof NotYet) return problem(NOT_YET, {});
    return stop instanceof Refused ? stop.problem : problem('unreadable', { text: text.slice(0, 80) });
  }
}

/** Whether a tree uses no cells and no functions; a date made of plain numbers is typed too. */
function isTyped(node: Node): boolean {
  if (node.kind === 'cell') return false;
  if (node.kind === 'call' && node.name !== 'date') return false;
  return below(node).every(isTyped);
}

function treeOf(text: string, tokens: readonly Token[], names: Names): Parsed {
  const arranged = arrange(text, tokens, names);
  if ('code' in arranged) return { kind: 'problem', problem: arranged };
  const tree = grouped(arranged, text);
  if ('code' in tree) return { kind: 'problem', problem: tree };
  const typed = isTyped(tree);
  if (arranged.comma && !typed) {
    const at: Place = [arranged.comma.from, arranged.comma.to];
    return { kind: 'problem', problem: problem('comma-decimal', { point: arranged.comma.text }, at) };
  }
  return { kind: 'tree', tree, typed };
}

/** `18 ± 0.5 st / 4 in`, `41 in ± 1`: a plain number on one side takes the unit written on the other. */
function withUnitOf(value: Node, other: Node): Node {
  const plain = (node: Node): node is Node & { kind: 'literal'; shown: Shown } =>
    node.kind === 'literal' && node.shown.label === '' && !node.percent;
  if (value.kind === 'minus') return { ...value, of: withUnitOf(value.of, other) };
  if (other.kind === 'minus') return withUnitOf(value, other.of);
  if (!plain(value)) return value;
  if (other.kind === 'literal' && !other.percent)
    return { ...value, value: value.value * other.shown.factor, shown: other.shown };
  if (other.kind === 'binary' && other.op === '/') return { ...other, left: withUnitOf(value, other.left) };
  return value;
}

function tolerant(text: string, tokens: readonly Token[], at: number, names: Names): Parsed {
  const mark = tokens[at] as Token;
  const typedOnly: Parsed = {
    kind: 'problem',
    problem: problem('tolerance-typed-only', {}, [mark.from, mark.to]),
  };
  if (tokens.slice(at + 1).some((t) => t.kind === 'plusminus')) return typedOnly;
  const value = treeOf(text, tokens.slice(0, at), names);
  const off = treeOf(text, tokens.slice(at + 1), names);
  if (value.kind !== 'tree' || off.kind !== 'tree')
    return value.kind === 'problem'
      ? value
      : off.kind === 'problem'
        ? off
        : { kind: 'problem', problem: problem('tolerance-needs-value', {}, [mark.from, mark.to]) };
  if (!value.typed || !off.typed) return typedOnly;
  const tree = withUnitOf(value.tree, off.tree);
  return { kind: 'tree', tree, typed: true, tolerance: withUnitOf(off.tree, value.tree) };
}

/** The long way, for any text. */
function parseFresh(text: string, names: Names): Parsed {
  const { tokens, bad } = tokenise(text);
  if (bad) return { kind: 'problem', problem: bad };
  if (tokens.length === 0) return { kind: 'empty' };
  const off = tokens.findIndex((t) => t.kind === 'plusminus');
  const nfc = text.normalize('NFC');
  if (off < 0) return treeOf(nfc, tokens, names);
  if (off === 0 || off === tokens.length - 1) {
    const mark = tokens[off] as Token;
    return { kind: 'problem', problem: problem('tolerance-needs-value', {}, [mark.from, mark.to]) };
  }
  return tolerant(nfc, tokens, off, names);
}

/** Reads a text. Never throws, never hangs; what is wrong comes back as one problem with its place. */
export function parse(text: string, names: Names): Parsed {
  const parsed = parseSimple(text) ?? parseFresh(text, names);
  const sizes = parsed.kind === 'problem' ? readSizeLine(text) : undefined;
  if (!sizes || sizes.length <= 2) return parsed; // Two are as likely a product: 2 (3).
  return {
    kind: 'problem',
    problem: problem('sizes-unlike-columns', { count: sizes.length }, [0, text.length]),
  };
}
