/*
 * What a formula says, as a tree. The tree is ours: mathjs only groups the operators, and its nodes are turned into
 * these at once, each with the place it stands at in the text.
 */

import type { Shown } from '../quantity/index.ts';

/** From and to, in characters of the text. */
export type Place = readonly [from: number, to: number];

export type Operator = '+' | '-' | '*' | '/' | '^' | '<' | '>' | '<=' | '>=' | '==' | '!=' | 'and' | 'or';

export type Node =
  /** A number with its unit, in base units. `percent`: it was written as a percentage. */
  | {
      readonly kind: 'literal';
      readonly value: number;
      readonly shown: Shown;
      readonly percent: boolean;
      readonly at: Place;
    }
  | { readonly kind: 'truth'; readonly value: boolean; readonly at: Place }
  | { readonly kind: 'label'; readonly text: string; readonly at: Place }
  | { readonly kind: 'date'; readonly day: number; readonly at: Place }
  | { readonly kind: 'cell'; readonly name: string; readonly at: Place }
  | { readonly kind: 'call'; readonly name: string; readonly args: readonly Node[]; readonly at: Place }
  | {
      readonly kind: 'binary';
      readonly op: Operator;
      readonly left: Node;
      readonly right: Node;
      readonly at: Place;
    }
  | { readonly kind: 'minus' | 'not'; readonly of: Node; readonly at: Place }
  | { readonly kind: 'if'; readonly test: Node; readonly yes: Node; readonly no: Node; readonly at: Place }
  /** `of to unit`: the same value, shown in another unit. */
  | { readonly kind: 'to'; readonly of: Node; readonly shown: Shown; readonly at: Place };

/** The nodes directly below one. */
export function below(node: Node): readonly Node[] {
  switch (node.kind) {
    case 'call':
      return node.args;
    case 'binary':
      return [node.left, node.right];
    case 'minus':
    case 'not':
    case 'to':
      return [node.of];
    case 'if':
      return [node.test, node.yes, node.no];
    default:
      return [];
  }
}

/** Calls `see` for a node and everything below it, in the order of the text. */
export function walk(node: Node, see: (node: Node) => void): void {
  see(node);
  for (const child of below(node)) walk(child, see);
}
