/*
 * An open notebook: the document, its history, the change being tried and the live sheet, kept in step, and the news
 * of what changed. Every edit goes the same way: make a change (data with an inverse), apply it to the document, let
 * the sheet follow, tell whoever listens which rows to ask for again, and hand what is to be kept to `keep`.
 *
 * Always true between two calls:
 * - the sheet works with the notebook's texts, the trial's over them, and the preview's over those;
 * - `base` is there exactly while a trial is, and holds the values the notebook has without it;
 * - nothing a knitter asks for throws: it comes back as an outcome with one sentence.
 */

import { formulaName, nameProblem, type Problem, readSizeLine, spacedName } from '../formula/index.ts';
import {
  type Cell,
  type Change,
  changeTitle,
  drop,
  emptyHistory,
  firstFreeId,
  freeName,
  type History,
  type HistoryStep,
  type IdLetter,
  isProgress,
  isRefused,
  type Notebook,
  nameKey,
  newId,
  perform,
  type Refusal,
  type Remark,
  readNotebook,
  redo,
  type SetText,
  undo,
  writeNotebook,
} from '../notebook/index.ts';
import { printed } from '../quantity/index.ts';
import type { Frozen } from '../sheet/index.ts';
import { problemSentence, refusalSentence } from '../telling/index.ts';
import { callHelp, complete, textTokens } from './complete.ts';
import { type DrawingView, drawingsOf } from './drawings.ts';
import { columnIds, Live, type Overlay } from './live.ts';
import { nudgedText } from './nudge.ts';
import { outcomeOf } from './outcome.ts';
import type { Mistake, News, Outcome, Page, PageView, Place, RowView, TrialView } from './page.ts';
import { type PastedLine, pastedSizes, readTable, tableOf } from './paste.ts';
import { rewritesForCell, rewritesForColumn } from './rewrite.ts';
import { aloud, rowView } from './rows.ts';
import { columnFor, fill, printAt, printMove, sameValue, wordsAt } from './show.ts';
import {
  overlayOf,
  resumed,
  stepBack,
  stepOn,
  type Trial,
  type TrialState,
  type TriedText,
  tried,
  without,
} from './trial.ts';
import { workingsOf } from './workings.ts';

/** What is to be kept after something was done. */
export interface Kept {
  readonly notebook: Notebook;
  readonly history: History;
  readonly trial: Trial | undefined;
  /** The change that was made, absent when only the trial moved. */
  readonly made?: Made;
}

/** A change that was made, with what a log of changes needs to know of it. */
export interface Made {
  readonly change: Change;
  readonly inverse: Change;
  readonly title: string;
  readonly role: 'do' | 'undo' | 'redo' | 'progress';
  readonly join?: string;
  readonly before: Notebook;
  readonly after: Notebook;
}

export interface SessionOptions {
  readonly notebook: Notebook;
  readonly history?: History;
  readonly trial?: Trial | undefined;
  readonly remarks?: readonly Remark[];
  readonly readOnly?: boolean;
  /** Today's day number. */
  readonly today: number;
  readonly random: () => number;
  /** Called after each thing that is to be kept. */
  readonly keep?: (kept: Kept) => void;
}

const DONE: Outcome = { done: true };
const not = (sentence: string, at?: readonly [number, number]): Outcome =>
  at ? { done: false, sentence, at } : { done: false, sentence };
const refused = (refusal: Refusal): Outcome => not(refusalSentence(refusal));
const becauseOf = (problem: Problem): Outcome => not(problemSentence(problem), problem.at);

/** A cell that speaks: its row changes with what it speaks of. */
interface Speaker {
  readonly id: string;
  readonly of: ReadonlySet<string>;
}

export class Session implements Page {
  readonly live: Live;
  private history: History;
  private trial: TrialState | undefined;
  private base: Frozen | undefined;
  private moved = new Set<string>();
  private previewed: { readonly place: Place; readonly text: string } | undefined;
  private readonly listeners = new Set<(news: News) => void>();
  private rows = new Map<string, RowView>();
  private speakers: readonly Speaker[] | undefined;
  private readonly remarks: readonly Remark[];
  private readonly readOnly: boolean;
  private readonly random: () => number;
  private readonly keep: (kept: Kept) => void;

  constructor(options: SessionOptions) {
    this.live = new Live(options.notebook, options.today);
    this.history = options.history ?? emptyHistory;
    this.remarks = options.remarks ?? [];
    this.readOnly = options.readOnly ?? false;
    this.random = options.random;
    this.keep = options.keep ?? (() => undefined);
    if (options.trial) this.beginTrial(resumed(this.stillThere(options.trial)));
  }

  // ── What the views ask ─────────────────────────────────────────────────────────────────────────────────────────

  get notebook(): Notebook {
    return this.live.notebook;
  }

