/*
 * The mathjs parser, fetched when it is first wanted. The built page has this in the place of `reader.ts`: the shapes of
 * the formulas of prebuilt notebooks are grouped while the page is built, so that the first sheet does not wait for it.
 */

import { createArrival } from '../quantity/index.ts';
import type { MathNode } from './mathjs-reader.ts';
import { shapes } from './shapes.ts';

const parser = createArrival(() => import('./mathjs-reader.ts'));

/** Reads a row of stand-ins, if the parser is here. */
export const reader = (): ((text: string) => MathNode) | undefined => parser.here()?.readWithMathjs;

/** Fetches the parser. Rejects where it cannot be fetched; may be called again. */
export const fetchReader = parser.fetch;

/** Calls once when the parser has come, where it is still to come. */
export const whenReader = parser.when;

/** Groupings that are known without the parser, as `writeGrouping` writes them. */
export const known: Readonly<Record<string, string>> = shapes;
