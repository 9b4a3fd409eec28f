/*
 * Bytes to text. Files of another kind are known by how they begin, so that the refusal can name them; text with a few
 * damaged letters is read, and says so; anything else is no text.
 */
import { limits } from './limits.ts';
import { type Refused, refuse } from './remark.ts';

/** The text, and how many letters could not be read. */
export interface Decoded {
  readonly text: string;
  readonly damaged: number;
}

/** How files of other kinds begin, and what to call them. */
const KINDS: readonly (readonly [start: string, kind: string, skip?: number])[] = [
  ['PK\x03\x04', 'zip'],
  ['PK\x05\x06', 'zip'],
  ['\x89PNG', 'picture'],
  ['\xff\xd8\xff', 'picture'],
  ['GIF8', 'picture'],
  ['RIFF', 'picture'],
  ['BM\x00', 'picture'],
  ['ftyphei', 'picture', 4],
  ['ftypmif', 'picture', 4],
  ['ftypavif', 'picture', 4],
  ['ftyp', 'film', 4],
  ['%PDF', 'pdf'],
  ['\x1f\x8b', 'zip'],
  ['7z\xbc\xaf', 'zip'],
  ['Rar!', 'zip'],
  ['\xd0\xcf\x11\xe0', 'office'],
  ['SQLite format 3', 'database'],
];

/** The text of a file, or why it is none. */
export function decode(input: string | Uint8Array): Decoded | Refused {
  const size = input.length;
  if (size > limits.bytes) return refuse('too_big', { size, limit: limits.bytes });
  if (size === 0) return refuse('empty_file');
  const start =
    typeof input === 'string' ? input.slice(0, 32) : String.fromCharCode(...input.subarray(0, 32));
  const kind = KINDS.find(([begins, , skip = 0]) => start.startsWith(begins, skip))?.[1];
  if (kind !== undefined) return refuse('another_kind', { kind });
  return typeof input === 'string' ? { text: withoutMark(input), damaged: 0 } : fromBytes(input);
}

const withoutMark = (text: string): string => (text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);

function fromBytes(bytes: Uint8Array): Decoded | Refused {
  const text = withoutMark(new TextDecoder(encodingOf(bytes), { ignoreBOM: true }).decode(bytes));
  const damaged = count(text, '\ufffd');
  if (count(text, '\0') > 0 || damaged * 10 > text.length) return refuse('not_text');
  return { text, damaged };
}

/** UTF-8, unless the file's first mark says that it is UTF-16, as some old editors save. */
function encodingOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return 'utf-8';
}

function count(text: string, character: string): number {
  let found = 0;
  for (let at = text.indexOf(character); at >= 0; at = text.indexOf(character, at + 1)) found++;
  return found;
}
