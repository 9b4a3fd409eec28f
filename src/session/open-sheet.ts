/*
 * The heart of an open notebook: the document, its history, the change being tried and the live sheet, kept in step,
 * and the news of what changed. Every edit goes the same way: make a change (data with an inverse), apply it to the
 * document, let the sheet follow, tell whoever listens which rows to ask for again, and hand what is to be kept on.
 *
 * Always true between two calls:
 * - the sheet works with the notebook's texts, the trial's over them, and the preview's over those;
 * - `base` is there exactly while a trial is, and holds the values the notebook has without it;
 * - nothing a knitter asks for throws: it comes back as an outcome with one sentence.
 */

import { spacedName, whenReader } from '../formula/index.ts';
import { type Change, emptyHistory, type History, type Notebook, type Remark } from '../notebook/index.ts';
import { printed } from '../quantity/index.ts';
import type { Frozen, Value } from '../sheet/index.ts';
import { refusalSentence, whenSentences } from '../telling/index.ts';
import { valueAloud } from './aloud.ts';
import type { AsideTrial } from './aside.ts';
import { isBack } from './is-back.ts';
import { Live, type Overlay } from './live.ts';
import type { Held } from './meant.ts';
import { outcomeOf } from './outcome.ts';
import type { News, Page, PageView, Place, RowView, TrialView } from './page.ts';
import { isOneKind, type RowContext, rowView } from './rows.ts';
import { columnFor, printAt, printMove, sameValue, unechoed, wordsAt } from './show.ts';
import { shownWhen } from './shown-as.ts';
import { stepValues } from './step-values.ts';
import { overlayOf, resumed, type Trial, type TrialState, type TriedText } from './trial.ts';
import { unmovedOf } from './unmoved.ts';

/** What is to be kept after something was done. */
export interface Kept {
  readonly notebook: Notebook;
  readonly history: History;
  readonly trial: Trial | undefined;
  /** Trials put aside. */
  readonly aside?: readonly AsideTrial[];
  /** The change that was made, absent when only the trial moved. */
  readonly made?: Made;
  /** What was asked of a session that is not whole yet, and what with: it is done when the whole has come. */
  readonly asked?: readonly [keyof Page, readonly unknown[]];
}

/** A change that was made, with what a log of changes needs to know of it. */
export interface Made {
  readonly change: Change;
  readonly inverse: Change;
  readonly title: string;
  readonly role: 'do' | 'undo' | 'redo' | 'progress' | 'progress_undo';
  readonly join?: string;
  readonly before: Notebook;
  readonly after: Notebook;
}

export interface SessionOptions {
  readonly notebook: Notebook;
  readonly history?: History;
  /** Ticks and counts that can be taken back, as the log tells them. */
  readonly progressHistory?: History;
  readonly trial?: Trial | undefined;
  readonly aside?: readonly AsideTrial[];
  readonly remarks?: readonly Remark[];
  readonly readOnly?: boolean;
  /** Today's day number. */
  readonly today: number;
  readonly random: () => number;
  /** Called after each thing that is to be kept. */
  readonly keep?: (kept: Kept) => void;
}

/** The text being typed, and what its place and row held before. */
export interface Previewed {
  readonly place: Place;
  /** The text with the unit that was left out, as it lies over the cell. */
  readonly over: TriedText;
  readonly held: Held | undefined;
  /** The texts of its row by column; undefined where there is one for all. */
  readonly row: Readonly<Record<string, string>> | undefined;
  /** Whether one formula stood for all columns. */
  readonly wasFormula: boolean;
}

/** One thing done with the needles, and what takes it back. */
export interface Taken {
  readonly title: string;
  readonly inverse: Change;
}

/** How many ticks and counts can be taken back. */
export const MOST_TAKEN = 60;

/** A cell that speaks: its row changes with what it speaks of. */
interface Speaker {
  readonly id: string;
  readonly of: ReadonlySet<string>;
}

export class OpenSheet {
  readonly live: Live;
  protected history: History;
  protected trial: TrialState | undefined;
  protected base: Frozen | undefined;
  /** All cells that are not as in `base`, and others that were not for a while; empty while there is no trial. */
  protected moved = new Set<string>();
  protected previewed: Previewed | undefined;
  protected readonly listeners = new Set<(news: News) => void>();
  protected rows = new Map<string, RowView>();
  protected speakers: readonly Speaker[] | undefined;
  protected readonly remarks: readonly Remark[];
  protected readonly readOnly: boolean;
  protected readonly random: () => number;
  protected readonly keep: (kept: Kept) => void;
  protected aside: readonly AsideTrial[];
  protected taken: readonly Taken[];
  protected isTakingBack = false;

  constructor(options: SessionOptions) {
    this.live = new Live(options.notebook, options.today);
    this.history = options.history ?? emptyHistory;
    this.aside = options.aside ?? [];
    this.taken = (options.progressHistory ?? emptyHistory).done.slice(-MOST_TAKEN);
    this.remarks = options.remarks ?? [];
    this.readOnly = options.readOnly ?? false;
    this.random = options.random;
    this.keep = options.keep ?? (() => undefined);
    if (options.trial) this.beginTrial(resumed(this.stillTried(options.trial)));
    whenReader(() => this.readMissed());
    whenSentences(() => this.refresh(this.live.sheet.cells, true));
  }

