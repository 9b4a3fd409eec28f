/*
 * A notebook and its sheet, kept in step. The notebook is data that is replaced at every change; the sheet is told
 * only what became different, which is found by looking at which cells are no longer the same objects.
 *
 * Over the notebook's own texts lie *overlays*: the change being tried, and the text being typed. The sheet works
 * with the topmost text; the notebook is not touched by them.
 */

import { craft } from '../craft/index.ts';
import { createLanguage, type Language, readSizeLine, standard } from '../formula/index.ts';
import { allCells, type Cell, isByColumn, type Knitted, type Notebook } from '../notebook/index.ts';
import { type Choice, Sheet, type Text } from '../sheet/index.ts';
import { type Blame, type Blamed, blameOf, doesNotFit } from './blame.ts';

/** The language of notebooks: the standard functions and the craft's plans. */
export const language: Language = createLanguage([...standard, ...craft]);

/** The text of a cell as the sheet takes it: one, or one for each column in order. A size line fills the columns. */
export function sheetText(cell: Pick<Cell, 'text' | 'each'>, columns: readonly string[]): Text {
  if (cell.each !== undefined && columns.length > 0)
    return columns.map((id) => (Object.hasOwn(cell.each ?? {}, id) ? (cell.each?.[id] ?? '') : ''));
  const text = cell.text ?? '';
  const sizes = columns.length > 1 ? readSizeLine(text) : undefined;
  return sizes?.length === columns.length ? sizes : text;
}

/** The ids of a notebook's columns, in order. */
export function columnIds(notebook: Notebook): readonly string[] {
  return notebook.columns?.list.map((column) => column.id) ?? [];
}

function choiceOf(notebook: Notebook): Choice {
  const ids = columnIds(notebook);
  const { chosen } = notebook;
  if (chosen && 'follow' in chosen) return { follow: chosen.follow };
  if (chosen) return { column: ids.indexOf(chosen.column) };
  return ids.length > 0 ? { column: 0 } : undefined;
}

/** The day number of "2026-12-24", or undefined. */
export function dayOf(text: string | undefined): number | undefined {
  const ms = text === undefined ? Number.NaN : Date.parse(`${text}T00:00:00Z`);
  return Number.isNaN(ms) ? undefined : Math.floor(ms / 86_400_000);
}

/** Texts that lie over the notebook's own, by cell id. */
export type Overlay = ReadonlyMap<string, Pick<Cell, 'text' | 'each'>>;

/** A notebook with its sheet. */
export class Live {
  notebook: Notebook;
  readonly sheet: Sheet;
  private cells: ReadonlyMap<string, Cell>;
  private overlays: readonly Overlay[] = [];
  private today: number;
  /** Formulas whose kinds do not fit, and the typed cells that are to blame for them. */
  private readonly broken = new Set<string>();
  private blame: Blame = new Map();
  /** What is on the needles, by cell and then column number: of other columns than the chosen one, what is theirs alone. */
  pins: ReadonlyMap<string, ReadonlyMap<number, string>> = new Map();
  private pinnedFor = -1;
  private toldPins = this.pins;

  constructor(notebook: Notebook, today: number) {
    this.notebook = notebook;
    this.today = today;
    this.cells = byId(notebook);
    this.sheet = new Sheet({
      language,
      columns: labelsOf(notebook),
      heading: notebook.columns?.heading ?? 'column',
      choice: choiceOf(notebook),
      today: dayOf(notebook.today) ?? today,
      money: notebook.money ?? '',
    });
    const columns = columnIds(notebook);
    for (const cell of this.cells.values()) this.sheet.add(cell.id, cell.name, sheetText(cell, columns));
    this.pinAll();
    this.settleSheet();
    this.lookAt(this.sheet.cells);
  }

  /** Another state of the notebook, worked out beside this one; linear in its cells. */
  besides(notebook: Notebook): Live {
    return new Live(notebook, this.today);
  }

  /** Who is to blame that a formula does not fit together, where one typed cell is. */
  blamedFor(id: string): Blamed | undefined {
    return this.blame.get(id);
  }

