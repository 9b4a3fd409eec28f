/*
 * What the knitter is doing on the sheet: where she stands, what she is editing, which workings lie open. None of
 * it is part of the notebook. Rows of the sheet have keys: "head" for the column heads, "s:ID" for a section's
 * heading, "k:ID" for a cell, "+:ID" for the place at a section's end where a cell can be added.
 * In a row she stands at a part: 0 is the name, 1 to n are the columns, n + 1 is how it is worked out. A row with one
 * value has that value at parts 1 to n alike, so that going down a column comes back to the same column.
 */
import {
  type Accessor,
  batch,
  createContext,
  createEffect,
  createMemo,
  createSelector,
  createSignal,
  useContext,
} from 'solid-js';
import type { Outcome, Place, SectionView } from '../session/index.ts';
import { createFlags, type Flags } from './flags.ts';
import type { NotebookSignals } from './notebook-signals.ts';
import { isSameList } from './same-list.ts';

/** Where she stands: a row's key and a part of it. */
export interface Stand {
  readonly row: string;
  readonly part: number;
}

/** What is being edited. `start` replaces the whole text; without it, editing begins with what is there. */
export interface Editing {
  readonly what: 'text' | 'name' | 'note' | 'step' | 'section' | 'about' | 'column' | 'heading';
  /** The cell, section or column edited. */
  readonly id: string;
  /** For a text: the column it stands in, or null where there is one for all. */
  readonly column: string | null;
  readonly start?: string;
  /** For a text: written in the value's own place, as a typed one is, and not in a line under the row. */
  readonly inPlace?: boolean;
}

/** A sentence that stands at the foot of the sheet until the next thing is done. */
export interface Notice {
  readonly sentence: string;
  readonly canUndo: boolean;
}

/** One thing a menu offers. */
export interface MenuItem {
  readonly label: string;
  readonly keys?: string;
  readonly disabled?: boolean;
  /** Begins a new group. */
  readonly apart?: boolean;
  readonly choose: () => void;
}

/** A menu that is open: what it belongs to, where it hangs, and what it offers. */
export interface OpenMenu {
  readonly label: string;
  readonly anchor: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
  readonly items: readonly MenuItem[];
}

export interface Desk {
  readonly notebook: NotebookSignals;
  readonly stand: Accessor<Stand>;
  isStandingIn(row: string): boolean;
  /** The keys of all rows in order, and a row's place among them. */
  readonly order: Accessor<readonly string[]>;
  readonly columnCount: Accessor<number>;
  readonly editing: Accessor<Editing | undefined>;
  isEditing(what: Editing['what'], id: string): boolean;
  readonly notice: Accessor<Notice | undefined>;
  readonly menu: Accessor<OpenMenu | undefined>;
  /** Cells whose workings lie open; cells the focused one feeds; cells it uses; cells marked for copying. */
  readonly open: Flags;
  readonly fed: Flags;
  readonly used: Flags;
  readonly marked: Flags;
  /** True where the sheet is a column of cards. */
  readonly phone: Accessor<boolean>;

