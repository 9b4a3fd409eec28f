/* The pages that stand in place of a notebook's sheet, each with what it needs. Fetched when the first one is opened. */

import { createMemo, createResource, createSignal, Match, onCleanup, Switch } from 'solid-js';
import { allCells, isRefused, type Notebook } from '../notebook/index.ts';
import { compareWith, type Session, takingAll, takingOf } from '../session/index.ts';
import type { Listed, Version } from '../storage/index.ts';
import { chooseFiles } from '../storage/index.ts';
import { refusalSentence } from '../telling/index.ts';
import {
  type Beginning,
  BesidePage,
  ComparePage,
  FileView,
  HowPage,
  type NotebookSignals,
  ReferenceView,
  type Said,
  type ShelfEntry,
  ShelfPage,
  TenSteps,
  type VersionEntry,
  VersionsPage,
} from '../views/index.ts';
import type { PageName } from './address.ts';
import { ago, dayWords } from './ago.ts';
import { fetchPrebuilt } from './begin.ts';
import { keepBeside, readBeside } from './beside.ts';
import { lookAt } from './opened.ts';
import type { AppParts } from './parts.ts';
import { prebuilt } from './prebuilt.ts';
import { Sharing } from './sharing.tsx';
import { tellDone } from './tell-done.ts';

export interface PagesProps extends AppParts {
  readonly page: PageName;
  readonly session: Session;
  readonly signals: NotebookSignals;
}

/** The page of that name. */
export function Pages(props: PagesProps) {
  const back = () => props.place.goTo(undefined);
  return (
    <Switch>
      <Match when={props.page === 'shelf'}>
        <AllNotebooks {...props} />
      </Match>
      <Match when={props.page === 'versions'}>
        <Versions {...props} />
      </Match>
      <Match when={props.page === 'compare'}>
        <Compare {...props} />
      </Match>
      <Match when={props.page === 'share'}>
        <Sharing
          session={props.session}
          signals={props.signals}
          onSaved={() => void props.shelf.noteFile(props.session.notebook.id)}
          onClose={back}
        />
      </Match>
      <Match when={props.page === 'how'}>
        <How {...props} />
      </Match>
      <Match when={props.page === 'beside'}>
        <BesidePage
          notebook={props.signals}
          chosen={readBeside(props.session.notebook.id)}
          onChosen={(keys) => keepBeside(props.session.notebook.id, keys)}
          onClose={back}
        />
      </Match>
      <Match when={props.page === 'file'}>
        <FileView
          page={props.session}
          onClose={back}
          onOpen={() => void props.incoming.choose()}
          onSave={() => void props.deeds.saveOne(props.session.notebook.id)}
        />
      </Match>
      <Match when={props.page === 'reference'}>
        <ReferenceView onClose={back} />
      </Match>
      <Match when={props.page === 'ten-steps'}>
        <TenSteps
          onFollow={() => {
            props.guide.goTo(0);
            back();
          }}
          onReference={() => props.place.goTo('reference')}
          onClose={back}
        />
      </Match>
    </Switch>
  );
}

function AllNotebooks(props: PagesProps) {
  const { library, place, deeds, beginWith } = props;
  const now = createNow();
  const entry = (listed: Listed): ShelfEntry => ({
    id: listed.id,
    title: listed.title,
    about: listed.about,
    changed: `${listed.number === 0 ? 'begun' : 'changed'} ${ago(listed.changedAt, now())}`,
    current: listed.id === place.opened()?.keeper.id,
    open: () => void place.open(listed.id),
    actions: deeds.actionsFor(listed),
  });
  const [abouts] = createResource(fetchAbouts);
  const beginnings = (): readonly Beginning[] => [
    ...prebuilt.map(({ name, title }) => ({
      name,
      title,
      about: abouts.latest?.get(name) ?? '',
      begin: () => beginWith(name),
    })),
    {
      name: 'blank',
      title: 'A blank page',
      about: 'Name your numbers and say how one follows from another.',
      begin: () => beginWith(undefined),
    },
  ];
  return (
    <ShelfPage
      inUse={library.inUse().map(entry)}
      away={library.away().map(entry)}
      deleted={library.deleted().map(({ id, title, deletedAt = 0 }) => ({
        id,
        title,
        deleted: ago(deletedAt, now()),
        restore: () => void deeds.restore(id),
      }))}
      beginnings={beginnings()}
      promise={props.keeping.promise()}
      onSaveAll={() => void deeds.saveAll()}
      onFiles={() => void chooseFiles().then((files) => props.incoming.files(files))}
      onClose={() => place.goTo(undefined)}
    />
  );
}

/** What each prebuilt notebook is about; one that cannot be fetched says nothing. */
async function fetchAbouts(): Promise<ReadonlyMap<string, string>> {
  const told = prebuilt.map(async ({ name }) => {
    const notebook = await fetchPrebuilt(name).catch(() => undefined);
    return [name, notebook?.about ?? ''] as const;
  });
  return new Map(await Promise.all(told));
}

