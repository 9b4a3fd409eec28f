/*
 * What the page shows: a notebook of the shelf that is open, or over it one that is only looked at; and in place of its
 * sheet perhaps a page. The address follows, so that the browser's back button and a reload come to the same place.
 */

import { type Accessor, batch, createSignal, onCleanup } from 'solid-js';
import { isRefused, type Notebook, type Refused } from '../notebook/index.ts';
import type { Session } from '../session/index.ts';
import type { Shelf } from '../storage/index.ts';
import { refusalSentence } from '../telling/index.ts';
import type { VisitorBarProps } from '../views/index.ts';
import { type PageName, putInAddress, readAddress } from './address.ts';
import type { Early } from './early.ts';
import { type Notices, UNREAD } from './notices.ts';
import { type OpenedNotebook, openNotebook, type Told } from './opened.ts';

/** A notebook that is looked at and not kept, with what stands above it. */
export interface Visitor {
  readonly session: Session;
  readonly bar: VisitorBarProps;
}

/** What the open notebook is compared with. */
export interface Other {
  readonly session: Session;
  /** What it is called: "from Ada.ellwand.json", "before I ripped back". */
  readonly name: string;
}

export interface Place {
  readonly opened: Accessor<OpenedNotebook | undefined>;
  readonly visitor: Accessor<Visitor | undefined>;
  readonly page: Accessor<PageName | undefined>;
  readonly other: Accessor<Other | undefined>;
  /** Opens a notebook of the shelf. Gives false, with a notice, where it cannot be. */
  open(
    id: string,
    how?: { readonly replace?: boolean; readonly page?: PageName | undefined; readonly early?: Early },
  ): Promise<boolean>;
  /** Puts a notebook on the shelf and opens it. */
  begin(
    notebook: Notebook,
    how?: { readonly replace?: boolean; readonly sameId?: boolean },
  ): Promise<boolean>;
  /** Puts the notebook that is shown already on the shelf, and keeps it from now on. */
  adopt(early: Early): Promise<boolean>;
  visit(visitor: Visitor | undefined): void;
  compareWith(other: Other): void;
  /** Shows a page in place of the sheet, or the sheet. */
  goTo(page: PageName | undefined): void;
  /** Goes where the address says. */
  follow(): Promise<void>;
}

/** The button that was pressed may be gone with the notebook before: then the keyboard goes to the sheet's first cell. */
function takeKeyboard(): void {
  if (document.activeElement !== document.body) return;
  document.querySelector<HTMLElement>('.grid [data-part][tabindex="0"]')?.focus({ preventScroll: true });
}

export function createPlace(shelf: Shelf, notices: Notices, told: Told): Place {
  const [opened, setOpened] = createSignal<OpenedNotebook>();
  const [visitor, setVisitor] = createSignal<Visitor>();
  const [page, setPage] = createSignal<PageName>();
  const [other, setOther] = createSignal<Other>();
  const openId = () => opened()?.keeper.id;
  let turn = 0;

  const refuse = ({ refused }: Refused) => {
    notices.say('place', refusalSentence(refused));
    return false;
  };
  const show = (next: PageName | undefined) => {
    // What was compared is not kept over a reload; without it there is nothing to show.
    setPage(next === 'compare' && other() === undefined ? undefined : next);
  };
  const open: Place['open'] = async (id, { replace = false, page: next, early } = {}) => {
    const mine = ++turn;
    if (openId() === id) {
      batch(() => {
        setVisitor(undefined);
        show(next);
      });
      putInAddress({ id, page: page() }, replace);
      return true;
    }
    const made = await openNotebook(shelf, id, told, early).catch(() => undefined);
    if (made === undefined) {
      notices.say('place', 'The browser could not read this notebook just now: try again in a moment.');
      return false;
    }
    if (isRefused(made)) return refuse(made);
    if (mine !== turn) {
      await made.close();
      return false;
    }
    const old = opened();
    batch(() => {
      setVisitor(undefined);
      setOther(undefined);
      show(next);
      setOpened(made);
    });
    if (old) takeKeyboard();
    for (const { key } of notices.list()) if (key.startsWith(UNREAD)) notices.drop(key);
    putInAddress({ id, page: page() }, replace);
    await old?.close();
    return true;
  };
  const goTo = (next: PageName | undefined) => {
    show(next);
    const id = openId();
    if (!visitor() && id !== undefined) putInAddress({ id, page: page() }, false);
    const main = document.getElementById('sheet');
    main?.scrollTo(0, 0);
    if (next !== undefined) main?.focus();
  };
  const follow = async () => {
    const { id, page: next } = readAddress();
    const here = openId();
    if (id !== undefined && id !== here) await open(id, { replace: true, page: next });
    else if (id !== undefined || next !== undefined) {
      batch(() => {
        if (id !== undefined) setVisitor(undefined);
        show(next);
      });
      if (here !== undefined && !visitor()) putInAddress({ id: here, page: page() }, true);
    }
  };
  const put = async (
    notebook: Notebook,
    sameId: boolean,
    how: { readonly replace: boolean; readonly early?: Early },
  ) => {
    // What is shown already keeps the title it is shown with.
    const ownTitle = how.early === undefined;
    const made = await shelf.create(notebook, { sameId, ownTitle }).catch(() => undefined);
    if (made === undefined) {
      notices.say('place', 'The browser has no room for another notebook: save a file, then delete some.');
      return false;
    }
    return isRefused(made) ? refuse(made) : open(made.id, how);
  };
  onCleanup(() => void opened()?.close());
  return {
    opened,
    visitor,
    page,
    other,
    open,
    begin: (notebook, { replace = false, sameId = false } = {}) => put(notebook, sameId, { replace }),
    adopt: (early) => put(early.notebook, true, { replace: true, early }),
    visit: (next) =>
      batch(() => {
        setPage(undefined);
        setVisitor(next);
      }),
    compareWith: (next) => {
      batch(() => {
        setOther(next);
        setVisitor(undefined);
      });
      goTo('compare');
    },
    goTo,
    follow,
  };
}
