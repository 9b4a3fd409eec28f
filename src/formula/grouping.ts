/*
 * How a row of stand-ins is grouped: "v0 + v1 * v2 " is v0 + (v1 * v2). The mathjs parser says so, once for each
 * shape: thousands of formulas have a few dozen shapes between them, as names, numbers and units are stand-ins. In the
 * built page the shapes of the prebuilt notebooks are known beforehand, written down as the parser grouped them.
 */

import type { MathNode } from './mathjs-reader.ts';
import { known, reader } from './reader.ts';

/** A stand-in by its number, or a group. */
export type Grouping = number | Group;

/** An operator, a call ("f0"), a condition ("?") or comparisons in a chain ("chain"), with its parts. */
export interface Group {
  readonly what: string;
  readonly parts: readonly Grouping[];
}

/** The parser is still to come, and the shape is none of those known without it. */
export class NotYet extends Error {}

/** The grouping as mathjs has it now. Throws where it cannot be grouped, and `NotYet` where the parser is to come. */
export function groupingAfresh(shape: string): Grouping {
  const read = reader();
  if (!read) throw new NotYet(shape);
  return fromNode(read(shape));
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
const remembered = new Map<string, Grouping>();

/** The shapes met so far, with how each is grouped. */
export const seen = (): ReadonlyMap<string, Grouping> => remembered;

/** How a shape is grouped, remembered. Throws where it cannot be grouped, and `NotYet` where the parser is to come. */
export function groupingOf(shape: string): Grouping {
  if (shape.length > LONGEST_SHAPE) return groupingAfresh(shape);
  let grouping = remembered.get(shape);
  if (grouping === undefined) {
    grouping = written(shape);
    if (remembered.size >= MOST_SHAPES) remembered.clear();
    remembered.set(shape, grouping);
  }
  return grouping;
}

function written(shape: string): Grouping {
  const text = Object.hasOwn(known, shape) ? known[shape] : undefined;
  return text === undefined ? groupingAfresh(shape) : readGrouping(text);
}

/** A grouping as a text, each group after its parts: "0 1 2 *'2 +'2" is v0 + (v1 * v2). */
export function writeGrouping(grouping: Grouping): string {
  if (typeof grouping === 'number') return String(grouping);
  return [...grouping.parts.map(writeGrouping), `${grouping.what}'${grouping.parts.length}`].join(' ');
}

/** Reads what `writeGrouping` wrote. Throws where it is none. */
export function readGrouping(text: string): Grouping {
  const stack: Grouping[] = [];
  for (const word of text.split(' ')) {
    const [what = '', count] = word.split("'");
    if (count === undefined) stack.push(Number(what));
    else stack.push({ what, parts: stack.splice(stack.length - Number(count)) });
  }
  const [whole] = stack;
  if (whole === undefined || stack.length > 1) throw new Error(`grouping ${text}`);
  return whole;
}
