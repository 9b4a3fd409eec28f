/** A column gets another label, and every text that quotes it with it. */
import { limits } from '../limits.ts';
import { refuse } from '../remark.ts';
import { present } from '../shape.ts';
import { mayBear } from './add-column.ts';
import { readId } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { type Rewrites, readRewrites, rewrite, rewritesBack, rewritesToJSON } from './rewrites.ts';

export interface RenameColumn extends AnyChange {
  readonly kind: 'rename_column';
  readonly column: string;
  readonly label: string;
  readonly rewrites?: Rewrites;
}

export const renameColumn: ChangeKind<RenameColumn> = {
  kind: 'rename_column',
  title: ({ column, label }, old) =>
    `rename column ${old.columns?.list.find(({ id }) => id === column)?.label ?? ''} to ${label}`,

  apply(old, { column: id, label, rewrites = {} }) {
    const list = old.columns?.list ?? [];
    const column = list.find((one) => one.id === id);
    if (old.columns === undefined || column === undefined) return refuse('no_such_column');
    const refusal = mayBear(
      list.filter((one) => one !== column),
      { id, label },
    );
    const renamed = list.map((one) => (one === column ? { ...one, label } : one));
    return refusal ?? { ...rewrite(old, rewrites), columns: { ...old.columns, list: renamed } };
  },

  invert: (old, { kind, column, rewrites }) =>
    present<RenameColumn>({
      kind,
      column,
      label: old.columns?.list.find(({ id }) => id === column)?.label ?? '',
      rewrites: rewrites && rewritesBack(old, rewrites),
    }),

  toJSON: (change) => ({ ...change, ...(change.rewrites && { rewrites: rewritesToJSON(change.rewrites) }) }),

  fromJSON(shape) {
    const column = readId(shape, 'column');
    const label = shape.text('label', limits.label);
    if (column === undefined || label === undefined) return undefined;
    return present<RenameColumn>({
      kind: 'rename_column',
      column,
      label,
      rewrites: readRewrites(shape.group('rewrites')),
    });
  },
};
