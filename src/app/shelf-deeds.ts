/*
 * What can be done with the notebooks of the shelf, from the list at the left and from the page of all notebooks alike.
 * Deleting and putting away offer undo; when the open notebook goes, the next one opens.
 */

import { isRefused, writeNotebook } from '../notebook/index.ts';
import { fileName, type Listed, type Shelf, saveFile, writeShelf } from '../storage/index.ts';
import { refusalSentence } from '../telling/index.ts';
import type { NotebookActions } from '../views/index.ts';
import type { Library } from './library.ts';
import type { Notices } from './notices.ts';
import type { Place } from './place.ts';

export interface ShelfDeeds {
  actionsFor(listed: Listed): NotebookActions;
  restore(id: string): Promise<void>;
  /** Saves the file of one notebook; what is knitted goes with it, as it is one's own. */
  saveOne(id: string): Promise<void>;
  saveAll(): Promise<void>;
}

interface Around {
  readonly shelf: Shelf;
  readonly library: Library;
  readonly place: Place;
  readonly notices: Notices;
  /** Begins a first notebook where none is left. */
  readonly first: () => Promise<void>;
}

export function createShelfDeeds({ shelf, library, place, notices, first }: Around): ShelfDeeds {
  const trying = async (deed: Promise<unknown>) => {
    const came = await deed.catch(() => undefined);
    if (typeof came === 'object' && came !== null && isRefused(came))
      notices.say('shelf', refusalSentence(came.refused));
  };
  const isOpen = (id: string) => place.opened()?.keeper.id === id;
  /** Opens the next one when this one has gone from the list. */
  const moveOn = async (id: string) => {
    if (!isOpen(id)) return;
    const page = place.page();
    const next = (await library.read()).find(
      (one) => one.id !== id && !one.archived && one.deletedAt === undefined,
    );
    if (next) await place.open(next.id, { replace: true, page });
    else await first();
  };
  const restore = (id: string) => trying(shelf.restore(id));
  /** What is done to a notebook that goes from the list, said with its undo: that one opens it again if it was open. */
  const letGo = async (
    { id }: Listed,
    deed: Promise<unknown>,
    back: () => Promise<void>,
    sentence: string,
  ) => {
    const wasOpen = isOpen(id);
    await trying(deed);
    await moveOn(id);
    const undo = async () => {
      await back();
      if (wasOpen) await place.open(id, { page: place.page() });
    };
    notices.tell({
      key: `shelf ${id}`,
      sentence,
      ways: [{ label: 'Undo', choose: () => void undo() }, OK],
    });
  };
  const remove = (listed: Listed) =>
    letGo(
      listed,
      shelf.delete(listed.id),
      () => restore(listed.id),
      `“${listed.title}” is deleted. It can be put back for a month.`,
    );
  const putAway = (listed: Listed) => {
    if (listed.archived) return trying(shelf.archive(listed.id, false));
    return letGo(
      listed,
      shelf.archive(listed.id),
      () => trying(shelf.archive(listed.id, false)),
      `“${listed.title}” is put away: it stands under All notebooks.`,
    );
  };
  const saveOne = async (id: string) => {
    const notebook = await shelf.peek(id).catch(() => undefined);
    if (notebook === undefined)
      return notices.say('shelf', 'The browser could not read this notebook just now.');
    if (isRefused(notebook)) return notices.say('shelf', refusalSentence(notebook.refused));
    saveFile(fileName(notebook.title), writeNotebook(notebook));
    notices.drop('file due');
    await trying(shelf.noteFile(id));
  };
  const moved = (id: string, by: number): (() => Promise<void>) | undefined => {
    const ids = library.inUse().map((one) => one.id);
    const at = ids.indexOf(id);
    const to = at + by;
    if (at < 0 || to < 0 || to >= ids.length) return undefined;
    return async () => {
      await trying(shelf.reorder(ids.toSpliced(at, 1).toSpliced(to, 0, id)));
      await library.read();
    };
  };
  return {
    restore,
    saveOne,
    saveAll: async () => {
      const text = await writeShelf(shelf).catch(() => undefined);
      if (text === undefined)
        return notices.say('shelf', 'The browser could not read all notebooks just now.');
      saveFile('all notebooks.ellwand-shelf.json', text);
    },
    actionsFor: (listed) => ({
      rename: (title) => {
        const session = isOpen(listed.id) ? place.opened()?.session : undefined;
        if (session) session.setTitle(title);
        else void trying(shelf.rename(listed.id, title));
      },
      duplicate: () => void trying(shelf.duplicate(listed.id)),
      saveFile: () => void saveOne(listed.id),
      putAway: () => void putAway(listed),
      remove: () => void remove(listed),
      moveUp: moved(listed.id, -1),
      moveDown: moved(listed.id, 1),
    }),
  };
}

const OK = { label: 'OK', choose: () => undefined };