  page(): PageView {
    const { notebook } = this.live;
    const chosen = this.live.sheet.chosenColumn;
    const follow = notebook.chosen && 'follow' in notebook.chosen ? spacedName(notebook.chosen.follow) : '';
    const cautionsFor = (id: string) => notebook.cautions.filter((c) => c.for === id).map((c) => c.text);
    return {
      id: notebook.id,
      title: notebook.title,
      about: notebook.about ?? '',
      units: notebook.units,
      heading: notebook.columns?.heading ?? 'size',
      columns: (notebook.columns?.list ?? []).map((column, i) => ({
        id: column.id,
        label: column.label,
        chosen: i === chosen,
      })),
      follows: follow,
      couldFollow: follow === '' ? this.couldFollow() : '',
      sections: notebook.sections.map((section) => ({
        id: section.id,
        title: section.title,
        about: section.about ?? '',
        cautions: cautionsFor(section.id),
        cells: section.cells.map((cell) => cell.id),
      })),
      trial: this.trialView(),
      undo: this.trial
        ? this.trial.past.length > 0
          ? 'the last step of this trial'
          : 'this trial'
        : (this.history.done.at(-1)?.title ?? ''),
      redo: this.trial
        ? this.trial.future.length > 0
          ? 'the step taken back'
          : ''
        : (this.history.undone.at(-1)?.title ?? ''),
      readOnly: this.readOnly,
      how: notebook.how ?? '',
      sources: notebook.sources.map((source) =>
        [source.title, source.year, source.seen].filter((part) => part !== undefined).join(', '),
      ),
      remarks: this.remarks.map((remark) =>
        refusalSentence({ code: remark.code, parts: { ...remark.parts, path: remark.path } }),
      ),
    };
  }

  row(id: string): RowView {
    let row = this.rows.get(id);
    if (!row) {
      row = rowView(
        { live: this.live, base: this.base, tried: this.triedIds(), nudges: (cell) => this.nudges(cell) },
        id,
      );
      this.rows.set(id, row);
    }
    return row;
  }

  text(place: Place): string {
    const over = this.live.topText(place.cell);
    if (over.each) return place.column === null ? '' : (over.each[place.column] ?? '');
    return over.text ?? '';
  }

  workings(id: string, column: string | null) {
    return workingsOf(this.live, id, this.columnIndex(column));
  }

  feeds(id: string): readonly string[] {
    return this.live.sheet.has(id) ? this.live.sheet.feeds(id) : [];
  }

