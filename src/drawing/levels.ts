/* One bar for each part, all from nothing, against the most that they may be: floats, spans, times. */

import { capital, emptyPicture, type Reader, readMany, readParts } from './parts.ts';
import type { Bar, Bars, DrawingKind, Part, PartSpec, Parts, Picture } from './picture.ts';

const title = 'One beside another';

const specs: readonly PartSpec[] = [
  { name: 'limit', measures: 'number', needed: false, help: 'The most that each may be.' },
];

const many: PartSpec = {
  name: 'part_',
  measures: 'number',
  needed: true,
  help: 'One bar; bind as many as there are, or each_part to a cell with a value for every column.',
};

/** Bars from nothing, side by side, with a line at what is allowed. */
export const levels: DrawingKind = {
  kind: 'levels',
  title,
  help: 'A bar for each part, all of one unit, and a line at the most that is allowed.',
  parts: specs,
  many: [many],
  draw,
};

function draw(parts: Parts): Picture {
  const read = readParts(parts, specs);
  const all = readMany(parts, many, read);
  if (all.length === 0) {
    read.leave('No cell with a value for a bar is bound, so there is nothing to draw.');
    return emptyPicture('levels', title, read.leftOut());
  }
  return {
    kind: 'levels',
    title,
    block: barsOf(read, all),
    describe: inWords(read, all),
    leftOut: read.leftOut(),
  };
}

const isOver = (value: number, limit: number | undefined) =>
  limit !== undefined && value > limit * (1 + 1e-9);

function barsOf(read: Reader, all: readonly Part[]): Bars {
  const limit = read.value('limit');
  const to = Math.max(limit ?? 0, ...all.map(({ value }) => value));
  const rows = all.map(({ name, cell, value, text }): Bar => {
    const role = isOver(value, limit) ? 'bar-short' : 'bar';
    return { name: { text: name, cell }, from: 0, to: value, role, text: { text, cell } };
  });
  const rules: Bars['rules'] =
    limit === undefined ? [] : [{ at: limit, text: `at most ${read.text('limit')}`, role: 'value' }];
  return { kind: 'bars', from: 0, to: to > 0 ? to : 1, rows, rules };
}

function inWords(read: Reader, all: readonly Part[]): readonly string[] {
  const limit = read.value('limit');
  const told = all.map(({ name, text, value }) => {
    const more = isOver(value, limit) ? ', which is more than allowed' : '';
    return `${capital(name)}: ${text}${more}.`;
  });
  return [...told, ...read.tell('At most {limit} is allowed.')];
}
