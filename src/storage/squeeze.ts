/*
 * Bytes squeezed into letters that may stand in an address, and back: raw deflate, a checksum before it, base64 with `-` and `_`.
 * The browser's own CompressionStream is used where it is, else fflate, fetched only then.
 */
import { limits, type Refused, refuse } from '../notebook/index.ts';
import { crc32 } from './checksum.ts';

/** Whether the browser can do it itself; tests say no. */
const native = (): boolean => {
  try {
    return typeof DecompressionStream !== 'undefined' && Boolean(new DecompressionStream('deflate-raw'));
  } catch {
    return false;
  }
};

/** The letters for a text. */
export async function squeeze(text: string, byBrowser: boolean = native()): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  const packed = byBrowser
    ? await deflateByBrowser(bytes)
    : (await import('fflate')).deflateSync(bytes, { level: 9 });
  const whole = new Uint8Array(4 + packed.length);
  new DataView(whole.buffer).setUint32(0, crc32(bytes));
  whole.set(packed, 4);
  return toLetters(whole);
}

/** The text in the letters. Refused with `link_letters`, `link_cut`, `link_damaged` or `link_too_big`. */
export async function unsqueeze(letters: string, byBrowser: boolean = native()): Promise<string | Refused> {
  const whole = fromLetters(letters);
  if (whole === undefined) return refuse('link_letters');
  if (whole.length < 6) return refuse('link_cut');
  const inflated = await (byBrowser ? inflateByBrowser : inflateByHand)(whole.subarray(4));
  if (!(inflated instanceof Uint8Array)) return inflated;
  const expected = new DataView(whole.buffer, whole.byteOffset).getUint32(0);
  return crc32(inflated) === expected ? new TextDecoder().decode(inflated) : refuse('link_damaged');
}

function toLetters(bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

function fromLetters(letters: string): Uint8Array | undefined {
  if (!/^[A-Za-z0-9_-]*$/.test(letters) || letters.length > 3 * limits.unfolded) return undefined;
  // One letter over is half a byte: the end has been cut.
  const even = letters.length % 4 === 1 ? letters.slice(0, -1) : letters;
  const binary = atob(even.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}

async function deflateByBrowser(bytes: Uint8Array): Promise<Uint8Array> {
  const stream = new Blob([bytes as BlobPart]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

async function inflateByBrowser(packed: Uint8Array): Promise<Uint8Array | Refused> {
  const stream = new Blob([packed as BlobPart]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  const reader = stream.getReader();
  const pile = new Pile();
  try {
    for (let read = await reader.read(); !read.done; read = await reader.read()) {
      if (pile.add(read.value)) continue;
      reader.cancel().catch(() => undefined);
      return refuse('link_too_big', { limit: limits.unfolded });
    }
    return pile.bytes();
  } catch {
    // The browser does not say whether the end was missing or a letter was wrong.
    return refuse('link_cut');
  }
}

async function inflateByHand(packed: Uint8Array): Promise<Uint8Array | Refused> {
  const { Inflate } = await import('fflate');
  const pile = new Pile();
  let ended = false;
  let fits = true;
  const inflate = new Inflate((piece, last) => {
    fits &&= pile.add(piece);
    ended = last;
  });
  try {
    // In small pieces, so that what unfolds without end is stopped early.
    for (let at = 0; at < packed.length && fits; at += 1024) {
      inflate.push(packed.subarray(at, at + 1024), at + 1024 >= packed.length);
    }
  } catch {
    return refuse('link_cut');
  }
  if (!fits) return refuse('link_too_big', { limit: limits.unfolded });
  return ended ? pile.bytes() : refuse('link_cut');
}

/** Pieces gathered, up to the limit. */
class Pile {
  readonly #pieces: Uint8Array[] = [];
  #size = 0;

  /** Takes a piece in; false when there is no more room. */
  add(piece: Uint8Array): boolean {
    this.#pieces.push(piece);
    this.#size += piece.length;
    return this.#size <= limits.unfolded;
  }

  bytes(): Uint8Array {
    const bytes = new Uint8Array(this.#size);
    let at = 0;
    for (const piece of this.#pieces) {
      bytes.set(piece, at);
      at += piece.length;
    }
    return bytes;
  }
}
