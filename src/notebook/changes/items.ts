/** Steps and drawings: two lists of things with ids, added, set, moved and deleted alike. */
import type { Drawing, Notebook, Step } from '../document.ts';
import { limits } from '../limits.ts';
import type { Remarks } from '../remark.ts';
import type { Shape } from '../shape.ts';
import { readLoneDrawing, readLoneStep } from '../validate.ts';
import { drawingToJSON, stepToJSON } from '../write.ts';

/** Which list, and what it holds. */
export type Item =
  | { readonly list: 'steps'; readonly item: Step }
  | { readonly list: 'drawings'; readonly item: Drawing };

/** The name of a list. */
export type ListName = Item['list'];

/** The members of a list. */
export const members = (notebook: Notebook, list: ListName): readonly (Step | Drawing)[] => notebook[list];

/** The notebook with another list in its place. */
export const withMembers = (
  notebook: Notebook,
  list: ListName,
  now: readonly (Step | Drawing)[],
): Notebook => ({
  ...notebook,
  [list]: now,
});

/** The most members a list may have. */
export const most = (list: ListName): number => limits[list];

/** "a step", "a drawing". */
export const called = (list: ListName): string => (list === 'steps' ? 'a step' : 'a drawing');

/** Which list a change is about. */
export const readListName = (shape: Shape): ListName | undefined => shape.word('list', ['steps', 'drawings']);

/** The list and the thing that a change carries. */
export function readItem(shape: Shape): Item | undefined {
  const list = readListName(shape);
  const raw = shape.value('item');
  const read: Record<ListName, (value: unknown, remarks: Remarks) => Step | Drawing | undefined> = {
    steps: readLoneStep,
    drawings: readLoneDrawing,
  };
  const item = list && read[list](raw, shape.remarks);
  return item && ({ list, item } as Item);
}

/** The thing as it is kept. */
export const itemToJSON = (one: Item): unknown =>
  one.list === 'steps' ? stepToJSON(one.item) : drawingToJSON(one.item);
