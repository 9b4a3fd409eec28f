/*
 * Typing and trying: what Enter commits, what is shown while one types, and what − and + do.
 */

import { readSizeLine, spacedName } from '../formula/index.ts';
import { type Cell, type Change, changeTitle, type SetText } from '../notebook/index.ts';
import { problemSentence } from '../telling/index.ts';
import { Changing } from './changing.ts';
import { columnIds } from './live.ts';
import { type Held, heldAt, meant, meantSizes } from './meant.ts';
import { becauseOf, CELL_GONE, DONE, not } from './outcomes.ts';
import type { Mistake, Outcome, Place } from './page.ts';
import { isLengthish } from './show.ts';
import { stored, storedEach } from './stored.ts';
import { resumed, type Trial, type TriedText, without } from './trial.ts';
import { numberIn } from './typed-text.ts';
import { asFormula, unsureDay } from './written.ts';

/** An open notebook one can type into. */
export class Typing extends Changing {
  type(place: Place, typed: string, { unread = false } = {}): Outcome {
    const wasPreview = this.previewed !== undefined;
    const held = this.heldBefore(place);
    this.previewed = undefined;
    const text = typed.normalize('NFC').trim();
    const outcome = this.commit(place, text, held, unread);
    if (wasPreview) this.refresh(this.live.setOverlays(this.overlays()), false);
    return outcome;
  }

  /** What a place held before the typing began. */
  private heldBefore(place: Place): Held | undefined {
    const { previewed } = this;
    const isGoingOn = previewed?.place.cell === place.cell && previewed.place.column === place.column;
    return isGoingOn ? previewed.held : heldAt(this.live, place);
  }

  protected commit(place: Place, typed: string, held: Held | undefined, unread: boolean): Outcome {
    const cell = this.live.cell(place.cell);
    if (!cell) return CELL_GONE;
    const sizes = readSizeLine(typed);
    if (sizes) return this.commitSizes(cell, meantSizes(this.live, sizes, held));
    const unsure = unsureDay(typed);
    if (unsure !== undefined && !unread) return not(unsure);
    const text = meant(this.live, asFormula(this.live, typed), held);
    const looked = this.live.sheet.look(text);
    if (looked.parsed.kind === 'problem')
      return unread ? this.keepUnread(cell, place, typed) : becauseOf(looked.parsed.problem);
    const formula = looked.parsed.kind === 'tree' && !looked.parsed.typed;
    if (cell.each && place.column !== null) {
      if (formula)
        return not('One column of a row holds a plain value; for a formula, make the row one for all first.');
      return this.commitText(
        cell,
        { each: { ...this.shownEach(cell), [place.column]: stored(text) } },
        place.column,
        stored(text),
      );
    }
    return this.commitText(cell, { text: formula ? text : stored(text) });
  }

  /** Keeps a text that cannot be read yet, as it was left: its row says what is wrong with it. */
  protected keepUnread(cell: Cell, { column }: Place, text: string): Outcome {
    const inColumn = cell.each !== undefined && column !== null;
    return this.do({ kind: 'set_text', cell: cell.id, ...(inColumn ? { column } : {}), text });
  }

  /** The texts a cell shows now in its columns, the tried ones over its own. */
  protected shownEach(cell: Cell): Readonly<Record<string, string>> {
    return this.live.topText(cell.id).each ?? cell.each ?? {};
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

  protected commitText(cell: Cell, texts: TriedText, column?: string, columnText?: string): Outcome {
    const note = this.isWorkedOut(cell) && this.isTyped(texts) ? wasWorkedOut(cell.name) : undefined;
    const outcome = this.commitTexts(cell, texts, column, columnText);
    return outcome.done && note !== undefined ? { ...outcome, note } : outcome;
  }

  private isWorkedOut({ text }: Cell): boolean {
    if (text === undefined) return false;
    const { parsed } = this.live.sheet.look(text);
    return parsed.kind === 'tree' && !parsed.typed;
  }

  private commitTexts(cell: Cell, texts: TriedText, column?: string, columnText?: string): Outcome {
    if (this.trial && this.isTyped(texts) && this.live.sheet.info(cell.id).typed) {
      this.tryText(cell, texts, this.trial.now.title);
      return DONE;
    }
    const change: SetText =
      column !== undefined && columnText !== undefined && !this.trial
        ? { kind: 'set_text', cell: cell.id, column, text: columnText }
        : keeping(cell.id, texts);
    const units = this.unitsBegun(cell, texts);
    if (units === undefined) return this.do(change);
    const title = changeTitle(this.notebook, change);
    return this.do({
      kind: 'together',
      title,
      changes: [change, { kind: 'set_notebook', fields: { units } }],
    });
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
    const held = this.heldBefore(place);
    const text = meant(this.live, asFormula(this.live, typed), held);
    const line = readSizeLine(typed);
    const sizes = line && meantSizes(this.live, line, held);
    const mistakes = sizes ? [] : this.mistakesIn(place, text);
    if (mistakes.length === 0 && this.live.cell(place.cell)) {
      this.previewed = { place, text, sizes, held };
      this.refresh(this.live.setOverlays(this.overlays()), false);
    }
    return mistakes;
  }

  protected mistakesIn(place: Place, text: string): readonly Mistake[] {
    const { parsed, checked } = this.live.sheet.look(text);
    const problems = parsed.kind === 'problem' ? [parsed.problem] : (checked?.problems ?? []);
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
    this.trial = resumed(rest.now);
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

/** What is said when a formula has made way for a typed value. */
const wasWorkedOut = (name: string): string =>
  `${spacedName(name)} was worked out, and is now what you typed. Undo brings its formula back.`;

/** The text of a cell, or its texts by column, as a change of the notebook. */
function keeping(cell: string, { each, text = '' }: TriedText): SetText {
  return each ? { kind: 'set_text', cell, each } : { kind: 'set_text', cell, text };
}
