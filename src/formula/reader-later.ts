/*
 * The mathjs parser, fetched when it is first wanted. The built page has this in the place of `reader.ts`: the shapes of
 * the formulas of prebuilt notebooks are grouped while the page is built, so that the first sheet does not wait for it.
 */

import type { MathNode } from './mathjs-reader.ts';
import { shapes } from './shapes.ts';

let read: ((text: string) => MathNode) | undefined;
let coming: Promise<void> | undefined;
let waiting: (() => void)[] = [];

/** Reads a row of stand-ins, if the parser is here. */
export const reader = (): ((text: string) => MathNode) | undefined => read;

/** Fetches the parser. Rejects where it cannot be fetched; may be called again. */
export function fetchReader(): Promise<void> {
  coming ??= import('./mathjs-reader.ts').then(
    ({ readWithMathjs }) => {
      read = readWithMathjs;
      const calls = waiting;
      waiting = [];
      for (const call of calls) call();
    },
    (error: unknown) => {
      coming = undefined; // The next call tries again.
      throw error;
    },
  );
  return coming;
}

/** Calls once when the parser has come, where it is still to come. */
export function whenReader(call: () => void): void {
  if (read === undefined) waiting.push(call);
}

/** Groupings that are known without the parser, as `writeGrouping` writes them. */
export const known: Readonly<Record<string, string>> = shapes;
