/*
 * From any JSON value to a notebook that keeps every rule of `document.ts`. What does not fit is mended or left out, and
 * each mending is a remark. Three passes:
 *   1. groups and lists are read by kind, section by section (`readSection`, `readCell` …);
 *   2. ids and names are made good over the whole notebook: the first to bear one keeps it;
 *   3. texts by column are matched with the columns.
 * Reading the same value twice gives the same notebook: ids that are missing are counted, not drawn.
 */

import {
  type Caution,
  type Cell,
  type Chosen,
  type Column,
  type Columns,
  type Drawing,
  FORMAT,
  type From,
  type Knitted,
  type Notebook,
  type Progress,
  type Says,
  type Section,
  type Source,
  type Step,
} from './document.ts';
import { limits } from './limits.ts';
import { normalName } from './names.ts';
import { isRecord, record } from './record.ts';
import type { Remarks } from './remark.ts';
import { settleNames } from './settle.ts';
import { present, Shape } from './shape.ts';

/** The notebook in a group of the file. Never throws. */
export function validate(group: Readonly<Record<string, unknown>>, remarks: Remarks): Notebook {
  const shape = new Shape(group, '', remarks);
  return settleNames(readDocument(shape), remarks);
}

/** One cell on its own, as a change carries it; undefined when the value is no cell at all. */
export function readLoneCell(value: unknown, remarks: Remarks): Cell | undefined {
  return isRecord(value) ? readCell(new Shape(value, '', remarks)) : undefined;
}

/** One section on its own. */
export function readLoneSection(value: unknown, remarks: Remarks): Section | undefined {
  return isRecord(value) ? readSection(new Shape(value, '', remarks)) : undefined;
}

/** One column on its own. */
export function readLoneColumn(value: unknown, remarks: Remarks): Column | undefined {
  return isRecord(value) ? readColumn(new Shape(value, '', remarks)) : undefined;
}

/** One step on its own. */
export function readLoneStep(value: unknown, remarks: Remarks): Step | undefined {
  return isRecord(value) ? readStep(new Shape(value, '', remarks)) : undefined;
}

/** One drawing on its own. */
export function readLoneDrawing(value: unknown, remarks: Remarks): Drawing | undefined {
  return isRecord(value) ? readDrawing(new Shape(value, '', remarks)) : undefined;
}

function readDocument(shape: Shape): Notebook {
  const ellwand = readVersion(shape);
  return present<Notebook>({
    ellwand,
    id: shape.text('id', limits.id) ?? '',
    title: readTitle(shape),
    about: shape.text('about', limits.page),
    from: readFrom(shape.group('from')),
    units: readUnits(shape),
    money: shape.text('money', limits.money),
    today: readDay(shape),
    columns: readColumns(shape.group('columns')),
    chosen: readChosen(shape.group('chosen')),
    sections: readSections(shape),
    drawings: shape.groups('drawings', limits.drawings, readDrawing),
    steps: shape.groups('steps', limits.steps, readStep),
    how: shape.text('how', limits.page),
    sources: shape.groups('sources', limits.sources, readSource),
    cautions: shape.groups('cautions', limits.cautions, readCaution),
    progress: readProgress(shape.group('progress')),
    extra: shape.rest(),
  });
}

function readVersion(shape: Shape): number {
  const version = shape.count('ellwand', 1, 1_000_000);
  if (version === undefined) shape.remarks.add('no_version', 'ellwand', { version: FORMAT });
  return version ?? FORMAT;
}

function readTitle(shape: Shape): string {
  const title = shape.text('title', limits.title);
  if (title === undefined) shape.remarks.add('no_title', 'title');
  return title ?? 'Untitled';
}

function readUnits(shape: Shape): 'in' | 'cm' {
  const units = shape.word('units', ['in', 'cm']);
  if (units === undefined) shape.remarks.add('no_units', 'units', { units: 'cm' });
  return units ?? 'cm';
}

/** A day of the calendar, as text. */
export function readDay(shape: Shape): string | undefined {
  const day = shape.text('today', limits.word);
  if (day === undefined || isDay(day)) return day;
  shape.remarks.add('no_such_day', 'today', { text: day });
  return undefined;
}

/** Whether a text is a day of the calendar, "2026-12-24". */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

