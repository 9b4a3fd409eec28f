/*
 * A notebook of the shelf, opened: its keeper writes what the session does, and tells what other tabs did.
 */

import { isRefused, type Refused } from '../notebook/index.ts';
import { createSession, type Kept, type Session, type Trial } from '../session/index.ts';
import type { Keeper, News, Shelf } from '../storage/index.ts';

/** An open notebook with what keeps it. */
export interface OpenedNotebook {
  readonly session: Session;
  readonly keeper: Keeper;
  close(): Promise<void>;
}

/** What is told while a notebook is open: whether it is saved, and what could not be. */
export interface Told {
  saved(): void;
  trouble(words: string): void;
  /** A change of one's own was overwritten in another tab; `again` does it once more. */
  overtaken(words: string, again: () => void): void;
}

/** The day it is here, as a day number. */
export function todayHere(now: Date = new Date()): number {
  return Math.floor(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / 86_400_000);
}

function isTrial(value: unknown): value is Trial {
  return typeof value === 'object' && value !== null && 'texts' in value && typeof value.texts === 'object';
}

function keepWith(keeper: Keeper, kept: Kept): void {
  if (kept.made) {
    const { change, title, role, join, before, after } = kept.made;
    keeper.save({ change, title, role, before, after, ...(join === undefined ? {} : { join }) });
  }
  keeper.saveTrials(kept.trial ?? null);
}

function hearNews(session: Session, news: News, told: Told): void {
  switch (news.kind) {
    case 'foreign':
      return session.takeForeign(news.notebook, news.title);
    case 'refused':
      session.takeForeign(news.notebook, '');
      return told.trouble(`“${news.title}” could not be kept: it was taken back.`);
    case 'overtaken':
      return told.overtaken(
        `Another tab changed the same thing: “${news.theirs.title}” came later than your “${news.mine.title}”.`,
        () => session.do(news.mine.change),
      );
    case 'saved':
      return told.saved();
    case 'trouble':
      return told.trouble(
        news.trouble === 'full'
          ? 'This device has no room left: the last changes are not saved. Save a file now.'
          : 'This browser is not keeping the notebook: save a file so that nothing is lost.',
      );
  }
}

/** Opens a notebook of the shelf. Refused where it is not there or cannot be read. */
export async function openNotebook(shelf: Shelf, id: string, told: Told): Promise<OpenedNotebook | Refused> {
  const opened = await shelf.open(id);
  if (isRefused(opened)) return opened;
  const { keeper, notebook, history, trials, readOnly, remarks } = opened;
  const session = createSession({
    notebook,
    history,
    trial: isTrial(trials) ? trials : undefined,
    readOnly,
    remarks,
    today: todayHere(),
    random: Math.random,
    keep: (kept) => keepWith(keeper, kept),
  });
  const stopNews = keeper.onNews((news) => hearNews(session, news, told));
  const stopDays = watchDays((day) => session.setToday(day));
  const close = async () => {
    stopNews();
    stopDays();
    await shelf.close(keeper);
  };
  return { session, keeper, close };
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
