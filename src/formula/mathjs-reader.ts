/*
 * The mathjs parser, and what of its trees is looked at. It is more than a third of what the page would fetch at first,
 * so only the reader imports this file: `reader.ts` at once, `reader-later.ts` when the sheet has been shown.
 */

import { create, parseDependencies } from 'mathjs/number';

/** The part of a mathjs node that is looked at here. */
export interface MathNode {
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

let parse: ((text: string) => MathNode) | undefined;

/** The mathjs tree of a row of stand-ins. Throws where mathjs can make none of it. */
export function readWithMathjs(text: string): MathNode {
  parse ??= (create(parseDependencies as never) as unknown as { parse: (text: string) => MathNode }).parse;
  return parse(text);
}
