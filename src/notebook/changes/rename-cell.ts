/** A cell is renamed, and every text that names it with it. */
import { limits } from '../limits.ts';
import { isName } from '../names.ts';
import { refuse } from '../remark.ts';
import { present } from '../shape.ts';
import { readId } from './keys.ts';
import { type AnyChange, type ChangeKind, spoken } from './kind.ts';
import { cellTitle, clash, findCell, withCell } from './places.ts';
import { type Rewrites, readRewrites, rewrite, rewritesBack, rewritesToJSON } from './rewrites.ts';

export interface RenameCell extends AnyChange {
  readonly kind: 'rename_cell';
  readonly cell: string;
  readonly name: string;
  readonly rewrites?: Rewrites;
}

export const renameCell: ChangeKind<RenameCell> = {
  kind: 'rename_cell',
  title: ({ cell, name }, old) => `rename ${spoken(cellTitle(old, cell))} to ${spoken(name)}`,

  apply(old, { cell: id, name, rewrites = {} }) {
    const cell = findCell(old, id)?.cell;
    if (cell === undefined) return refuse('no_such_cell');
    if (!isName(name)) return refuse('not_a_name', { name });
    const clashing = clash(old, [{ ...cell, name }], id);
    if (clashing) return clashing;
    const rewritten = rewrite(old, rewrites);
    return withCell(rewritten, { ...(findCell(rewritten, id)?.cell ?? cell), name });
  },

  invert: (old, { kind, cell, rewrites }) =>
    present<RenameCell>({
      kind,
      cell,
      name: findCell(old, cell)?.cell.name ?? '',
      rewrites: rewrites && rewritesBack(old, rewrites),
    }),

  toJSON: (change) => ({ ...change, ...(change.rewrites && { rewrites: rewritesToJSON(change.rewrites) }) }),

  fromJSON(shape) {
    const cell = readId(shape, 'cell');
    const name = shape.text('name', limits.name);
    if (cell === undefined || name === undefined) return undefined;
    return present<RenameCell>({
      kind: 'rename_cell',
      cell,
      name,
      rewrites: readRewrites(shape.group('rewrites')),
    });
  },
};
