/** Ids: a letter for the kind of thing, then eight characters that are hard to mistake for one another. */

/** n notebook, s section, k cell, c column, d drawing, t step, v version, r trial. */
export type IdLetter = 'n' | 's' | 'k' | 'c' | 'd' | 't' | 'v' | 'r';

const CHARACTERS = '23456789bcdfghjkmnpqrstvwxz';

/** A new id from a source of numbers in [0, 1). Eight of 27 characters: two in a notebook will not meet by chance. */
export function newId(random: () => number, letter: IdLetter): string {
  let id: string = letter;
  for (let i = 0; i < 8; i++) id += CHARACTERS[Math.floor(random() * CHARACTERS.length)] ?? '2';
  return id;
}

/** The first of `k1`, `k2` … that is not taken; for ids that a file lacks, so that reading it twice gives the same. */
export function firstFreeId(letter: IdLetter, taken: ReadonlySet<string>, from = 1): string {
  for (let number = from; ; number++) {
    const id = `${letter}${number}`;
    if (!taken.has(id)) return id;
  }
}

/** An id made from a text alone: for a notebook whose file has none. */
export function idFromText(text: string, letter: IdLetter): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  let id: string = letter;
  for (let i = 0; i < 6; i++) {
    id += CHARACTERS[hash % CHARACTERS.length] ?? '2';
    hash = Math.floor(hash / CHARACTERS.length);
  }
  return id;
}
