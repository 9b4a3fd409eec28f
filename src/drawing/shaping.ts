/*
 * Shaping as the piece it makes: stitches across, rows upward, the first row at the bottom. Each shaping is a dot at
 * both edges, each rate a stretch at the right with its words. With the two gauges it is to scale; without them a
 * stitch is taken a third wider than a row is high. Everything is read off the plan.
 */

import { countAt, rowsOf } from '../craft/index.ts';
import type { Plan, PlanStep } from '../formula/index.ts';
import { callout, dimension, line, stretch } from './lines.ts';
import type { Reader } from './parts.ts';
import { emptyPicture, readParts, unitShown } from './parts.ts';
import type { DrawingKind, Label, PartSpec, Parts, Picture, Point, Run, Shape } from './picture.ts';

const title = 'The shaping, row by row';

const specs: readonly PartSpec[] = [
  {
    name: 'plan',
    measures: 'plan',
    needed: true,
    help: 'Shaping over rows: of a sleeve, a calf, a toe, a yoke, a heel.',
  },
  { name: 'stitch_gauge', measures: 'gauge', needed: false, help: 'Stitches per cm, to draw it to scale.' },
  { name: 'row_gauge', measures: 'gauge', needed: false, help: 'Rows per cm, to draw it to scale.' },
  { name: 'from', measures: 'count', needed: false, help: 'The cell with the stitches it begins with.' },
  { name: 'to', measures: 'count', needed: false, help: 'The cell with the stitches it ends with.' },
  { name: 'plain_before', measures: 'number', needed: false, help: 'Plain rows before it.' },
  { name: 'plain_after', measures: 'number', needed: false, help: 'Plain rows after it.' },
  { name: 'row', measures: 'number', needed: false, help: 'The row you are on.' },
];

/** A shaped piece with every shaping marked and its rates in words. */
export const shaping: DrawingKind = {
  kind: 'shaping',
  title,
  help: 'Stitches against rows, every shaping marked and the rate in words.',
  parts: specs,
  draw,
};

const sts = (count: number) => (count === 1 ? '1 st' : `${count} sts`);

const MOST_ROWS = 4000;
/** A plan of more steps than this (a heel turn) shows its ends, not every step. */
const MOST_RATES = 9;
/** A stitch of plain fabric is about a third wider than its row is high. */
const ROW_HIGH = 0.75;

/** From stitches and rows to the picture: x from the middle, y upward. */
interface Scale {
  readonly stitch: number;
  readonly row: number;
  readonly folded: boolean;
}

interface Drawn {
  readonly plan: Plan;
  /** Knitted in the round: its rows are told as rounds. */
  readonly round: boolean;
  readonly scale: Scale;
  readonly start: number;
  readonly end: number;
  readonly first: number;
  readonly rows: number;
  readonly before: number;
  readonly after: number;
}

function draw(parts: Parts): Picture {
  const read = readParts(parts, specs);
  const plan = read.plan('plan');
  if (!plan) return emptyPicture('shaping', title, read.leftOut());
  const drawn = measured(read, plan);
  if (!drawn) return emptyPicture('shaping', title, read.leftOut());
  const real = read.value('stitch_gauge') !== undefined && read.value('row_gauge') !== undefined;
  return {
    kind: 'shaping',
    title,
    block: {
      kind: 'scene',
      ...(real ? { ruler: unitShown(parts) } : {}),
      shapes: shapesOf(read, drawn),
      labels: labelsOf(read, drawn),
    },
    describe: inWords(read, drawn, real),
    leftOut: read.leftOut(),
  };
}

function measured(read: Reader, plan: Plan): Drawn | undefined {
  const { start, stitches_after: end, rows, after_row: first = 0 } = plan.totals;
  if (
    !plan.steps.some((step) => step.rows) ||
    start === undefined ||
    end === undefined ||
    rows === undefined
  ) {
    read.leave('This plan runs along one row, so there is no shaping over rows to draw.');
    return undefined;
  }
  if (rows > MOST_ROWS || !(rows > 0)) {
    read.leave(`A plan of ${rows} rows cannot be drawn row by row, so it is left out.`);
    return undefined;
  }
  const [stitches, high] = [read.value('stitch_gauge'), read.value('row_gauge')];
  const real = stitches !== undefined && high !== undefined;
  const scale = {
    stitch: real ? 1 / stitches : 1,
    row: real ? 1 / high : ROW_HIGH,
    folded: plan.kind === 'toe',
  };
  const plain = (name: string) => Math.min(read.value(name) ?? 0, MOST_ROWS);
  const round = read.isRound('plan');
  return {
    plan,
    round,
    scale,
    start,
    end,
    first,
    rows,
    before: plain('plain_before'),
    after: plain('plain_after'),
  };
}

