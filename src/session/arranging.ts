/*
 * Arranging a notebook: cells, sections and columns added, renamed, moved and taken away; its title and its units.
 */

import { formulaName, nameProblem, type Problem, problem, spacedName } from '../formula/index.ts';
import { type Cell, type Change, freeName, nameKey } from '../notebook/index.ts';
import { columnIds } from './live.ts';
import { becauseOf, CELL_GONE, DONE, not } from './outcomes.ts';
import type { Outcome } from './page.ts';
import { rewritesForCell, rewritesForColumn } from './rewrite.ts';
import { columnFor } from './show.ts';
import { sizesIn } from './size-comma.ts';
import { storedEach } from './stored.ts';
import { Typing } from './typing.ts';
import { unmovedOf } from './unmoved.ts';

/** An open notebook one can arrange. */
export class Arranging extends Typing {
  addCell(
    section: string,
    after: string | null,
    name?: string,
    text = '',
  ): Outcome & { readonly id?: string } {
    const found = this.notebook.sections.find((one) => one.id === section);
    if (!found) return not('That section is gone: it was deleted.');
    const both = nameAndText(name ?? '');
    if (both && text === '') return this.addCell(section, after, ...both);
    const wished = formulaName(name ?? '');
    const bad = wished === '' ? undefined : this.nameProblem(name ?? '', undefined);
    if (bad) return becauseOf(bad);
    const taken = new Set(this.live.sheet.cells.map((id) => nameKey(this.live.sheet.nameOf(id))));
    const id = this.newId('k');
    const at = after === null ? 0 : found.cells.findIndex((cell) => cell.id === after) + 1;
    const named = { id, name: wished || freeName('new_cell', taken) };
    const join = wished === '' ? adding(id) : undefined;
    const outcome = this.addWith({ kind: 'add_cell', section, at }, named, text, join);
    return outcome.done ? { done: true, id } : outcome;
  }

  /** Adds a cell with a text; a size line fills its columns, and makes them where there are none yet, as typing does. */
  private addWith(
    place: { readonly kind: 'add_cell'; readonly section: string; readonly at: number },
    named: { readonly id: string; readonly name: string },
    text: string,
    join: string | undefined,
  ): Outcome {
    const ids = columnIds(this.notebook);
    const { sizes, unsure } = sizesIn(text.normalize('NFC').trim(), ids.length);
    if (unsure !== undefined) return not(unsure);
    if (!sizes) return this.do({ ...place, cell: { ...named, text } }, join);
    const empty: Cell = { ...named, text: '' };
    if (ids.length === 0) return this.makeColumns(empty, sizes, [{ ...place, cell: empty }]);
    if (sizes.length !== ids.length) return this.otherLength(sizes.length);
    return this.do({ ...place, cell: { ...named, each: storedEach(ids, sizes) } });
  }

  /** Why a cell may not be called what is wished, in the words it was wished in; undefined where it may. */
  protected nameProblem(wished: string, own: string | undefined): Problem | undefined {
    const bad = nameProblem(formulaName(wished), (folded) => {
      const other = this.live.sheet.cells.find(
        (id) => id !== own && nameKey(this.live.sheet.nameOf(id)) === folded,
      );
      return other === undefined ? undefined : this.live.sheet.nameOf(other);
    });
    return bad?.code === 'name-letters' ? problem(bad.code, { name: wished.trim() }) : bad;
  }

  renameCell(id: string, wished: string): Outcome {
    const cell = this.live.cell(id);
    if (!cell) return CELL_GONE;
    const both = nameAndText(wished);
    if (both && cell.text === '') {
      const outcome = this.renameCell(id, both[0]);
      return outcome.done ? this.type({ cell: id, column: null }, both[1]) : outcome;
    }
    const name = formulaName(wished);
    if (name === cell.name) return DONE;
    const bad = this.nameProblem(wished, id);
    if (bad) return becauseOf(bad);
    const rewrites = rewritesForCell(this.notebook, cell.name, name);
    const rename = { kind: 'rename_cell', cell: id, name, rewrites } as const;
    if (!this.isNew(id)) return this.do(rename);
    // A cell that is added to be named is added and named in one.
    const title = `add ${spacedName(name)}`;
    return this.do({ kind: 'together', title, changes: [rename] }, adding(id));
  }

  /** Whether adding this cell was the last thing done: it is neither named nor filled yet. */
  private isNew(id: string): boolean {
    const last = this.history.done.at(-1);
    const isTried = this.trial?.now.texts[id] !== undefined;
    return last?.join === adding(id) && last.change.kind === 'add_cell' && !isTried;
  }

  unadd(id: string): boolean {
    return this.isNew(id) && this.live.cell(id)?.text === '' && this.step('undo').done;
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
    if (!cell) return CELL_GONE;
    const taken = new Set(this.live.sheet.cells.map((other) => nameKey(this.live.sheet.nameOf(other))));
    const copy = this.newId('k');
    const outcome = this.do({ kind: 'duplicate_cell', cell: id, id: copy, name: freeName(cell.name, taken) });
    return outcome.done ? { done: true, id: copy } : outcome;
  }

  setNote(id: string, note: string): Outcome {
    return this.do({ kind: 'set_cell', cell: id, fields: { note: note.trim() === '' ? null : note.trim() } });
  }

  addStep(text: string): Outcome & { readonly id?: string } {
    const written = text.trim();
    if (written === '') return not('A step needs a few words.');
    const unknown = [...written.matchAll(/\{([^{}]+)\}/gu)]
      .map(([, name = '']) => formulaName(name))
      .find((name) => this.live.sheet.idOf(name) === undefined);
    if (unknown !== undefined)
      return not(`There is no cell “${spacedName(unknown)}” to fill into the step: see how it is spelt.`);
    const id = this.newId('t');
    const item = { id, text: written };
    const outcome = this.do({ kind: 'add_item', list: 'steps', at: this.notebook.steps.length, item });
    return outcome.done ? { done: true, id } : outcome;
  }

  setEach(id: string, each: boolean): Outcome {
    const cell = this.live.cell(id);
    if (!cell) return CELL_GONE;
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
    const follow = column === 'follow' ? unmovedOf(this.notebook).couldFollow : '';
    if (column === 'follow' && follow === '')
      return not('There is no cell here that names a column to follow.');
    const chosen = column === 'follow' ? { follow: formulaName(follow) } : { column };
    return this.do(this.choosing({ kind: 'set_chosen', chosen }));
  }

  /** The choice of a column, with what it brings along. */
  protected choosing(change: Change): Change {
    return change;
  }

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
}

/** What joins the naming of a cell to its adding. */
const adding = (id: string): string => `add ${id}`;

/** "head = 56 cm", written where a name is asked for, says both. */
function nameAndText(written: string): readonly [name: string, text: string] | undefined {
  const [, name = '', text = ''] = /^([^=<>!]*)=([^=].*)$/u.exec(written) ?? [];
  return text.trim() === '' ? undefined : [name.trim(), text.trim()];
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 3).map((name) => `“${name}”`);
  const more = names.length - shown.length;
  if (more > 0) return `${shown.join(', ')} and ${more} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}
