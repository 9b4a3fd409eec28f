/*
 * What was done on a first visit whose page was closed before the shelf was open: it is put on the shelf at the next
 * visit, with all that can be undone, and is forgotten once the disk has it.
 */

import { changeFromJSON, isRecord, isRefused, parseJson, readNotebook } from '../notebook/index.ts';
import type { Shelf } from '../storage/index.ts';
import { forget, recall } from '../views/index.ts';
import { WAITING, type Waiting } from './early.ts';
import { keepWith, openNotebook, type Told } from './opened.ts';

const NOBODY: Told = {
  saved: () => undefined,
  changed: () => undefined,
  trouble: () => undefined,
  takenBack: () => undefined,
  elsewhere: () => undefined,
  overtaken: () => undefined,
};

/** Forgets what waited, as the disk has it. Where nothing outlives the page it goes on being remembered. */
export function forgetWaiting(shelf: Shelf): void {
  if (!shelf.trouble) forget(WAITING);
}

/** Puts what waits on the shelf. Never rejects: what cannot be put there now waits on. */
export async function takeUpWaiting(shelf: Shelf): Promise<void> {
  try {
    const waiting = readWaiting();
    if (!waiting || (await putOn(shelf, waiting))) forgetWaiting(shelf);
  } catch {
    // At the next visit, then.
  }
}

/** What waits; undefined where nothing does, or it cannot be read. */
function readWaiting(): Waiting | undefined {
  const { value } = parseJson(recall(WAITING) ?? '');
  if (!Array.isArray(value) || !Array.isArray(value[1])) return undefined;
  const read = readNotebook(JSON.stringify(value[0]));
  if (isRefused(read)) return undefined;
  return [read.notebook, value[1].filter(isReadable)];
}

const isReadable = (one: unknown): one is Waiting[1][number] =>
  isRecord(one) && (!isRecord(one['made']) || changeFromJSON(one['made']['change']) !== undefined);

/** Puts a notebook on the shelf with what was done to it; the page may have closed when a part of that was there. */
async function putOn(shelf: Shelf, [notebook, done]: Waiting): Promise<boolean> {
  const { id } = notebook;
  if (!(await shelf.has(id))) await shelf.create(notebook, { sameId: true });
  const there = (await shelf.list(true)).find((one) => one.id === id)?.number ?? 0;
  const opened = await shelf.open(id);
  if (isRefused(opened)) return true;
  const { keeper, trials } = opened;
  let number = 0;
  for (const kept of done) {
    if (kept.made) number += 1;
    // What is tried is written over each time: what is there already is what was tried last.
    const isThere = number <= there && (kept.made !== undefined || trials !== undefined);
    if (!isThere) keepWith(keeper, kept, NOBODY);
  }
  await shelf.close(keeper);
  return keeper.saved && doAsked(shelf, id, done);
}

/** Does what was asked for before the session was whole. */
async function doAsked(shelf: Shelf, id: string, done: Waiting[1]): Promise<boolean> {
  const asked = done.flatMap((one) => (one.asked ? [one.asked] : []));
  if (asked.length === 0) return true;
  const opened = await openNotebook(shelf, id, NOBODY);
  if (isRefused(opened)) return true;
  for (const [name, to] of asked) Reflect.apply(opened.session[name], opened.session, to);
  await opened.close();
  return opened.keeper.saved;
}