  /** Tells where a row's element is, so that it can be focused and measured. */
  register(row: string, element: HTMLElement): void;
  elementOf(row: string): HTMLElement | undefined;
  /** The element of a part of a row, while the row is on the page. */
  partOf(row: string, part: number): HTMLElement | undefined;
  /** Tells what draws the rows that are not drawn yet. */
  onMissingRow(draw: () => void): void;
  /** Stands there; with `focus`, also takes the keyboard there. */
  standAt(stand: Stand, focus?: boolean): void;
  edit(editing: Editing): void;
  /** Ends editing; with `focus`, the keyboard goes back to where she stands. */
  leave(focus?: boolean): void;
  /** Stands at a cell, in your column where it has one value for each, and takes the keyboard there. */
  goTo(cell: string): void;
  tell(notice: Notice | undefined): void;
  /** Shows a sentence and says it aloud. */
  announce(sentence: string, canUndo: boolean): void;
  /** Shows the sentence of something that could not be done. True when it was done. */
  heed(outcome: Outcome): boolean;
  openMenu(menu: OpenMenu | undefined): void;
  /** Brings what stands beside the sheet into sight: on a narrow screen its tab, elsewhere its panel. */
  showPanel(id: string): void;
  /** Tells what shows a panel's tab where the screen is narrow. */
  onShowPanel(show: (id: string) => void): void;
  /** Asks under a cell's row what would have to change, or no longer asks. */
  askBack(id: string | undefined): void;
  isAskedBack(id: string): boolean;
  /** Whether steps and paper are asked for with the change that is tried; never while none is. */
  readonly asTried: Accessor<boolean>;
  askAsTried(isAsked: boolean): void;
  /** Whether steps and paper are asked for with all columns at once, where there are more than one. */
  readonly allSizes: Accessor<boolean>;
  readonly askAllSizes: (isAsked: boolean) => void;
  /** While it is printed: whether all columns were asked for beside Print, or one; absent where nothing was. */
  printsAll?: boolean;
  /** The place in the notebook where she stands, in a cell's row. */
  placeOf(id: string): Place;
}

const DeskContext = createContext<Desk>();
export const DeskProvider = DeskContext.Provider;

/** The desk of the sheet around a component. Throws outside one. */
export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('This component stands outside a sheet.');
  return desk;
}

/** A desk for an open notebook, with nothing being done. Needs an owner (a component). */
export function createDesk(notebook: NotebookSignals, phone: Accessor<boolean>): Desk {
  const elements = new Map<string, HTMLElement>();
  const shape = createMemo(() => notebook.view().sections, undefined, { equals: isSameShape });
  const order = createMemo(() => rowKeys(shape()));
  const columnCount = createMemo(() => notebook.view().columns.length);
  const [stand, setStand] = createSignal<Stand>(firstStand(order()));
  const standingRow = createMemo(() => stand().row);
  const isStandingIn = createSelector(standingRow);
  const [editing, setEditing] = createSignal<Editing>();
  const editedKey = createMemo(() => keyOf(editing()));
  const isEdited = createSelector(editedKey);
  const [notice, tell] = createSignal<Notice>();
  const [menu, openMenu] = createSignal<OpenMenu>();
  const [askedBack, askBack] = createSignal<string>();
  const isAskedBack = createSelector(askedBack);
  const [isAskedAsTried, askAsTried] = createSignal(false);
  const [allSizes, askAllSizes] = createSignal(false);
  const asTried = createMemo(() => isAskedAsTried() && notebook.view().trial !== undefined);
  createEffect(() => {
    if (!notebook.view().trial) askAsTried(false);
  });

  const elementOf = (row: string) => {
    const element = elements.get(row);
    return element?.isConnected ? element : undefined;
  };
  const partOf = (row: string, part: number) => partIn(elementOf(row), part, columnCount());
  let drawMissing = () => {};
  let showTab = (_panel: string) => {};
  let stop: HTMLElement | undefined;
  const markStop = () => {
    const { row, part } = stand();
    const next = partOf(row, part);
    if (next === stop) return;
    if (stop) stop.tabIndex = -1;
    if (next) next.tabIndex = 0;
    stop = next;
  };
  const standAt = (next: Stand, focus = false) => {
    const old = stand();
    if (old.row !== next.row || old.part !== next.part) setStand(next);
    if (next.row.startsWith('k:')) notebook.setFar(next.row.slice(2), false);
    if (focus && !elementOf(next.row)) drawMissing();
    markStop();
    if (focus) stop?.focus({ preventScroll: false });
  };
  const leave = (focus = true) => {
    batch(() => setEditing(undefined));
    markStop();
    if (focus) stop?.focus();
  };
  const goTo = (cell: string) => {
    const chosen = notebook.view().columns.findIndex((column) => column.chosen);
    standAt({ row: `k:${cell}`, part: Math.max(0, chosen) + 1 }, true);
  };
  const announce = (sentence: string, canUndo: boolean) => {
    tell({ sentence, canUndo });
    notebook.say(sentence);
  };
  const heed = (outcome: Outcome) => {
    if (!outcome.done) announce(outcome.sentence, false);
    else if (outcome.note !== undefined) announce(outcome.note, notebook.view().trial === undefined);
    return outcome.done;
  };

  keepStanding({ order, stand, standAt, markStop, columnCount });
  return {
    notebook,
    stand,
    isStandingIn: (row) => isStandingIn(row),
    order,
    columnCount,
    editing,
    isEditing: (what, id) => isEdited(`${what}:${id}`),
    notice,
    menu,
    open: createFlags(),
    fed: createFlags(),
    used: createFlags(),
    marked: createFlags(),
    phone,
    register: (row, element) => elements.set(row, element),
    elementOf,
    partOf,
    standAt,
    edit: (next) => setEditing(next),
    leave,
    goTo,
    tell,
    announce,
    heed,
    openMenu,
    showPanel: (id) => {
      showTab(id);
      const heading = document.getElementById(`panel-${id}`);
      heading?.scrollIntoView({ block: 'start' });
      heading?.focus({ preventScroll: true });
    },
    onShowPanel: (show) => {
      showTab = show;
    },
    askBack: (id) => askBack(id),
    isAskedBack: (id) => isAskedBack(id),
    asTried,
    askAsTried: (isAsked) => askAsTried(isAsked),
    allSizes,
    askAllSizes,
    onMissingRow: (draw) => {
      drawMissing = draw;
    },
    placeOf: (id) => placeAt(notebook, id, stand().part),
  };
}

