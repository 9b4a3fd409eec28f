/** A cell's text is changed: its one text, its texts by column, or the text in one column. */
import type { Cell, Notebook } from '../document.ts';
import { limits } from '../limits.ts';
import { own, withEntry } from '../record.ts';
import { refuse } from '../remark.ts';
import { inOrder } from '../settle.ts';
import { readId, readTexts } from './keys.ts';
import { type AnyChange, type ChangeKind, spoken } from './kind.ts';
import { cellTitle, findCell, withCell } from './places.ts';

/** Exactly one of the three: `text`; `each`; `column` with its `text`. Empty text empties. */
export type SetText = AnyChange & { readonly kind: 'set_text'; readonly cell: string } & (
    | { readonly text: string }
    | { readonly each: Readonly<Record<string, string>> }
    | { readonly column: string; readonly text: string }
  );

export const setText: ChangeKind<SetText> = {
  kind: 'set_text',
  title: ({ cell }, old) => `change ${spoken(cellTitle(old, cell))}`,

  apply(old, change) {
    const cell = findCell(old, change.cell)?.cell;
    if (cell === undefined) return refuse('no_such_cell');
    if (!('column' in change)) return withCell(old, withTexts(old, cell, change));
    if (cell.each === undefined) return refuse('not_by_column', { name: cell.name });
    if (!columnIds(old).includes(change.column)) return refuse('no_such_column', { name: cell.name });
    const each = withEntry(cell.each, change.column, change.text);
    return withCell(old, { ...cell, each: inOrder(each, columnIds(old)) });
  },

  invert(old, change) {
    const cell = findCell(old, change.cell)?.cell;
    const { kind, cell: id } = change;
    if ('column' in change)
      return { kind, cell: id, column: change.column, text: own(cell?.each, change.column) ?? '' };
    return cell?.each === undefined
      ? { kind, cell: id, text: cell?.text ?? '' }
      : { kind, cell: id, each: cell.each };
  },

  toJSON: (change) => change,

  fromJSON(shape) {
    const cell = readId(shape, 'cell');
    if (cell === undefined) return undefined;
    const each = readTexts(shape.group('each'), limits.columns);
    if (each !== undefined) return { kind: 'set_text', cell, each };
    const text = shape.formula(shape.value('text'), shape.at('text'));
    const column = readId(shape, 'column');
    if (text === undefined) return undefined;
    return column === undefined ? { kind: 'set_text', cell, text } : { kind: 'set_text', cell, column, text };
  },
};

const columnIds = (notebook: Notebook): readonly string[] =>
  (notebook.columns?.list ?? []).map(({ id }) => id);

/** The cell with one text or with texts by column, and without the other. */
function withTexts(
  notebook: Notebook,
  cell: Cell,
  texts: { text: string } | { each: Readonly<Record<string, string>> },
): Cell {
  const { text: _text, each: _each, ...rest } = cell;
  return 'each' in texts
    ? { ...rest, each: inOrder(texts.each, columnIds(notebook)) }
    : { ...rest, text: texts.text };
}
