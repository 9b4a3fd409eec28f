/*
 * Typing and trying: what Enter commits, what is shown while one types, and what − and + do.
 */

import { spacedName } from '../formula/index.ts';
import { type Cell, type Change, changeTitle, type SetText } from '../notebook/index.ts';
import { problemSentence } from '../telling/index.ts';
import { Changing } from './changing.ts';
import { columnIds } from './live.ts';
import { type Held, heldAt, meant, meantSizes } from './meant.ts';
import { orMisspelt } from './misspelt.ts';
import { mixedGauge } from './mixed-gauge.ts';
import type { Previewed } from './open-sheet.ts';
import { becauseOf, CELL_GONE, DONE, not } from './outcomes.ts';
import type { Mistake, Outcome, Place } from './page.ts';
import { isWorkedOutRow, nowTyped, plansStay, type RowTexts, rowTexts, valueWanted } from './row-texts.ts';
import { isLengthish, numberIn } from './show.ts';
import { sizesIn } from './size-comma.ts';
import { stored, storedEach } from './stored.ts';
import { resumed, type Trial, type TriedText, without } from './trial.ts';
import { asFormula, unsureDay } from './written.ts';

/** An open notebook one can type into. */
export class Typing extends Changing {
  type(place: Place, typed: string, { unread = false } = {}): Outcome {
    const wasPreview = this.previewed !== undefined;
    this.previewed = undefined;
    const back = wasPreview ? this.live.setOverlays(this.overlays()) : [];
    const text = typed.normalize('NFC').trim();
    const outcome = this.commit(place, text, heldAt(this.live, place), unread);
    if (wasPreview) this.refresh(back, false);
    return outcome;
  }

  /** What a place and its row held before the typing began. */
  private before(place: Place): Before {
    const { previewed } = this;
    if (previewed?.place.cell === place.cell && previewed.place.column === place.column) return previewed;
    if (previewed) this.endPreview();
    const cell = this.live.cell(place.cell);
    const row = cell && place.column !== null ? rowTexts(this.live, cell) : undefined;
    return {
      held: heldAt(this.live, place),
      row: row === 'plans' ? undefined : row,
      wasFormula: isWorkedOutRow(this.live, place.cell),
    };
  }

  protected commit(place: Place, typed: string, held: Held | undefined, unread: boolean): Outcome {
    const cell = this.live.cell(place.cell);
    if (!cell) return CELL_GONE;
    const { sizes, unsure = unsureDay(typed) } = sizesIn(typed, this.live.columns.length);
    if (unsure !== undefined && !unread) return not(unsure);
    if (sizes) return this.commitSizes(cell, meantSizes(this.live, sizes, held));
    const text = meant(this.live, asFormula(this.live, typed, place), held);
    const looked = this.live.sheet.look(text);
    if (looked.parsed.kind === 'problem')
      return unread
        ? this.keepUnread(cell, place, typed)
        : becauseOf(orMisspelt(this.live, text, looked.parsed.problem));
    const formula = looked.parsed.kind === 'tree' && !looked.parsed.typed;
    if (formula) return this.commitFormula(cell, place, text);
    return place.column === null
      ? this.commitText(cell, { text: stored(text) })
      : this.commitInColumn(cell, place.column, stored(text));
  }

  private commitFormula(cell: Cell, { column }: Place, text: string): Outcome {
    const { each } = this.live.topText(cell.id);
    if (each && column !== null && Object.values(each).some((one) => one.trim() !== ''))
      return not(valueWanted(this.live, cell, column, text));
    const outcome = this.commitText(cell, { text });
    const note = outcome.done && !outcome.note ? mixedGauge(this.live, cell.id) : undefined;
    return note === undefined ? outcome : { done: true, note };
  }

  /** A plain value for one column: the others stay as they are, where a formula stood too. */
  private commitInColumn(cell: Cell, column: string, text: string): Outcome {
    const texts = rowTexts(this.live, cell);
    if (texts === undefined) return this.commitText(cell, { text });
    if (texts === 'plans') return not(plansStay(cell));
    const wasFormula = isWorkedOutRow(this.live, cell.id);
    const each = { ...texts, [column]: text };
    const outcome = this.commitTexts(cell, { each }, { column, text });
    if (!outcome.done || !wasFormula) return outcome;
    const { [this.live.columns.indexOf(column)]: label = '', length } = this.live.sheet.columnLabels;
    return { ...outcome, note: nowTyped(cell, label, text, length) };
  }

