/* The page that shares a notebook, with what it needs of storage: links, files, the share sheet, the tool itself. */

import { createResource, createSignal } from 'solid-js';
import { isRefused, writeNotebook } from '../notebook/index.ts';
import { type Session, tableFor } from '../session/index.ts';
import { canShareFiles, fileName, linkTo, saveFile, shareFile } from '../storage/index.ts';
import { refusalSentence, toCSV, toMarkdown, toTabs } from '../telling/index.ts';
import { type NotebookSignals, type ShareLink, SharePage } from '../views/index.ts';
import { findPrebuilt } from './begin.ts';
import { withoutProgress } from './opened.ts';
import { toolWith } from './tool-file.ts';

export interface SharingProps {
  readonly session: Session;
  readonly signals: NotebookSignals;
  /** A file of the whole notebook has been saved. */
  readonly onSaved: () => void;
  readonly onClose: () => void;
}

/** Sharing an open notebook. */
export function Sharing(props: SharingProps) {
  // A file is kept for oneself above all, and keeps what is knitted; a link, or the tool, is for a friend.
  const [inLink, setInLink] = createSignal(false);
  const [inFile, setInFile] = createSignal(true);
  const [inTool, setInTool] = createSignal(false);
  const { session } = props;
  const file = (withProgress: boolean) =>
    writeNotebook(withProgress ? session.notebook : withoutProgress(session.notebook));
  const name = (ending?: string) => fileName(session.notebook.title, ending);
  const [link] = createResource(
    () => [props.signals.view(), inLink()] as const,
    ([, progress]) => makeLink(session, progress),
  );
  const table = () => tableFor(session.live, session.steps());
  return (
    <SharePage
      title={props.signals.view().title}
      link={link.latest}
      hasProgress={session.notebook.progress !== undefined}
      knitted={{ link: [inLink, setInLink], file: [inFile, setInFile], tool: [inTool, setInTool] }}
      canSend={canShareFiles()}
      onSend={async () => {
        const came = await shareFile(name(), file(inFile()), session.notebook.title);
        return came === 'cannot' ? 'This system would not take it: save a file instead.' : '';
      }}
      onSaveFile={() => {
        saveFile(name(), file(inFile()));
        if (inFile() || session.notebook.progress === undefined) props.onSaved();
      }}
      tabs={() => toTabs(table())}
      markdown={() => toMarkdown(table())}
      onSaveTable={() => saveFile(name('.csv'), `\ufeff${toCSV(table())}`, 'text/csv')}
      onSaveText={() => saveFile(name('.md'), toMarkdown(table()), 'text/markdown')}
      onSaveTool={async () => {
        const page = await toolWith(file(inTool()));
        if (page === undefined)
          return 'The tool as one file could not be fetched: try again with a network, or save the notebook’s file.';
        saveFile(name('.html'), page, 'text/html');
        return '';
      }}
      onClose={props.onClose}
    />
  );
}

async function makeLink(session: Session, withProgress: boolean): Promise<ShareLink> {
  const page = location.href.replace(/#.*/, '');
  const link = await linkTo(session.notebook, { page, findPrebuilt, withProgress });
  return isRefused(link) ? { sentence: refusalSentence(link.refused) } : link;
}
