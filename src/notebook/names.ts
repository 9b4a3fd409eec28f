/** What may be a cell's name, a column's label or an id. Names of units are the formula reader's business, not the file's. */
import { limits } from './limits.ts';

const PLAIN = /^[\x20-\x7e]*$/;
const NAME = /^\p{L}[\p{L}\p{M}\p{Nd}_]*$/u;
const ID = /^[A-Za-z0-9_-]+$/;

/** The form a name is kept in: composed (NFC). */
export const normalName = (name: string): string => (PLAIN.test(name) ? name : name.normalize('NFC'));

/** Two names with the same key cannot stand in one notebook: they differ in case at most. Holds for labels too. */
export const nameKey = (name: string): string => normalName(name).toLowerCase();

/** Whether a text can be a cell's name: a letter of any script, then letters, digits and `_`. */
export const isName = (name: string): boolean =>
  name.length <= limits.name && NAME.test(name) && normalName(name) === name;

/** Whether a text can be a column's label: 1 to 24 characters, no quote mark, nothing that ends a line. */
export const isLabel = (label: string): boolean =>
  label.length >= 1 && label.length <= limits.label && label.trim() === label && !/["\p{Cc}]/u.test(label);

/** Whether a text can be an id: a few plain characters, and no word that every object already answers to. */
export const isId = (id: string): boolean =>
  id.length <= limits.id && ID.test(id) && !(id in Object.prototype);

/** The nearest thing to a name in a text: "Finished chest!" gives "Finished_chest"; "cell" when there is nothing. */
export function nameFrom(text: string): string {
  const words = normalName(text.slice(0, 4 * limits.name))
    .replace(/[^\p{L}\p{M}\p{Nd}_]+/gu, '_')
    .replace(/^[^\p{L}]+|_+$/gu, '')
    .slice(0, limits.name);
  const name = normalName(words.replace(/[\uD800-\uDBFF]$/u, ''));
  return isName(name) ? name : 'cell';
}

/** The nearest thing to a label in a text; "column" when there is nothing. */
export function labelFrom(text: string): string {
  const label = text
    .slice(0, 4 * limits.label)
    .replace(/["\p{Cc}]+/gu, ' ')
    .trim()
    .slice(0, limits.label)
    .replace(/[\uD800-\uDBFF]$/, '')
    .trim();
  return isLabel(label) ? label : 'column';
}

/** The name with a number behind it, within the limit: `sleeve_2` for a name, `S 2` for a label. */
export function numbered(name: string, number: number, joiner: '_' | ' '): string {
  const tail = `${joiner}${number}`;
  const room = (joiner === '_' ? limits.name : limits.label) - tail.length;
  return normalName(name.slice(0, room).replace(/[\uD800-\uDBFF]$/, '') + tail);
}

/** The name itself when its key is free, else the first free of `name_2`, `name_3` … (for labels, a space: "S 2"). */
export function freeName(name: string, taken: ReadonlySet<string>, joiner: '_' | ' ' = '_'): string {
  let free = name;
  for (let number = 2; taken.has(nameKey(free)); number++) free = numbered(name, number, joiner);
  return free;
}
