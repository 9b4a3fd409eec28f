import { isRefused, type Notebook, readNotebook, writeNotebook } from '../notebook/index.ts';
import { refusalSentence } from '../telling/index.ts';
import { Doubting } from './doubting.ts';
import { heldAt, meantSizes } from './meant.ts';
import type { SessionOptions } from './open-sheet.ts';
import { CELL_GONE, not, READ_ONLY, refused } from './outcomes.ts';
import type { Mistake, Outcome, Page, PasteBelow, PastePlace } from './page.ts';
import { type PastedLine, pastedSizes, readTable, tableOf } from './paste.ts';
import { PASTE_WHERE, pastedChanges } from './pasting.ts';
import { unsureSizes, withPoint } from './size-comma.ts';

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

  paste(place: PastePlace, pasted: string): Outcome {
    const count = this.live.columns.length;
    const table = withPoint(pasted, count);
    const unsure = pastedSizes(table) && unsureSizes(table, count);
    if (unsure !== undefined) return not(unsure);
    if ('section' in place) return this.pasteInto(place, table);
    const sizes = pastedSizes(table);
    const cell = this.live.cell(place.cell);
    if (!cell) return CELL_GONE;
    if (sizes) return this.commitSizes(cell, meantSizes(this.live, sizes, heldAt(this.live, place)));
    const lines = readTable(table, this.live);
    const only = onlyText(lines);
    return only === undefined ? this.pasteLines(place, lines) : this.type(place, only);
  }

  /** Makes cells of what is pasted where no cell stands. */
  private pasteInto(place: PasteBelow, table: string): Outcome {
    const { sections } = this.notebook;
    if (sections.length === 0) {
      const { id } = this.addSection(null, '');
      return id === undefined ? not(PASTE_WHERE) : this.pasteInto({ section: id, atEnd: false }, table);
    }
    const lines = readTable(table, this.live);
    const only =
      pastedSizes(table)
        ?.map((size) => size || '–')
        .join('; ') ?? onlyText(lines);
    if (only === undefined) return this.pasteLines(place, lines);
    const section = sections.find(({ id }) => id === place.section);
    if (!section) return not(PASTE_WHERE);
    return this.addCell(section.id, (place.atEnd && section.cells.at(-1)?.id) || null, '', only);
  }

  private pasteLines(place: PastePlace, lines: readonly PastedLine[]): Outcome {
    if (lines.length === 0) return not('There is nothing to paste.');
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

/** The text of a table that is no table. */
function onlyText([line, ...more]: readonly PastedLine[]): string | undefined {
  const isOne =
    line !== undefined && more.length === 0 && line.name === undefined && line.values.length === 1;
  return isOne ? line.values[0] : undefined;
}

/** An open notebook. */
export function createSession(options: SessionOptions): Session {
  return new Session(options);
}