  /** Whether all that can be asked of it is here; until then it can be looked at and tried. */
  get isWhole(): boolean {
    return true;
  }

  /** Whether a formula could not be read yet, as the parser is still to come; it is read when the parser has come. */
  get isPartlyRead(): boolean {
    return this.live.sheet.hasMissed;
  }

  /** The parser has come: reads what waited for it, below the trial and in it. */
  protected readMissed(): void {
    if (!this.isPartlyRead) return;
    const changed = [...this.live.setOverlays([]), ...this.live.readMissed()];
    if (this.trial) this.base = this.live.sheet.freeze();
    this.refresh([...changed, ...this.live.setOverlays(this.overlays())], true);
  }

  get notebook(): Notebook {
    return this.live.notebook;
  }

  page(): PageView {
    const { notebook } = this.live;
    const chosen = this.live.sheet.chosenColumn;
    const follow = notebook.chosen && 'follow' in notebook.chosen ? spacedName(notebook.chosen.follow) : '';
    const { sections, couldFollow } = unmovedOf(notebook);
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
      couldFollow: follow === '' ? couldFollow : '',
      sections,
      trial: this.trialView(),
      undo: this.trial
        ? this.trial.past.length > 0
          ? 'the last change tried'
          : 'the change being tried'
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

  lastDone(): object | undefined {
    return this.trial ? undefined : this.history.done.at(-1);
  }

  row(id: string): RowView {
    let row = this.rows.get(id);
    if (!row) {
      row = rowView(this.rowContext(), id);
      this.rows.set(id, row);
    }
    return row;
  }

  private rowContext(): RowContext {
    const { live, base, trial } = this;
    return {
      live,
      base,
      isTried: (cell) => trial !== undefined && Object.hasOwn(trial.now.texts, cell),
      nudges: (cell) => this.nudges(cell),
    };
  }

  text(place: Place): string {
    const over = this.live.topText(place.cell);
    if (over.each) return place.column === null ? '' : (over.each[place.column] ?? '');
    return over.text ?? '';
  }

  feeds(id: string): readonly string[] {
    return this.live.sheet.has(id) ? this.live.sheet.feeds(id) : [];
  }

  uses(id: string): readonly string[] {
    return this.live.sheet.has(id) ? this.live.sheet.uses(id) : [];
  }

  listen(hear: (news: News) => void): () => void {
    this.listeners.add(hear);
    return () => this.listeners.delete(hear);
  }

  // ── The change being tried ───

  protected setTrial(trial: TrialState, aboutCell: string | undefined): void {
    if (this.previewed) this.endPreview();
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

  /** The text being typed lies over the notebook no longer. */
  protected endPreview(): void {
    this.previewed = undefined;
    this.refresh(this.live.setOverlays(this.overlays()), false);
  }

  protected beginTrial(trial: TrialState): void {
    if (Object.keys(trial.now.texts).length === 0) return;
    this.base = this.live.sheet.freeze();
    this.trial = trial;
    for (const id of this.live.setOverlays(this.overlays())) this.moved.add(id);
  }

  protected endTrial(): void {
    this.trial = undefined;
    this.base = undefined;
  }

  /** The trial without what is gone, and without what the notebook says by now. */
  protected stillTried(trial: Trial): Trial {
    const texts = Object.entries(trial.texts).filter(([id, tried]) => {
      const cell = this.live.cell(id);
      return cell !== undefined && !isBack(this.live, cell, tried);
    });
    return { ...trial, texts: Object.fromEntries(texts) };
  }

  protected overlays(): readonly Overlay[] {
    const overlays = this.trial ? [overlayOf(this.trial)] : [];
    if (!this.previewed) return overlays;
    const { place, over } = this.previewed;
    return [...overlays, new Map([[place.cell, over]])];
  }

  protected trialView(): TrialView | undefined {
    const { trial, base } = this;
    if (!trial || !base) return undefined;
    const cells = Object.keys(trial.now.texts)
      .filter((id) => this.live.sheet.has(id))
      .map((id) => {
        const column = this.live.sheet.info(id).each ? this.movedColumn(id, base) : 0;
        const [was, now] = [base.value(id, column), this.live.sheet.value(id, column)];
        const isAlike = was?.kind !== 'quantity' || now.kind !== 'quantity' || isOneKind(was, now);
        const print = (value: Value) => {
          const shown = printAt(this.live, id, column, value);
          return isAlike ? shown.number : printed(shown);
        };
        const name = spacedName(this.live.sheet.nameOf(id));
        return { id, name, was: was ? print(was) : '', tried: print(now) };
      });
    const column = stepValues(this.live, base).column;
    const chosen = this.live.sheet.columnLabels[column] ?? '';
    const moved = [...this.moved].filter((id) => !Object.hasOwn(trial.now.texts, id));
    const outcome = outcomeOf(this.live, base, moved) || this.amountsMoved(base, moved);
    return { title: trial.now.title, outcome, cells, chosen };
  }

  /** What is told where no count, size or length is: the whole of a session knows it. */
  protected amountsMoved(_base: Frozen, _moved: readonly string[]): string {
    return '';
  }

  protected movedColumn(id: string, base: Frozen): number {
    const at = this.live.columns.findIndex((_, c) => {
      const was = base.value(id, c);
      return was && !sameValue(was, this.live.sheet.value(id, c));
    });
    return at < 0 ? columnFor(this.live, undefined) : at;
  }

  protected nudges(id: string): boolean {
    const info = this.live.sheet.info(id);
    if (!info.typed || this.readOnly) return false;
    const { type } = info;
    if (type.kind === 'label') return (this.live.cell(id)?.choices ?? []).length > 0;
    return type.kind === 'quantity' || type.kind === 'truth' || type.kind === 'date';
  }

  setToday(day: number): void {
    this.refresh(this.live.setToday(day), false);
  }

  // ── News ───

  protected kept(): Kept {
    const { notebook, history, trial, aside } = this;
    return { notebook, history, trial: trial?.now, aside };
  }

  protected keepNow(): void {
    this.keep(this.kept());
  }

  /**
   * Tells the rows that changed, those on the needles, those that moved before and are back, and those that speak of one
   * that changed.
   */
  protected refresh(changed: readonly string[], page: boolean, words = ''): void {
    const rows = new Set([...changed, ...this.live.repinned()]);
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

  protected lastChosen = -2;
  protected chosenMoved(): boolean {
    const chosen = this.live.sheet.chosenColumn;
    const moved = chosen !== this.lastChosen;
    this.lastChosen = chosen;
    return moved;
  }

  protected tell(news: News): void {
    for (const id of news.rows) this.rows.delete(id);
    for (const hear of [...this.listeners]) hear(news);
  }

  protected say(words: string): void {
    this.tell({ rows: new Set(), page: false, aloud: words });
  }

  /** Cells whose rows tell of other cells: what they say, and what is remarked about them. */
  protected speaking(): readonly Speaker[] {
    this.speakers ??= this.live.sheet.cells.flatMap((id) => {
      const says = this.live.cell(id)?.says;
      const text = this.live.cell(id)?.text ?? '';
      const spoken = [says?.yes, says?.no, says?.text].filter((part) => part !== undefined).join(' ');
      const over = /\b(nearest|total|total_up_to|average|smallest|largest|slope)\s*\(/.test(text);
      const when = shownWhen(this.live.cell(id)?.shown);
      if (spoken === '' && !over && when === undefined) return [];
      const named = [...spoken.matchAll(/\{([^{}]+)\}/gu)].map((m) =>
        this.live.sheet.idOf((m[1] ?? '').trim().replace(/\s+/g, '_')),
      );
      const shown = when === undefined ? undefined : this.live.sheet.idOf(when);
      const of = new Set([
        ...[...named, shown].filter((one) => one !== undefined),
        ...(over ? this.live.sheet.uses(id) : []),
      ]);
      return [{ id, of }];
    });
    return this.speakers;
  }

  /** What changed, for those who listen: the cell moved, then the first few it moved with it. */
  protected spokenAbout(id: string, changed: readonly string[]): string {
    const said = [
      `${spacedName(this.live.sheet.nameOf(id))} ${this.spokenAt(id, columnFor(this.live, undefined))}`,
    ];
    const moved = new Set(changed);
    const others = this.live.sheet.feeds(id).filter((other) => other !== id && moved.has(other));
    for (const other of others.slice(0, 3)) said.push(this.spokenMove(other));
    if (others.length > 3) said.push(`and ${others.length - 3} more`);
    return said.join('; ');
  }

  protected spokenMove(id: string): string {
    const each = this.live.sheet.info(id).each;
    const column = each ? columnFor(this.live, undefined) : 0;
    const now = this.live.sheet.value(id, column);
    const old = this.base?.value(id, column);
    const label = each ? `, ${this.live.sheet.columnLabels[column]}` : '';
    const move = old ? printMove(this.live, id, column, old, now) : '';
    const by = move === '' ? '' : `, ${move.startsWith('+') ? 'up' : 'down'} ${move.slice(1)}`;
    return `${spacedName(this.live.sheet.nameOf(id))}${label}: ${this.spokenAt(id, column)}${by}`;
  }

  /** A value as it is said after its name. */
  private spokenAt(id: string, column: number): string {
    const value = this.live.sheet.value(id, column);
    if (value.kind !== 'quantity' && value.kind !== 'plan') return wordsAt(this.live, id, column);
    const name = spacedName(this.live.sheet.nameOf(id));
    return valueAloud(value.kind, unechoed(name, printAt(this.live, id, column, value)));
  }

  protected columnIndex(column: string | null): number {
    const at = column === null ? -1 : this.live.columns.indexOf(column);
    return at < 0 ? columnFor(this.live, undefined) : at;
  }
}
