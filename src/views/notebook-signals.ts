/*
 * The one place where a session's news becomes Solid signals: one for the page, one for each row, one for what is
 * said aloud. A row's signal is made when the row is first asked for and forgotten when the row leaves the page.
 * Below this file nothing knows Solid; above it no component works anything out.
 *
 * Rows in sight, or nearly so, follow the news at once, in the same frame. Rows out of sight follow
 * once the news has paused, so that a change costs what can be seen of it however long the sheet is. A row that comes
 * into sight, looking for a word, printing, and whoever comes after the pause all find every row up to date.
 */
import { type Accessor, batch, createSignal, onCleanup, type Setter } from 'solid-js';
import type { News, Page, PageView, RowView } from '../session/index.ts';
import { isSameList } from './same-list.ts';

/** A sentence for the live region; `turn` differs each time, so that the same words can be said twice. */
export interface Spoken {
  readonly words: string;
  readonly turn: number;
}

/** An open notebook whose answers are tracked: reading one in a component shows it anew when it changes. */
export interface NotebookSignals {
  /** Where to ask for things to be done. */
  readonly page: Page;
  readonly view: Accessor<PageView>;
  /** The row of a cell that is on the page. */
  row(id: string): RowView;
  /** The same row, told anew only when something beside its values differs, or what is said of them: most news is numbers. */
  face(id: string): RowView;
  readonly spoken: Accessor<Spoken>;
  /** A row went out of sight, or came back into it. */
  setFar(id: string, isFar: boolean): void;
  /** Says a sentence to those who listen. */
  say(words: string): void;
}

interface RowSignal {
  readonly row: Accessor<RowView>;
  readonly setRow: Setter<RowView>;
  readonly face: Accessor<RowView>;
  readonly setFace: Setter<RowView>;
}

/** Listens to a page until the owner (a component) is gone. */
export function createNotebookSignals(page: Page): NotebookSignals {
  const [view, setView] = createSignal(page.page(), { equals: false });
  const [spoken, setSpoken] = createSignal<Spoken>({ words: '', turn: 0 });
  const rows = new Map<string, RowSignal>();
  const far = new Set<string>();
  const late = createLateRows((ids) => batch(() => ids.forEach(refresh)));

  const say = (words: string) => setSpoken((old) => ({ words, turn: old.turn + 1 }));
  const signalOf = (id: string): RowSignal => {
    const known = rows.get(id);
    if (known) return known;
    const [row, setRow] = createSignal(page.row(id));
    const [face, setFace] = createSignal(page.row(id), { equals: isSameFace });
    const made = { row, setRow, face, setFace };
    rows.set(id, made);
    return made;
  };
  const refresh = (id: string) => {
    const signal = rows.get(id);
    if (!signal) return; // It left the page in the meantime.
    const now = page.row(id);
    signal.setRow(now);
    signal.setFace(now);
  };
  const hear = (news: News) =>
    batch(() => {
      if (news.page) {
        const now = page.page();
        if (now.sections !== view().sections) forgetRowsNotOn(now, rows);
        setView(now);
      }
      const away: string[] = [];
      for (const id of news.rows) {
        if (far.has(id)) away.push(id);
        else refresh(id);
      }
      late.add(away);
      if (news.aloud !== '') say(news.aloud);
    });

  const setFar = (id: string, isFar: boolean) => {
    if (isFar) far.add(id);
    else if (far.delete(id)) late.take(id);
  };

  onCleanup(page.listen(hear));
  onCleanup(late.end);
  return {
    page,
    view,
    row: (id) => signalOf(id).row(),
    face: (id) => signalOf(id).face(),
    spoken,
    setFar,
    say,
  };
}

function isSameFace(old: RowView, now: RowView): boolean {
  return (
    old.name === now.name &&
    old.unit === now.unit &&
    old.typed === now.typed &&
    old.each === now.each &&
    old.how === now.how &&
    old.note === now.note &&
    old.tried === now.tried &&
    isSameSaid(old, now)
  );
}

/** True when two rows say the same beside their values. */
function isSameSaid(old: RowView, now: RowView): boolean {
  if (!isSameList(old.cautions, now.cautions)) return false;
  if ((old.plain && now.plain) || !now.each) return true;
  return (
    old.values.length === now.values.length &&
    old.values.every(({ says, tone }, i) => says === now.values[i]?.says && tone === now.values[i].tone)
  );
}

/** So long after the last news the rows out of sight begin to follow, and so long they may take at a time. */
const restMs = 300;
const sliceMs = 5;

/** Rows that are to be asked for again when nothing more urgent is to be shown. */
function createLateRows(refresh: (ids: readonly string[]) => void) {
  const waiting = new Set<string>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let newsAt = 0;
  const take = (ids: readonly string[]) => {
    for (const id of ids) waiting.delete(id);
    refresh(ids);
  };
  const slice = () => {
    timer = undefined;
    const start = performance.now();
    if (start - newsAt < restMs - 1) {
      timer = setTimeout(slice, restMs - (start - newsAt));
      return;
    }
    const end = start + sliceMs;
    while (waiting.size > 0 && performance.now() < end) take(firstFew(waiting));
    if (waiting.size > 0) timer = setTimeout(slice, 0);
  };
  const takeAll = () => take([...waiting]);
  const hearFind = (event: KeyboardEvent) => {
    if ((event.ctrlKey || event.metaKey) && (event.key === 'f' || event.key === 'g')) takeAll();
  };
  globalThis.addEventListener?.('beforeprint', takeAll);
  globalThis.addEventListener?.('keydown', hearFind);
  return {
    add: (ids: readonly string[]) => {
      if (ids.length === 0) return;
      for (const id of ids) waiting.add(id);
      newsAt = performance.now();
      timer ??= setTimeout(slice, restMs);
    },
    take: (id: string) => {
      if (waiting.has(id)) take([id]);
    },
    end: () => {
      clearTimeout(timer);
      globalThis.removeEventListener?.('beforeprint', takeAll);
      globalThis.removeEventListener?.('keydown', hearFind);
    },
  };
}

/** A handful at a time, between two looks at the clock. */
function firstFew(ids: ReadonlySet<string>): readonly string[] {
  const few: string[] = [];
  for (const id of ids) if (few.push(id) === 8) break;
  return few;
}

function forgetRowsNotOn(view: PageView, rows: Map<string, RowSignal>): void {
  let count = 0;
  for (const section of view.sections) count += section.cells.length;
  if (count >= rows.size && view.sections.every((section) => section.cells.every((id) => rows.has(id))))
    return;
  const here = new Set(view.sections.flatMap((section) => section.cells));
  for (const id of rows.keys()) if (!here.has(id)) rows.delete(id);
}