function keyOf(editing: Editing | undefined): string {
  return editing ? `${editing.what}:${editing.id}` : '';
}

/** The keys of the sheet's rows from top to bottom. */
function rowKeys(sections: readonly SectionView[]): readonly string[] {
  const keys = ['head'];
  for (const section of sections) {
    keys.push(`s:${section.id}`);
    for (const id of section.cells) keys.push(`k:${id}`);
    keys.push(`+:${section.id}`);
  }
  return keys;
}

/** True when no row came, went or moved: most news changes only what stands in the rows. */
function isSameShape(old: readonly SectionView[], now: readonly SectionView[]): boolean {
  if (old === now) return true;
  return (
    old.length === now.length &&
    old.every((section, i) => section.id === now[i]?.id && isSameList(section.cells, now[i].cells))
  );
}

/** At first she stands at the first cell's value. */
function firstStand(order: readonly string[]): Stand {
  const cell = order.find((key) => key.startsWith('k:'));
  return { row: cell ?? order[1] ?? 'head', part: cell ? 1 : 0 };
}

function partIn(row: HTMLElement | undefined, part: number, columns: number): HTMLElement | undefined {
  if (!row) return undefined;
  const parts = row.querySelectorAll<HTMLElement>('[data-part]');
  if (part <= 0) return parts[0];
  if (part > Math.max(columns, 1)) return parts[parts.length - 1];
  return parts.length > columns + 1 ? parts[part] : (parts[1] ?? parts[0]);
}

function placeAt(notebook: NotebookSignals, id: string, part: number): Place {
  const row = notebook.row(id);
  const column = row.each ? notebook.view().columns[Math.max(part, 1) - 1] : undefined;
  return { cell: id, column: column?.id ?? null };
}

interface Standing {
  readonly order: Accessor<readonly string[]>;
  readonly stand: Accessor<Stand>;
  readonly standAt: (stand: Stand, focus?: boolean) => void;
  readonly markStop: () => void;
  readonly columnCount: Accessor<number>;
}

/** When the row she stands in is gone, she stands in the one that took its place. */
function keepStanding({ order, stand, standAt, markStop, columnCount }: Standing): void {
  let old = order();
  createEffect(() => {
    const now = order();
    columnCount();
    const { row, part } = stand();
    if (now.includes(row)) markStop();
    else {
      const hadFocus = document.activeElement === document.body;
      const index = Math.min(Math.max(old.indexOf(row), 0), now.length - 1);
      standAt({ row: now[index] ?? 'head', part }, hadFocus);
    }
    old = now;
  });
}
