/*
 * What the engine does beside working out an edit: opening a notebook, adding a cell, changing a formula, asking how far
 * off values can be, and what it keeps in memory; and what it does not do, counted: beyond a count that stayed as it was
 * nothing is worked out.
 */

import { exploring, Sheet } from '../../src/sheet/index.ts';
import { around, type Figure } from './figure.ts';
import { Floor } from './floor.ts';
import { type Generated, generate, numbersFrom } from './generate.ts';
import { type Cost, growthFigure } from './growth.ts';
import { type Blocks, type Contender, Race } from './race.ts';
import { cellsOf, idsOf, language, mathjsParse, sheetOf } from './sheets.ts';

const BLOCKS: Blocks = { blocks: 9, milliseconds: 40, least: 5 };
const LONG: Blocks = { blocks: 3, milliseconds: 20, least: 1 };

/** Kahn's algorithm over the generated sheet, and `more` cells that use the first two: everything found anew. */
function topologicalSort({ formulas, inputs }: Generated, more: number): () => number {
  const count = inputs + formulas.length + more;
  const uses = Int32Array.from([
    ...formulas.flatMap(({ a, b, g }) => [a, b, g]),
    ...Array.from({ length: more }, () => [0, 1, 2]).flat(),
  ]);
  return () => {
    const first = new Int32Array(count + 1);
    for (const use of uses) first[use + 1]! += 1;
    for (let node = 0; node < count; node += 1) first[node + 1]! += first[node]!;
    const next = first.slice();
    const users = new Int32Array(uses.length);
    for (let i = 0; i < uses.length; i += 1) users[next[uses[i]!]!++] = inputs + Math.floor(i / 3);
    const waiting = new Int32Array(count).fill(3, inputs);
    const order = new Int32Array(count);
    let placed = 0;
    for (let node = 0; node < inputs; node += 1) order[placed++] = node;
    for (let at = 0; at < placed; at += 1) {
      const node = order[at]!;
      for (let i = first[node]!; i < first[node + 1]!; i += 1) {
        const user = users[i]!;
        waiting[user]! -= 1;
        if (waiting[user] === 0) order[placed++] = user;
      }
    }
    return placed;
  };
}

/** mathjs's own reading of a text, and one topological sort. */
function parseAndSort(name: string, texts: readonly string[], sort: () => number): Contender {
  const parse = mathjsParse();
  const readable = texts.map((text) => text.replace(/ in\b/g, ' inch'));
  let at = 0;
  return {
    name,
    edit: () => {
      at = (at + 1) % readable.length;
      return (parse(readable[at] as string) ? 1 : 0) + sort();
    },
  };
}

/** How many cells a cell uses. It must have a value: what a mistake costs is another matter. */
function usesAndHolds(sheet: Sheet, id: string): number {
  if (sheet.value(id).kind !== 'quantity') throw new Error(`${id} has no value: ${sheet.textOf(id)}`);
  return sheet.uses(id).length;
}

/** A formula changed in the middle of a sheet, to and fro: it uses two more cells, and then no longer. */
function changing(generated: Generated): readonly Contender[] {
  const sheet = sheetOf(generated, 1);
  const middle = generated.inputs + (generated.formulas.length >> 1);
  const text = generated.texts[middle] ?? '';
  const texts = [text, `(${text}) * (1 + 0 * ${generated.names[0]} / ${generated.names[1]})`];
  let at = 0;
  const edit = () => {
    at = 1 - at;
    sheet.setText(`k${middle}`, texts[at] ?? '');
    sheet.settle();
    return usesAndHolds(sheet, `k${middle}`);
  };
  return [{ name: 'changing', edit }, parseAndSort('parse and sort', texts, topologicalSort(generated, 0))];
}

/** The last cell but one that is, like the last, a length or a count of stitches. */
function lastLike({ formulas, names, inputs }: Generated): string {
  const isLength = (shape: number | undefined) => (shape ?? 0) < 4;
  const last = formulas.at(-1)?.shape;
  const like = formulas.slice(0, -1).findLastIndex(({ shape }) => isLength(shape) === isLength(last));
  return names[inputs + like] ?? '';
}

