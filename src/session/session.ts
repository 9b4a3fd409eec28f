import { isRefused, type Notebook, readNotebook, writeNotebook } from '../notebook/index.ts';
import { refusalSentence } from '../telling/index.ts';
import { Doubting } from './doubting.ts';
import { heldAt, meantSizes } from './meant.ts';
import type { SessionOptions } from './open-sheet.ts';
import { CELL_GONE, not, READ_ONLY, refused } from './outcomes.ts';
import type { Mistake, Outcome, Page, Place } from './page.ts';
import { type PastedLine, pastedSizes, readTable, tableOf } from './paste.ts';
import { pastedChanges } from './pasting.ts';

/** An open notebook. */
export class Session extends Doubting implements Page {
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

  copy(cells: readonly string[]): string {
    return tableOf(
      this.live,
      cells.filter((id) => this.live.sheet.has(id)),
    );
  }

  paste(place: Place, table: string): Outcome {
    const sizes = pastedSizes(table);
    const cell = this.live.cell(place.cell);
    if (!cell) return CELL_GONE;
    if (sizes) return this.commitSizes(cell, meantSizes(this.live, sizes, heldAt(this.live, place)));
    const lines = readTable(table, (name) => this.live.sheet.idOf(name) !== undefined);
    const [only] = lines;
    if (lines.length === 0 || !only) return not('There is nothing to paste.');
    if (lines.length === 1 && only.name === undefined && only.values.length === 1)
      return this.type(place, only.values[0] ?? '');
    return this.pasteLines(place, lines);
  }

  private pasteLines(place: Place, lines: readonly PastedLine[]): Outcome {
    const { live, base } = this;
    const valueIn = (id: string) => base && ((column: number) => base.value(id, column));
    const pasted = pastedChanges({ live, place, lines, valueIn, newId: (letter) => this.newId(letter) });
    if (typeof pasted === 'string') return not(pasted);
    const outcome = this.do({
      kind: 'together',
      title: `paste ${lines.length} rows`,
      changes: pasted.changes,
    });
    return outcome.done && pasted.note !== '' ? { ...outcome, note: pasted.note } : outcome;
  }
}

/** An open notebook. */
export function createSession(options: SessionOptions): Session {
  return new Session(options);
}
