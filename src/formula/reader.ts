/*
 * Where the mathjs parser comes from: at once, everywhere but in the built page, where `reader-later.ts` stands in the
 * place of this file.
 */

import { type MathNode, readWithMathjs } from './mathjs-reader.ts';

/** Reads a row of stand-ins, if the parser is here. */
export const reader = (): ((text: string) => MathNode) | undefined => readWithMathjs;

/** Fetches the parser. Rejects where it cannot be fetched; may be called again. */
export const fetchReader = (): Promise<void> => Promise.resolve();

/** Calls once when the parser has come, where it is still to come. */
export const whenReader = (_call: () => void): void => undefined;

/** Groupings that are known without the parser, as `writeGrouping` writes them. */
export const known: Readonly<Record<string, string>> = {};