/** A formula added at the end of a sheet, and taken away again untimed. */
function adding(generated: Generated): readonly Contender[] {
  const sheet = sheetOf(generated, 1);
  const text = `(${generated.names.at(-1)} + ${lastLike(generated)}) * 0.5`;
  const edit = () => {
    sheet.add('new', 'new_cell', text);
    sheet.settle();
    return usesAndHolds(sheet, 'new');
  };
  const takeBack = () => {
    sheet.remove('new');
    sheet.settle();
  };
  const floor = parseAndSort('parse and sort', [text], topologicalSort(generated, 1));
  return [{ name: 'adding', edit, takeBack }, floor];
}

/** Five uncertain values at both ends, held: eleven variants in one sweep; and the same five values simply changed. */
function tolerances(generated: Generated): readonly Contender[] {
  const sheet = sheetOf(generated, 1);
  const at = [generated.chest, 0, 1, 5, 6];
  const ends = at.flatMap((i) =>
    [0.97, 1.03].map((by) => [{ id: `k${i}`, column: 0, value: (generated.typed[i] ?? 0) * by }]),
  );
  const other = sheetOf(generated, 1);
  const last = `k${generated.names.length - 1}`;
  const more = ['18.5 st / 4 in', '20.5 st / 4 in', '43 in', '4 1/2 in', '15 1/2 in'];
  const typed = [0, 1, generated.chest, 5, 6];
  let changed = false;
  const once = () => {
    changed = !changed;
    typed.forEach((i, k) => {
      other.setText(`k${i}`, (changed ? more[k] : generated.texts[i]) ?? '');
    });
    return other.settle() && other.value(last).kind === 'quantity' ? 1 : 0;
  };
  return [
    {
      name: 'tolerances',
      edit: () => exploring(sheet, ends, true, undefined, ({ number }) => number(last, 0, 10)),
    },
    { name: 'once', edit: once },
  ];
}

/** A notebook's texts read and worked out from nothing. */
function opening(generated: Generated): Contender {
  return { name: 'opening', edit: () => sheetOf(generated, 1).cells.length };
}

/** Bytes of heap that are in use. */
function bytesInUse(collect: () => void): number {
  for (let i = 0; i < 3; i += 1) collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}

/** Bytes that one sheet takes beyond names, ids and texts. */
function weigh(generated: Generated, ids: readonly string[], collect: () => void): number {
  const before = bytesInUse(collect);
  const sheet = sheetOf(generated, 1, ids);
  const bytes = bytesInUse(collect) - before;
  return sheet.has(ids[0] ?? '') ? bytes : Number.NaN; // Keeps the sheet alive until it has been weighed.
}

const WEIGHINGS = 7;

/**
 * What sheets of so many cells weigh, one after another; none where the collector cannot be asked. The first two are
 * for nothing: what is read for the first time is remembered for good, and the compiler's own output is no sheet's.
 */
function weights(count: number): readonly number[] {
  const collect = (globalThis as { gc?: () => void }).gc;
  if (!collect) return [];
  const generated = generate(count);
  const ids = idsOf(generated);
  return Array.from({ length: WEIGHINGS + 2 }, () => weigh(generated, ids, collect)).slice(2);
}

function bytesFigures(sizes: readonly number[]): readonly Figure[] {
  const costs = sizes.map((cells): Cost => ({ cells, blocks: weights(cells) }));
  const at = costs.find(({ cells }) => cells === 10_000);
  const bytes: Figure = {
    name: '10,000 cells: bytes a cell beyond its text',
    ...around((at?.blocks ?? []).map((all) => all / 10_000)),
    better: 'less',
    aim: 250,
    unit: 'bytes',
  };
  return [
    bytes,
    ...(sizes.length > 1
      ? [growthFigure('memory', costs, 'Every sheet begins with room for some dozens of cells.')]
      : []),
  ];
}

/** A small edit: how many of the cells that hang on it are worked out, and how many of those none of whose cells changed. */
function cutOff(count: number): readonly Figure[] {
  const generated = generate(count);
  const sheet = sheetOf(generated, 1);
  const hanging = new Floor(generated, 1).dirty().length;
  sheet.setText(`k${generated.chest}`, '42.001 in');
  const { ran, changed } = sheet.settle();
  const moved = new Set(changed);
  const beyond = ran.filter((id) => !sheet.info(id).typed && !sheet.uses(id).some((use) => moved.has(use)));
  const figure = (name: string, ratio: number, more: Partial<Figure>): Figure => ({
    name: `${cellsOf(count)}, an edit of a thousandth of an inch: ${name}`,
    ratio,
    spread: 0,
    better: 'less',
    ...more,
  });
  return [
    figure('worked out, of those that hang on it', (ran.length - 1) / hanging, {
      note: `${ran.length - 1} of ${hanging}`,
    }),
    figure('worked out beyond a count that stayed', beyond.length, { aim: 0, unit: 'cells' }),
  ];
}

