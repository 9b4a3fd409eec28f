/*
 * How a row of stand-ins is grouped: "v0 + v1 * v2 " is v0 + (v1 * v2). The mathjs parser says so, once for each
 * shape: thousands of formulas have a few dozen shapes between them, as names, numbers and units are stand-ins.
 */

import { create, parseDependencies } from 'mathjs/number';
import { memo } from '../quantity/index.ts';

/** A stand-in by its number, or a group. */
export type Grouping = number | Group;

/** An operator, a call ("f0"), a condition ("?") or comparisons in a chain ("chain"), with its parts. */
export interface Group {
  readonly what: string;
  readonly parts: readonly Grouping[];
}

/** The part of a mathjs node that is looked at here. */
interface MathNode {
  readonly type: string;
  readonly name?: string;
  readonly content?: MathNode;
  readonly op?: string;
  readonly args?: readonly MathNode[];
  readonly params?: readonly MathNode[];
  readonly fn?: { readonly name?: string };
  readonly condition?: MathNode;
  readonly trueExpr?: MathNode;
  readonly falseExpr?: MathNode;
}

let reader: ((text: string) => MathNode) | undefined;

/** The grouping as mathjs has it now. Throws where it cannot be grouped. */
export function groupingAfresh(shape: string): Grouping {
  reader ??= (create(parseDependencies as never) as unknown as { parse: (text: string) => MathNode }).parse;
  return fromNode(reader(shape));
}

const all = (nodes: readonly (MathNode | undefined)[] = []): Grouping[] =>
  nodes.map((node) => fromNode(node as MathNode));

function fromNode(node: MathNode): Grouping {
  switch (node.type) {
    case 'ParenthesisNode':
      return fromNode(node.content as MathNode);
    case 'SymbolNode':
      return standIn(node.name ?? '');
    case 'OperatorNode':
      return { what: node.op ?? '', parts: all(node.args) };
    case 'FunctionNode':
      return { what: node.fn?.name ?? '', parts: all(node.args) };
    case 'ConditionalNode':
      return { what: '?', parts: all([node.condition, node.trueExpr, node.falseExpr]) };
    case 'RelationalNode':
      return { what: 'chain', parts: all(node.params) };
    default:
      throw new Error(`node ${node.type}`);
  }
}

function standIn(name: string): number {
  if (!/^v\d+$/.test(name)) throw new Error(`stand-in ${name}`);
  return Number(name.slice(1));
}

/** So many shapes are remembered, of so many letters each at most: an open notebook has some hundreds of short ones. */
const MOST_SHAPES = 2000;
const LONGEST_SHAPE = 300;
const known = memo<Grouping>(MOST_SHAPES);

/** How a shape is grouped, remembered. Throws where it cannot be grouped. */
export function groupingOf(shape: string): Grouping {
  return shape.length > LONGEST_SHAPE ? groupingAfresh(shape) : known(shape, groupingAfresh);
}
