/*
 * The page of one notebook, open or only looked at: its signals, its panels, what the head offers, and the pages that
 * stand in place of its sheet.
 */

import { type Accessor, createEffect, createMemo, lazy, onMount, Show, Suspense } from 'solid-js';
import type { Session } from '../session/index.ts';
import {
  AppNotices,
  afterFirstPaint,
  CarryOnPanel,
  createNotebookSignals,
  DoubtPanel,
  DoubtTitle,
  DrawingPanel,
  DrawingTitle,
  GuideBar,
  type HeaderAction,
  type NavGroup,
  type NotebookSignals,
  type Panel,
  Shell,
  StepsPanel,
  StepsTitle,
  VisitorBar,
  type VisitorBarProps,
} from '../views/index.ts';
import type { PageName } from './address.ts';
import { carryOn } from './carry-on.ts';
import { fetchParser } from './parser.ts';
import type { AppParts } from './parts.ts';

const Pages = lazy(() => import('./pages.tsx').then((module) => ({ default: module.Pages })));

export interface NotebookPageProps {
  readonly parts: AppParts;
  readonly session: Session;
  /** What stands above a notebook that is only looked at. */
  readonly bar: VisitorBarProps | undefined;
  readonly nav: Accessor<readonly NavGroup[]>;
  readonly hint: string;
  readonly startAt: string | undefined;
}

/** A notebook on the page. */
export function NotebookPage(props: NotebookPageProps) {
  const { session, parts } = props;
  const { place } = parts;
  const signals = createNotebookSignals(session);
  const visits = props.bar !== undefined;
  const isElsewhere = createMemo(() => place.page() !== undefined);
  const toKnit: Panel = {
    id: 'knit',
    title: () => <StepsTitle />,
    tab: 'knit',
    show: () => (
      <Suspense>
        <StepsPanel />
      </Suspense>
    ),
  };
  const doubt: Panel = {
    id: 'doubt',
    title: () => <DoubtTitle />,
    tab: 'doubt',
    show: () => (
      <Suspense>
        <DoubtPanel />
      </Suspense>
    ),
  };
  const onward = (title: string): Panel => ({
    id: 'onward',
    title: () => 'On to the pattern',
    tab: 'drawings',
    show: () => <CarryOnPanel title={title} sentence={carriedWords(signals, session)} onGo={goOn} />,
  });
  const goOn = () => {
    const beginning = carryOn(session)?.begin();
    beginning?.then(
      (notebook) => void place.begin(notebook),
      () => parts.notices.say('place', 'The notebook could not be fetched just now: try again in a moment.'),
    );
  };
  const panels = createMemo(
    (): readonly Panel[] => {
      signals.view();
      const drawn = session.drawings().map((drawing) => ({
        id: drawing.id,
        title: () => <DrawingTitle title={drawing.title || 'Drawing'} />,
        tab: 'drawings' as const,
        show: () => (
          <Suspense>
            <DrawingPanel view={() => session.drawings().find((one) => one.id === drawing.id)} />
          </Suspense>
        ),
      }));
      const way = visits ? undefined : carryOn(session);
      const isBlank = session.notebook.sections.every(({ cells }) => cells.length === 0);
      const asked = isBlank ? [] : [doubt];
      const on = way ? [onward(way.title)] : [];
      return [...drawn, ...on, ...asked, ...(session.notebook.steps.length === 0 ? [] : [toKnit])];
    },
    undefined,
    { equals: (a, b) => a.length === b.length && a.every((panel, i) => panel.id === b[i]?.id) },
  );
  const page = (name: PageName, label: string) => ({
    id: name,
    title: label,
    current: place.page() === name,
    choose: () => place.goTo(name),
  });
  const actions: readonly HeaderAction[] = [
    ...(visits
      ? []
      : [
          { label: 'File', choose: () => place.goTo('file') },
          { label: 'Share', choose: () => place.goTo('share') },
        ]),
    { label: 'Print', choose: () => print() },
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
      items: [page('ten-steps', 'Make your own in ten steps'), page('reference', 'Units and functions')],
    },
  ];
  createEffect(() => {
    const { title } = signals.view();
    document.title = title ? `${title} – Ellwand` : 'Ellwand';
  });
  onMount(() => afterFirstPaint(fetchParser));
  const more = props.startAt === undefined ? {} : { startAt: props.startAt };
  return (
    <Shell
      notebook={signals}
      saved={visits ? 'shown, not kept' : parts.keeping.saved()}
      savedWhy={visits ? '' : parts.keeping.promise()}
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
        <Show when={parts.guide.step() !== undefined}>
          <Suspense>
            <GuideBar
              step={parts.guide.step() ?? 0}
              onStep={parts.guide.goTo}
              onClose={() => parts.guide.goTo(undefined)}
            />
          </Suspense>
        </Show>
      }
      isGuided={parts.guide.step() !== undefined}
      notices={<AppNotices notices={parts.notices.list()} />}
      instead={
        isElsewhere() ? (
          <Suspense>
            <Pages {...parts} page={place.page() ?? 'shelf'} session={session} signals={signals} />
          </Suspense>
        ) : undefined
      }
    />
  );
}

/** The gauge that is carried on. */
function carriedWords(signals: NotebookSignals, session: Session): string {
  signals.view();
  const told = (carryOn(session)?.cells ?? []).map((id) => {
    const { values } = signals.row(id);
    const [value] = values;
    return value?.kind === 'quantity' ? `${value.text} ${value.unit}` : '';
  });
  return `Your gauge goes along, with how sure it is: ${told.filter(Boolean).join(', ')}.`;
}
