/*
 * A size line with one comma and no blank behind it: 18 (21,5) cm is two sizes, the second with a decimal comma, or three.
 * Where only one of these has as many sizes as there are columns it is meant; otherwise the knitter is asked.
 */

import { readSizeLine } from '../formula/index.ts';

/** One comma in brackets, one or two digits behind it, and nothing else that would set sizes apart. */
const ONE_COMMA = /^([^,;()[\]]*[([][^,;()[\]]*?)(\d+),(\d{1,2})(?!\d)([^,;()[\]]*[)\]][^,;()[\]]*)$/u;

/** What a text says as a size line, for so many columns: its sizes, or what is to be asked of it first. */
export function sizesIn(
  text: string,
  columns: number,
): { readonly sizes?: readonly string[] | undefined; readonly unsure?: string } {
  const line = withPoint(text, columns);
  const unsure = unsureSizes(line, columns);
  return unsure === undefined ? { sizes: readSizeLine(line) } : { unsure };
}

/** The text with a decimal point for its comma where that alone makes as many sizes as there are columns. */
export function withPoint(text: string, columns: number): string {
  const sizes = readSizeLine(text);
  if (sizes === undefined || sizes.length === columns) return text;
  const pointed = text.replace(ONE_COMMA, '$1$2.$3$4');
  return readSizeLine(pointed)?.length === columns ? pointed : text;
}

/** What is asked of a line that can be read both ways; undefined where it cannot. */
export function unsureSizes(text: string, columns: number): string | undefined {
  const sizes = readSizeLine(text);
  if (sizes === undefined || sizes.length === columns) return undefined;
  const [, , whole, part] = ONE_COMMA.exec(text) ?? [];
  if (whole === undefined) return undefined;
  return `“${whole},${part}” can be one size or two: write “${whole}.${part}” for one, or “${whole}, ${part}”, with a space, for two.`;
}