function Versions(props: PagesProps) {
  const { shelf, place, notices } = props;
  const id = props.session.notebook.id;
  const now = createNow();
  const [versions, { refetch }] = createResource(() =>
    shelf.versions(id).catch((): readonly Version[] => []),
  );
  const nameOf = ({ name, at }: Version) => (name ? `“${name}”` : `as it was ${ago(at, Date.now())}`);
  const read = async (version: Version) => {
    const came = await shelf.readVersion(id, version.id).catch(() => undefined);
    if (came === undefined) notices.say('version', 'The browser could not read this version just now.');
    else if (isRefused(came)) notices.say('version', refusalSentence(came.refused));
    else return came;
    return undefined;
  };
  const bringBack = async (version: Version) => {
    const came = await read(version);
    if (!came) return;
    const outcome = props.session.replaceWith(came.notebook, `bring back ${nameOf(version)}`);
    if (!outcome.done) return notices.say('version', outcome.sentence);
    place.visit(undefined);
    place.goTo(undefined);
    tellDone(notices, props.session, 'brought back', `Brought back: ${nameOf(version)}.`);
  };
  const compare = async (version: Version) => {
    const came = await read(version);
    if (came) place.compareWith({ session: await lookAt(came), name: nameOf(version) });
  };
  const look = async (version: Version) => {
    const came = await read(version);
    if (!came) return;
    const leave = () => {
      place.visit(undefined);
      place.goTo('versions');
    };
    place.visit({
      session: await lookAt(came),
      bar: {
        heading: `A version: ${nameOf(version)}`,
        lines: [`${dayWords(version.at, true)}. It can be looked at here, and brought back.`],
        ways: [
          { label: 'Bring it back', strong: true, choose: () => void bringBack(version) },
          { label: 'Compare with now', choose: () => void compare(version) },
          { label: 'Back to now', choose: leave },
        ],
      },
    });
  };
  const remove = async (version: Version) => {
    const came = await read(version);
    await shelf.deleteVersion(id, version.id);
    await refetch();
    notices.tell({
      key: 'version',
      sentence: `The version ${nameOf(version)} is deleted.`,
      ways: [
        ...(came ? [{ label: 'Undo', choose: () => void putBack(version, came.notebook) }] : []),
        { label: 'OK', choose: () => undefined },
      ],
    });
  };
  const putBack = async ({ name, at }: Version, notebook: Notebook) => {
    await shelf.addVersion(id, name ?? `as it was ${dayWords(at, true)}`, notebook);
    await refetch();
  };
  const keep = async (name: string) => {
    const kept = await place
      .opened()
      ?.keeper.nameVersion(name)
      .catch(() => undefined);
    if (!kept) notices.say('version', 'The browser could not keep this version: it may have no room left.');
    await refetch();
  };
  const entry = (version: Version): VersionEntry => ({
    id: version.id,
    name: version.name ?? '',
    age: ago(version.at, now()),
    moment: dayWords(version.at, true),
    look: () => void look(version),
    compare: () => void compare(version),
    bringBack: () => void bringBack(version),
    remove: () => void remove(version),
  });
  return (
    <VersionsPage
      title={props.signals.view().title}
      versions={(versions.latest ?? []).map(entry)}
      canChange={!props.signals.view().readOnly}
      onName={(name) => void keep(name)}
      onClose={() => place.goTo(undefined)}
    />
  );
}

function Compare(props: PagesProps) {
  const { place, session, notices } = props;
  const other = place.other();
  const comparison = createMemo(() => {
    props.signals.view();
    const theirs = other?.session.live;
    return theirs ? compareWith(session.live, theirs) : { differences: [], moved: [], column: '' };
  });
  const taking = (outcome: ReturnType<Session['do']>, words: string) => {
    if (!outcome.done) return notices.say('take', outcome.sentence);
    tellDone(notices, session, 'take', words);
  };
  return (
    <ComparePage
      comparison={comparison()}
      mine="yours"
      theirs={other?.name ?? ''}
      canTake={!props.signals.view().readOnly}
      onTake={(key, field) => {
        const theirs = other?.session.notebook;
        const change = theirs && takingOf(session.notebook, theirs, key, field);
        const what = comparison().differences.find((one) => one.key === key)?.what ?? '';
        if (change) taking(session.do(change), `Taken over: ${what}.`);
      }}
      onTakeAll={() => {
        const theirs = other?.session.notebook;
        if (!theirs) return;
        taking(
          session.do(takingAll(session.notebook, theirs, `take over all that differs ${other.name}`)),
          'All of it is taken over.',
        );
      }}
      onClose={() => place.goTo(undefined)}
    />
  );
}

function How(props: PagesProps) {
  const { session } = props;
  const view = props.signals.view;
  const notebook = () => {
    view();
    return session.notebook;
  };
  const from = () => prebuilt.find(({ name }) => name === notebook().from?.notebook);
  return (
    <HowPage
      title={view().title}
      how={view().how}
      sources={notebook().sources.map((source, i) => said(notebook(), source.for, view().sources[i] ?? ''))}
      cautions={notebook().cautions.map((caution) => said(notebook(), caution.for, caution.text))}
      remarks={view().remarks}
      from={from() ? `Grown from “${from()?.title}”.` : ''}
      onClose={() => props.place.goTo(undefined)}
    />
  );
}

/** A sentence with the name of the cell or section it stands beside. */
function said(notebook: Notebook, id: string | undefined, text: string): Said {
  const cell = allCells(notebook)
    .find((one) => one.id === id)
    ?.name.replaceAll('_', ' ');
  const section = notebook.sections.find((one) => one.id === id)?.title;
  return { about: cell ?? section ?? '', text };
}

/** The moment, read again every half minute, for ages that grow. */
function createNow(): () => number {
  const [now, setNow] = createSignal(Date.now());
  const timer = setInterval(() => setNow(Date.now()), 30_000);
  onCleanup(() => clearInterval(timer));
  return now;
}
