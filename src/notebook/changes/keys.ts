/** Reading the keys that several kinds of change share. */
import { limits } from '../limits.ts';
import { isId } from '../names.ts';
import { isRecord, record } from '../record.ts';
import { Shape } from '../shape.ts';

/** An id; undefined, with a remark, when it could not be one. */
export function readId(shape: Shape, key: string): string | undefined {
  const id = shape.text(key, limits.id);
  return id === undefined || isId(id) ? id : shape.wrong(shape.at(key), 'an id', id);
}

/** A place in a list, from 0. */
export const readIndex = (shape: Shape, key: string): number | undefined => shape.count(key, 0, limits.bytes);

/** A text, or null for "take it away". */
export function readTextOrNull(shape: Shape, key: string, most: number): string | null | undefined {
  return shape.value(key) === null ? null : shape.text(key, most);
}

/** A group of formulas by id: texts of columns, or of cells. Empty texts are left out. */
export function readTexts(
  shape: Shape | undefined,
  most: number,
): Readonly<Record<string, string>> | undefined {
  if (shape === undefined) return undefined;
  return record(
    shape.entries(most).flatMap(([id, value]) => {
      const text = shape.formula(value, shape.at(id));
      return text === undefined || text === '' ? [] : [[id, text] as const];
    }),
  );
}

/** A group of groups by id, each read with `read`; those that cannot be read are left out. */
export function readById<T>(shape: Shape | undefined, most: number, read: (group: Shape) => T | undefined) {
  if (shape === undefined) return undefined;
  return record(
    shape.entries(most).flatMap(([id, value]) => {
      const path = shape.at(id);
      const made = isRecord(value)
        ? read(new Shape(value, path, shape.remarks))
        : shape.wrong(path, 'a group', value);
      return made === undefined ? [] : [[id, made] as const];
    }),
  );
}
