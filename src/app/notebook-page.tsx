/*
 * The page of one notebook, open or only looked at: its signals, its panels, what the head offers, and the pages that
 * stand in place of its sheet.
 */

import { type Accessor, createEffect, createMemo, type JSX, lazy, onMount, Show, Suspense } from 'solid-js';
import type { Session } from '../session/index.ts';
import {
  AppNotices,
  afterFirstPaint,
  createNotebookSignals,
  DoubtPanel,
  DoubtTitle,
  DrawingPanel,
  DrawingTitle,
  GuideBar,
  type HeaderAction,
  type NavGroup,
  openPrintMenu,
  type Panel,
  Shell,
  StepsPanel,
  StepsTitle,
  VisitorBar,
  type VisitorBarProps,
} from '../views/index.ts';
import type { PageName } from './address.ts';
import { fetchParser } from './parser.ts';
import type { AppParts } from './parts.ts';

const Pages = lazy(() => import('./pages.tsx').then((module) => ({ default: module.Pages })));

export interface NotebookPageProps {
  /** The rest of the app, when it has come. */
  readonly parts: Accessor<AppParts | undefined>;
  /** Does something with the rest of the app, at once or when it has come. */
  readonly withParts: (deed: (parts: AppParts) => void) => void;
  readonly session: Session;
  /** What stands above a notebook that is only looked at. */
  readonly bar: VisitorBarProps | undefined;
  readonly nav: Accessor<readonly NavGroup[]>;
  readonly hint: string;
  readonly startAt: string | undefined;
}

/** A notebook on the page. */
export function NotebookPage(props: NotebookPageProps) {
  const { session, withParts } = props;
  const pageName = () => props.parts()?.place.page();
  const step = () => props.parts()?.guide.step();
  const goTo = (page: PageName) => withParts(({ place }) => place.goTo(page));
  const signals = createNotebookSignals(session);
  const visits = props.bar !== undefined;
  const isElsewhere = createMemo(() => pageName() !== undefined);
  const isWhole = createMemo(() => {
    signals.view();
    return session.isWhole;
  });
  const whenWhole = (content: () => JSX.Element) => () => (
    <Show when={isWhole()}>
      <Suspense>{content()}</Suspense>
    </Show>
  );
  const toKnit: Panel = {
    id: 'knit',
    title: () => <StepsTitle />,
    tab: 'knit',
    show: whenWhole(() => <StepsPanel />),
  };
  const doubt: Panel = {
    id: 'doubt',
    title: () => <DoubtTitle />,
    tab: 'doubt',
    show: whenWhole(() => <DoubtPanel />),
  };
  const panels = createMemo(
    (): readonly Panel[] => {
      signals.view();
      const drawn = session.notebook.drawings.map((drawing) => ({
        id: drawing.id,
        title: () => <DrawingTitle title={drawing.title || 'Drawing'} />,
        tab: 'drawings' as const,
        show: whenWhole(() => (
          <DrawingPanel view={() => session.drawings().find((one) => one.id === drawing.id)} />
        )),
      }));
      const onward = visits ? undefined : props.parts()?.onward(session, signals);
      const isBlank = session.notebook.sections.every(({ cells }) => cells.length === 0);
      const asked = isBlank ? [] : [doubt];
      return [
        ...drawn,
        ...(onward ? [onward] : []),
        ...asked,
        ...(session.notebook.steps.length === 0 ? [] : [toKnit]),
      ];
    },
    undefined,
    { equals: (a, b) => a.length === b.length && a.every((panel, i) => panel.id === b[i]?.id) },
  );
  const page = (name: PageName, label: string) => ({
    id: name,
    title: label,
    current: pageName() === name,
    choose: () => goTo(name),
  });
  const actions: readonly HeaderAction[] = [
    ...(visits
      ? []
      : [
          { label: 'File', choose: () => goTo('file') },
          { label: 'Share', choose: () => goTo('share') },
        ]),
    { label: 'Print', choose: (desk) => (isElsewhere() ? print() : openPrintMenu(desk)) },
  ];
  const about = (): readonly NavGroup[] => [
    {
      heading: 'this notebook',
      items: [
        ...(visits ? [] : [page('versions', 'Versions')]),
        page('beside', 'Side by side'),
        page('how', 'How it’s worked out'),
      ],
    },
    {
      heading: 'help',
      items: [page('ten-steps', 'Make your own in ten steps'), page('reference', 'Units, functions, keys')],
    },
  ];
  const title = createMemo(() => signals.view().title);
  createEffect(() => {
    document.title = title() ? `${title()} – Ellwand` : 'Ellwand';
  });
  onMount(() => afterFirstPaint(fetchParser));
  const more = props.startAt === undefined ? {} : { startAt: props.startAt };
  return (
    <Shell
      notebook={signals}
      saved={visits ? 'shown, not kept' : savedWords(props.parts())}
      savedWhy={visits ? '' : (props.parts()?.keeping.promise() ?? '')}
      nav={[...props.nav(), ...about()]}
      panels={panels()}
      actions={actions}
      hint={props.hint}
      isVisitor={visits}
      {...more}
      above={
        <Show when={props.bar}>
          {(bar) => (
            <Suspense>
              <VisitorBar {...bar()} />
            </Suspense>
          )}
        </Show>
      }
      guide={
        <Show when={step() !== undefined}>
          <Suspense>
            <GuideBar
              step={step() ?? 0}
              onStep={(next) => withParts(({ guide }) => guide.goTo(next))}
              onClose={() => withParts(({ guide }) => guide.goTo(undefined))}
            />
          </Suspense>
        </Show>
      }
      isGuided={step() !== undefined}
      notices={<AppNotices notices={props.parts()?.notices.list() ?? []} />}
      instead={
        isElsewhere() ? (
          <Show when={props.parts()} keyed>
            {(parts) => (
              <Suspense>
                <Pages {...parts} page={pageName() ?? 'shelf'} session={session} signals={signals} />
              </Suspense>
            )}
          </Show>
        ) : undefined
      }
    />
  );
}

/** Whether what is open is kept; nothing is said before that is known. */
function savedWords(parts: AppParts | undefined): string {
  return parts?.place.opened() ? parts.keeping.saved() : '';
}