  /** What a typed cell should be, where it is to blame that others do not fit. */
  blameOn(id: string): Blamed | undefined {
    if (this.blame.size === 0) return undefined;
    for (const blamed of this.blame.values()) if (blamed.cell === id) return blamed;
    return undefined;
  }

  /** Settles the sheet. Gives the ids of the cells that changed, or of which something else is to be said. */
  private settle(): readonly string[] {
    const changed = this.settleSheet();
    return [...changed, ...this.lookAt(changed)];
  }

  /** Settles the sheet, with what is on the needles of the column that comes to be chosen. */
  private settleSheet(): readonly string[] {
    const { changed } = this.sheet.settle();
    if (this.pinnedFor === this.sheet.chosenColumn || !isByColumn(this.notebook.progress)) return changed;
    this.pinAll();
    return [...changed, ...this.sheet.settle().changed];
  }

  /** The cells that are or, when last told, were on the needles: what they would be now may move while they stay. */
  repinned(): readonly string[] {
    const ids = [...this.toldPins.keys(), ...this.pins.keys()].filter((id) => this.sheet.has(id));
    this.toldPins = this.pins;
    return ids;
  }

  /** Looks which of the changed formulas fit together. Gives the cells of which something else is to be said. */
  private lookAt(changed: readonly string[]): readonly string[] {
    for (const id of changed) {
      if (this.sheet.has(id) && doesNotFit(this.sheet, id)) this.broken.add(id);
      else this.broken.delete(id);
    }
    if (this.broken.size === 0 && this.blame.size === 0) return [];
    for (const id of this.broken) if (!this.sheet.has(id)) this.broken.delete(id);
    const before = this.blame;
    const broken = [...this.cells.keys()].filter((id) => this.broken.has(id));
    this.blame = blameOf(this.sheet, broken, this.notebook.money ?? '');
    const ids = [...new Set([...before.keys(), ...this.blame.keys()])].filter((id) => this.sheet.has(id));
    const moved = ids.filter((id) => !sameBlame(before.get(id), this.blame.get(id)));
    const named = moved.flatMap((id) => [before.get(id)?.cell ?? id, this.blame.get(id)?.cell ?? id]);
    const about = [...moved, ...named].filter((id) => this.sheet.has(id));
    return about.flatMap((id) => [id, ...this.sheet.feeds(id)]);
  }

  /** The cell of an id, as the notebook has it. */
  cell(id: string): Cell | undefined {
    return this.cells.get(id);
  }

  /** The cell of an id with the topmost overlay over its text. */
  topText(id: string): Pick<Cell, 'text' | 'each'> {
    for (let i = this.overlays.length - 1; i >= 0; i -= 1) {
      const over = this.overlays[i]?.get(id);
      if (over) return over;
    }
    return this.cells.get(id) ?? { text: '' };
  }

  get columns(): readonly string[] {
    return columnIds(this.notebook);
  }

  /** The day it is, unless the notebook has a day of its own. */
  setToday(today: number): readonly string[] {
    this.today = today;
    this.sheet.setToday(dayOf(this.notebook.today) ?? today);
    return this.settle();
  }

  /** Reads once more what could not be read while the parser was still to come. Gives the ids of the cells that changed. */
  readMissed(): readonly string[] {
    this.sheet.readMissed();
    this.pinAll();
    return this.settle();
  }

  /** Puts overlays over the notebook's texts, the last on top. Gives the ids of the cells that changed. */
  setOverlays(overlays: readonly Overlay[]): readonly string[] {
    const touched = new Set([...this.overlays, ...overlays].flatMap((overlay) => [...overlay.keys()]));
    this.overlays = overlays;
    for (const id of touched) this.writeText(id);
    const followed = this.settle().filter((id) => !touched.has(id));
    return [...touched, ...followed].filter((id) => this.sheet.has(id));
  }