  uses(id: string): readonly string[] {
    return this.live.sheet.has(id) ? this.live.sheet.uses(id) : [];
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

  listen(hear: (news: News) => void): () => void {
    this.listeners.add(hear);
    return () => this.listeners.delete(hear);
  }

  // ── Typing ─────────────────────────────────────────────────────────────────────────────────────────────────────

  type(place: Place, typed: string): Outcome {
    const wasPreview = this.previewed !== undefined;
    this.previewed = undefined;
    const text = typed.normalize('NFC').trim();
    const outcome = this.commit(place, text);
    if (!outcome.done && wasPreview) this.refresh(this.live.setOverlays(this.overlays()), false);
    return outcome;
  }

  private commit(place: Place, text: string): Outcome {
    const cell = this.live.cell(place.cell);
    if (!cell) return not('That cell is gone: it was deleted.');
    const sizes = readSizeLine(text);
    if (sizes) return this.commitSizes(cell, sizes);
    const looked = this.live.sheet.look(text);
    if (looked.parsed.kind === 'problem') return becauseOf(looked.parsed.problem);
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

  /** The texts a cell shows now in its columns, the tried ones over its own. */
  private shownEach(cell: Cell): Readonly<Record<string, string>> {
    return this.live.topText(cell.id).each ?? cell.each ?? {};
  }

  private commitSizes(cell: Cell, sizes: readonly string[]): Outcome {
    const ids = columnIds(this.notebook);
    if (ids.length === 0) return this.makeColumns(cell, sizes);
    if (sizes.length !== ids.length) {
      const heading = this.notebook.columns?.heading ?? 'column';
      return not(
        `That line has ${sizes.length} values and there are ${ids.length} ${heading} columns: add or remove a column, or leave a dash for none.`,
      );
    }
    const each = Object.fromEntries(ids.map((id, i) => [id, stored(sizes[i] ?? '')]));
    return this.commitText(cell, { each });
  }

  /** A size line where there are no columns yet makes them, numbered. */
  private makeColumns(cell: Cell, sizes: readonly string[]): Outcome {
    const ids = sizes.map(() => this.newId('c'));
    const changes: Change[] = ids.map((id, i) => ({
      kind: 'add_column',
      at: i,
      column: { id, label: String(i + 1) },
      ...(i === 0 ? { heading: 'size' } : {}),
    }));
    const each = Object.fromEntries(ids.map((id, i) => [id, stored(sizes[i] ?? '')]));
    return this.do({
      kind: 'together',
      title: `make ${sizes.length} columns`,
      changes: [...changes, { kind: 'set_text', cell: cell.id, each }],
    });
  }

  private commitText(cell: Cell, texts: TriedText, column?: string, columnText?: string): Outcome {
    if (this.trial && this.isTyped(texts) && this.live.sheet.info(cell.id).typed) {
      this.setTrial(tried(this.trial, cell.id, texts, this.trial.now.title), cell.id);
      return DONE;
    }
    const change: SetText =
      column !== undefined && columnText !== undefined && !this.trial
        ? { kind: 'set_text', cell: cell.id, column, text: columnText }
        : texts.each
          ? { kind: 'set_text', cell: cell.id, each: texts.each }
          : { kind: 'set_text', cell: cell.id, text: texts.text ?? '' };
    return this.do(change);
  }

  private isTyped(texts: TriedText): boolean {
    const list = texts.each ? Object.values(texts.each) : [texts.text ?? ''];
    return list.every((text) => {
      const { parsed } = this.live.sheet.look(text);
      return parsed.kind === 'empty' || (parsed.kind === 'tree' && parsed.typed);
    });
  }

  preview(place: Place, text: string | null): readonly Mistake[] {
    if (text === null) {
      const was = this.previewed !== undefined;
      this.previewed = undefined;
      if (was) this.refresh(this.live.setOverlays(this.overlays()), false);
      return [];
    }
    const sizes = readSizeLine(text);
    const mistakes = sizes ? [] : this.mistakesIn(place, text);
    if (mistakes.length === 0 && this.live.cell(place.cell)) {
      this.previewed = { place, text };
      this.refresh(this.live.setOverlays(this.overlays()), false);
    }
    return mistakes;
  }

  private mistakesIn(place: Place, text: string): readonly Mistake[] {
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

  private usesItself(id: string, text: string): boolean {
    if (!this.live.sheet.has(id)) return false;
    const below = new Set([id, ...this.live.sheet.feeds(id)]);
    return this.tokens(text).some(
      (token) =>
        token.kind === 'cell' && below.has(this.live.sheet.idOf(text.slice(token.from, token.to)) ?? ''),
    );
  }

  // ── Trying ─────────────────────────────────────────────────────────────────────────────────────────────────────

  nudge(place: Place, steps: number): Outcome {
    if (this.readOnly) return not(READ_ONLY);
    const cell = this.live.cell(place.cell);
    if (!cell) return not('That cell is gone: it was deleted.');
    const next = nudgedText(this.live, cell.id, this.text(place), steps);
    if (next === undefined)
      return not(
        this.text(place).trim() === ''
          ? 'Type a value first; then − and + move it.'
          : 'There is no number here that − and + could move.',
      );
    const name = spacedName(cell.name);
    const { each } = this.live.topText(cell.id);
    const texts =
      each && place.column !== null ? { each: { ...each, [place.column]: next } } : { text: next };
    this.setTrial(tried(this.trial, cell.id, texts, `trying ${name}`), cell.id);
    return DONE;
  }

  keepTrial(): void {
    const { trial } = this;
    if (!trial) return;
    const changes = Object.entries(trial.now.texts)
      .filter(([id]) => this.live.cell(id))
      .map(
        ([id, texts]): Change =>
          texts.each
            ? { kind: 'set_text', cell: id, each: texts.each }
            : { kind: 'set_text', cell: id, text: texts.text ?? '' },
      );
    this.previewed = undefined;
    this.endTrial();
    const [only] = changes;
    const change: Change =
      changes.length === 1 && only ? only : { kind: 'together', title: 'keep what was tried', changes };
    if (changes.length > 0) this.do(change);
  }

  dropTrial(): void {
    if (!this.trial) return;
    this.previewed = undefined;
    this.endTrial();
    this.refresh(this.live.setOverlays(this.overlays()), true);
    this.keepNow();
  }

  dropFromTrial(id: string): void {
    if (!this.trial) return;
    const rest = without(this.trial, id);
    if (rest) this.setTrial(rest, id);
    else this.dropTrial();
  }

  /** Takes up a trial with these texts: from working back, or one that was kept. */
  tryTexts(title: string, texts: Readonly<Record<string, TriedText>>): void {
    const past = this.trial ? [...this.trial.past, this.trial.now] : [];
    const now: Trial = {
      title: this.trial?.now.title ?? title,
      texts: { ...this.trial?.now.texts, ...texts },
    };
    this.setTrial({ now, past, future: [] }, Object.keys(texts)[0]);
  }

  private setTrial(trial: TrialState, aboutCell: string | undefined): void {
    if (this.previewed) this.preview(this.previewed.place, null);
    const began = this.trial === undefined;
    if (began) this.base = this.live.sheet.freeze();
    this.trial = trial;
    const changed = this.live.setOverlays(this.overlays());
    this.refresh(
      [...changed, ...Object.keys(trial.now.texts)],
      true,
      aboutCell === undefined ? '' : this.spokenAbout(aboutCell, changed),
    );
    this.keepNow();
  }

  private beginTrial(trial: TrialState): void {
    if (Object.keys(trial.now.texts).length === 0) return;
    this.base = this.live.sheet.freeze();
    this.trial = trial;
    for (const id of this.live.setOverlays(this.overlays())) this.moved.add(id);
  }

  private endTrial(): void {
    this.trial = undefined;
    this.base = undefined;
  }

  private stillThere(trial: Trial): Trial {
    const texts = Object.entries(trial.texts).filter(([id]) => this.live.cell(id));
    return { ...trial, texts: Object.fromEntries(texts) };
  }

  private overlays(): readonly Overlay[] {
    const overlays = this.trial ? [overlayOf(this.trial)] : [];
    if (!this.previewed) return overlays;
    const { place, text } = this.previewed;
    const cell = this.live.cell(place.cell);
    const sizes = readSizeLine(text);
    const ids = columnIds(this.notebook);
    if (sizes && sizes.length === ids.length && ids.length > 0)
      return [
        ...overlays,
        new Map([[place.cell, { each: Object.fromEntries(ids.map((id, i) => [id, sizes[i] ?? ''])) }]]),
      ];
    const each = cell?.each && place.column !== null;
    const under = overlays[0]?.get(place.cell)?.each ?? cell?.each ?? {};
    const over: TriedText = each ? { each: { ...under, [place.column ?? '']: text } } : { text };
    return [...overlays, new Map([[place.cell, over]])];
  }

  private triedIds(): ReadonlySet<string> {
    return new Set(Object.keys(this.trial?.now.texts ?? {}));
  }

  private trialView(): TrialView | undefined {
    const { trial, base } = this;
    if (!trial || !base) return undefined;
    const cells = Object.keys(trial.now.texts)
      .filter((id) => this.live.sheet.has(id))
      .map((id) => {
        const column = this.live.sheet.info(id).each ? this.movedColumn(id, base) : 0;
        const was = base.value(id, column);
        return {
          id,
          name: spacedName(this.live.sheet.nameOf(id)),
          was: was ? printAt(this.live, id, column, was).number : '',
          tried: printAt(this.live, id, column, this.live.sheet.value(id, column)).number,
        };
      });
    return { title: trial.now.title, outcome: outcomeOf(this.live, base, this.triedIds()), cells };
  }

  private movedColumn(id: string, base: Frozen): number {
    const at = this.live.columns.findIndex((_, c) => {
      const was = base.value(id, c);
      return was && !sameValue(was, this.live.sheet.value(id, c));
    });
    return at < 0 ? columnFor(this.live, undefined) : at;
  }

  private nudges(id: string): boolean {
    const info = this.live.sheet.info(id);
    if (!info.typed || this.readOnly) return false;
    const { type } = info;
    if (type.kind === 'label') return (this.live.cell(id)?.choices ?? []).length > 0;
    return type.kind === 'quantity' || type.kind === 'truth' || type.kind === 'date';
  }

  // ── Cells ──────────────────────────────────────────────────────────────────────────────────────────────────────

  addCell(
    section: string,
    after: string | null,
    name?: string,
    text = '',
  ): Outcome & { readonly id?: string } {
    const found = this.notebook.sections.find((one) => one.id === section);
    if (!found) return not('That section is gone: it was deleted.');
    const wished = formulaName(name ?? '');
    const bad = wished === '' ? undefined : this.nameProblem(wished, undefined);
    if (bad) return becauseOf(bad);
    const taken = new Set(this.live.sheet.cells.map((id) => nameKey(this.live.sheet.nameOf(id))));
    const id = this.newId('k');
    const at = after === null ? 0 : found.cells.findIndex((cell) => cell.id === after) + 1;
    const cell: Cell = { id, name: wished || freeName('new_cell', taken), text };
    const outcome = this.do({ kind: 'add_cell', section, at, cell });
    return outcome.done ? { done: true, id } : outcome;
  }

  private nameProblem(name: string, own: string | undefined): Problem | undefined {
    return nameProblem(name, (folded) => {
      const other = this.live.sheet.cells.find(
        (id) => id !== own && nameKey(this.live.sheet.nameOf(id)) === folded,
      );
      return other === undefined ? undefined : this.live.sheet.nameOf(other);
    });
  }

  renameCell(id: string, wished: string): Outcome {
    const cell = this.live.cell(id);
    if (!cell) return not('That cell is gone: it was deleted.');
    const name = formulaName(wished);
    if (name === cell.name) return DONE;
    const bad = this.nameProblem(name, id);
    if (bad) return becauseOf(bad);
    return this.do({
      kind: 'rename_cell',
      cell: id,
      name,
      rewrites: rewritesForCell(this.notebook, cell.name, name),
    });
  }

  deleteCell(id: string): Outcome {
    const users = this.live.sheet.has(id)
      ? this.live.sheet.usedBy(id).map((user) => spacedName(this.live.sheet.nameOf(user)))
      : [];
    const name = this.live.cell(id)?.name ?? '';
    const outcome = this.do({ kind: 'delete_cell', cell: id });
    if (outcome.done && users.length > 0)
      this.say(`${spacedName(name)} is gone; ${listed(users)} used it. Undo brings it back.`);
    return outcome;
  }

  /** Who would miss a cell, in one sentence; "" when nobody. */
  missedBy(id: string): string {
    const users = this.live.sheet.has(id)
      ? this.live.sheet.usedBy(id).map((user) => spacedName(this.live.sheet.nameOf(user)))
      : [];
    return users.length === 0 ? '' : `${listed(users)} ${users.length === 1 ? 'uses' : 'use'} it.`;
  }

  moveCell(id: string, section: string, index: number): Outcome {
    return this.do({ kind: 'move_cell', cell: id, section, at: Math.max(0, index) });
  }

  duplicateCell(id: string): Outcome & { readonly id?: string } {
    const cell = this.live.cell(id);
    if (!cell) return not('That cell is gone: it was deleted.');
    const taken = new Set(this.live.sheet.cells.map((other) => nameKey(this.live.sheet.nameOf(other))));
    const copy = this.newId('k');
    const outcome = this.do({ kind: 'duplicate_cell', cell: id, id: copy, name: freeName(cell.name, taken) });
    return outcome.done ? { done: true, id: copy } : outcome;
  }

  setNote(id: string, note: string): Outcome {
    return this.do({ kind: 'set_cell', cell: id, fields: { note: note.trim() === '' ? null : note.trim() } });
  }

  setEach(id: string, each: boolean): Outcome {
    const cell = this.live.cell(id);
    if (!cell) return not('That cell is gone: it was deleted.');
    const ids = columnIds(this.notebook);
    if (each && ids.length === 0) return not('Add columns first; then a cell can hold one value for each.');
    if (each && !this.live.sheet.info(id).typed)
      return not('A worked-out cell has one formula for all columns.');
    if (each)
      return this.do({
        kind: 'set_text',
        cell: id,
        each: Object.fromEntries(ids.map((column) => [column, cell.text ?? ''])),
      });
    if (!each && !cell.each) return DONE;
    const chosen = ids[columnFor(this.live, undefined)];
    return this.do({
      kind: 'set_text',
      cell: id,
      text: (chosen === undefined ? undefined : cell.each?.[chosen]) ?? '',
    });
  }

  // ── Sections and columns ───────────────────────────────────────────────────────────────────────────────────────

  addSection(after: string | null, title: string): Outcome & { readonly id?: string } {
    const id = this.newId('s');
    const at = after === null ? 0 : this.notebook.sections.findIndex((one) => one.id === after) + 1;
    const outcome = this.do({
      kind: 'add_section',
      at,
      section: { id, title: title.trim() || 'New section', cells: [] },
    });
    return outcome.done ? { done: true, id } : outcome;
  }

  renameSection(id: string, title: string): Outcome {
    return this.do({ kind: 'set_section', section: id, fields: { title: title.trim() } });
  }

  setSectionAbout(id: string, about: string): Outcome {
    return this.do({
      kind: 'set_section',
      section: id,
      fields: { about: about.trim() === '' ? null : about.trim() },
    });
  }

  deleteSection(id: string): Outcome {
    return this.do({ kind: 'delete_section', section: id });
  }

  moveSection(id: string, index: number): Outcome {
    return this.do({ kind: 'move_section', section: id, at: Math.max(0, index) });
  }

  addColumn(label: string, after: string | null): Outcome & { readonly id?: string } {
    const columns = this.notebook.columns?.list ?? [];
    const id = this.newId('c');
    const at = after === null ? 0 : columns.findIndex((one) => one.id === after) + 1;
    const heading = columns.length === 0 ? { heading: this.notebook.columns?.heading ?? 'size' } : {};
    const outcome = this.do({ kind: 'add_column', at, column: { id, label: label.trim() }, ...heading });
    return outcome.done ? { done: true, id } : outcome;
  }

  renameColumn(id: string, label: string): Outcome {
    const column = this.notebook.columns?.list.find((one) => one.id === id);
    if (!column) return not('That column is gone: it was deleted.');
    return this.do({
      kind: 'rename_column',
      column: id,
      label: label.trim(),
      rewrites: rewritesForColumn(this.notebook, column.label, label.trim()),
    });
  }

  deleteColumn(id: string): Outcome {
    return this.do({ kind: 'delete_column', column: id });
  }

  moveColumn(id: string, index: number): Outcome {
    return this.do({ kind: 'move_column', column: id, at: Math.max(0, index) });
  }

  setHeading(heading: string): Outcome {
    return this.do({ kind: 'set_notebook', fields: { heading: heading.trim() } });
  }

  choose(column: string | 'follow'): Outcome {
    const follow = column === 'follow' ? this.couldFollow() : '';
    if (column === 'follow' && follow === '')
      return not('There is no cell here that names a column to follow.');
    return this.do({
      kind: 'set_chosen',
      chosen: column === 'follow' ? { follow: formulaName(follow) } : { column },
    });
  }

  /** The cell the chosen column can go back to following: the last it followed, or the first that names a column. */
  private couldFollow(): string {
    if (this.live.columns.length === 0) return '';
    const ids = this.live.sheet.cells.filter((id) => /^\s*nearest\s*\(/.test(this.live.cell(id)?.text ?? ''));
    const first = ids.find((id) => this.live.sheet.nameOf(id) === 'size_to_follow') ?? ids[0];
    return first === undefined ? '' : spacedName(this.live.sheet.nameOf(first));
  }

  // ── The notebook as a whole ────────────────────────────────────────────────────────────────────────────────────

  setTitle(title: string): Outcome {
    return title.trim() === ''
      ? not('A notebook needs a title.')
      : this.do({ kind: 'set_notebook', fields: { title: title.trim() } });
  }

  setAbout(about: string): Outcome {
    return this.do({ kind: 'set_notebook', fields: { about: about.trim() === '' ? null : about.trim() } });
  }

  setUnits(units: 'in' | 'cm'): Outcome {
    return this.do({ kind: 'set_notebook', fields: { units } });
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

  private undoTrial(): Outcome {
    const back = this.trial && stepBack(this.trial);
    if (back) this.setTrial(back, undefined);
    else this.dropTrial();
    return DONE;
  }

  private step(which: 'undo' | 'redo'): Outcome {
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

  file(): string {
    return writeNotebook(this.notebook);
  }

  checkFile(text: string): readonly Mistake[] {
    const read = readNotebook(text);
    if (isRefused(read)) return [{ from: 0, to: text.length, sentence: refusalSentence(read.refused) }];
    return read.remarks.map((remark) => ({
      from: 0,
      to: 0,
      sentence: refusalSentence({ code: remark.code, parts: { ...remark.parts, path: remark.path } }),
    }));
  }

  setFile(text: string): Outcome {
    const read = readNotebook(text);
    if (isRefused(read)) return refused(read.refused);
    if (read.readOnly) return not(READ_ONLY);
    const notebook = { ...read.notebook, id: this.notebook.id };
    return this.do({ kind: 'replace_notebook', notebook, why: 'edit the file' });
  }

  /** Puts another state in the place of this notebook, as one change: a version brought back, what a friend sent. */
  replaceWith(notebook: Notebook, why: string): Outcome {
    return this.do({ kind: 'replace_notebook', notebook: { ...notebook, id: this.notebook.id }, why });
  }

  // ── Copy and paste ─────────────────────────────────────────────────────────────────────────────────────────────

  copy(cells: readonly string[]): string {
    return tableOf(
      this.live,
      cells.filter((id) => this.live.sheet.has(id)),
    );
  }

  paste(place: Place, table: string): Outcome {
    const sizes = pastedSizes(table);
    const cell = this.live.cell(place.cell);
    if (!cell) return not('That cell is gone: it was deleted.');
    if (sizes) return this.commitSizes(cell, sizes);
    const lines = readTable(table, (name) => this.live.sheet.idOf(name) !== undefined);
    const [only] = lines;
    if (lines.length === 0 || !only) return not('There is nothing to paste.');
    if (lines.length === 1 && only.name === undefined && only.values.length === 1)
      return this.type(place, only.values[0] ?? '');
    return this.pasteLines(cell, place, lines);
  }

  private pasteLines(cell: Cell, place: Place, lines: readonly PastedLine[]): Outcome {
    const found = this.notebook.sections.find((section) => section.cells.some((one) => one.id === cell.id));
    if (!found) return not('That cell is gone: it was deleted.');
    const header = lines[0]?.name === undefined && lines[0]?.values[0] === '' ? lines[0] : undefined;
    const changes: Change[] = [];
    let at = found.cells.findIndex((one) => one.id === cell.id);
    const taken = new Set(this.live.sheet.cells.map((id) => nameKey(this.live.sheet.nameOf(id))));
    let next = found.cells[at];
    for (const line of lines) {
      if (line === header) continue;
      const named = line.name === undefined ? undefined : this.live.sheet.idOf(line.name);
      const target =
        named === undefined ? (line.name === undefined ? next : undefined) : this.live.cell(named);
      if (target)
        changes.push(this.pasteInto(target, line.values, line.name === undefined ? place.column : null));
      else changes.push(this.pasteNew(found.id, changes, at + 1, line, taken));
      if (line.name === undefined) {
        at += 1;
        next = found.cells[at];
      }
    }
    return this.do({ kind: 'together', title: `paste ${changes.length} rows`, changes });
  }

  private pasteInto(cell: Cell, values: readonly string[], column: string | null): Change {
    const ids = columnIds(this.notebook);
    if (values.length === 1 && column !== null && cell.each)
      return { kind: 'set_text', cell: cell.id, column, text: stored(values[0] ?? '') };
    if (values.length === 1 || ids.length === 0)
      return { kind: 'set_text', cell: cell.id, text: stored(values[0] ?? '') };
    const first = column === null ? 0 : Math.max(0, ids.indexOf(column));
    const each = {
      ...cell.each,
      ...Object.fromEntries(
        ids.slice(first).flatMap((id, i) => (values[i] === undefined ? [] : [[id, stored(values[i] ?? '')]])),
      ),
    };
    return { kind: 'set_text', cell: cell.id, each };
  }

  private pasteNew(
    section: string,
    before: readonly Change[],
    at: number,
    line: PastedLine,
    taken: Set<string>,
  ): Change {
    const name = freeName(line.name ?? 'new_cell', taken);
    taken.add(nameKey(name));
    const ids = columnIds(this.notebook);
    const one = line.values.length === 1 || ids.length === 0;
    const texts = one
      ? { text: stored(line.values[0] ?? '') }
      : {
          each: Object.fromEntries(
            ids.flatMap((id, i) => (line.values[i] ? [[id, stored(line.values[i] ?? '')]] : [])),
          ),
        };
    const added = before.filter((change) => change.kind === 'add_cell').length;
    return { kind: 'add_cell', section, at: at + added, cell: { id: this.newId('k'), name, ...texts } };
  }

  // ── Changes and news ───────────────────────────────────────────────────────────────────────────────────────────

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

  private keepMade(before: Notebook, stepped: HistoryStep, role: Made['role'], join?: string): void {
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

  /** Takes the notebook as another tab left it; what it did is not undone from here. */
  takeForeign(notebook: Notebook, title: string): void {
    this.take(notebook, title === '' ? '' : `in another tab: ${title}`);
  }

  /** The drawings of the notebook, with the values of now. */
  drawings(): readonly DrawingView[] {
    return drawingsOf(this.live);
  }

  setToday(day: number): void {
    this.refresh(this.live.setToday(day), false);
  }

  private take(notebook: Notebook, words: string): void {
    this.previewed = undefined;
    const old = this.notebook;
    const trial = this.trial;
    let changed: readonly string[];
    if (trial) {
      const kept = resumed(this.stillThereIn(trial.now, notebook));
      changed = [...this.live.setOverlays([]), ...this.live.setNotebook(notebook)];
      this.base = this.live.sheet.freeze();
      this.trial = Object.keys(kept.now.texts).length > 0 ? { ...trial, now: kept.now } : undefined;
      if (!this.trial) this.base = undefined;
      changed = [...changed, ...this.live.setOverlays(this.overlays())];
    } else {
      changed = [...this.live.setOverlays([]), ...this.live.setNotebook(notebook)];
    }
    this.speakers = undefined;
    this.refresh([...changed, ...differing(old, notebook), ...this.belowRenamed(old, notebook)], true, words);
  }

  /** Cells that hang on a renamed one: they may tell its name, as what they wait for. */
  private belowRenamed(old: Notebook, now: Notebook): string[] {
    const names = new Map(old.sections.flatMap((s) => s.cells.map((cell) => [cell.id, cell.name] as const)));
    const renamed = now.sections
      .flatMap((s) => s.cells)
      .filter((cell) => (names.get(cell.id) ?? cell.name) !== cell.name);
    return renamed.flatMap((cell) => this.live.sheet.feeds(cell.id));
  }

  private stillThereIn(trial: Trial, notebook: Notebook): Trial {
    const there = new Set(notebook.sections.flatMap((section) => section.cells.map((cell) => cell.id)));
    return {
      ...trial,
      texts: Object.fromEntries(Object.entries(trial.texts).filter(([id]) => there.has(id))),
    };
  }

  private kept(): Kept {
    return { notebook: this.notebook, history: this.history, trial: this.trial?.now };
  }

  private keepNow(): void {
    this.keep(this.kept());
  }

  /** Tells the rows that changed, those that moved before and are back, and those that speak of one that changed. */
  private refresh(changed: readonly string[], page: boolean, words = ''): void {
    const rows = new Set(changed);
    if (this.base) for (const id of changed) this.moved.add(id);
    else {
      for (const id of this.moved) rows.add(id);
      this.moved = new Set();
    }
    const chosenMoved = this.chosenMoved();
    for (const speaker of this.speaking())
      if (chosenMoved || [...speaker.of].some((id) => rows.has(id))) rows.add(speaker.id);
    this.tell({ rows, page: page || chosenMoved, aloud: words });
  }

  private lastChosen = -2;
  private chosenMoved(): boolean {
    const chosen = this.live.sheet.chosenColumn;
    const moved = chosen !== this.lastChosen;
    this.lastChosen = chosen;
    return moved;
  }

  private tell(news: News): void {
    for (const id of news.rows) this.rows.delete(id);
    for (const hear of [...this.listeners]) hear(news);
  }

  private say(words: string): void {
    this.tell({ rows: new Set(), page: false, aloud: words });
  }

  /** Cells whose rows tell of other cells: what they say, and what is remarked about them. */
  private speaking(): readonly Speaker[] {
    this.speakers ??= this.live.sheet.cells.flatMap((id) => {
      const says = this.live.cell(id)?.says;
      const text = this.live.cell(id)?.text ?? '';
      const spoken = [says?.yes, says?.no, says?.text].filter((part) => part !== undefined).join(' ');
      const over = /\b(nearest|total|total_up_to|average|smallest|largest|slope)\s*\(/.test(text);
      if (spoken === '' && !over) return [];
      const named = [...spoken.matchAll(/\{([^{}]+)\}/gu)].map((m) =>
        this.live.sheet.idOf((m[1] ?? '').trim().replace(/\s+/g, '_')),
      );
      const of = new Set([
        ...named.filter((one) => one !== undefined),
        ...(over ? this.live.sheet.uses(id) : []),
      ]);
      return [{ id, of }];
    });
    return this.speakers;
  }

  /** What changed, for those who listen: the cell moved, then the first few it moved with it. */
  private spokenAbout(id: string, changed: readonly string[]): string {
    const said = [
      `${spacedName(this.live.sheet.nameOf(id))} ${aloud(wordsAt(this.live, id, columnFor(this.live, undefined)))}`,
    ];
    const others = this.live.sheet.feeds(id).filter((other) => other !== id && changed.includes(other));
    for (const other of others.slice(0, 3)) said.push(this.spokenMove(other));
    if (others.length > 3) said.push(`and ${others.length - 3} more`);
    return said.join('; ');
  }

  private spokenMove(id: string): string {
    const each = this.live.sheet.info(id).each;
    const column = each ? columnFor(this.live, undefined) : 0;
    const now = this.live.sheet.value(id, column);
    const old = this.base?.value(id, column);
    const label = each ? `, ${this.live.sheet.columnLabels[column]}` : '';
    const move = old ? printMove(this.live, id, column, old, now) : '';
    const by = move === '' ? '' : `, ${move.startsWith('+') ? 'up' : 'down'} ${move.slice(1)}`;
    return `${spacedName(this.live.sheet.nameOf(id))}${label}: ${aloud(printed(printAt(this.live, id, column, now)))}${by}`;
  }

  private columnIndex(column: string | null): number {
    const at = column === null ? -1 : this.live.columns.indexOf(column);
    return at < 0 ? columnFor(this.live, undefined) : at;
  }

  private newId(letter: IdLetter): string {
    const id = newId(this.random, letter);
    const taken = new Set(this.live.sheet.cells);
    return taken.has(id) ? firstFreeId(letter, taken) : id;
  }

  /** Text with `{cell}` filled in from what the sheet holds now. */
  filled(text: string): string {
    return fill(this.live, text, undefined);
  }
}

const READ_ONLY =
  'This notebook was made by a newer Ellwand: it can be read here, not changed. Keep a copy to change that.';

/** A typed value as it is kept: with a decimal point. */
function stored(text: string): string {
  return /[A-Za-z(]\w*\(/.test(text)
    ? text
    : text
        .replace(/^(\s*[-−]?\s*\d+),(\d{1,2})(?!\d)/u, '$1.$2')
        .replace(/±\s*(\d+),(\d{1,2})(?!\d)/u, '± $1.$2');
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 3).map((name) => `“${name}”`);
  const more = names.length - shown.length;
  if (more > 0) return `${shown.join(', ')} and ${more} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}

/** Cells that are not the same objects in two states of a notebook: their notes, names or units may differ. */
function differing(old: Notebook, now: Notebook): string[] {
  const before = new Map(
    old.sections.flatMap((section) => section.cells.map((cell) => [cell.id, cell] as const)),
  );
  const cells = now.sections.flatMap((section) => section.cells);
  if (
    old.columns !== now.columns ||
    old.units !== now.units ||
    old.money !== now.money ||
    old.cautions !== now.cautions
  )
    return cells.map((cell) => cell.id);
  const progress =
    old.progress === now.progress
      ? []
      : [...Object.keys(old.progress?.pinned ?? {}), ...Object.keys(now.progress?.pinned ?? {})];
  return [...cells.filter((cell) => before.get(cell.id) !== cell).map((cell) => cell.id), ...progress];
}

/** An open notebook. */
export function createSession(options: SessionOptions): Session {
  return new Session(options);
}