  /** Keeps a text that cannot be read yet, as it was left: its row says what is wrong with it. */
  protected keepUnread(cell: Cell, { column }: Place, text: string): Outcome {
    const inColumn = cell.each !== undefined && column !== null;
    return this.do({ kind: 'set_text', cell: cell.id, ...(inColumn ? { column } : {}), text });
  }

  protected commitSizes(cell: Cell, sizes: readonly string[]): Outcome {
    const ids = columnIds(this.notebook);
    if (ids.length === 0) return this.makeColumns(cell, sizes);
    if (sizes.length !== ids.length) return this.otherLength(sizes.length);
    return this.commitText(cell, { each: storedEach(ids, sizes) });
  }

  protected otherLength(values: number): Outcome {
    const count = columnIds(this.notebook).length;
    const heading = this.notebook.columns?.heading ?? 'column';
    return not(
      `That line has ${values} values and there ${count === 1 ? 'is' : 'are'} ${count} ${heading} column${count === 1 ? '' : 's'}: add or remove a column, or leave a dash for none.`,
    );
  }

  /** A size line where there are no columns yet makes them, numbered; `first` is done before, in the same change. */
  protected makeColumns(cell: Cell, sizes: readonly string[], first: readonly Change[] = []): Outcome {
    const ids = sizes.map(() => this.newId('c'));
    const changes: Change[] = ids.map((id, i) => ({
      kind: 'add_column',
      at: i,
      column: { id, label: String(i + 1) },
      ...(i === 0 ? { heading: 'size' } : {}),
    }));
    return this.do({
      kind: 'together',
      title: `make ${sizes.length} columns`,
      changes: [...first, ...changes, { kind: 'set_text', cell: cell.id, each: storedEach(ids, sizes) }],
    });
  }

  protected commitText(cell: Cell, texts: TriedText): Outcome {
    const note = this.isWorkedOut(cell) && this.isTyped(texts) ? wasWorkedOut(cell.name) : undefined;
    const outcome = this.commitTexts(cell, texts);
    return outcome.done && note !== undefined ? { ...outcome, note } : outcome;
  }

  private isWorkedOut({ text }: Cell): boolean {
    if (text === undefined) return false;
    const { parsed } = this.live.sheet.look(text);
    return parsed.kind === 'tree' && !parsed.typed;
  }

  private commitTexts(cell: Cell, texts: TriedText, only?: { column: string; text: string }): Outcome {
    const isTried = this.live.sheet.info(cell.id).typed || only !== undefined;
    if (this.trial && this.isTyped(texts) && isTried) {
      this.tryText(cell, texts, this.trial.now.title);
      return DONE;
    }
    const change: SetText =
      only && cell.each && !this.trial
        ? { kind: 'set_text', cell: cell.id, ...only }
        : keeping(cell.id, texts);
    this.tryNoLonger(cell.id);
    const units = this.unitsBegun(cell, texts);
    if (units === undefined) return this.do(change);
    const title = changeTitle(this.notebook, change);
    return this.do({
      kind: 'together',
      title,
      changes: [change, { kind: 'set_notebook', fields: { units } }],
    });
  }

  /** What is written for good is not tried as well; the others go on being tried. */
  private tryNoLonger(id: string): void {
    if (!this.trial?.now.texts[id]) return;
    const rest = without(this.trial, id);
    if (rest) this.trial = resumed(rest.now);
    else this.endTrial();
  }

  /** The first length of a notebook, where it is typed in other units than the notebook shows: those it is to show. */
  protected unitsBegun(cell: Cell, { text = '' }: TriedText): 'in' | 'cm' | undefined {
    const { sheet } = this.live;
    const isFirst = sheet.cells.every((id) => id === cell.id || !isLengthish(sheet.value(id, 0)));
    const [units] = (isFirst && /\b(in|cm)$/.exec(numberIn(this.live, text)?.shown.label ?? '')) || [];
    return units === this.notebook.units || (units !== 'in' && units !== 'cm') ? undefined : units;
  }

  protected isTyped(texts: TriedText): boolean {
    const list = texts.each ? Object.values(texts.each) : [texts.text ?? ''];
    return list.every((text) => {
      const { parsed } = this.live.sheet.look(text);
      return parsed.kind === 'empty' || (parsed.kind === 'tree' && parsed.typed);
    });
  }