  /** Takes a new state of the notebook. Gives the ids of the cells that changed. */
  setNotebook(notebook: Notebook): readonly string[] {
    const old = this.notebook;
    const oldCells = this.cells;
    this.notebook = notebook;
    this.cells = byId(notebook);
    const columnsChanged = this.syncColumns(old, notebook);
    this.syncCells(oldCells, columnsChanged);
    if (notebook.chosen !== old.chosen || columnsChanged) this.sheet.setChoice(choiceOf(notebook));
    if (notebook.money !== old.money) this.sheet.setMoney(notebook.money ?? '');
    if (notebook.today !== old.today) this.sheet.setToday(dayOf(notebook.today) ?? this.today);
    if (notebook.progress !== old.progress || columnsChanged) this.pinAll();
    return this.settle();
  }

  private syncColumns(old: Notebook, now: Notebook): boolean {
    if (old.columns === now.columns) return false;
    const before = columnIds(old);
    const after = columnIds(now);
    this.sheet.setColumns(
      labelsOf(now),
      after.map((id) => before.indexOf(id)),
      now.columns?.heading ?? 'column',
    );
    return true;
  }

  /** Removes first, then takes names away from cells that swap them, then adds and writes. */
  private syncCells(old: ReadonlyMap<string, Cell>, columnsChanged: boolean): void {
    for (const id of old.keys()) if (!this.cells.has(id)) this.sheet.remove(id);
    const renamed = [...this.cells.values()].filter(
      (cell) => old.has(cell.id) && old.get(cell.id)?.name !== cell.name,
    );
    if (renamed.some((cell) => this.sheet.idOf(cell.name) !== undefined))
      for (const cell of renamed) this.sheet.rename(cell.id, `\u0000${cell.id}`);
    for (const cell of renamed) this.sheet.rename(cell.id, cell.name);
    for (const cell of this.cells.values()) {
      const before = old.get(cell.id);
      if (before === undefined)
        this.sheet.add(cell.id, cell.name, sheetText(this.topText(cell.id), this.columns));
      else if (columnsChanged || before.text !== cell.text || before.each !== cell.each)
        this.writeText(cell.id);
    }
  }

  private writeText(id: string): void {
    if (!this.sheet.has(id)) return;
    const text = sheetText(this.topText(id), this.columns);
    if (!sameText(this.sheet.textOf(id), text)) this.sheet.setText(id, text);
  }

  /** Tells the sheet which counts are on the needles. What the chosen column follows stays, whichever is chosen. */
  private pinAll(): void {
    const { columns, sheet } = this;
    const { progress } = this.notebook;
    this.pinnedFor = sheet.chosenColumn;
    const pins = new Map<string, Map<number, string>>();
    const put = (of: string | undefined, { pinned }: Knitted) => {
      const isKnitted = of === undefined || of === (columns[this.pinnedFor] ?? '');
      for (const [id, lanes] of Object.entries(pinned))
        for (const [column, text] of sheet.has(id) ? Object.entries(lanes) : []) {
          const at = column === '' ? 0 : columns.indexOf(column);
          if (at < 0 || (column === '' && !isKnitted && id !== sheet.followed)) continue;
          pins.set(id, (pins.get(id) ?? new Map<number, string>()).set(at, text));
        }
    };
    if (progress) put(progress.of, progress);
    for (const [of, other] of Object.entries(progress?.others ?? {})) put(of, other);
    this.pins = pins;
    sheet.setPins(pins);
  }
}

function sameBlame(a: Blamed | undefined, b: Blamed | undefined): boolean {
  return a?.cell === b?.cell && a?.wants === b?.wants;
}

function byId(notebook: Notebook): ReadonlyMap<string, Cell> {
  return new Map(allCells(notebook).map((cell) => [cell.id, cell]));
}

function labelsOf(notebook: Notebook): readonly string[] {
  return notebook.columns?.list.map((column) => column.label) ?? [];
}

function sameText(a: Text, b: Text): boolean {
  if (typeof a === 'string' || typeof b === 'string') return a === b;
  return a.length === b.length && a.every((text, i) => text === b[i]);
}