function readFrom(shape: Shape | undefined): From | undefined {
  const notebook = shape?.text('notebook', limits.word);
  const version = shape?.count('version', 0, 1_000_000);
  if (shape === undefined || notebook === undefined) return undefined;
  return present<From>({ notebook, version: version ?? 1, extra: shape.rest() });
}

function readColumns(shape: Shape | undefined): Columns | undefined {
  if (shape === undefined) return undefined;
  return present<Columns>({
    heading: shape.text('heading', limits.word) ?? '',
    list: shape.groups('list', limits.columns, readColumn),
    extra: shape.rest(),
  });
}

function readColumn(shape: Shape): Column {
  return present<Column>({
    id: shape.text('id', 4 * limits.id) ?? '',
    label: shape.text('label', 4 * limits.label) ?? '',
    extra: shape.rest(),
  });
}

/** Which column is chosen. */
export function readChosen(shape: Shape | undefined): Chosen | undefined {
  const follow = shape?.text('follow', limits.name);
  if (shape !== undefined && follow !== undefined) {
    return present<Chosen>({ follow: normalName(follow), extra: shape.rest() });
  }
  const column = shape?.text('column', limits.id);
  if (shape === undefined || column === undefined) return undefined;
  return present<Chosen>({ column, extra: shape.rest() });
}

/** Sections and their cells; the limit of cells is over the whole notebook. */
function readSections(shape: Shape): readonly Section[] {
  if (!shape.has('sections')) shape.remarks.add('no_sections', 'sections');
  const sections = shape.groups('sections', limits.sections, readSection);
  const count = sections.reduce((sum, section) => sum + section.cells.length, 0);
  if (count <= limits.cells) return sections;
  shape.remarks.add('too_many', 'sections.cells', { count, limit: limits.cells });
  let room: number = limits.cells;
  return sections.map((section) => {
    const cells = section.cells.slice(0, Math.max(0, room));
    room -= cells.length;
    return { ...section, cells };
  });
}

function readSection(shape: Shape): Section {
  return present<Section>({
    id: shape.text('id', 4 * limits.id) ?? '',
    title: shape.text('title', limits.title) ?? '',
    about: shape.text('about', limits.page),
    cells: shape.groups('cells', limits.cells, readCell),
    extra: shape.rest(),
  });
}

function readCell(shape: Shape): Cell {
  const each = readEach(shape);
  const text = shape.formula(shape.value('text'), shape.at('text'));
  if (each !== undefined && text !== undefined)
    shape.remarks.add('text_and_each', shape.path, { text: text.slice(0, 40) });
  return present<Cell>({
    id: shape.text('id', 4 * limits.id) ?? '',
    name: shape.text('name', 4 * limits.name) ?? '',
    text: each === undefined ? (text ?? '') : undefined,
    each,
    note: shape.text('note', limits.sentence),
    shown: shape.text('shown', limits.word),
    step: shape.text('step', limits.word),
    range: readRange(shape),
    choices: readChoices(shape),
    says: readSays(shape),
    extra: shape.rest(),
  });
}

function readEach(shape: Shape): Record<string, string> | undefined {
  const group = shape.group('each');
  if (group === undefined) return undefined;
  const texts: [string, string][] = [];
  for (const [column, value] of group.entries(4 * limits.columns)) {
    const text = group.formula(value, group.at(column));
    if (text !== undefined && text !== '') texts.push([column, text]);
  }
  return record(texts);
}

/** The two ends that a cell is searched between. */
export function readRange(shape: Shape): readonly [string, string] | undefined {
  if (!shape.has('range')) return undefined;
  const ends = shape
    .list('range', 2)
    .map((end, index) => shape.loneText(end, `${shape.at('range')}.${index}`));
  const [from, to] = ends;
  if (from !== undefined && to !== undefined) return [from.slice(0, limits.word), to.slice(0, limits.word)];
  shape.remarks.add('half_a_range', shape.at('range'));
  return undefined;
}

/** The labels that a typed label can be. */
export function readChoices(shape: Shape): readonly string[] | undefined {
  if (!shape.has('choices')) return undefined;
  const texts = shape
    .list('choices', limits.choices)
    .map((choice, index) => shape.loneText(choice, `${shape.at('choices')}.${index}`));
  return texts.flatMap((text) => (text === undefined ? [] : [text.slice(0, limits.word)]));
}

