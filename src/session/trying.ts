/*
 * Trying: what − and + do, and taking that back. All that a first visit can do before the rest has come.
 */

import { spacedName } from '../formula/index.ts';
import type { Cell } from '../notebook/index.ts';
import { isBack } from './is-back.ts';
import { nudgedText } from './nudge.ts';
import { OpenSheet } from './open-sheet.ts';
import { CELL_GONE, DONE, not, READ_ONLY } from './outcomes.ts';
import type { Outcome, Place } from './page.ts';
import { stepBack, type TriedText, tried, without } from './trial.ts';

/** An open notebook one can look at and try changes in. */
export class Trying extends OpenSheet {
  nudge(place: Place, steps: number): Outcome {
    if (this.readOnly) return not(READ_ONLY);
    const cell = this.live.cell(place.cell);
    if (!cell) return CELL_GONE;
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
    this.tryText(cell, texts, `trying ${name}`);
    return DONE;
  }

  /** Tries a text for a cell; what the notebook says is not tried, or not any more. */
  protected tryText(cell: Cell, texts: TriedText, title: string): void {
    if (!isBack(this.live, cell, texts)) this.setTrial(tried(this.trial, cell.id, texts, title), cell.id);
    else if (this.trial?.now.texts[cell.id]) this.dropFromTrial(cell.id, cell.id);
  }

  /** Ends the trial; `aboutCell` is told aloud, when it is back where it was. */
  dropTrial(aboutCell?: string): void {
    if (!this.trial) return;
    this.previewed = undefined;
    this.endTrial();
    const changed = this.live.setOverlays(this.overlays());
    this.refresh(changed, true, aboutCell === undefined ? '' : this.spokenAbout(aboutCell, changed));
    this.keepNow();
  }

  dropFromTrial(id: string, aboutCell?: string): void {
    if (!this.trial) return;
    const rest = without(this.trial, id);
    if (rest) this.setTrial(rest, id);
    else this.dropTrial(aboutCell);
  }

  protected undoTrial(): Outcome {
    const back = this.trial && stepBack(this.trial);
    if (back) this.setTrial(back, undefined);
    else this.dropTrial();
    return DONE;
  }
}
