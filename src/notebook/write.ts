/*
 * A notebook, written: keys in their order, unknown keys after the known, one cell to a line, so that two versions of a file
 * compare line by line. The same notebook always gives the same bytes.
 */
import type {
  Caution,
  Cell,
  Chosen,
  Column,
  Drawing,
  Knitted,
  Notebook,
  Progress,
  Section,
  Source,
  Step,
} from './document.ts';
import { FORMAT } from './document.ts';
import { record } from './record.ts';

/** The text of the file. Throws for a notebook of a later version: such a one is only ever shown. */
export function writeNotebook(notebook: Notebook): string {
  if (notebook.ellwand > FORMAT) {
    throw new Error(`a notebook of version ${notebook.ellwand} is never written by version ${FORMAT}`);
  }
  const { extra = {} } = notebook;
  const lines = [
    keys([['ellwand', FORMAT], ...pick(notebook, ['id', 'title', 'about'])]),
    keys([...from(notebook), ...pick(notebook, ['units', 'money', 'today'])]),
    keys(columns(notebook)),
    keys(notebook.chosen ? [['chosen', chosenToJSON(notebook.chosen)]] : []),
    `"sections": ${sections(notebook.sections)}`,
    list('drawings', notebook.drawings, drawingToJSON),
    list('steps', notebook.steps, stepToJSON),
    [
      keys(pick(notebook, ['how'])),
      list('sources', notebook.sources, sourceToJSON),
      list('cautions', notebook.cautions, cautionToJSON),
    ]
      .filter((part) => part !== '')
      .join(', '),
    keys(notebook.progress ? [['progress', progress(notebook.progress)]] : []),
    ...Object.entries(extra).map((entry) => keys([entry])),
  ];
  return `{ ${lines.filter((line) => line !== '').join(',\n  ')} }\n`;
}

type Entry = readonly [key: string, value: unknown];

/** Keys and values as they stand inside a pair of brackets. */
const keys = (entries: readonly Entry[]): string =>
  entries.map(([key, value]) => `${JSON.stringify(key)}: ${json(value)}`).join(', ');

/** Any value on one line, with a space after each comma and colon. */
function json(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(json).join(', ')}]`;
  if (typeof value === 'object' && value !== null) return `{${keys(Object.entries(value))}}`;
  return JSON.stringify(value) ?? 'null';
}

/** Those keys of a group that are there, in the order given. */
function pick<T extends object>(group: T, names: readonly (keyof T & string)[]): Entry[] {
  return names.flatMap((name) => (group[name] === undefined ? [] : [[name, group[name]] as const]));
}

/** A group's known keys in order, then the unknown ones. */
function known(group: object, names: readonly string[]): Record<string, unknown> {
  const { extra, ...rest } = group as Record<string, unknown>;
  return record([...pick(rest, names), ...Object.entries((extra as object | undefined) ?? {})]);
}

const from = ({ from: made }: Notebook): Entry[] =>
  made ? [['from', known(made, ['notebook', 'version'])]] : [];

function columns({ columns: run }: Notebook): Entry[] {
  if (run === undefined) return [];
  return [['columns', known({ ...run, list: run.list.map(columnToJSON) }, ['heading', 'list'])]];
}

/** A column as the file holds it. */
export const columnToJSON = (one: Column): unknown => known(one, ['id', 'label']);

/** The choice of a column as the file holds it. */
export const chosenToJSON = (chosen: Chosen): unknown => known(chosen, ['follow', 'column']);

/** A source as the file holds it. */
export const sourceToJSON = (one: Source): unknown => known(one, ['for', 'title', 'year', 'seen']);

/** A caution as the file holds it. */
export const cautionToJSON = (one: Caution): unknown => known(one, ['for', 'text']);

/** A section as the file holds it, for a change to carry. */
export const sectionToJSON = (one: Section): unknown =>
  known({ ...one, cells: one.cells.map(cellToJSON) }, ['id', 'title', 'about', 'cells']);

/** One section: its own keys, then each cell on a line, then its unknown keys. */
function section(one: Section): string {
  const { cells, extra = {} } = one;
  const rows = cells.map((cell) => `\n      ${json(cellToJSON(cell))}`).join(',');
  const tail = keys(Object.entries(extra));
  const head = keys([...pick(one, ['id', 'title', 'about'])]);
  return `\n    {${head}, "cells": [${rows}${rows && ' '}]${tail && `, ${tail}`}}`;
}

const sections = (all: readonly Section[]): string =>
  all.length > 0 ? `[${all.map(section).join(',')} ]` : '[]';

/** A cell as the file holds it, unknown keys among the known. */
export function cellToJSON(cell: Cell): Record<string, unknown> {
  const says = cell.says && known(cell.says, ['yes', 'no', 'text']);
  const keysInOrder = ['id', 'name', 'text', 'each', 'note', 'shown', 'step', 'range', 'choices', 'says'];
  return known({ ...cell, says }, keysInOrder);
}

/** A drawing as the file holds it. */
export const drawingToJSON = (one: Drawing): unknown => known(one, ['id', 'kind', 'title', 'binds']);
/** A step as the file holds it. */
export const stepToJSON = (one: Step): unknown => known(one, ['id', 'text', 'when', 'kind']);

/** A list under its key: one member on the key's own line, several on a line each; nothing when it is empty. */
function list<T>(key: string, members: readonly T[], group: (member: T) => unknown): string {
  const texts = members.map((member) => json(group(member)));
  if (texts.length === 0) return '';
  if (texts.length === 1) return `"${key}": [${texts[0]}]`;
  return `"${key}": [${texts.map((text) => `\n    ${text}`).join(',')} ]`;
}

/** Progress by id, so that the order of ticking does not move lines. */
function progress({ of, others = {}, extra = {}, ...knitted }: Progress): unknown {
  const columns = Object.entries(sorted(others)).map(([id, other]) => [id, knittedToJSON(other)] as const);
  const named = { of, others: columns.length > 0 ? record(columns) : undefined };
  const entries = [...Object.entries(knittedToJSON(knitted)), ...pick(named, ['of', 'others'])];
  return record<unknown>([...entries, ...Object.entries(extra)]);
}

function knittedToJSON({ ticked, pinned, rows, extra }: Knitted): Readonly<Record<string, unknown>> {
  const filled = [
    ['ticked', sorted(ticked)],
    ['pinned', sorted(record(Object.entries(pinned).map(([id, pins]) => [id, sorted(pins)])))],
    ['rows', sorted(rows)],
  ] as const;
  const entries = filled.filter(([, group]) => Object.keys(group).length > 0);
  return record<unknown>([...entries, ...Object.entries(extra ?? {})]);
}

function sorted<V>(group: Readonly<Record<string, V>>): Record<string, V> {
  return record(Object.entries(group).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}
