/*
 * The app: the shelf of this browser, the notebook that is open or looked at, the list at the left, and what arrives
 * from outside. Here the parts are put together; each knows only those it is given.
 */

import { createEffect, createMemo, createSignal, onCleanup, onMount, Show } from 'solid-js';
import { isRefused } from '../notebook/index.ts';
import type { Session } from '../session/index.ts';
import {
  chooseFiles,
  isLink,
  type Listed,
  onDrop,
  readLink,
  type Shelf,
  watchLeaving,
} from '../storage/index.ts';
import { refusalSentence } from '../telling/index.ts';
import { AppNotices, type NavGroup } from '../views/index.ts';
import { lastId, readAddress } from './address.ts';
import { createGuide } from './guide.ts';
import { createIncoming } from './incoming.ts';
import { createKeeping } from './keeping.ts';
import { createLibrary } from './library.ts';
import { NotebookPage } from './notebook-page.tsx';
import { createNotices } from './notices.ts';
import type { Versions } from './offline.ts';
import { fetchParser } from './parser.ts';
import type { AppParts } from './parts.ts';
import { createPlace } from './place.ts';
import { beginFrom, blankNotebook, findPrebuilt, prebuilt } from './prebuilt.ts';
import { createShelfDeeds } from './shelf-deeds.ts';
import { carried } from './tool-file.ts';

const FIRST = prebuilt[0]?.name ?? '';
const FIRST_HINT = 'Change the stitch gauge with − and +, and watch every size move.';

/** So many of her notebooks, and of those to begin from, stand in the list at the left. */
const MOST_LISTED = 6;
const MOST_BEGINNINGS = 4;

export interface AppProps {
  readonly shelf: Shelf;
  /** Called once with what is to hear of newer versions of the app. */
  readonly keepForOffline?: (versions: Versions) => void;
}

/** The whole app on an opened shelf. */
export function App(props: AppProps) {
  const [isFirstVisit, setFirstVisit] = createSignal(false);
  // What a first visit is told is about the notebook it began with, and no other.
  let firstShown: Session | undefined;
  const isFirst = (session: Session) => {
    if (!isFirstVisit()) return false;
    firstShown ??= session;
    return firstShown === session;
  };
  const first = async () => {
    await place.begin(FIRST === '' ? blankNotebook() : await beginFrom(FIRST), { replace: true });
  };
  const parts = createParts(props.shelf, first);
  const { place, library, notices, keeping, incoming, deeds } = parts;
  createEffect(() => keeping.watch(place.opened()?.keeper));
  createEffect(() => tellOfDeleted(parts));
  onCleanup(watchLeaving(props.shelf));
  onCleanup(onDrop(document, (files) => void incoming.files(files)));
  props.keepForOffline?.(versionNotices(props.shelf, notices));
  onMount(() => {
    const begin = () => {
      setFirstVisit(true);
      return first();
    };
    void arrive(parts, begin);
    const turnTo = () => {
      if (isLink(location.hash)) void arrive(parts, begin);
      else void place.follow();
    };
    addEventListener('popstate', turnTo);
    onCleanup(() => removeEventListener('popstate', turnTo));
  });

  const currentId = () => (place.visitor() ? undefined : place.opened()?.keeper.id);
  const nav = createMemo((): readonly NavGroup[] => [
    {
      heading: 'your notebooks',
      items: [
        ...recent(library.inUse(), currentId()).map((listed) => ({
          id: listed.id,
          title: listed.title || 'untitled',
          current: listed.id === currentId() && place.page() === undefined,
          actions: deeds.actionsFor(listed),
          choose: () => {
            setFirstVisit(false);
            void place.open(listed.id);
          },
        })),
        {
          id: 'all',
          title: 'All notebooks',
          current: place.page() === 'shelf',
          choose: () => place.goTo('shelf'),
        },
      ],
    },
    {
      heading: 'start a new one from',
      items: [
        ...prebuilt.slice(0, MOST_BEGINNINGS).map(({ name, title }) => ({
          id: name,
          title,
          choose: () => void beginFrom(name).then((notebook) => place.begin(notebook)),
        })),
        { id: 'blank', title: 'A blank page', choose: () => void place.begin(blankNotebook()) },
        { id: 'file', title: 'A file', choose: () => void chooseFiles().then(incoming.files) },
        ...(prebuilt.length > MOST_BEGINNINGS
          ? [{ id: 'more', title: 'More to start from', choose: () => place.goTo('shelf') }]
          : []),
      ],
    },
  ]);
  const shown = createMemo(() => {
    const visitor = place.visitor();
    const opened = place.opened();
    return visitor ?? (opened ? { session: opened.session, bar: undefined } : undefined);
  });
  return (
    <Show
      when={shown()}
      keyed
      fallback={
        <div class="foot alone">
          <AppNotices notices={notices.list()} />
        </div>
      }
    >
      {(one) => (
        <NotebookPage
          parts={parts}
          session={one.session}
          bar={one.bar}
          nav={nav}
          hint={isFirst(one.session) && !one.bar ? FIRST_HINT : ''}
          startAt={isFirst(one.session) ? one.session.live.sheet.idOf('stitch_gauge') : undefined}
        />
      )}
    </Show>
  );
}

function createParts(shelf: Shelf, first: () => Promise<void>): AppParts {
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
  return { shelf, library, notices, place, keeping, deeds, incoming, guide: createGuide() };
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
  return arriveAtShelf(place, library, first);
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
  if (id === undefined || !(await place.open(id, { replace: true, page }))) await first();
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

/** The latest changed, in the knitter's own order, with the open one among them. */
function recent(list: readonly Listed[], open: string | undefined): readonly Listed[] {
  const latest = [...list].sort((a, b) => b.changedAt - a.changedAt).slice(0, MOST_LISTED);
  const isShown = (one: Listed) => one.id === open || latest.includes(one);
  return list.filter(isShown);
}

function versionNotices(shelf: Shelf, notices: AppParts['notices']): Versions {
  const later = { label: 'Later', choose: () => undefined };
  const safely = (go: () => void) => () => {
    shelf.flush();
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
