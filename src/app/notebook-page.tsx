/*
 * The page of one open notebook: its signals, its panels, and what the head offers.
 */

import { type Accessor, createMemo, createSignal, Suspense } from 'solid-js';
import {
  createNotebookSignals,
  DrawingPanel,
  FileView,
  type HeaderAction,
  type NavGroup,
  type Panel,
  Shell,
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
  const [isFile, setFile] = createSignal(false);
  const panels = createMemo(
    (): readonly Panel[] => {
      signals.view();
      return session.drawings().map((drawing) => ({
        id: drawing.id,
        title: () => drawing.title || 'Drawing',
        tab: 'drawings' as const,
        show: () => (
          <Suspense>
            <DrawingPanel view={() => session.drawings().find((one) => one.id === drawing.id)} />
          </Suspense>
        ),
      }));
    },
    undefined,
    { equals: (a, b) => a.length === b.length && a.every((panel, i) => panel.id === b[i]?.id) },
  );
  const actions: readonly HeaderAction[] = [
    { label: 'File', choose: () => setFile(true) },
    { label: 'Print', choose: () => print() },
  ];
  const more = props.startAt === undefined ? {} : { startAt: props.startAt };
  return (
    <Shell
      notebook={signals}
      saved={props.saved()}
      nav={props.nav()}
      panels={panels()}
      actions={actions}
      hint={props.hint}
      {...more}
      instead={
        isFile() ? (
          <Suspense>
            <FileView page={session} onClose={() => setFile(false)} />
          </Suspense>
        ) : undefined
      }
    />
  );
}
