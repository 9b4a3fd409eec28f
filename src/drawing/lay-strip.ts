/*
 * Laying out an edging: the row of live stitches above, the edging's repeats below, wrapped like text at whole
 * repeats. Stitches are as large as they can be while the whole edge stays a handful of lines.
 */

import { LINE_PX, runWidth, textAt } from './labels.ts';
import type { LaidBlock, LaidPath, LaidText } from './laid.ts';
import type { Join, Role, Run, Strip } from './picture.ts';
import type { Box } from './place.ts';
import { overlap } from './place.ts';
import { n2 } from './round.ts';
import { boxData, dotData, segmentsData } from './trace.ts';

const NUMBER_PX = 20;
const LOOP_PX = 9;
const LEG_PX = 8;
const GAP_PX = 8;
/** Stitches are drawn this wide at most and at least, and the edge in about this many lines, fewer on a wide page. */
const WIDEST_PX = 17;
const NARROWEST_PX = 2.2;
const MOST_LINES = 7;
const LINES_TIMES_WIDTH = 2600;

/** One line of the strip: which joins are in it, and where it stands. */
interface Line {
  readonly joins: readonly Join[];
  /** The index of its first join. */
  readonly first: number;
  readonly top: number;
  readonly heightPx: number;
  readonly texts: readonly LaidText[];
}

interface Ruling {
  readonly strip: Strip;
  readonly unitPx: number;
  readonly perLine: number;
  /** How deep a repeat of the edging is drawn. */
  readonly pointPx: number;
  readonly widthPx: number;
  readonly sizePx: number;
}

/** Lays a strip out for one width. */
export function layStrip(strip: Strip, widthPx: number, sizePx: number): LaidBlock {
  const ruling = ruled(strip, widthPx, sizePx);
  const lines: Line[] = [];
  let top = 0;
  for (let first = 0; first < strip.joins.length; first += ruling.perLine) {
    const line = layLine(ruling, first, top);
    lines.push(line);
    top += line.heightPx;
  }
  const legend = layLegend(ruling, top);
  return {
    heightPx: top + legend.heightPx,
    pxPerCm: Number.NaN,
    paths: [...lines.flatMap((line) => linePaths(ruling, line)), ...legend.paths],
    texts: [...lines.flatMap((line) => line.texts), ...legend.texts],
  };
}

/** The largest stitch at which the lines are few enough; lines break between repeats while a repeat fits in one. */
function ruled(strip: Strip, widthPx: number, sizePx: number): Ruling {
  const room = widthPx - 4;
  const per = Math.max(1, strip.joinsInRepeat);
  const perLineAt = (unitPx: number) => {
    const repeats = Math.floor(room / (unitPx * per));
    return repeats > 0 ? repeats * per : Math.max(1, Math.floor(room / unitPx));
  };
  const lines = Math.max(2, Math.min(MOST_LINES, Math.round(LINES_TIMES_WIDTH / Math.max(1, widthPx))));
  let unitPx = WIDEST_PX;
  while (unitPx > NARROWEST_PX && Math.ceil(strip.joins.length / perLineAt(unitPx)) > lines) unitPx *= 0.93;
  unitPx = Math.max(NARROWEST_PX, unitPx);
  const perLine = perLineAt(unitPx);
  const spread = Math.min(WIDEST_PX, room / Math.min(perLine, strip.joins.length));
  const pointPx = Math.max(14, Math.min(34, spread * per * 0.36));
  return { strip, unitPx: spread, perLine, pointPx, widthPx, sizePx };
}

function layLine(ruling: Ruling, first: number, top: number): Line {
  const joins = ruling.strip.joins.slice(first, first + ruling.perLine);
  const body = NUMBER_PX + LOOP_PX + LEG_PX + ruling.pointPx;
  const captions = captionsOf(ruling, joins, first, top + body);
  const lanes = Math.max(0, ...captions.map((text) => (text.box.y - top - body) / LINE_PX + 1));
  const numbers = numbersOf(ruling, joins, top);
  return { joins, first, top, heightPx: body + lanes * LINE_PX + GAP_PX, texts: [...numbers, ...captions] };
}

const xOf = ({ unitPx }: Ruling, place: number) => 2 + place * unitPx;

// ------------------------------------------------------------------------------------------------------- texts

