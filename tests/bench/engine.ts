/*
 * The engine against a floor and against peers, on generated notebooks, in one process: an edit of a number that three
 * cells in ten hang on, at every size, with one column and with ten. What else the engine does is in `costs.ts`.
 */

import { costFigures } from './costs.ts';
import type { Figure } from './figure.ts';
import { Floor } from './floor.ts';
import { generate } from './generate.ts';
import { type Cost, growthFigure } from './growth.ts';
import { hyperformula, mathjs, signals } from './peers.ts';
import { type Blocks, type Contender, Race } from './race.ts';
import { cellsOf, floorOf, ours, oursInTurn } from './sheets.ts';

const FAST: Blocks = { blocks: 9, milliseconds: 50, least: 5 };
/** For peers that take tenths of a second for an edit. */
const SLOW: Blocks = { blocks: 5, milliseconds: 50, least: 2 };

const FLOOR_AIMS: Readonly<Record<number, number>> = { 1000: 3.5, 10000: 2.5 };
const COLUMNS = 10;

interface Setting {
  readonly count: number;
  readonly columns: number;
}

const written = ({ count, columns }: Setting) =>
  `${cellsOf(count)}${columns === 1 ? '' : ` × ${columns} columns`}`;

/** Why a peer is left out, where it cannot be asked in reasonable time. */
function leftOut(name: string, { count, columns }: Setting): string | undefined {
  const all = count * columns;
  if (name.startsWith('mathjs') && all > 10_000)
    return 'left out: an edit takes seconds, building it minutes';
  if (all > 100_000) return 'left out: a million cells are more than it has room for';
  return undefined;
}

function peersOf(setting: Setting, quick: boolean): readonly [string, number | undefined, () => Contender][] {
  const generated = generate(setting.count);
  const dirty = new Floor(generated, 1).dirty();
  const { columns } = setting;
  const all: [string, number | undefined, () => Contender][] = [
    ['signals', undefined, () => signals(generated, dirty, columns)],
    ['hyperformula', 60, () => hyperformula(generated, columns)],
    ['mathjs', 200, () => mathjs(generated, dirty, columns, false)],
    ['mathjs compiled', undefined, () => mathjs(generated, dirty, columns, true)],
  ];
  return quick ? all.slice(0, 2) : all;
}

const TITLES: Readonly<Record<string, string>> = {
  signals: 'a signals library with a memo a cell',
  hyperformula: 'hyperformula',
  mathjs: 'mathjs evaluate with units',
  'mathjs compiled': 'mathjs, formulas compiled before,',
};

/** Each peer beside ours in a race of its own, so that it is there for no other. */
function againstPeers(setting: Setting, quick: boolean): readonly Figure[] {
  const generated = generate(setting.count);
  const dirty = new Floor(generated, 1).dirty();
  return peersOf(setting, quick).map(([peer, aim, make]): Figure => {
    const named = { name: `${written(setting)}: ${TITLES[peer]} against ours`, better: 'more' as const };
    const why = leftOut(peer, setting);
    if (why) return { ...named, ratio: Number.NaN, spread: Number.NaN, note: why };
    const fast = peer === 'signals';
    const race = new Race([ours(generated, setting.columns, dirty), make()], fast ? FAST : SLOW);
    return { ...named, ...race.ratio(peer, 'ours'), ...(aim && setting.columns === 1 ? { aim } : {}) };
  });
}

/** What is said of a figure that misses its aim: what its time goes to. */
const WHY_FLOOR =
  'the same cell edited again and again; ours reads the text, and compares each value with the one before';

/** Ours with one column and with ten beside the floor with both. */
function edits(count: number): {
  readonly figures: readonly Figure[];
  readonly costs: ReadonlyMap<string, Cost>;
} {
  const generated = generate(count);
  const dirty = new Floor(generated, 1).dirty();
  const named = (contender: Contender, name: string): Contender => ({ ...contender, name });
  const race = new Race(
    [
      ours(generated, 1, dirty),
      floorOf(generated, 1, dirty),
      named(ours(generated, COLUMNS, dirty), 'ours in columns'),
      named(floorOf(generated, COLUMNS, dirty), 'floor in columns'),
      oursInTurn(generated, dirty),
    ],
    FAST,
  );
  const aim = FLOOR_AIMS[count];
  const one = written({ count, columns: 1 });
  const figures: Figure[] = [
    {
      name: `${one}: an edit against the floor`,
      ...race.ratio('ours', 'floor'),
      better: 'less',
      ...(aim ? { aim } : {}),
      note: `${dirty.length} cells hang on it; ${WHY_FLOOR}`,
    },
    {
      name: `${one}: an edit of two cells in turn against the floor`,
      ...race.ratio('ours in turn', 'floor'),
      better: 'less',
      note: 'what hangs on the cell is found anew each time',
    },
    {
      name: `${written({ count, columns: COLUMNS })}: an edit against the floor`,
      ...race.ratio('ours in columns', 'floor in columns'),
      better: 'less',
    },
    {
      name: `${one}: an edit in ${COLUMNS} columns against one`,
      ...race.ratio('ours in columns', 'ours'),
      better: 'less',
      ...(aim ? { aim: 5 } : {}),
    },
  ];
  const costs = ['ours', 'floor', 'ours in columns'].map(
    (name) => [name, { cells: count, blocks: race.of(name) }] as const,
  );
  return { figures, costs: new Map(costs) };
}

/** Every figure of the engine; `quick` stops at a thousand cells, and leaves out the peers that take long. */
export function engineFigures(quick: boolean): readonly Figure[] {
  const sizes = quick ? [100, 1000] : [100, 1000, 10_000, 100_000];
  const figures: Figure[] = [...costFigures(quick)];
  const grown = new Map<string, Cost[]>();
  for (const count of sizes) {
    const { figures: found, costs } = edits(count);
    figures.push(...found);
    for (const [name, cost] of costs) grown.set(name, [...(grown.get(name) ?? []), cost]);
    for (const columns of [1, COLUMNS]) figures.push(...againstPeers({ count, columns }, quick));
  }
  if (quick) return figures;
  const growth = (name: string, of: string, why: string) => growthFigure(name, grown.get(of) ?? [], why);
  return [
    ...figures,
    growth(
      'an edit',
      'ours',
      'Below a thousand cells what every edit costs, however small, weighs most; above ten thousand the values no longer fit the cache.',
    ),
    growth('an edit in 10 columns', 'ours in columns', 'As with one column.'),
    growth('the floor', 'floor', 'It bends upward where its values no longer fit the cache: so must ours.'),
  ];
}
