/*
 * Asking an open notebook from the page: what answers is fetched first; the answer is asked for again in a moment when
 * the notebook has changed, and only while it can be seen.
 */
import { type Accessor, createEffect, createSignal, onCleanup, onMount } from 'solid-js';
import type { DecisionView, Page, Questions } from '../../session/index.ts';
import type { Desk } from '../desk.ts';

/** What is looked at: a cell, and a column of it where it has many. */
export interface Looked {
  readonly id: string;
  readonly column: string | null;
}

/**
 * What answers; undefined until it is there. It is fetched when it is first wanted. `failed` is true where it could not
 * be fetched.
 */
export function createQuestions(
  page: Page,
  isWanted: Accessor<boolean | undefined> = () => true,
): {
  readonly questions: Accessor<Questions | undefined>;
  readonly failed: Accessor<boolean>;
} {
  const [questions, setQuestions] = createSignal<Questions>();
  const [failed, setFailed] = createSignal(false);
  let isAsked = false;
  createEffect(() => {
    if (isAsked || !isWanted()) return;
    isAsked = true;
    page.questions().then(
      (here) => setQuestions(() => here),
      () => setFailed(true),
    );
  });
  return { questions, failed };
}

/** A number that grows whenever anything in the notebook changes. */
export function createTurns(page: Page): Accessor<number> {
  const [turn, setTurn] = createSignal(0);
  onCleanup(page.listen(({ rows, page: isPage }) => (isPage || rows.size > 0) && setTurn((old) => old + 1)));
  return turn;
}

/** The cell and column she stands at on the sheet. */
export function lookedAt(desk: Desk): Looked | undefined {
  const { row, part } = desk.stand();
  if (!row.startsWith('k:')) return undefined;
  const id = row.slice(2);
  const { columns } = desk.notebook.view();
  const isColumn = part >= 1 && part <= columns.length && desk.notebook.face(id).each;
  return { id, column: isColumn ? (columns[part - 1]?.id ?? null) : null };
}

/** Whether any of an element can be seen; undefined until that is known. */
export function createSeen(element: () => HTMLElement | undefined): Accessor<boolean | undefined> {
  const [isSeen, setSeen] = createSignal<boolean>();
  onMount(() => {
    const watched = element();
    if (!watched) return;
    const observer = new IntersectionObserver((entries) => setSeen(entries.at(-1)?.isIntersecting ?? false));
    observer.observe(watched);
    onCleanup(() => observer.disconnect());
  });
  return isSeen;
}

/** What is told where the answers cannot be had. */
export const NOT_FETCHED = 'What answers this could not be fetched just now: load the page again.';

/**
 * Goes on for so long with what is worked out a piece at a time, hearing its pieces; gives its end once that is there,
 * and undefined while there is more to do.
 */
export function goOnFor<Piece, End>(
  ms: number,
  search: Iterator<Piece, End>,
  hear: (piece: Piece) => void = () => undefined,
): IteratorReturnResult<End> | undefined {
  const end = performance.now() + ms;
  do {
    const next = search.next();
    if (next.done) return next;
    hear(next.value);
  } while (performance.now() < end);
  return undefined;
}

/** So long after the last change decisions are looked for, and so long at a time. */
const REST_MS = 300;
const SLICE_MS = 6;

/** What would be decided otherwise, found in slices once the notebook has been left alone for a moment. */
export function createDecisions(
  questions: Accessor<Questions | undefined>,
  turn: Accessor<number>,
  isSeen: Accessor<boolean | undefined>,
): { readonly decisions: Accessor<readonly DecisionView[]>; readonly isLooking: Accessor<boolean> } {
  const [decisions, setDecisions] = createSignal<readonly DecisionView[]>([]);
  const [isLooking, setLooking] = createSignal(false);
  createEffect(() => {
    turn();
    const asked = questions();
    if (!asked || !isSeen()) return;
    let timer: ReturnType<typeof setTimeout>;
    setLooking(true);
    const found: DecisionView[] = [];
    const goOn = (all: IterableIterator<DecisionView | undefined>) => {
      if (goOnFor(SLICE_MS, all, (one) => one && found.push(one))) {
        setDecisions(found);
        setLooking(false);
      } else timer = setTimeout(goOn, 0, all);
    };
    timer = setTimeout(() => goOn(asked.decisions()), REST_MS);
    onCleanup(() => {
      clearTimeout(timer);
      setLooking(false);
    });
  });
  return { decisions, isLooking };
}