/** The number over each repeat, or over every fifth or tenth where they stand close; those with a mend come first. */
function numbersOf(ruling: Ruling, joins: readonly Join[], top: number): readonly LaidText[] {
  const texts: LaidText[] = [];
  const sizePx = ruling.sizePx * 0.92;
  const repeats = repeatsIn(joins);
  const wanted = [
    ...repeats.filter((one) => one.mended),
    ...repeats.filter((one) => one.repeat % 10 === 0),
    ...repeats.filter((one) => one.repeat % 5 === 0),
    ...repeats,
  ];
  for (const { repeat, from, to, mended } of wanted) {
    const run: Run = { text: String(repeat), ...(mended ? { cell: ruling.strip.cell } : {}) };
    const width = runWidth(run, sizePx) + 5;
    const middle = (xOf(ruling, from) + xOf(ruling, to)) / 2;
    const box: Box = {
      x: clamp(middle - width / 2, ruling.widthPx - width),
      y: top,
      width,
      height: NUMBER_PX,
    };
    if (!texts.some((text) => overlap(text.box, box)))
      texts.push({ ...textAt({ text: run.text }, box, 'middle', sizePx), role: mended ? 'letter' : 'plain' });
  }
  return texts;
}

const clamp = (x: number, most: number) => Math.max(0, Math.min(most, x));

interface Repeat {
  readonly repeat: number;
  readonly from: number;
  readonly to: number;
  readonly mended: boolean;
}

function repeatsIn(joins: readonly Join[]): readonly Repeat[] {
  const repeats: Repeat[] = [];
  joins.forEach(({ repeat, how }, k) => {
    const last = repeats.at(-1);
    const mended = how !== 'join';
    if (last?.repeat === repeat)
      repeats[repeats.length - 1] = { ...last, to: k + 1, mended: last.mended || mended };
    else repeats.push({ repeat, from: k, to: k + 1, mended });
  });
  return repeats;
}

const MEND: Readonly<Record<Join['how'], string>> = { join: '', take2: 'take 2', nojoin: 'no join' };
const MOST_LANES = 3;

/** Under each mend what it is and at which join; under the place where she is, that she is there. */
function captionsOf(ruling: Ruling, joins: readonly Join[], first: number, top: number): readonly LaidText[] {
  const { strip, sizePx, widthPx } = ruling;
  const wanted: { readonly run: Run; readonly at: number }[] = [];
  const here = strip.done - first;
  const ends = strip.done === strip.joins.length && here === joins.length;
  if (strip.done >= 0 && here >= 0 && (here < joins.length || ends))
    wanted.push({ run: { text: 'you are here' }, at: here });
  joins.forEach(({ how, join }, k) => {
    if (how !== 'join')
      wanted.push({ run: { text: MEND[how], after: `at join ${join}`, cell: strip.cell }, at: k + 0.5 });
  });
  const texts: LaidText[] = [];
  for (const { run, at } of wanted) {
    const width = runWidth(run, sizePx);
    const x = clamp(xOf(ruling, at) - width / 2, widthPx - width);
    for (let lane = 0; lane < MOST_LANES; lane++) {
      const box = { x, y: top + lane * LINE_PX, width, height: LINE_PX };
      const wide = { ...box, x: x - 4, width: width + 8 };
      if (texts.some((text) => overlap(text.box, wide))) continue;
      texts.push(textAt(run, box, 'middle', sizePx));
      break;
    }
  }
  return texts;
}

// ------------------------------------------------------------------------------------------------------- lines

function linePaths(ruling: Ruling, line: Line): readonly LaidPath[] {
  const loopTop = line.top + NUMBER_PX;
  const base = loopTop + LOOP_PX + LEG_PX;
  const isDone = (k: number) => line.first + k < ruling.strip.done;
  const scallops = repeatsIn(line.joins).flatMap((repeat) => scallop(ruling, repeat, base, line.first));
  const open = line.joins.map((one, k) => (isDone(k) ? '' : loops(ruling, one, k, loopTop))).join('');
  const legs = line.joins
    .map((one, k) =>
      one.how === 'nojoin' ? '' : leg(ruling, k, isDone(k) ? base - LEG_PX : loopTop + LOOP_PX, base),
    )
    .join('');
  const paths: readonly LaidPath[] = [
    ...scallops,
    { role: 'stitch', d: open + legs },
    ...mendPaths(ruling, line, loopTop),
  ];
  return [...paths, ...herePath(ruling, line, loopTop - 2, base + ruling.pointPx + 2)].filter(
    (path) => path.d !== '',
  );
}

/** A live stitch is a loop; a join that takes two stands under two narrow ones, one that takes none under none. */
function loops(ruling: Ruling, { how }: Join, k: number, top: number): string {
  const count = how === 'take2' ? 2 : how === 'nojoin' ? 0 : 1;
  const width = (ruling.unitPx * 0.84) / Math.max(1, count);
  const left = xOf(ruling, k) + ruling.unitPx * 0.08;
  return Array.from({ length: count }, (_, n) => loop(left + n * width, top, width)).join('');
}