/** The edge of the piece after a row of the plan, on the right (1) or left (−1). A toe lies folded: half in front. */
function edge({ scale, first }: Drawn, row: number, stitches: number, side: 1 | -1): Point {
  const shown = scale.folded ? stitches / 2 : stitches;
  return [(side * shown * scale.stitch) / 2, -(row - first) * scale.row];
}

/** The corners of one edge, from the bottom up: where the plain rows end and each rate begins. */
function corners(drawn: Drawn): readonly (readonly [row: number, stitches: number])[] {
  const { plan, start, end, first, rows, before, after } = drawn;
  const steps = plan.steps.flatMap((step) => (step.rows ? [[step.rows[1], step.after] as const] : []));
  return [
    [first - before, start],
    [first, start],
    ...steps,
    [first + rows, end],
    [first + rows + after, end],
  ];
}

function shapesOf(read: Reader, drawn: Drawn): readonly Shape[] {
  const up = corners(drawn);
  const right = up.map(([row, stitches]) => edge(drawn, row, stitches, 1));
  const left = [...up].reverse().map(([row, stitches]) => edge(drawn, row, stitches, -1));
  return [
    line('piece', [...right, ...left], true),
    ...plainLines(drawn),
    ...marksOf(drawn),
    ...hereLine(read, drawn),
  ];
}

/** Where the plain rows before and after meet the shaping. */
function plainLines(drawn: Drawn): readonly Shape[] {
  const across = (row: number, stitches: number) =>
    line('hatch', [edge(drawn, row, stitches, -1), edge(drawn, row, stitches, 1)]);
  const { first, rows, start, end, before, after } = drawn;
  return [...(before > 0 ? [across(first, start)] : []), ...(after > 0 ? [across(first + rows, end)] : [])];
}

/** A dot at both edges of every row that changes the count. */
function marksOf(drawn: Drawn): readonly Shape[] {
  const at: Point[] = [];
  for (const { row, do: does, after } of rowsOf(drawn.plan)) {
    if (does === 'plain') continue;
    at.push(edge(drawn, row, after, 1), edge(drawn, row, after, -1));
  }
  return [{ kind: 'marks', role: 'shaping', at }];
}

function hereOf(read: Reader, { first, rows }: Drawn): number | undefined {
  const row = read.value('row');
  return row === undefined || row < first || row > first + rows ? undefined : Math.floor(row);
}

function hereLine(read: Reader, drawn: Drawn): readonly Shape[] {
  const row = hereOf(read, drawn);
  if (row === undefined) return [];
  const stitches = countAt(drawn.plan, row);
  return [line('here', [edge(drawn, row, stitches, -1), edge(drawn, row, stitches, 1)])];
}

// ------------------------------------------------------------------------------------------------------ labels

function labelsOf(read: Reader, drawn: Drawn): readonly Label[] {
  const { start, end, first, rows, before, after } = drawn;
  const cell = read.cell('plan');
  const own = (name: string, stitches: number): readonly Run[] => {
    const bound = read.runs(name);
    return bound.length > 0 ? bound : [{ text: sts(stitches), cell }];
  };
  const at = (row: number, stitches: number) =>
    [edge(drawn, row, stitches, -1), edge(drawn, row, stitches, 1)] as const;
  const [bottom, top] = [at(first - before, start), at(first + rows + after, end)];
  return [
    ...dimension('below', bottom[0], bottom[1], own('from', start)),
    ...dimension('above', top[0], top[1], own('to', end)),
    ...rateLabels(drawn, cell),
    ...plainLabels(read, drawn),
    ...hereLabel(read, drawn, cell),
  ];
}

/** How far the piece reaches to the right. */
function widest(drawn: Drawn): number {
  return Math.max(...corners(drawn).map(([row, stitches]) => edge(drawn, row, stitches, 1)[0]));
}

