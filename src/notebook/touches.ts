/*
 * What a change touches, as words that can be compared: "cell k1 text c2", "cell k1", "notebook title". Two changes meet
 * when a word of one is a word of the other, or the beginning of it: who deletes a cell meets whoever edits its note.
 */
import type { Change } from './change.ts';

/** The words of a change. */
export function touches(change: Change): readonly string[] {
  switch (change.kind) {
    case 'set_text':
      return [`cell ${change.cell} text${'column' in change ? ` ${change.column}` : ''}`];
    case 'set_cell':
      return Object.keys(change.fields).map((field) => `cell ${change.cell} ${field}`);
    case 'rename_cell':
      return [
        `cell ${change.cell} name`,
        ...Object.keys(change.rewrites?.cells ?? {}).map((id) => `cell ${id} text`),
      ];
    case 'delete_cell':
      return [`cell ${change.cell}`];
    case 'move_cell':
      return [`cell ${change.cell} place`];
    case 'delete_section':
      return [`section ${change.section}`, 'cell'];
    case 'set_section':
      return Object.keys(change.fields).map((field) => `section ${change.section} ${field}`);
    case 'move_section':
      return [`section ${change.section} place`];
    case 'delete_column':
      return [`column ${change.column}`];
    case 'rename_column':
      return [
        `column ${change.column} label`,
        ...Object.keys(change.rewrites?.cells ?? {}).map((id) => `cell ${id} text`),
      ];
    case 'move_column':
      return [`column ${change.column} place`];
    case 'set_chosen':
      return ['notebook chosen'];
    case 'set_notebook':
      return Object.keys(change.fields).map((field) => `notebook ${field}`);
    case 'set_item':
      return [`item ${change.item.id} text`];
    case 'delete_item':
      return [`item ${change.id}`];
    case 'move_item':
      return [`item ${change.id} place`];
    case 'set_progress':
      return ['ticked', 'pinned', 'rows'].flatMap((of) =>
        Object.keys(change[of as 'ticked' | 'pinned' | 'rows'] ?? {}).map((id) =>
          [of, id, change.column].filter((word) => word !== undefined).join(' '),
        ),
      );
    case 'replace_notebook':
      return ['cell', 'section', 'column', 'notebook', 'item', 'ticked', 'pinned', 'rows'];
    case 'together':
      return change.changes.flatMap(touches);
    default:
      // What only adds meets nothing: two additions stand side by side.
      return [];
  }
}

/** Whether two changes touch the same thing. */
export function meet(one: Change, other: Change): boolean {
  const words = touches(one);
  return touches(other).some((word) => words.some((mine) => within(mine, word) || within(word, mine)));
}

const within = (whole: string, part: string): boolean => part === whole || part.startsWith(`${whole} `);
