/*
 * The whole shelf as one file, and back. Coming back, notebooks are matched by identity: a new one is put on the shelf; of one
 * that is there and differs, the later of the two stands, as a change that can be undone, and the other is kept as a named
 * version. Nothing is thrown away.
 *
 *   { "ellwand_shelf": 1, "notebooks": [ {"changedAt": 1790000000000, "archived": false, "notebook": { … } } ] }
 */
import {
  isRecord,
  isRefused,
  limits,
  type Notebook,
  parseJson,
  type Read,
  type Refused,
  readNotebookValue,
  refuse,
  same,
  writeNotebook,
} from '../notebook/index.ts';
import type { Listed, Shelf } from './shelf.ts';

/** One notebook of a shelf's file. */
export interface FromShelf {
  readonly read: Read;
  readonly changedAt: number;
  readonly archived: boolean;
}

/** What a shelf's file holds; `lost` counts what could not be read, `cut` tells that its end is missing. */
export interface ShelfFile {
  readonly notebooks: readonly FromShelf[];
  readonly lost: number;
  readonly cut: boolean;
}

/** What came of taking a shelf in: titles, by what happened. */
export interface TakenIn {
  readonly added: readonly string[];
  readonly unchanged: readonly string[];
  /** The file's was the later: it stands, the shelf's own is a version. */
  readonly updated: readonly string[];
  /** The shelf's was the later: it stands, the file's is a version. */
  readonly kept: readonly string[];
  readonly refused: readonly string[];
}

/** The file of all notebooks that are not deleted. Rejects with a `DiskError`. */
export async function writeShelf(shelf: Shelf): Promise<string> {
  const listed = (await shelf.list(true)).filter(({ deletedAt }) => deletedAt === undefined);
  const parts = await Promise.all(listed.map((one) => part(shelf, one)));
  return `{ "ellwand_shelf": 1, "notebooks": [\n${parts.filter((text) => text !== '').join(',\n')}\n] }\n`;
}

async function part(shelf: Shelf, { id, changedAt, archived }: Listed): Promise<string> {
  const notebook = await shelf.peek(id);
  if (isRefused(notebook)) return '';
  return `{"changedAt": ${changedAt}, "archived": ${archived}, "notebook": ${writeNotebook(notebook).trimEnd()}}`;
}

/** Whether a file means to be a whole shelf. */
export const isShelfFile = (start: string): boolean => /^\ufeff?\s*\{\s*"ellwand_shelf"/.test(start);

/** Reads a shelf's file, as much of it as can be. Refused with `too_big`, `not_json` or `not_a_shelf`. */
export function readShelf(bytes: Uint8Array): ShelfFile | Refused {
  if (bytes.length > limits.shelf) return refuse('too_big', { size: bytes.length, limit: limits.shelf });
  const { value, stopped } = parseJson(new TextDecoder().decode(bytes), limits.depth + 3);
  if (!isRecord(value)) return refuse('not_json', { line: stopped?.line ?? 1, column: stopped?.column ?? 1 });
  const list = value['notebooks'];
  if (!Array.isArray(list) || value['ellwand_shelf'] !== 1) return refuse('not_a_shelf');
  const notebooks = list.flatMap(readPart);
  return { notebooks, lost: list.length - notebooks.length, cut: stopped !== undefined };
}

function readPart(value: unknown): readonly FromShelf[] {
  const { notebook, changedAt, archived } = isRecord(value) ? value : {};
  const read = readNotebookValue(notebook);
  if (isRefused(read)) return [];
  return [{ read, changedAt: typeof changedAt === 'number' ? changedAt : 0, archived: archived === true }];
}

/** Takes the notebooks in. `versionName` names the version that is kept beside. Rejects with a `DiskError`. */
export async function takeIn(shelf: Shelf, file: ShelfFile, versionName: string): Promise<TakenIn> {
  const taken = { added: [], unchanged: [], updated: [], kept: [], refused: [] } as {
    [K in keyof TakenIn]: string[];
  };
  // What is put on the shelf comes first on it: the last goes first, so that the order is that of the file.
  for (const one of file.notebooks.toReversed()) {
    const outcome = await takeOne(shelf, one, versionName);
    taken[outcome].unshift(one.read.notebook.title);
  }
  return taken;
}

async function takeOne(shelf: Shelf, one: FromShelf, versionName: string): Promise<keyof TakenIn> {
  const { notebook: theirs, readOnly } = one.read;
  if (readOnly) return 'refused';
  const ours = await shelf.peek(theirs.id);
  if (isRefused(ours)) return add(shelf, one);
  const listed = (await shelf.list(true)).find(({ id }) => id === theirs.id);
  const wasDeleted = listed?.deletedAt !== undefined;
  if (wasDeleted) await shelf.restore(theirs.id); // Who takes it in wants it.
  if (same(ours, theirs)) return wasDeleted ? 'added' : 'unchanged';
  if ((listed?.changedAt ?? 0) >= one.changedAt) return aside(shelf, theirs, theirs, versionName, 'kept');
  const refused = await shelf.edit(theirs.id, {
    kind: 'replace_notebook',
    notebook: theirs,
    why: versionName,
  });
  return refused ? 'refused' : aside(shelf, theirs, ours, versionName, 'updated');
}

async function add(shelf: Shelf, { read, archived, changedAt }: FromShelf): Promise<keyof TakenIn> {
  const made = await shelf.create(read.notebook, {
    sameId: true,
    ...(changedAt > 0 ? { changedAt } : {}),
  });
  if (isRefused(made)) return 'refused';
  if (archived) await shelf.archive(made.id);
  return 'added';
}

async function aside<K extends keyof TakenIn>(
  shelf: Shelf,
  { id }: Notebook,
  kept: Notebook,
  name: string,
  outcome: K,
): Promise<K> {
  await shelf.addVersion(id, name, { ...kept, id });
  return outcome;
}
