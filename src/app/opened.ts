/*
 * A notebook of the shelf, opened: its keeper writes what the session does, and tells what other tabs did.
 * And a notebook that is only looked at: a session that can be read and is kept nowhere.
 */

import { type Change, isRefused, type Notebook, type Read, type Refused } from '../notebook/index.ts';
import { type AsideTrial, createSession, type Kept, type Session, type Trial } from '../session/index.ts';
import type { Keeper, News, Shelf } from '../storage/index.ts';
import { rememberUnits } from './chosen-units.ts';
import type { Early } from './early.ts';
import { wholeOf } from './parser.ts';
import { todayHere } from './today.ts';

/** An open notebook with what keeps it. */
export interface OpenedNotebook {
  readonly session: Session;
  readonly keeper: Keeper;
  close(): Promise<void>;
}

/** One of two changes that met: what it is called, and what was written, where it was one text. */
export interface Overtaken {
  /** "change stitch gauge". */
  readonly title: string;
  /** "18 st / 4 in"; absent where the change is more than a text. */
  readonly text?: string | undefined;
}

/** What is told while a notebook is open: whether it is saved, what could not be, and what other tabs did. */
export interface Told {
  saved(): void;
  /** A change is on its way to the disk. */
  changed(): void;
  trouble(kind: 'full' | 'other'): void;
  /** A change of one's own could not be kept and was taken back. */
  takenBack(title: string): void;
  /** Another tab has changed something; `title` says what. */
  elsewhere(title: string): void;
  /** A change of one's own was overwritten in another tab; `again` does it once more. */
  overtaken(mine: Overtaken, theirs: Overtaken, again: () => void): void;
}

/** What is kept of trials beside a notebook. */
interface KeptTrials {
  readonly now: Trial | null;
  readonly aside: readonly AsideTrial[];
}

function isTrial(value: unknown): value is Trial {
  return (
    typeof value === 'object' &&
    value !== null &&
    'texts' in value &&
    typeof value.texts === 'object' &&
    value.texts !== null
  );
}

const isAside = (value: unknown): value is AsideTrial =>
  isTrial(value) && 'id' in value && typeof value.id === 'string';

/** Reads what was kept of trials; what cannot be read is left out. Once it was the one trial alone. */
function readTrials(kept: unknown): KeptTrials {
  if (isTrial(kept)) return { now: kept, aside: [] };
  const { now, aside } = (typeof kept === 'object' && kept !== null ? kept : {}) as Record<string, unknown>;
  return { now: isTrial(now) ? now : null, aside: Array.isArray(aside) ? aside.filter(isAside) : [] };
}

/** Keeps what a session has done. */
export function keepWith(
  keeper: Keeper,
  kept: Pick<Kept, 'trial' | 'aside' | 'made'>,
  told: Pick<Told, 'changed'>,
): void {
  const trials: KeptTrials = { now: kept.trial ?? null, aside: kept.aside ?? [] };
  if (!kept.made) return keeper.saveTrials(trials);
  const { change, title, role, join, before, after } = kept.made;
  rememberUnits(change);
  told.changed();
  keeper.save({ change, title, role, before, after, trials, ...(join === undefined ? {} : { join }) });
}

function written({ title, change }: { readonly title: string; readonly change: Change }): Overtaken {
  return { title, text: change.kind === 'set_text' && 'text' in change ? change.text : undefined };
}

function hearNews(session: Session, news: News, told: Told): void {
  switch (news.kind) {
    case 'foreign':
      session.takeForeign(news.notebook, news.title);
      return told.elsewhere(news.title);
    case 'refused':
      session.takeForeign(news.notebook, '');
      return told.takenBack(news.title);
    case 'overtaken':
      return told.overtaken(written(news.mine), written(news.theirs), () => session.do(news.mine.change));
    case 'saved':
      return told.saved();
    case 'trouble':
      return told.trouble(news.trouble === 'full' ? 'full' : 'other');
  }
}

/**
 * Opens a notebook of the shelf; the one that is shown already goes on as it is. Refused where it is not there or cannot
 * be read; rejects where the browser fails.
 */
export async function openNotebook(
  shelf: Shelf,
  id: string,
  told: Told,
  early?: Early,
): Promise<OpenedNotebook | Refused> {
  const opened = await shelf.open(id);
  if (isRefused(opened)) return opened;
  const { keeper, notebook, history, progressHistory, trials, readOnly, remarks } = opened;
  const { now, aside } = readTrials(trials);
  const keep = (kept: Kept) => keepWith(keeper, kept, told);
  const session =
    early?.session ??
    createSession({
      notebook,
      history,
      progressHistory,
      trial: now ?? undefined,
      aside,
      readOnly,
      remarks,
      today: todayHere(),
      random: Math.random,
      keep,
    });
  keeper.doThrough((change) => session.do(change).done);
  const stopNews = keeper.onNews((news) => hearNews(session, news, told));
  early?.keepWith(keep);
  const stopDays = watchDays((day) => session.setToday(day));
  const close = async () => {
    stopNews();
    stopDays();
    await shelf.close(keeper);
  };
  await wholeOf(session);
  return { session, keeper, close };
}

/** A notebook to be read and not changed, kept nowhere. */
export function lookAt({ notebook, remarks }: Pick<Read, 'notebook' | 'remarks'>): Promise<Session> {
  return wholeOf(
    createSession({ notebook, remarks, readOnly: true, today: todayHere(), random: Math.random }),
  );
}

/** A notebook without what has been knitted from it. */
export function withoutProgress({ progress: _progress, ...notebook }: Notebook): Notebook {
  return notebook;
}

/** Tells when the day has changed: at midnight, and on coming back to the page. */
function watchDays(tell: (day: number) => void): () => void {
  let last = todayHere();
  const look = () => {
    const day = todayHere();
    if (day !== last) tell(day);
    last = day;
  };
  const timer = setInterval(look, 60_000);
  document.addEventListener('visibilitychange', look);
  return () => {
    clearInterval(timer);
    document.removeEventListener('visibilitychange', look);
  };
}
