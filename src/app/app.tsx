/*
 * The app: the notebook that is open or looked at, and the list at the left. The first sheet can be here before the rest
 * of the app is: what is asked of the rest meanwhile is done when it has come.
 */

import { createMemo, createSignal, getOwner, onCleanup, runWithOwner, Show } from 'solid-js';
import type { Session } from '../session/index.ts';
import { type Listed, onDrop } from '../storage/index.ts';
import { AppNotices, type NavGroup } from '../views/index.ts';
import type { Early } from './early.ts';
import { NotebookPage } from './notebook-page.tsx';
import type { AppParts } from './parts.ts';
import { prebuilt } from './prebuilt.ts';
import type { Rest } from './rest.ts';

const FIRST_HINT = 'Change the stitch gauge with − and +, and watch every size move.';

/** So many of her notebooks, and of those to begin from, stand in the list at the left. */
const MOST_LISTED = 6;
const MOST_BEGINNINGS = 4;

export interface AppProps {
  /** The notebook of a first visit, shown while the rest is still to come. */
  readonly early: Early | undefined;
  /** The rest of the app. Never rejects. */
  readonly rest: Promise<Rest>;
}

/** The whole app. */
export function App(props: AppProps) {
  const { early } = props;
  const [parts, setParts] = createSignal<AppParts>();
  // What is asked of the rest before all is in its place is done then.
  let waiting: ((parts: AppParts) => void)[] | undefined = [];
  const withParts = (deed: (parts: AppParts) => void) => {
    const here = parts();
    if (here && !waiting) deed(here);
    else waiting?.push(deed);
  };
  onCleanup(onDrop(document, (files) => withParts(({ incoming }) => void incoming.files(files))));
  const owner = getOwner();
  void props.rest.then(async (rest) => {
    const started = runWithOwner(owner, () => rest.start(early));
    if (!started) return;
    setParts(started.parts);
    await started.arrived;
    const deeds = waiting ?? [];
    waiting = undefined;
    for (const deed of deeds) deed(started.parts);
  });
  // What a first visit is told is about the notebook it began with, and no other.
  let firstShown = early?.session;
  const isFirst = (session: Session) => {
    if (!(parts()?.isFirstVisit() ?? early !== undefined)) return false;
    firstShown ??= session;
    return firstShown === session;
  };
  const nav = createMemo(() => navGroups(parts(), early, withParts));
  const shown = createMemo(
    () => {
      const visitor = parts()?.place.visitor();
      const session = parts()?.place.opened()?.session ?? early?.session;
      return visitor ?? (session ? { session, bar: undefined } : undefined);
    },
    undefined,
    { equals: (a, b) => a?.session === b?.session && a?.bar === b?.bar },
  );
  return (
    <Show
      when={shown()}
      keyed
      fallback={
        <div class="foot alone">
          <AppNotices notices={parts()?.notices.list() ?? []} />
        </div>
      }
    >
      {(one) => (
        <NotebookPage
          parts={parts}
          withParts={withParts}
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

type WithParts = (deed: (parts: AppParts) => void) => void;

/** The list at the left, as far as it goes without the notebook's own pages. */
function navGroups(
  parts: AppParts | undefined,
  early: Early | undefined,
  withParts: WithParts,
): readonly NavGroup[] {
  const hers = parts && (parts.library.inUse().length > 0 || !early) ? herNotebooks(parts) : itself(early);
  return [
    {
      heading: 'your notebooks',
      items: [
        ...hers,
        {
          id: 'all',
          title: 'All notebooks',
          current: parts?.place.page() === 'shelf',
          choose: () => withParts(({ place }) => place.goTo('shelf')),
        },
      ],
    },
    {
      heading: 'start a new one from',
      items: [
        ...prebuilt.slice(0, MOST_BEGINNINGS).map(({ name, title }) => ({
          id: name,
          title,
          choose: () => withParts(({ beginWith }) => beginWith(name)),
        })),
        {
          id: 'blank',
          title: 'A blank page',
          choose: () => withParts(({ beginWith }) => beginWith(undefined)),
        },
        { id: 'file', title: 'A file', choose: () => withParts(({ incoming }) => void incoming.choose()) },
        ...(prebuilt.length > MOST_BEGINNINGS
          ? [
              {
                id: 'more',
                title: 'More to start from',
                choose: () => withParts(({ place }) => place.goTo('shelf')),
              },
            ]
          : []),
      ],
    },
  ];
}

function herNotebooks({ library, place, deeds, setFirstVisit }: AppParts): NavGroup['items'] {
  const currentId = place.visitor() ? undefined : place.opened()?.keeper.id;
  return recent(library.inUse(), currentId).map((listed) => ({
    id: listed.id,
    title: listed.title || 'untitled',
    current: listed.id === currentId && place.page() === undefined,
    actions: deeds.actionsFor(listed),
    choose: () => {
      setFirstVisit(false);
      void place.open(listed.id);
    },
  }));
}

/** The notebook that is shown and not on the shelf yet. */
function itself(early: Early | undefined): NavGroup['items'] {
  if (!early) return [];
  const { id, title } = early.notebook;
  return [{ id, title, current: true, choose: () => undefined }];
}

/** The latest changed, in the knitter's own order, with the open one among them. */
function recent(list: readonly Listed[], open: string | undefined): readonly Listed[] {
  const latest = [...list].sort((a, b) => b.changedAt - a.changedAt).slice(0, MOST_LISTED);
  const isShown = (one: Listed) => one.id === open || latest.includes(one);
  return list.filter(isShown);
}