function loop(left: number, top: number, width: number): string {
  const foot = top + LOOP_PX;
  const pinch = width * 0.3;
  return `M${n2(left + pinch)} ${n2(foot)}C${n2(left - pinch * 0.6)} ${n2(top + 2)} ${n2(left + pinch * 0.4)} ${n2(top)} ${n2(left + width / 2)} ${n2(top)}S${n2(left + width + pinch * 0.6)} ${n2(top + 2)} ${n2(left + width - pinch)} ${n2(foot)}`;
}

function leg(ruling: Ruling, k: number, from: number, to: number): string {
  const x = xOf(ruling, k + 0.5);
  return segmentsData([
    [
      [x, from],
      [x, to],
    ],
  ]);
}

/** A repeat of the edging; the one in hand is part done, part to come. */
function scallop(ruling: Ruling, { from, to }: Repeat, base: number, first: number): readonly LaidPath[] {
  const done = ruling.strip.done - first;
  const role: Role = done >= to ? 'done' : 'point';
  const [left, right] = [xOf(ruling, from) + 0.5, xOf(ruling, to) - 0.5];
  const middle = (left + right) / 2;
  const d = `M${n2(left)} ${n2(base)}H${n2(right)}Q${n2(right - 1)} ${n2(base + ruling.pointPx * 0.6)} ${n2(middle)} ${n2(base + ruling.pointPx)}Q${n2(left + 1)} ${n2(base + ruling.pointPx * 0.6)} ${n2(left)} ${n2(base)}Z`;
  return [{ role, d }];
}

function mendPaths(ruling: Ruling, line: Line, loopTop: number): readonly LaidPath[] {
  const y = loopTop + LOOP_PX + LEG_PX / 2;
  return line.joins.flatMap(({ how }, k): readonly LaidPath[] =>
    how === 'join' ? [] : [{ role: how, d: symbol(how, xOf(ruling, k + 0.5), y), cell: ruling.strip.cell }],
  );
}

/** Take 2: a full triangle, two stitches going into one. No join: an empty ring. */
function symbol(how: 'take2' | 'nojoin', x: number, y: number): string {
  if (how === 'nojoin') return dotData([x, y], 4);
  return `M${n2(x - 5)} ${n2(y - 4)}H${n2(x + 5)}L${n2(x)} ${n2(y + 5)}Z`;
}

function herePath(ruling: Ruling, line: Line, top: number, bottom: number): readonly LaidPath[] {
  const here = ruling.strip.done - line.first;
  const ends = here === line.joins.length && ruling.strip.done === ruling.strip.joins.length;
  if (ruling.strip.done < 0 || here < 0 || (here >= line.joins.length && !ends)) return [];
  const x = xOf(ruling, here);
  return [
    {
      role: 'here',
      d: segmentsData([
        [
          [x, top],
          [x, bottom],
        ],
      ]),
    },
  ];
}

// ------------------------------------------------------------------------------------------------------ legend

function layLegend(ruling: Ruling, top: number): LaidBlock {
  const { strip, sizePx, widthPx } = ruling;
  const kinds = (['take2', 'nojoin'] as const).filter((how) => strip.joins.some((one) => one.how === how));
  const items: readonly { readonly role: Role; readonly text: string }[] = [
    { role: 'stitch', text: 'live stitch' },
    ...kinds.map((how) => ({ role: how, text: MEND[how] })),
    ...(strip.done > 0 ? [{ role: 'done', text: 'done' } as const] : []),
  ];
  const paths: LaidPath[] = [];
  const texts: LaidText[] = [];
  let [x, y] = [0, top];
  for (const { role, text } of items) {
    const width = runWidth({ text }, sizePx);
    if (x > 0 && x + 20 + width > widthPx) [x, y] = [0, y + LINE_PX];
    paths.push({ role, d: legendMark(role, x + 8, y + LINE_PX / 2) });
    texts.push(textAt({ text }, { x: x + 20, y, width, height: LINE_PX }, 'start', sizePx));
    x += 20 + width + 18;
  }
  return { heightPx: y + LINE_PX - top, pxPerCm: Number.NaN, paths, texts };
}

function legendMark(role: Role, x: number, y: number): string {
  if (role === 'take2' || role === 'nojoin') return symbol(role, x, y);
  if (role === 'done') return boxData({ x: x - 6, y: y - 5, width: 12, height: 10 });
  return loop(x - 5, y - 5, 10);
}
