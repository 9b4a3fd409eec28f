/*
 * All of the app that the first sheet does not wait for: the shelf, what is told about keeping, what arrives from
 * outside, what can be done with notebooks, and keeping the app itself for the time without a network.
 */

import { createEffect, createSignal, onCleanup } from 'solid-js';
import { isRefused, type Notebook } from '../notebook/index.ts';
import { isLink, openShelf, readLink, type Shelf, watchLeaving } from '../storage/index.ts';
import { refusalSentence } from '../telling/index.ts';
import { lastId, readAddress } from './address.ts';
import { beginFrom, blankNotebook, findPrebuilt } from './begin.ts';
import type { Early } from './early.ts';
import { beginFirst as firstNotebook } from './first-notebook.ts';
import { createGuide } from './guide.ts';
import { createIncoming } from './incoming.ts';
import { createKeeping } from './keeping.ts';
import { createLibrary } from './library.ts';
import { createNotices } from './notices.ts';
import { keepForOffline, type Versions } from './offline.ts';
import { onwardPanel } from './onward.tsx';
import { fetchParser } from './parser.ts';
import type { AppParts } from './parts.ts';
import { pause } from './pause.ts';
import { createPlace } from './place.ts';
import { createShelfDeeds } from './shelf-deeds.ts';
import { carried, isOneFile } from './tool-file.ts';
import { forgetWaiting, takeUpWaiting } from './waiting.ts';

/** Milliseconds after which it is tried again, where there was no room to keep what is shown. */
const AGAIN = 3_000;

/** What starts the app on the opened shelf. */
export interface Rest {
  /** Needs an owner. `early` is the notebook that is shown already. */
  start(early: Early | undefined): Started;
}

/** The app on the shelf. */
export interface Started {
  readonly parts: AppParts;
  /** Settles when it is known what is shown first, and that is kept. Never rejects. */
  readonly arrived: Promise<void>;
}

/** Opens the shelf. Never rejects. */
export async function openRest(): Promise<Rest> {
  const shelf = await openShelf();
  return { start: (early) => start(shelf, early) };
}

function start(shelf: Shelf, early: Early | undefined): Started {
  const [isFirstVisit, setFirstVisit] = createSignal(early !== undefined);
  const beginFirst = async () => {
    await parts.place.begin(await firstNotebook(), { replace: true });
  };
  /** Nothing is on the shelf: what is shown already is kept, or a first notebook is begun. */
  const begin = async () => {
    setFirstVisit(true);
    if (!early) await beginFirst();
    else if (!(await adopt(shelf, parts.place, early))) void adoptYet(shelf, parts.place, early);
  };
  const parts: AppParts = { ...createParts(shelf, beginFirst), isFirstVisit, setFirstVisit };
  const { place, notices, keeping } = parts;
  createEffect(() => keeping.watch(place.opened()?.keeper));
  createEffect(() => tellOfDeleted(parts));
  onCleanup(watchLeaving(shelf));
  if (import.meta.env.PROD && !isOneFile) keepForOffline(versionNotices(shelf, notices));
  const arrived = (early ? Promise.resolve() : takeUpWaiting(shelf))
    .then(() => arrive(parts, begin))
    .catch(() => undefined);
  const turnTo = () => {
    if (isLink(location.hash)) void arrive(parts, begin);
    else void place.follow();
  };
  addEventListener('popstate', turnTo);
  onCleanup(() => removeEventListener('popstate', turnTo));
  return { parts, arrived };
}

/** Puts what is shown on the shelf, and forgets that it waited for that once it is on the disk. */
async function adopt(shelf: Shelf, place: AppParts['place'], early: Early): Promise<boolean> {
  const isAdopted = await place.adopt(early);
  const keeper = place.opened()?.keeper;
  if (!isAdopted || !keeper) return false;
  const forget = () => {
    if (!keeper.saved) return;
    stop();
    early.kept();
    forgetWaiting(shelf);
  };
  const stop = keeper.onNews(forget);
  forget();
  return true;
}

/** Tries again to keep what is shown, until it is kept or something else is opened. */
async function adoptYet(shelf: Shelf, place: AppParts['place'], early: Early): Promise<void> {
  do await pause(AGAIN);
  while (place.opened() === undefined && !(await adopt(shelf, place, early)));
}