function rateLabels(drawn: Drawn, cell: string): readonly Label[] {
  const { plan, scale, first, rows } = drawn;
  const x = widest(drawn);
  const y = (row: number) => -(row - first) * scale.row;
  const steps = ratesOf(plan.steps);
  if (steps.length > MOST_RATES) {
    return dimension(
      'right',
      [x, y(first)],
      [x, y(first + rows)],
      [{ text: inNoun(drawn, rows === 1 ? '1 row' : `${rows} rows`), cell }],
    );
  }
  return steps.flatMap(({ rows: [from, to], says }) => {
    const middle = (from - 1 + to) / 2;
    const at = edge(drawn, middle, between(drawn, middle), 1);
    return stretch([x, y(from - 1)], [x, y(to)], at, [{ text: inNoun(drawn, says), cell }]);
  });
}

/** Words of a plan, with rounds for rows where it is knitted round. */
function inNoun({ round }: Drawn, words: string): string {
  return round ? words.replace(/\brow(s?)\b/g, 'rnd$1').replaceAll(' (RS)', '') : words;
}

/** Where the drawn edge is at a height, in stitches. */
function between(drawn: Drawn, row: number): number {
  const up = corners(drawn);
  const k = up.findIndex(([at]) => at >= row);
  const [high, low] = [up[k] ?? up.at(-1), up[Math.max(0, k - 1)]];
  if (!high || !low || high[0] === low[0]) return high?.[1] ?? drawn.start;
  return low[1] + ((high[1] - low[1]) * (row - low[0])) / (high[0] - low[0]);
}

interface Rate {
  readonly rows: readonly [number, number];
  readonly says: string;
}

/** Plain rows up to a shaping that is named by its row go with it: "decrease on row 5 (RS)". */
function ratesOf(steps: readonly PlanStep[]): readonly Rate[] {
  const rates: Rate[] = [];
  let waiting: number | undefined;
  steps.forEach(({ rows, do: does, says, times }, k) => {
    if (!rows) return;
    const next = steps[k + 1];
    if (does === 'plain' && next && next.times === 1 && next.do !== 'plain') {
      waiting = rows[0];
      return;
    }
    const tail = does === 'plain' && rows[1] - rows[0] < 2;
    if (!tail)
      rates.push({ rows: [times === 1 && waiting !== undefined ? waiting : rows[0], rows[1]], says });
    waiting = undefined;
  });
  return rates;
}

function plainLabels(read: Reader, drawn: Drawn): readonly Label[] {
  const { scale, first, rows, before, after } = drawn;
  const x = widest(drawn);
  const y = (row: number) => -(row - first) * scale.row;
  const end = first + rows;
  return [
    ...(before > 0
      ? dimension(
          'right',
          [x, y(first - before)],
          [x, y(first)],
          read.runs('plain_before', { after: 'plain' }),
        )
      : []),
    ...(after > 0
      ? dimension('right', [x, y(end)], [x, y(end + after)], read.runs('plain_after', { after: 'plain' }))
      : []),
  ];
}

function hereLabel(read: Reader, drawn: Drawn, cell: string): readonly Label[] {
  const row = hereOf(read, drawn);
  if (row === undefined) return [];
  const stitches = countAt(drawn.plan, row);
  return callout(edge(drawn, row, stitches, -1), ['left'], read.runs('row', { before: 'you are on' }), [
    { text: `${stitches} sts`, cell },
  ]);
}

function inWords(read: Reader, drawn: Drawn, real: boolean): readonly string[] {
  const { plan, start, end, rows, scale } = drawn;
  const row = hereOf(read, drawn);
  const own = (name: string, stitches: number) => read.text(name) || sts(stitches);
  return [
    `From ${own('from', start)} to ${own('to', end)} in ${inNoun(drawn, rows === 1 ? '1 row' : `${rows} rows`)}: ${inNoun(drawn, plan.text)}${plan.text.endsWith('.') ? '' : '.'}`,
    ...read.tell('Before it {plain_before} are plain.'),
    ...read.tell('After it {plain_after} are plain.'),
    ...(row === undefined ? [] : [`You are on ${read.text('row')}, with ${sts(countAt(plan, row))}.`]),
    ...(scale.folded ? ['It is drawn folded, half of the stitches in front.'] : []),
    real ? 'It is drawn to scale.' : 'It is not drawn to scale.',
    ...read.tellRest(),
    ...plan.remarks,
  ];
}
