/*
 * The page of one open notebook: its signals, its panels, and what the head offers.
 */

import { type Accessor, createMemo, createSignal, Suspense } from 'solid-js';
import { fileName, saveFile } from '../storage/index.ts';
import {
  createNotebookSignals,
  DrawingPanel,
  FileView,
  type HeaderAction,
  type NavGroup,
  type NotebookSignals,
  type Panel,
  ReferenceView,
  Shell,
  StepsPanel,
} from '../views/index.ts';
import type { OpenedNotebook } from './opened.ts';

export interface NotebookPageProps {
  readonly opened: OpenedNotebook;
  readonly nav: Accessor<readonly NavGroup[]>;
  readonly saved: Accessor<string>;
  readonly hint: string;
  readonly startAt: string | undefined;
}

/** An open notebook on the page. */
export function NotebookPage(props: NotebookPageProps) {
  const { session } = props.opened;
  const signals = createNotebookSignals(session);
  const [shown, show] = createSignal<'sheet' | 'file' | 'reference'>('sheet');
  const back = () => show('sheet');
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
  const actions: readonly HeaderAction[] = [
    { label: 'File', choose: () => show('file') },
    { label: 'Save', choose: () => saveFile(fileName(session.notebook.title), session.file()) },
    { label: 'Print', choose: () => print() },
  ];
  const help: NavGroup = {
    heading: 'help',
    items: [{ id: 'reference', title: 'Units and functions', choose: () => show('reference') }],
  };
  const more = props.startAt === undefined ? {} : { startAt: props.startAt };
  return (
    <Shell
      notebook={signals}
      saved={props.saved()}
      nav={[...props.nav(), help]}
      panels={panels()}
      actions={actions}
      hint={props.hint}
      {...more}
      instead={
        shown() === 'sheet' ? undefined : (
          <Suspense>
            {shown() === 'file' ? (
              <FileView page={session} onClose={back} />
            ) : (
              <ReferenceView onClose={back} />
            )}
          </Suspense>
        )
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
