/** The keys of the sheet, in words: the help page and the README print them. What hears them is `grid/keys.ts`. */

/** Keys, and what they do. */
export type KeyTold = readonly [keys: string, does: string];

/** The keys where she stands in the sheet, and those while she writes. */
export const sheetKeys: readonly KeyTold[] = [
  ['arrows', 'to the next row or column'],
  ['Ctrl down, Ctrl up', 'to the next section’s heading, to the one before'],
  ['Page Down, Page Up', 'twelve rows on, twelve rows back'],
  ['Home, End', 'to the row’s name, to its end; with Ctrl to the first row, to the last'],
  ['Enter or F2', 'writes in what is there; on a column’s head it makes the column yours'],
  ['a letter or a digit', 'writes over a value or a name'],
  ['+ and −', 'move a typed value by a step, with Shift by ten; nothing is kept yet'],
  ['Esc', 'goes back on what is tried; while you write it leaves all as it was'],
  ['Space', 'how it’s worked out'],
  ['Alt Enter', 'what would have to change'],
  ['Delete', 'empties a value; on a name it takes the row away'],
  ['Insert or Ctrl Enter', 'adds a row below'],
  ['Alt down, Alt up', 'moves the row'],
  ['Shift with down or up', 'marks rows; Ctrl C copies them as a table, Ctrl V puts a table in as rows'],
  ['Shift F10', 'what else can be done with a row, a section or a column'],
  ['Ctrl Z, Ctrl Y', 'undo, redo'],
  ['Tab', 'while you write: on to the next column; else out of the sheet'],
  ['down and up, while you write', 'a typed value a step less or more, with Shift ten'],
];
