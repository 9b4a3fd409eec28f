/*
 * The notebook of a first visit, shown before what keeps it has been fetched: the sheet lives at once, and what is done
 * to it meanwhile waits to be kept. Should the page close before that, it is found where small things are remembered.
 * Whoever has been here before, comes by a link, or opens a file that carries a notebook, waits for the shelf instead.
 */

import { type Notebook, newId } from '../notebook/index.ts';
import { beginSession, type Kept, type Session } from '../session/index.ts';
import { CARRIED } from '../storage/index.ts';
import { recall, remember } from '../views/index.ts';
import { lastId } from './address.ts';
import { beginFirst } from './first-notebook.ts';
import { wholeOf } from './parser.ts';
import { todayHere } from './today.ts';

/** A notebook that is shown and not kept yet. */
export interface Early {
  readonly session: Session;
  /** As it was when it was shown, with the id it will have on the shelf. */
  readonly notebook: Notebook;
  /** Hands on what is to be kept, from the beginning; it goes on being remembered until the disk has it. */
  keepWith(keep: (kept: Kept) => void): void;
  /** Says that the disk has it: from now on nothing needs to be remembered. */
  kept(): void;
}

/** Where the notebook waits with what was done to it: both as `Waiting`. */
export const WAITING = 'ellwand waiting';

/** A notebook that the shelf does not have yet, and what was done to it, as it is remembered. */
export type Waiting = readonly [Notebook, readonly Pick<Kept, 'trial' | 'aside' | 'made' | 'asked'>[]];

/** Whether nothing says that anyone has been here before, or is looking for anything. */
export function isFirstVisit(): boolean {
  const carries = (document.getElementById(CARRIED)?.textContent?.trim() ?? '') !== '';
  return lastId() === undefined && recall(WAITING) === undefined && location.hash === '' && !carries;
}

/** The notebook of a first visit. Rejects where it cannot be fetched. */
export async function beginEarly(): Promise<Early> {
  const notebook = { ...(await beginFirst()), id: newId(Math.random, 'n') };
  const done: Kept[] = [];
  const waiting: Kept[] = [];
  let keep = (kept: Kept): void => void waiting.push(kept);
  let rememberToo = (kept: Kept): void => {
    done.push(kept);
    // Each change tells the notebook before and after it: not needed, as it begins with the one and comes to the other.
    const slim = done.map(({ trial, aside, made, asked }) => ({
      trial,
      aside,
      made: made && { ...made, before: 0, after: 0 },
      asked: session.isWhole ? undefined : asked,
    }));
    remember(WAITING, JSON.stringify([notebook, slim]));
  };
  const session = beginSession({
    notebook,
    today: todayHere(),
    random: Math.random,
    keep: (kept) => {
      rememberToo(kept);
      keep(kept);
    },
  });
  return {
    notebook,
    session: await wholeOf(session),
    keepWith: (next) => {
      keep = next;
      for (const kept of waiting.splice(0)) next(kept);
    },
    kept: () => {
      rememberToo = () => undefined;
    },
  };
}