function createParts(
  shelf: Shelf,
  first: () => Promise<void>,
): Omit<AppParts, 'isFirstVisit' | 'setFirstVisit'> {
  const notices = createNotices();
  const library = createLibrary(shelf);
  const saveOpen = () => {
    const id = place.opened()?.keeper.id;
    if (id !== undefined) void deeds.saveOne(id);
  };
  const keeping = createKeeping(shelf, library, notices, saveOpen);
  const place = createPlace(shelf, notices, keeping.told);
  const deeds = createShelfDeeds({ shelf, library, place, notices, first });
  const incoming = createIncoming(shelf, place, notices, () => {
    if (!place.opened()) void arriveAtShelf(place, library, first);
  });
  const beginAs = (coming: Promise<Notebook>) =>
    void coming.then(
      (notebook) => void place.begin(notebook),
      () => notices.say('place', 'The notebook could not be fetched just now: try again in a moment.'),
    );
  const beginWith = (name: string | undefined) =>
    beginAs(name === undefined ? Promise.resolve(blankNotebook()) : beginFrom(name));
  const parts = { shelf, library, notices, place, keeping, deeds, incoming };
  const onward: AppParts['onward'] = (session, signals) => onwardPanel(session, signals, beginAs);
  return { ...parts, beginAs, beginWith, onward, guide: createGuide() };
}

/** On arrival: the notebook this page carries, the one in the link, or one of the shelf. */
async function arrive(parts: AppParts, first: () => Promise<void>): Promise<void> {
  const { place, library, incoming, notices } = parts;
  const { hash } = location;
  if (isLink(hash)) {
    fetchParser();
    const read = await readLink(hash, findPrebuilt);
    if (!isRefused(read)) return incoming.show(read, 'a link');
    notices.say('link', refusalSentence(read.refused));
  }
  if (await arriveWithOwn(parts)) return;
  return arriveAtShelf(place, library, first, () => parts.setFirstVisit(false));
}

/**
 * The notebook inside this very file: kept at once, as whoever opened the file trusts it, and the file stays as it is. Opened
 * again, the file leads to what has become of it; one that differs from what is kept is shown first.
 */
async function arriveWithOwn({ shelf, place, incoming, notices }: AppParts): Promise<boolean> {
  const own = carried();
  if (!own || readAddress().id !== undefined) return false;
  const { read, isKnown, remember } = own;
  if (isRefused(read)) {
    notices.say('carried', `The notebook in this file: ${refusalSentence(read.refused)}`);
    return false;
  }
  const { id } = read.notebook;
  const isThere = await shelf.has(id).catch(() => false);
  if (isThere && isKnown) return place.open(id, { replace: true });
  if (isThere || read.readOnly) {
    await incoming.show(read, 'this file', remember);
    return true;
  }
  remember();
  return place.begin(read.notebook, { replace: true, sameId: true });
}

/** The notebook in the address, the last one, the first of the list, or a first one to begin with. */
async function arriveAtShelf(
  place: AppParts['place'],
  library: AppParts['library'],
  first: () => Promise<void>,
  isHere: () => void = () => undefined,
): Promise<void> {
  await library.read();
  const list = library.inUse();
  const { id: asked, page } = readAddress();
  const there = (id: string | undefined) => (id === undefined ? undefined : library.find(id));
  const wanted = there(asked);
  const last = there(lastId());
  const isGone = last?.archived || last?.deletedAt !== undefined;
  const id = wanted?.id ?? (isGone ? undefined : last?.id) ?? list[0]?.id;
  if (id !== undefined) fetchParser(); // Her own notebook may have formulas of any shape.
  if (id === undefined) return first();
  isHere();
  if (!(await place.open(id, { replace: true, page }))) await first();
}

/** The open notebook was deleted in another tab: what is written is kept all the same, and it can be put back. */
function tellOfDeleted({ place, library, notices, deeds }: AppParts): void {
  const id = place.opened()?.keeper.id;
  const listed = id === undefined ? undefined : library.find(id);
  if (!listed || listed.deletedAt === undefined) return;
  notices.tell({
    key: `shelf ${listed.id}`,
    sentence: `“${listed.title}” is deleted. It can be put back for a month.`,
    ways: [{ label: 'Put it back', choose: () => void deeds.restore(listed.id) }],
  });
}

function versionNotices(shelf: Shelf, notices: AppParts['notices']): Versions {
  const later = { label: 'Later', choose: () => undefined };
  const safely = (go: () => void) => () => {
    shelf.part();
    go();
  };
  return {
    ready: (changeOver) =>
      notices.tell({
        key: 'version of the app',
        sentence: 'A new version of Ellwand is ready. It waits until you change over; nothing is lost by it.',
        ways: [{ label: 'Change over', choose: safely(changeOver) }, later],
      }),
    changed: (reload) =>
      notices.tell({
        key: 'version of the app',
        sentence:
          'Another tab has changed over to a new version of Ellwand: load this page again before long.',
        ways: [{ label: 'Load again', choose: safely(reload) }, later],
      }),
  };
}
