/*
 * The engine against a floor and against peers, on generated notebooks, in one process. Every figure is a ratio of
 * medians; its spread is the median distance of the single rounds' ratios from it. Peers are asked in turn, so that
 * what else the machine does falls on all alike.
 */

import { create, parseDependencies } from 'mathjs/number';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { Sheet } from '../../src/sheet/index.ts';
import { type Figure, ratioOf } from './figure.ts';
import { Floor } from './floor.ts';
import { type Generated, generate, numbersFrom } from './generate.ts';
import { hyperformula, mathjs, type Peer, signals } from './peers.ts';

const language = createLanguage(standard);

function milliseconds(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** So many columns, chest typed in each. */
function chestText(inches: number, columns: number): string | readonly string[] {
  return columns === 1 ? `${inches} in` : Array.from({ length: columns }, (_, c) => `${inches + c} in`);
}

/** A sheet of the generated notebook, settled. */
export function sheetOf(generated: Generated, columns: number): Sheet {
  const labels = columns === 1 ? [] : Array.from({ length: columns }, (_, c) => String(c + 1));
  const sheet = new Sheet({ language, columns: labels });
  generated.names.forEach((name, i) => {
    sheet.add(`k${i}`, name, i === generated.chest ? chestText(42, columns) : (generated.texts[i] ?? ''));
  });
  sheet.settle();
  return sheet;
}

interface Race {
  readonly ours: number[];
  readonly floor: number[];
  readonly peers: ReadonlyMap<string, number[]>;
  readonly ran: number;
}

/** Edits chest to and fro, each engine in turn; the first tenth of the rounds is for warming up. */
function race(generated: Generated, columns: number, rounds: number, peers: readonly Peer[]): Race {
  const sheet = sheetOf(generated, columns);
  const floor = new Floor(generated, columns);
  floor.setChest(42);
  floor.run(Int32Array.from(generated.formulas.keys()));
  const dirty = floor.dirty();
  const chest = `k${generated.chest}`;
  const [ours, floors] = [[] as number[], [] as number[]];
  const times = new Map(peers.map((peer) => [peer.name, [] as number[]]));
  let ran = 0;
  for (let round = -Math.ceil(rounds / 10); round < rounds; round += 1) {
    const inches = round % 2 === 0 ? 47 : 42;
    const text = chestText(inches, columns);
    const own = milliseconds(() => {
      sheet.setText(chest, text);
      ran = sheet.settle().ran.length;
    });
    const least = milliseconds(() => {
      floor.setChest(inches);
      floor.run(dirty);
    });
    const others = peers.map((peer) => [peer.name, milliseconds(() => peer.set(inches))] as const);
    if (round < 0) continue;
    ours.push(own);
    floors.push(least);
    for (const [name, time] of others) times.get(name)?.push(time);
  }
  return { ours, floor: floors, peers: times, ran };
}

const AIMS: Readonly<Record<number, number>> = { 1000: 3.5, 10000: 2.5 };
const ROUNDS: Readonly<Record<number, number>> = { 100: 400, 1000: 300, 10000: 100, 100000: 15 };

function edits(count: number, slow: boolean): readonly Figure[] {
  const generated = generate(count);
  const dirty = new Floor(generated, 1).dirty();
  const few = count > 10_000 ? 3 : count > 1000 ? 15 : 60;
  const one = race(generated, 1, ROUNDS[count] ?? 50, [signals(generated, dirty)]);
  const cells = `${count.toLocaleString('en-GB')} cells`;
  const floor = ratioOf(one.ours, one.floor);
  const figures: Figure[] = [
    {
      name: `${cells}: one edit, against the floor`,
      ...floor,
      better: 'less',
      ...(AIMS[count] ? { aim: AIMS[count] } : {}),
      note: `${one.ran} cells worked out`,
    },
  ];
  const add = (name: string, series: readonly number[] | undefined, aim?: number) => {
    if (series)
      figures.push({
        name: `${cells}: ${name}, against ours`,
        ...ratioOf(series, one.ours.slice(0, series.length)),
        better: 'more',
        ...(aim ? { aim } : {}),
      });
  };
  add('a signals library', one.peers.get('signals'));
  if (slow) {
    const peers = race(generated, 1, few, [hyperformula(generated), mathjs(generated, dirty)]);
    const against = (name: string, aim: number) => {
      const series = peers.peers.get(name) ?? [];
      figures.push({
        name: `${cells}: ${name}, against ours`,
        ...ratioOf(series, peers.ours),
        better: 'more',
        aim,
      });
    };
    against('hyperformula', 60);
    against('mathjs evaluate', 200);
  }
  const ten = race(generated, 10, Math.ceil((ROUNDS[count] ?? 50) / 3), []);
  const columns = ratioOf(ten.ours, one.ours.slice(0, ten.ours.length));
  figures.push({
    name: `${cells}: 10 columns, against one`,
    ...columns,
    better: 'less',
    ...(count === 1000 || count === 10_000 ? { aim: 5 } : {}),
  });
  return figures;
}

/** Five uncertain values at both ends, held: eleven variants in one sweep, against working the sheet out once. */
function tolerance(count: number): Figure {
  const generated = generate(count);
  const sheet = sheetOf(generated, 1);
  const ids = [generated.chest, 0, 1, 5, 6].map((i) => `k${i}`);
  const [many, once] = [[] as number[], [] as number[]];
  const value = (id: string) => {
    const held = sheet.value(id);
    return held.kind === 'quantity' ? held.value : 0;
  };
  const ends = ids.flatMap((id) => [0.97, 1.03].map((by) => [{ id, column: 0, value: value(id) * by }]));
  for (let round = -5; round < 60; round += 1) {
    const all = milliseconds(() => sheet.explore(ends, true));
    const single = milliseconds(() =>
      sheet.explore([ids.map((id) => ({ id, column: 0, value: value(id) * 1.01 }))], true),
    );
    if (round >= 0) {
      many.push(all);
      once.push(single);
    }
  }
  return {
    name: `${count.toLocaleString('en-GB')} cells: effects of 5 tolerances, against one evaluation`,
    ...ratioOf(many, once),
    better: 'less',
    aim: 5,
  };
}

/** A formula changed in the middle of a sheet, against reading it with mathjs and one topological sort of the sheet. */
function structure(count: number): Figure {
  const generated = generate(count);
  const sheet = sheetOf(generated, 1);
  const { parse } = create(parseDependencies as never) as unknown as { parse: (text: string) => unknown };
  const at = generated.inputs + (count >> 1);
  const text = generated.texts[at] ?? '';
  const sort = topologicalSort(generated);
  const [ours, theirs] = [[] as number[], [] as number[]];
  for (let round = -5; round < 40; round += 1) {
    const changed =
      round % 2 === 0 ? `${text} + 0 * ${generated.names[0]} * ${generated.names[generated.chest]}` : text;
    const own = milliseconds(() => {
      sheet.setText(`k${at}`, changed);
      sheet.settle();
    });
    const least = milliseconds(() => {
      parse(changed.replace(/ in\b/g, ''));
      sort();
    });
    if (round >= 0) {
      ours.push(own);
      theirs.push(least);
    }
  }
  return {
    name: `${count.toLocaleString('en-GB')} cells: a formula changed, against math.parse and one sort`,
    ...ratioOf(ours, theirs),
    better: 'less',
    aim: 1.5,
  };
}

/** Kahn's algorithm over the generated sheet, dependents found anew each time. */
function topologicalSort(generated: Generated): () => number {
  const uses = [
    ...generated.typed.map((): readonly number[] => []),
    ...generated.formulas.map(({ a, b, g }) => [a, b, g]),
  ];
  return () => {
    const dependents: number[][] = uses.map(() => []);
    const waiting = Int32Array.from(uses, (list) => list.length);
    uses.forEach((list, node) => {
      for (const use of list) dependents[use]?.push(node);
    });
    const order: number[] = [];
    waiting.forEach((count, node) => {
      if (count === 0) order.push(node);
    });
    for (let at = 0; at < order.length; at += 1)
      for (const dependent of dependents[order[at] ?? 0] ?? []) {
        waiting[dependent]! -= 1;
        if (waiting[dependent] === 0) order.push(dependent);
      }
    return order.length;
  };
}

/** Bytes of heap a cell takes beyond its text; NaN where the collector cannot be asked. */
function bytesPerCell(count: number): Figure {
  const collect = (globalThis as { gc?: () => void }).gc;
  const generated = generate(count);
  const used = () => {
    collect?.();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return heapUsed + arrayBuffers;
  };
  const before = used();
  const sheet = sheetOf(generated, 1);
  const bytes = (used() - before) / generated.names.length;
  const kept = sheet.cells.length; // Keeps the sheet alive until it has been weighed.
  return {
    name: `${count.toLocaleString('en-GB')} cells: bytes a cell beyond its text`,
    ratio: collect ? bytes : Number.NaN,
    spread: 0,
    better: 'less',
    aim: 250,
    note: `${kept} cells`,
  };
}

/** What ran when a wave meets a rounded count: cells worked out by a small edit, as a share of those that hang on it. */
function cutOff(count: number): Figure {
  const generated = generate(count);
  const sheet = sheetOf(generated, 1);
  const hanging = new Floor(generated, 1).dirty().length;
  sheet.setText(`k${generated.chest}`, '42.001 in');
  const ran = sheet.settle().ran.length - 1;
  return {
    name: `${count.toLocaleString('en-GB')} cells: worked out by an edit of a thousandth of an inch, of those that hang on it`,
    ratio: ran / hanging,
    spread: 0,
    better: 'less',
    note: `${ran} of ${hanging}`,
  };
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
  '? 1 : ',
  ' in',
  ' st / ',
  'constructor',
  '__proto__',
  '\u0e01',
  'x'.repeat(300),
  '9'.repeat(300),
];

/** The slowest of 20 000 random hostile texts, in milliseconds, read and worked out in a sheet of its own. */
function hostile(): Figure {
  const random = numbersFrom(5);
  const sheet = new Sheet({ language });
  sheet.add('a', 'a', '1');
  sheet.add('x', 'x', '');
  let slowest = 0;
  for (let i = 0; i < 20_000; i += 1) {
    const count = 1 + Math.floor(random() * 40);
    const text = Array.from(
      { length: count },
      () => HOSTILE[Math.floor(random() * HOSTILE.length)] ?? '',
    ).join('');
    slowest = Math.max(
      slowest,
      milliseconds(() => {
        sheet.setText('x', text);
        sheet.settle();
      }),
    );
  }
  return {
    name: 'milliseconds for the slowest of 20,000 hostile texts',
    ratio: slowest,
    spread: 0,
    better: 'less',
    aim: 20,
  };
}

/** Every figure of the engine. */
export function engineFigures(quick: boolean): readonly Figure[] {
  const sizes = quick ? [100, 1000] : [100, 1000, 10_000, 100_000];
  return [
    ...sizes.flatMap((count) => edits(count, count <= 10_000)),
    tolerance(1000),
    structure(10_000),
    bytesPerCell(10_000),
    cutOff(10_000),
    hostile(),
  ];
}
