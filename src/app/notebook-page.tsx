/*
 * The page of one notebook, open or only looked at: its signals, its panels, what the head offers, and the pages that
 * stand in place of its sheet.
 */

import { type Accessor, createEffect, createMemo, lazy, Show, Suspense } from 'solid-js';
import type { Session } from '../session/index.ts';
import {
  AppNotices,
  createNotebookSignals,
  DrawingPanel,
  GuideBar,
  type HeaderAction,
  type NavGroup,
  type NotebookSignals,
  type Panel,
  Shell,
  StepsPanel,
  VisitorBar,
  type VisitorBarProps,
} from '../views/index.ts';
import type { PageName } from './address.ts';
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
    title: () => `What to knit${chosenLabel(signals)}`,
    tab: 'knit',
    show: () => (
      <Suspense>
        <StepsPanel />
      </Suspense>
    ),
  };
  const panels = createMemo(
    (): readonly Panel[] => {
      signals.view();
      const drawn = session.drawings().map((drawing) => ({
        id: drawing.id,
        title: () => drawing.title || 'Drawing',
        tab: 'drawings' as const,
        show: () => (
          <Suspense>
            <DrawingPanel view={() => session.drawings().find((one) => one.id === drawing.id)} />
          </Suspense>
        ),
      }));
      return session.notebook.steps.length === 0 ? drawn : [...drawn, toKnit];
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
      items: [...(visits ? [] : [page('versions', 'Versions')]), page('how', 'How it’s worked out')],
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
  const more = props.startAt === undefined ? {} : { startAt: props.startAt };
  return (
    <Shell
      notebook={signals}
      saved={visits ? 'shown, not kept' : parts.keeping.saved()}
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

/** ", size S": the column the steps are for. */
function chosenLabel(signals: NotebookSignals): string {
  const { columns, heading } = signals.view();
  const chosen = columns.find((column) => column.chosen);
  return chosen ? `, ${heading} ${chosen.label}` : '';
}
