/*
 * Asking an open notebook how far off it can be and what would have to change; trials put aside, taken up again and set
 * side by side. Asking changes nothing; what is answered can be tried with one press.
 */

import { laneOf } from '../doubt/index.ts';
import { LENGTH, ROW_GAUGE, STITCH_GAUGE, snapped } from '../quantity/index.ts';
import { type BackOffer, type BackStart, type BackView, backStart, backView } from './back.ts';
import {
  type AsideTrial,
  type Beside,
  type BesideChoice,
  type BesideView,
  besideView,
  trialTitle,
} from './beside.ts';
import { type DecisionView, decisionViews } from './decisions.ts';
import { type DoubtView, doubtView, textAt } from './doubt.ts';
import type { Kept, SessionOptions } from './open-sheet.ts';
import { CELL_GONE, DONE, not, READ_ONLY } from './outcomes.ts';
import type { News, Outcome, Place } from './page.ts';
import { Knitting } from './progress.ts';
import { resumed, type TriedText } from './trial.ts';
import { typedUnit, withTolerance } from './typed-text.ts';

const MOST_ASIDE = 12;

/** An open notebook that can be asked. */
export class Doubting extends Knitting {
  private aside: readonly AsideTrial[];
  private decided: readonly DecisionView[] | undefined;

  constructor(options: SessionOptions) {
    super(options);
    this.aside = options.aside ?? [];
  }

  /** How far off a value can be, in a column or in your size; undefined where the cell is gone. */
  doubt(id: string, column: string | null): DoubtView | undefined {
    return this.live.sheet.has(id) ? doubtView(this.live, id, this.columnIndex(column)) : undefined;
  }

  /** What would be decided otherwise within the doubt of everything typed; worked out once until something changes. */
  decisions(): readonly DecisionView[] {
    this.decided ??= decisionViews(this.live);
    return this.decided;
  }

  protected override tell(news: News): void {
    this.decided = undefined;
    super.tell(news);
  }

  /** Moves a tolerance by so many steps; below nothing it is gone. */
  nudgeTolerance(place: Place, steps: number): Outcome {
    const { sheet } = this.live;
    if (!sheet.has(place.cell)) return CELL_GONE;
    const { id, column } = laneOf(
      sheet,
      place.cell,
      Math.max(0, this.live.columns.indexOf(place.column ?? '')),
    );
    const shown = typedUnit(this.live, id, column);
    if (!shown) return not('A doubt (±) belongs to a number.');
    const step = toleranceStep(shown.label, shown.dimension);
    const now = sheet.tolerance(id, column) / shown.factor;
    const at = snapped(now / step);
    const next = Math.max(0, (steps > 0 ? Math.floor(at) : Math.ceil(at)) + steps) * step;
    return this.setTolerance(place, next * shown.factor);
  }

  /** Puts a tolerance in, in base units; 0 takes it away. */
  setTolerance(place: Place, off: number): Outcome {
    if (!this.live.sheet.has(place.cell)) return CELL_GONE;
    const { id, column } = laneOf(
      this.live.sheet,
      place.cell,
      Math.max(0, this.live.columns.indexOf(place.column ?? '')),
    );
    const text = withTolerance(this.live, id, column, textAt(this.live, place), off);
    return text === undefined ? not('A doubt (±) belongs to a number.') : this.type(place, text);
  }

  /** What can be asked of a worked-out value: what may give way, and how what is wanted is said. */
  backStart(id: string, column: string | null): BackStart | undefined {
    return this.live.sheet.has(id) ? backStart(this.live, id, this.columnIndex(column)) : undefined;
  }

  /** What a typed cell would have to be for a worked-out one to come to what is wanted. */
  workBack(id: string, column: string | null, giving: Place, text: string): BackView {
    return backView(this.live, id, this.columnIndex(column), giving, text);
  }

