/*
 * What each part takes of the yarn. The parts stand one after another along the skeins, in the order they are knitted
 * in, so that one sees in which part a skein ends. Weights are in grams; any one unit (metres) does as well, if all are in it.
 */

import type { Reader } from './parts.ts';
import { capital, emptyPicture, readMany, readParts } from './parts.ts';
import type { Bar, Bars, DrawingKind, Part, PartSpec, Parts, Picture } from './picture.ts';

const title = 'What each part takes';

const specs: readonly PartSpec[] = [
  { name: 'skein', measures: 'weight', needed: false, help: 'How much one skein holds.' },
  { name: 'have', measures: 'weight', needed: false, help: 'How much you have in all.' },
  { name: 'skeins', measures: 'count', needed: false, help: 'How many skeins you have or need.' },
  {
    name: 'goal',
    measures: 'weight',
    needed: false,
    help: 'What is to be reached, where it is not yarn to be kept to.',
  },
  { name: 'total', measures: 'weight', needed: false, help: 'What it takes in all.' },
  { name: 'spare', measures: 'weight', needed: false, help: 'What is held back to be safe.' },
];

const many: PartSpec = {
  name: 'part_',
  measures: 'weight',
  needed: true,
  help: 'What one part takes; bind as many as there are, or each_part to a cell with a value for every column.',
};

const order: PartSpec = {
  name: 'order_',
  measures: 'number',
  needed: false,
  help: 'Which of the parts it is, from the first; left out: as they stand. Or each_order, as with each_part.',
};

/** What each part takes, as bars along the skeins. */
export const yarn: DrawingKind = {
  kind: 'yarn',
  title,
  help: 'What each part takes, one after another along the skeins.',
  parts: specs,
  many: [many, order],
  draw,
};

/** Skeins that are ruled one by one. */
const MOST_SKEINS = 60;

function draw(parts: Parts): Picture {
  const read = readParts(parts, specs);
  const takes = readMany(parts, many, read, order);
  if (takes.length === 0) {
    read.leave('No cell with what a part takes is bound, so there is nothing to draw.');
    return emptyPicture('yarn', title, read.leftOut());
  }
  return {
    kind: 'yarn',
    title,
    block: barsOf(read, takes),
    describe: inWords(read, takes),
    leftOut: read.leftOut(),
  };
}

const sum = (takes: readonly Part[]) => takes.reduce((total, part) => total + part.value, 0);

/** What there is, and from which cell: the whole, or the skeins. */
function havingOf(read: Reader): number | undefined {
  const have = read.value('have');
  const [skein, skeins] = [read.value('skein'), read.value('skeins')];
  return have ?? (skein === undefined || skeins === undefined ? undefined : skein * skeins);
}

function barsOf(read: Reader, takes: readonly Part[]): Bars {
  const needed = sum(takes);
  const having = havingOf(read);
  let from = 0;
  const rows: Bar[] = takes.map((part) => {
    const to = from + part.value;
    const role = having !== undefined && to > having * (1 + 1e-9) ? 'bar-short' : 'bar';
    const bar: Bar = {
      name: { text: part.name, cell: part.cell },
      from,
      to,
      role,
      text: { text: part.text, cell: part.cell },
    };
    from = to;
    return bar;
  });
  const spare = read.value('spare');
  const held: readonly Bar[] = spare === undefined ? [] : [heldBack(read, needed, spare)];
  const to = Math.max(needed + (spare ?? 0), having ?? 0, read.value('goal') ?? 0, read.value('skein') ?? 0);
  return {
    kind: 'bars',
    from: 0,
    to: to > 0 ? to : 1,
    rows: [...rows, ...held, ...totalRow(read, needed)],
    rules: rulesOf(read, to),
  };
}

function heldBack(read: Reader, from: number, spare: number): Bar {
  const run = { cell: read.cell('spare') };
  return {
    name: { text: 'held back', ...run },
    from,
    to: from + spare,
    role: 'bar-spare',
    text: { text: read.text('spare'), ...run },
  };
}

function totalRow(read: Reader, needed: number): readonly Bar[] {
  if (read.value('total') === undefined) return [];
  const run = { cell: read.cell('total') };
  return [
    {
      name: { text: 'in all', ...run },
      from: 0,
      to: needed,
      role: 'bar-total',
      text: { text: read.text('total'), ...run },
    },
  ];
}

/** A line at the end of each skein, and one where the yarn ends. */
function rulesOf(read: Reader, to: number): Bars['rules'] {
  const skein = read.value('skein');
  const having = havingOf(read);
  const count = skein === undefined || skein <= 0 ? 0 : Math.min(MOST_SKEINS, Math.floor(to / skein + 1e-9));
  const ends = Array.from({ length: count }, (_, k) => ({
    at: (k + 1) * (skein ?? 0),
    text: k === 0 ? '1 skein' : String(k + 1),
    role: 'grid' as const,
  }));
  const goal = read.value('goal');
  const have = having === undefined ? [] : [{ at: having, text: 'all you have', role: 'value' as const }];
  const reach = goal === undefined ? [] : [{ at: goal, text: read.name('goal'), role: 'value' as const }];
  return [
    ...have,
    ...reach,
    ...ends.filter((end) => having === undefined || Math.abs(end.at - having) > 1e-9 * having),
  ];
}

function inWords(read: Reader, takes: readonly Part[]): readonly string[] {
  return [
    ...takes.map((part) => `${capital(part.name)}: ${part.text}.`),
    ...read.tell('{spare} is held back.'),
    ...read.tell('In all it takes {total}.'),
    ...read.tell('A skein holds {skein}, and there are {skeins}.', 'A skein holds {skein}.'),
    ...read.tell('You have {have}.'),
    ...read.tell('The goal is {goal}.'),
    ...read.tellRest(),
    ...verdict(read, sum(takes)),
  ];
}

/** Whether there is enough, where it is known what there is: enough that cannot be held back is not safe. */
function verdict(read: Reader, needed: number): readonly string[] {
  const having = havingOf(read);
  if (having === undefined) return [];
  const most = having * (1 + 1e-9);
  if (needed > most) return ['There is not enough.'];
  const isSafe = needed + (read.value('spare') ?? 0) <= most;
  return isSafe
    ? ['There is enough.']
    : read.tell('There is enough, but not safely: {spare} could not be held back.');
}