/** Pieces that hostile texts are put together from: what a stranger's file might hold to make a reader hang. */
const HOSTILE = [
  '1%(',
  '((((',
  '))',
  '+ - + -',
  '^',
  '10^',
  '"',
  'a.b',
  '[1]',
  '; ',
  '= ',
  'f(x)=',
  '1e',
  '½',
  '± ',
].concat(['? 1 : ', ' in', ' st / ', 'constructor', '__proto__', '\u0e01', 'x'.repeat(300), '9'.repeat(300)]);

/** The slowest of 20 000 random hostile texts, in milliseconds, read and worked out in a sheet of its own. */
function hostile(): Figure {
  const random = numbersFrom(5);
  const sheet = new Sheet({ language });
  sheet.add('a', 'a', '1');
  sheet.add('x', 'x', '');
  let slowest = 0;
  for (let i = 0; i < 20_000; i += 1) {
    const count = 1 + Math.floor(random() * 40);
    const pieces = Array.from({ length: count }, () => HOSTILE[Math.floor(random() * HOSTILE.length)] ?? '');
    const start = performance.now();
    sheet.setText('x', pieces.join(''));
    sheet.settle();
    slowest = Math.max(slowest, performance.now() - start);
  }
  const name = 'the slowest of 20,000 hostile texts';
  return { name, ratio: slowest, spread: slowest / 2, better: 'less', aim: 20, unit: 'ms' };
}

/** One cost at several sizes: the figure at the size with an aim, and how it grows. */
interface Contest {
  readonly name: string;
  readonly against: string;
  readonly aim: number;
  readonly aimAt: number;
  readonly of: (generated: Generated) => readonly Contender[];
}

const CONTESTS: readonly Contest[] = [
  {
    name: 'a formula changed',
    against: 'math.parse and one sort',
    aim: 1.5,
    aimAt: 10_000,
    of: changing,
  },
  {
    name: 'a cell added',
    against: 'math.parse and one sort',
    aim: 1.5,
    aimAt: 10_000,
    of: adding,
  },
  {
    name: 'the effects of 5 tolerances',
    against: 'the same 5 values changed',
    aim: 5,
    aimAt: 1000,
    of: tolerances,
  },
];

function contest({ name, against, aim, aimAt, of }: Contest, sizes: readonly number[]): readonly Figure[] {
  const figures: Figure[] = [];
  const costs = sizes.map((cells): Cost => {
    const contenders = of(generate(cells));
    const [own = '', least = ''] = contenders.map((contender) => contender.name);
    const race = new Race(contenders, BLOCKS);
    figures.push({
      name: `${cellsOf(cells)}: ${name} against ${against}`,
      ...race.ratio(own, least),
      better: 'less',
      ...(cells === aimAt ? { aim } : {}),
    });
    return { cells, blocks: race.of(own) };
  });
  return sizes.length > 2 ? [...figures, growthFigure(name, costs, '')] : figures;
}

/** Opening against mathjs's own reading of the same texts. */
function openings(sizes: readonly number[]): readonly Figure[] {
  const costs = sizes.map((cells): Cost => {
    const race = new Race([opening(generate(cells))], LONG);
    return { cells, blocks: race.of('opening') };
  });
  return sizes.length > 2 ? [growthFigure('opening a notebook', costs, '')] : [];
}

/** The figures of all but edits; `quick` stops at ten thousand cells. */
export function costFigures(quick: boolean): readonly Figure[] {
  const sizes = quick ? [1000, 10_000] : [100, 1000, 10_000, 100_000];
  return [
    ...bytesFigures(quick ? [10_000] : sizes),
    ...CONTESTS.flatMap((one) => contest(one, sizes)),
    ...openings(sizes),
    ...cutOff(10_000),
    hostile(),
  ];
}