  /** Begins a trial with an answer, or joins the one there is. */
  tryOffer(offer: BackOffer): Outcome {
    if (this.readOnly) return not(READ_ONLY);
    const { cell, column } = offer.place;
    if (!this.live.sheet.has(cell)) return CELL_GONE;
    const over = this.live.topText(cell);
    const texts: TriedText =
      over.each && column !== null ? { each: { ...over.each, [column]: offer.text } } : { text: offer.text };
    this.tryTexts(`trying ${offer.label}`, { [cell]: texts });
    return DONE;
  }

  // ── Trials put aside ───

  trialsAside(): readonly BesideChoice[] {
    return this.aside.map((trial) => ({ key: trial.id, title: trialTitle(this.live, trial) || trial.title }));
  }

  /** Puts what is being tried aside, to be compared or taken up later; the notebook stands as it was. */
  putAside(): Outcome {
    const now = this.trial?.now;
    if (!now) return not('Nothing is being tried.');
    if (this.aside.length >= MOST_ASIDE)
      return not('There are twelve trials aside already: let one go first.');
    const used = new Set(this.aside.map(({ id }) => id));
    let number = 1;
    while (used.has(`t${number}`)) number += 1;
    this.aside = [...this.aside, { ...now, id: `t${number}` }];
    this.dropTrial();
    return DONE;
  }

  /** Takes a trial up again; what was being tried is put aside in its place. */
  takeUp(id: string): Outcome {
    const found = this.aside.find((trial) => trial.id === id);
    if (!found) return not('That trial is gone.');
    this.aside = this.aside.filter((trial) => trial.id !== id);
    const trial = this.stillThere({ title: found.title, texts: found.texts });
    if (this.trial) {
      const put = this.putAside();
      if (!put.done) return put;
    }
    if (Object.keys(trial.texts).length === 0) return not('The cells it was about are gone.');
    this.setTrial(resumed(trial), Object.keys(trial.texts)[0]);
    return DONE;
  }

  /** Lets a trial go. */
  dropAside(id: string): void {
    this.aside = this.aside.filter((trial) => trial.id !== id);
    this.tell({ rows: new Set(), page: true, aloud: '' });
    this.keepNow();
  }

  // ── Side by side ───

  /** Everything that can stand side by side: as it stands, what is tried, what is aside, and every size. */
  besideChoices(): readonly BesideChoice[] {
    return this.besides().map(({ key, title }) => ({ key, title }));
  }

  /** Those side by side, in the order of the choices. */
  beside(keys: readonly string[]): BesideView {
    return besideView(
      this.live,
      this.besides().filter(({ key }) => keys.includes(key)),
    );
  }

  private besides(): readonly Beside[] {
    const { live } = this;
    const now = this.trial?.now;
    const heading = live.notebook.columns?.heading ?? 'size';
    const columns = live.notebook.columns?.list ?? [];
    return [
      { key: 'now', title: 'as it stands', trial: undefined },
      ...(now ? [{ key: 'trial', title: trialTitle(live, now), trial: now }] : []),
      ...this.aside.map((trial) => ({ key: `aside ${trial.id}`, title: trialTitle(live, trial), trial })),
      ...columns.map(({ id, label }) => ({
        key: `column ${id}`,
        title: `${heading} ${label}`,
        trial: now,
        column: id,
      })),
    ];
  }

  protected override kept(): Kept {
    return { ...super.kept(), aside: this.aside };
  }
}

/** A tolerance moves by a quarter of a stitch or row, an eighth of an inch, a millimetre. */
function toleranceStep(label: string, dimension: number): number {
  if (dimension === STITCH_GAUGE || dimension === ROW_GAUGE) return 0.25;
  if (dimension === LENGTH) return { in: 0.125, cm: 0.1, mm: 0.5, ft: 0.125, m: 0.01, yd: 0.125 }[label] ?? 1;
  return label === 'st' || label === 'row' || label === 'rnd' ? 0.25 : 1;
}
