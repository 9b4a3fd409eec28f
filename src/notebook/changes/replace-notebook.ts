/** The whole notebook is replaced: its file edited by hand, or an old version brought back. It stays the same notebook. */
import type { Notebook } from '../document.ts';
import { readNotebook } from '../read.ts';
import { isRefused } from '../remark.ts';
import { writeNotebook } from '../write.ts';
import type { AnyChange, ChangeKind } from './kind.ts';

export interface ReplaceNotebook extends AnyChange {
  readonly kind: 'replace_notebook';
  /** What takes its place; the id stays. */
  readonly notebook: Notebook;
  /** Why: "edit the file", "bring back Tuesday evening". */
  readonly why: string;
}

export const replaceNotebook: ChangeKind<ReplaceNotebook> = {
  kind: 'replace_notebook',
  title: ({ why }) => why,
  apply: (old, { notebook }) => ({ ...notebook, id: old.id }),
  invert: (old, { kind, why }) => ({ kind, notebook: old, why }),
  toJSON: ({ kind, notebook, why }) => ({ kind, notebook: writeNotebook(notebook), why }),

  fromJSON(shape) {
    const text = shape.value('notebook');
    const why = shape.text('why', 200);
    const read = typeof text === 'string' ? readNotebook(text) : undefined;
    if (read === undefined || isRefused(read) || read.readOnly || why === undefined) return undefined;
    for (const { code, path, parts } of read.remarks) shape.remarks.add(code, path, parts);
    return { kind: 'replace_notebook', notebook: read.notebook, why };
  },
};
