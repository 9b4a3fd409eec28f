/** A notebook as the disk has it: the page and the rows after it, applied. */
import {
  applyChange,
  isRecord,
  isRefused,
  type Notebook,
  type Refused,
  type Remark,
  readNotebook,
  refuse,
} from '../notebook/index.ts';
import type { Disk } from './disk.ts';
import { aboutKey, logPrefix, pageKey, type Row, rowFromJSON } from './log.ts';

/** What the disk gave. */
export interface State {
  readonly notebook: Notebook;
  /** The number of the last change in it. */
  readonly number: number;
  /** The number that the page stands at. */
  readonly page: number;
  /** The rows that are kept, older ones than the page too, for the history. */
  readonly rows: readonly Row[];
  readonly madeAt: number;
  /** Something in it is of a later version: it may be shown, and must not be written. */
  readonly readOnly: boolean;
  readonly remarks: readonly Remark[];
}

/** Reads a notebook from the disk. Refused with `no_such_notebook`, or with why its page cannot be read. */
export async function loadState(disk: Disk, id: string): Promise<State | Refused> {
  const [page, entries, about] = await Promise.all([
    disk.get(pageKey(id)),
    disk.list(logPrefix(id)),
    disk.get(aboutKey(id)),
  ]);
  if (!isRecord(page) || typeof page['text'] !== 'string' || typeof page['number'] !== 'number') {
    return refuse('no_such_notebook', { id });
  }
  const read = readNotebook(page['text']);
  if (isRefused(read)) return read;
  const rows = entries.map(([, value]) => rowFromJSON(value));
  const { remarks, notebook } = read;
  const replayed = replay(notebook, page['number'], rows);
  return {
    ...replayed,
    page: page['number'],
    rows: rows.filter((row) => row !== undefined && row.number <= replayed.number) as Row[],
    madeAt: isRecord(about) && typeof about['madeAt'] === 'number' ? about['madeAt'] : 0,
    readOnly: read.readOnly || rows.includes(undefined),
    remarks: replayed.stopped
      ? [...remarks, { code: 'log_stopped', path: '', parts: { number: replayed.number } }]
      : remarks,
  };
}

/** The notebook after the rows that follow its number, as far as they go on without a gap. */
function replay(
  start: Notebook,
  from: number,
  rows: readonly (Row | undefined)[],
): { readonly notebook: Notebook; readonly number: number; readonly stopped: boolean } {
  let notebook = start;
  let number = from;
  for (const row of rows) {
    if (row !== undefined && row.number <= from) continue;
    const next = row?.number === number + 1 ? applyChange(notebook, row.change) : undefined;
    if (next === undefined || isRefused(next)) return { notebook, number, stopped: true };
    notebook = next;
    number++;
  }
  return { notebook, number, stopped: false };
}
