/*
 * Changing: every edit goes the same way (a change is made, the sheet follows, the news is told, and it is handed on to
 * be kept), and so does taking it back. And what is told of a notebook beside its rows: workings, drawings, completion.
 */

import {
  allCells,
  type Change,
  changeTitle,
  drop,
  emptyHistory,
  firstFreeId,
  type HistoryStep,
  type IdLetter,
  isProgress,
  isRefused,
  type Notebook,
  newId,
  perform,
  redo,
  undo,
} from '../notebook/index.ts';
import type { Frozen } from '../sheet/index.ts';
import { amountsMoved } from './amounts.ts';
import { callHelp, complete, textTokens } from './complete.ts';
import { type DrawingView, drawingsOf } from './drawings.ts';
import type { Made } from './open-sheet.ts';
import { DONE, not, READ_ONLY, refused } from './outcomes.ts';
import type { Outcome, Place } from './page.ts';
import { stepOn } from './trial.ts';
import { Trying } from './trying.ts';
import { workingsOf } from './workings.ts';

/** An open notebook one can change. */
export class Changing extends Trying {
  workings(id: string, column: string | null) {
    return workingsOf(this.live, id, this.columnIndex(column));
  }

  protected override amountsMoved(base: Frozen, moved: readonly string[]): string {
    return amountsMoved(this.live, base, moved);
  }

  tokens(text: string) {
    return textTokens(this.live, text);
  }

  complete(place: Place, text: string, cursor: number) {
    return complete(this.live, place.cell, text, cursor);
  }

  callHelp(text: string, cursor: number) {
    return callHelp(text, cursor);
  }

  /** The drawings of the notebook, with the values of now. */
  drawings(): readonly DrawingView[] {
    return drawingsOf(this.live);
  }

  /** Makes a change: applies it, lets the sheet follow, tells the news and hands it on to be kept. */
  do(change: Change, join?: string): Outcome {
    if (this.readOnly) return not(READ_ONLY);
    const outside = isProgress(change);
    const title = changeTitle(this.notebook, change);
    const stepped = perform(this.notebook, outside ? emptyHistory : this.history, change, join);
    if (isRefused(stepped)) return refused(stepped.refused);
    const before = this.notebook;
    if (!outside) this.history = stepped.history;
    this.take(stepped.notebook, outside ? '' : title);
    this.keepMade(before, stepped, outside ? 'progress' : 'do', join);
    return DONE;
  }

  protected keepMade(before: Notebook, stepped: HistoryStep, role: Made['role'], join?: string): void {
    const { change, inverse, title, notebook: after } = stepped;
    const made: Made = {
      change,
      inverse,
      title,
      role,
      before,
      after,
      ...(join === undefined ? {} : { join }),
    };
    this.keep({ ...this.kept(), made });
  }

  undo(): Outcome {
    return this.trial ? this.undoTrial() : this.step('undo');
  }

  redo(): Outcome {
    if (!this.trial) return this.step('redo');
    const next = stepOn(this.trial);
    if (!next) return not('There is nothing to do again.');
    this.setTrial(next, undefined);
    return DONE;
  }

  protected step(which: 'undo' | 'redo'): Outcome {
    const stepped = (which === 'undo' ? undo : redo)(this.notebook, this.history);
    if (isRefused(stepped)) {
      if (this.history[which === 'undo' ? 'done' : 'undone'].length > 0)
        this.history = drop(this.history, which);
      return refused(stepped.refused);
    }
    const before = this.notebook;
    this.history = stepped.history;
    this.take(stepped.notebook, `${which === 'undo' ? 'undone' : 'done again'}: ${stepped.title}`);
    this.keepMade(before, stepped, which);
    return DONE;
  }

  /** Takes the notebook as another tab left it; what it did is not undone from here. */
  takeForeign(notebook: Notebook, title: string): void {
    this.take(notebook, title === '' ? '' : `in another tab: ${title}`);
  }

  protected take(notebook: Notebook, words: string): void {
    this.previewed = undefined;
    const { notebook: old, trial } = this;
    const changed = [...this.live.setOverlays([]), ...this.live.setNotebook(notebook)];
    if (trial) {
      this.base = this.live.sheet.freeze();
      const now = this.stillTried(trial.now);
      this.trial = Object.keys(now.texts).length > 0 ? { ...trial, now } : undefined;
      if (!this.trial) this.base = undefined;
      changed.push(...this.live.setOverlays(this.overlays()));
    }
    this.speakers = undefined;
    this.refresh([...changed, ...differing(old, notebook), ...this.belowRenamed(old, notebook)], true, words);
  }

  /** Cells that hang on a renamed one: they may tell its name, as what they wait for. */
  protected belowRenamed(old: Notebook, now: Notebook): string[] {
    const names = new Map(allCells(old).map((cell) => [cell.id, cell.name]));
    const renamed = allCells(now).filter((cell) => (names.get(cell.id) ?? cell.name) !== cell.name);
    return renamed.flatMap((cell) => this.live.sheet.feeds(cell.id));
  }

  protected newId(letter: IdLetter): string {
    const id = newId(this.random, letter);
    const taken = new Set(this.live.sheet.cells);
    return taken.has(id) ? firstFreeId(letter, taken) : id;
  }
}

/** Cells that are not the same objects in two states of a notebook: their notes, names or units may differ. */
function differing(old: Notebook, now: Notebook): string[] {
  const before = new Map(allCells(old).map((cell) => [cell.id, cell]));
  const cells = allCells(now);
  if (
    old.columns !== now.columns ||
    old.units !== now.units ||
    old.money !== now.money ||
    old.cautions !== now.cautions
  )
    return cells.map((cell) => cell.id);
  return cells.filter((cell) => before.get(cell.id) !== cell).map((cell) => cell.id);
}
