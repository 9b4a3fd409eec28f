import {
  type Cell,
  type Change,
  freeName,
  isRefused,
  type Notebook,
  nameKey,
  readNotebook,
  writeNotebook,
} from '../notebook/index.ts';
import { refusalSentence } from '../telling/index.ts';
import { Doubting } from './doubting.ts';
import { columnIds } from './live.ts';
import { heldAt, meant, meantSizes } from './meant.ts';
import type { SessionOptions } from './open-sheet.ts';
import { CELL_GONE, not, READ_ONLY, refused } from './outcomes.ts';
import type { Mistake, Outcome, Page, Place } from './page.ts';
import { type PastedLine, pastedSizes, readTable, tableOf } from './paste.ts';
import { type RowTexts, rowTexts } from './row-texts.ts';
import { stored } from './stored.ts';

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
    return this.pasteLines(cell, place, lines);
  }

  protected pasteLines(cell: Cell, place: Place, lines: readonly PastedLine[]): Outcome {
    const found = this.notebook.sections.find((section) => section.cells.some((one) => one.id === cell.id));
    if (!found) return CELL_GONE;
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

  protected pasteInto(cell: Cell, pasted: readonly string[], column: string | null): Change {
    const ids = columnIds(this.notebook);
    const held = heldAt(this.live, { cell: cell.id, column });
    const values = pasted.map((value) => meant(this.live, value, held));
    const row = this.rowUnder(cell);
    const isOne = values.length === 1 && (column === null || row === undefined);
    if (isOne || ids.length === 0) return { kind: 'set_text', cell: cell.id, text: stored(values[0] ?? '') };
    const first = column === null ? 0 : Math.max(0, ids.indexOf(column));
    const each = {
      ...row,
      ...Object.fromEntries(
        ids.slice(first).flatMap((id, i) => (values[i] === undefined ? [] : [[id, stored(values[i] ?? '')]])),
      ),
    };
    return { kind: 'set_text', cell: cell.id, each };
  }

  /** What the notebook has in the columns of a row, without what is tried; undefined where one value stands for all. */
  private rowUnder(cell: Cell): RowTexts | undefined {
    if (cell.each) return cell.each;
    const texts = rowTexts(this.live, cell, this.base && ((column) => this.base?.value(cell.id, column)));
    return texts === 'plans' ? undefined : texts;
  }

  protected pasteNew(
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
}

/** An open notebook. */
export function createSession(options: SessionOptions): Session {
  return new Session(options);
}