/** What a cell says; a bare text is taken for what it says of any value. */
export function readSays(shape: Shape): Says | undefined {
  const bare = shape.value('says');
  if (typeof bare === 'string') return { text: bare.slice(0, limits.sentence) };
  const group = shape.group('says');
  if (group === undefined) return undefined;
  const says = present<Says>({
    yes: group.text('yes', limits.sentence),
    no: group.text('no', limits.sentence),
    text: group.text('text', limits.sentence),
    extra: group.rest(),
  });
  return Object.keys(says).length > 0 ? says : undefined;
}

function readDrawing(shape: Shape): Drawing {
  const binds: [string, string][] = [];
  const group = shape.group('binds');
  for (const [part, value] of group?.entries(limits.binds) ?? []) {
    const name = group?.loneText(value, group.at(part));
    if (name !== undefined && part.length <= limits.word)
      binds.push([part, normalName(name.slice(0, limits.name))]);
  }
  return present<Drawing>({
    id: shape.text('id', 4 * limits.id) ?? '',
    kind: shape.text('kind', limits.word) ?? '',
    title: shape.text('title', limits.title),
    binds: record(binds),
    extra: shape.rest(),
  });
}

function readStep(shape: Shape): Step {
  const when = shape.text('when', limits.name);
  return present<Step>({
    id: shape.text('id', 4 * limits.id) ?? '',
    text: shape.text('text', limits.sentence) ?? '',
    when: when === undefined ? undefined : normalName(when),
    kind: shape.text('kind', limits.word),
    extra: shape.rest(),
  });
}

/** One source. */
export function readSource(shape: Shape): Source {
  return present<Source>({
    for: shape.text('for', limits.id),
    title: shape.text('title', limits.sentence) ?? '',
    year: shape.count('year', -10_000, 10_000),
    seen: shape.text('seen', limits.word),
    extra: shape.rest(),
  });
}

/** One caution. */
export function readCaution(shape: Shape): Caution {
  return present<Caution>({
    for: shape.text('for', limits.id),
    text: shape.text('text', limits.sentence) ?? '',
    extra: shape.rest(),
  });
}

/** What has been knitted; an entry that makes no sense is left out alone. Undefined when nothing has. */
export function readProgress(shape: Shape | undefined): Progress | undefined {
  if (shape === undefined) return undefined;
  const of = shape.text('of', limits.id);
  const others = readRecord(shape.group('others'), limits.columns + 1, (group, key) => {
    const other = group.group(key);
    const knitted = other && readKnitted(other);
    return knitted && isEmpty(knitted) ? undefined : knitted;
  });
  const isOfOthers = Object.keys(others).length > 0;
  const first = readKnitted(shape);
  const progress = present<Progress>({
    ...first,
    of: isEmpty(first) ? undefined : of,
    others: isOfOthers ? others : undefined,
  });
  return isEmpty(first) && !isOfOthers ? undefined : progress;
}

const readKnitted = (shape: Shape): Knitted =>
  present<Knitted>({
    ticked: readRecord(shape.group('ticked'), limits.progress, (group, key) =>
      group.text(key, limits.sentence),
    ),
    pinned: readRecord(shape.group('pinned'), limits.progress, (group, key) => readPins(group.group(key))),
    rows: readRecord(shape.group('rows'), limits.progress, (group, key) => group.count(key, 0, limits.rows)),
    extra: shape.rest(),
  });

/** What was knitted of one cell, by column id ("" for a single cell). */
export function readPins(shape: Shape | undefined): Record<string, string> | undefined {
  if (shape === undefined) return undefined;
  return readRecord(shape, limits.columns + 1, (group, key) => group.text(key, limits.text));
}

function readRecord<V>(
  shape: Shape | undefined,
  most: number,
  read: (group: Shape, key: string) => V | undefined,
): Record<string, V> {
  if (shape === undefined) return record<V>([]);
  return record(
    shape.entries(most).flatMap(([key]) => {
      const value = key.length <= limits.id ? read(shape, key) : undefined;
      return value === undefined ? [] : [[key, value] as const];
    }),
  );
}

/** Whether nothing has been knitted yet. */
export function isEmpty(knitted: Knitted): boolean {
  const { ticked, pinned, rows, extra } = knitted;
  return extra === undefined && [ticked, pinned, rows].every((entries) => Object.keys(entries).length === 0);
}
