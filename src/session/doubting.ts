/*
 * Asking an open notebook how far off it can be and what would have to change; trials put aside, taken up again and set
 * side by side. What answers is fetched when it is first needed; what is answered can be tried with one press.
 */

import { LENGTH, ROW_GAUGE, STITCH_GAUGE, snapped } from '../quantity/index.ts';
import { type AsideTrial, type AsideView, asideView, LONGEST_NAME } from './aside.ts';
import type { Questions } from './asked-page.ts';
import type { BackOffer } from './back.ts';
import { CELL_GONE, DONE, not, READ_ONLY } from './outcomes.ts';
import type { Outcome, Place } from './page.ts';
import { Knitting } from './progress.ts';
import { resumed, type Trial, type TriedText } from './trial.ts';
import { textAt, typedUnit, withTolerance } from './typed-text.ts';

const MOST_ASIDE = 12;
const TRIAL_GONE = not('What was set aside there is gone.');

/** An open notebook that can be asked. */
export class Doubting extends Knitting {
  async questions(): Promise<Questions> {
    const { answersFor } = await import('./questions.ts');
    return answersFor({ live: this.live, trial: () => this.trial?.now, aside: () => this.aside });
  }

  /** Moves a tolerance by so many steps; below nothing it is gone. */
  nudgeTolerance(place: Place, steps: number): Outcome {
    const { sheet } = this.live;
    if (!sheet.has(place.cell)) return CELL_GONE;
    const id = place.cell;
    const column = sheet.info(id).each ? this.columnIndex(place.column) : 0;
    const shown = typedUnit(this.live, id, column);
    if (!shown) return not('A doubt (±) belongs to a number.');
    const step = toleranceStep(shown.label, shown.dimension);
    const now = sheet.tolerance(id, column) / shown.factor;
    const at = snapped(now / step);
    const next = Math.max(0, (steps > 0 ? Math.floor(at) : Math.ceil(at)) + steps) * step;
    const text = withTolerance(this.live, id, column, textAt(this.live, place), next * shown.factor);
    return text === undefined ? not('A doubt (±) belongs to a number.') : this.type(place, text);
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

  trialsAside(): readonly AsideView[] {
    return this.aside.map((trial) => asideView(this.live, trial));
  }

  /** Puts what is being tried aside, to be compared or taken up later; the notebook stands as it was. */
  putAside(): Outcome & { readonly id?: string } {
    const now = this.trial?.now;
    if (!now) return not('Nothing is being tried.');
    if (this.aside.length >= MOST_ASIDE)
      return not('Twelve changes are set aside already: let one go first.');
    const id = this.freeAside();
    this.aside = [...this.aside, { ...now, id }];
    this.dropTrial();
    return { done: true, id };
  }

  private freeAside(): string {
    const used = new Set(this.aside.map(({ id }) => id));
    let number = 1;
    while (used.has(`t${number}`)) number += 1;
    return `t${number}`;
  }

  nameAside(id: string, name: string): Outcome {
    if (!this.aside.some((trial) => trial.id === id)) return TRIAL_GONE;
    const said = name.trim().slice(0, LONGEST_NAME);
    this.setAside(this.aside.map((trial) => (trial.id === id ? named(trial, said) : trial)));
    return DONE;
  }

  /** Takes a trial up again; what was being tried is put aside in its place. */
  takeUp(id: string): Outcome {
    const found = this.aside.find((trial) => trial.id === id);
    if (!found) return TRIAL_GONE;
    if (!Object.keys(found.texts).some((cell) => this.live.cell(cell)))
      return not('The cells it was about are gone.');
    const trial = this.stillTried(trialOf(found));
    if (Object.keys(trial.texts).length === 0) return not('The notebook says this already.');
    this.aside = this.aside.filter((one) => one !== found);
    if (this.trial) this.putAside();
    this.setTrial(resumed(trial), Object.keys(trial.texts)[0]);
    return DONE;
  }

  /** Lets a trial go. */
  dropAside(id: string): Outcome {
    if (!this.aside.some((trial) => trial.id === id)) return TRIAL_GONE;
    this.setAside(this.aside.filter((trial) => trial.id !== id));
    return DONE;
  }

  private setAside(aside: readonly AsideTrial[]): void {
    this.aside = aside;
    this.tell({ rows: new Set(), page: true, aloud: '' });
    this.keepNow();
  }
}

/** A trial put aside, as one that is tried again: its name stays with it. */
function trialOf({ id: _id, ...trial }: AsideTrial): Trial {
  return trial;
}

function named({ name: _old, ...trial }: AsideTrial, name: string): AsideTrial {
  return name === '' ? trial : { ...trial, name };
}

/** A tolerance moves by a quarter of a stitch or row, an eighth of an inch, a millimetre. */
function toleranceStep(label: string, dimension: number): number {
  if (dimension === STITCH_GAUGE || dimension === ROW_GAUGE) return 0.25;
  if (dimension === LENGTH) return { in: 0.125, cm: 0.1, mm: 0.5, ft: 0.125, m: 0.01, yd: 0.125 }[label] ?? 1;
  return label === 'st' || label === 'row' || label === 'rnd' ? 0.25 : 1;
}