  preview(place: Place, typed: string | null): readonly Mistake[] {
    if (typed === null) {
      if (this.previewed) this.endPreview();
      return [];
    }
    const before = this.before(place);
    const text = meant(this.live, asFormula(this.live, typed, place), before.held);
    const { sizes: line, unsure } = sizesIn(typed, this.live.columns.length);
    const sizes = line && meantSizes(this.live, line, before.held);
    if (unsure !== undefined) return [{ from: 0, to: typed.length, sentence: unsure }];
    const mistakes = sizes ? [] : this.mistakesIn(place, text);
    if (mistakes.length === 0 && this.live.cell(place.cell)) {
      const ids = columnIds(this.notebook);
      const isLine = ids.length > 0 && sizes?.length === ids.length;
      const over = isLine ? { each: byColumn(ids, sizes) } : this.overOf(place, text, before);
      this.previewed = { place, ...before, over };
      this.refresh(this.live.setOverlays(this.overlays()), false);
    }
    return mistakes;
  }

  /** A text over its cell: in its column, or over the whole row where it is a formula. */
  private overOf({ column }: Place, text: string, { row, wasFormula }: Before): TriedText {
    const isInColumn = row && column !== null && !(wasFormula && !this.isTyped({ text }));
    return isInColumn ? { each: { ...row, [column]: text } } : { text };
  }

  protected mistakesIn(place: Place, text: string): readonly Mistake[] {
    const { parsed, checked } = this.live.sheet.look(text);
    const problems =
      parsed.kind === 'problem' ? [orMisspelt(this.live, text, parsed.problem)] : (checked?.problems ?? []);
    if (problems.length === 0 && this.usesItself(place.cell, text))
      return [
        {
          from: 0,
          to: text.length,
          sentence: 'This would go round in a circle: it uses this cell itself, here or further up.',
        },
      ];
    return problems.map((problem) => ({
      from: problem.at?.[0] ?? 0,
      to: problem.at?.[1] ?? text.length,
      sentence: problemSentence(problem),
    }));
  }

  protected usesItself(id: string, text: string): boolean {
    if (!this.live.sheet.has(id)) return false;
    const below = new Set([id, ...this.live.sheet.feeds(id)]);
    return this.tokens(text).some(
      (token) =>
        token.kind === 'cell' && below.has(this.live.sheet.idOf(text.slice(token.from, token.to)) ?? ''),
    );
  }

  keepTrial(): void {
    const { trial } = this;
    if (!trial) return;
    const changes = Object.entries(trial.now.texts)
      .filter(([id]) => this.live.cell(id))
      .map(([id, texts]) => keeping(id, texts));
    this.previewed = undefined;
    this.endTrial();
    const [only] = changes;
    const change: Change =
      changes.length === 1 && only ? only : { kind: 'together', title: 'keep what was tried', changes };
    if (changes.length > 0) this.do(change);
  }

  /** Keeps one of the values tried; the others go on being tried. */
  keepFromTrial(id: string): void {
    const texts = this.trial?.now.texts[id];
    const rest = this.trial && without(this.trial, id);
    if (!texts || !rest || !this.live.cell(id)) return this.keepTrial();
    this.previewed = undefined;
    this.tryNoLonger(id);
    this.do(keeping(id, texts));
  }

  /** Takes up a trial with these texts: from working back, or one that was kept. */
  tryTexts(title: string, texts: Readonly<Record<string, TriedText>>): void {
    const past = this.trial ? [...this.trial.past, this.trial.now] : [];
    const now: Trial = {
      ...this.trial?.now,
      title: this.trial?.now.title ?? title,
      texts: { ...this.trial?.now.texts, ...texts },
    };
    this.setTrial({ now, past, future: [] }, Object.keys(texts)[0]);
  }
}

/** What a place and its row held before the typing began. */
type Before = Pick<Previewed, 'held' | 'row' | 'wasFormula'>;

const byColumn = (ids: readonly string[], texts: readonly string[]): RowTexts =>
  Object.fromEntries(ids.map((id, i) => [id, texts[i] ?? '']));

/** What is said when a formula has made way for a typed value. */
const wasWorkedOut = (name: string): string =>
  `${spacedName(name)} was worked out, and is now what you typed. Undo brings its formula back.`;

/** The text of a cell, or its texts by column, as a change of the notebook. */
function keeping(cell: string, { each, text = '' }: TriedText): SetText {
  return each ? { kind: 'set_text', cell, each } : { kind: 'set_text', cell, text };
}
