/* Laying out bars: name, bar and text side by side where there is room, else the bar under the two texts. */

import { scaleLinear } from 'd3-scale';
import { fitRun, LINE_PX, runWidth, textAt } from './labels.ts';
import type { LaidBlock, LaidPath, LaidText } from './laid.ts';
import type { Bar, Bars, Run } from './picture.ts';
import type { Box } from './place.ts';
import { overlap } from './place.ts';
import { boxData, segmentsData } from './trace.ts';

const BAR_PX = 14;
const GAP_PX = 14;
/** A bar of next to nothing is still to be seen. */
const THINNEST_PX = 3;

/** Where everything of a row stands, for all rows alike. */
interface Columns {
  readonly beside: boolean;
  readonly rowPx: number;
  readonly nameWidth: number;
  readonly textWidth: number;
  readonly from: number;
  readonly to: number;
}

/** Lays bars out for one width. */
export function layBars(bars: Bars, widthPx: number, sizePx: number): LaidBlock {
  const columns = columnsOf(bars, widthPx, sizePx);
  const scale = scaleLinear([bars.from, bars.to], [columns.from, columns.to]).clamp(true);
  const header = headerTexts(bars, scale, widthPx, sizePx);
  const top = header.length > 0 ? LINE_PX : 0;
  const heightPx = top + bars.rows.length * columns.rowPx;
  const rows = bars.rows.map((row, k) =>
    layRow(row, top + k * columns.rowPx, columns, scale, widthPx, sizePx),
  );
  const rules = bars.rules.map(
    ({ at, role }): LaidPath => ({ role, d: ruleData(scale(at), top, bars, columns, role) }),
  );
  return {
    heightPx,
    pxPerCm: Number.NaN,
    paths: [
      ...rules.filter((rule) => rule.role === 'grid'),
      ...rows.flatMap((row) => row.paths),
      ...rules.filter((rule) => rule.role !== 'grid'),
    ],
    texts: [...header, ...rows.flatMap((row) => row.texts)],
  };
}

function columnsOf(bars: Bars, widthPx: number, sizePx: number): Columns {
  const widest = (runs: readonly Run[]) => Math.max(0, ...runs.map((run) => runWidth(run, sizePx)));
  const nameWidth = widest(bars.rows.map((row) => row.name));
  const textWidth = widest(bars.rows.map((row) => row.text));
  const beside = nameWidth + textWidth + 2 * GAP_PX <= widthPx * 0.58;
  if (beside)
    return {
      beside,
      rowPx: 30,
      nameWidth,
      textWidth,
      from: nameWidth + GAP_PX,
      to: widthPx - textWidth - GAP_PX,
    };
  return {
    beside,
    rowPx: LINE_PX + BAR_PX + 8,
    nameWidth: widthPx * 0.55,
    textWidth: widthPx * 0.4,
    from: 2,
    to: widthPx - 2,
  };
}

/** A rule runs down through everything, except that it leaves out the lines of text that stand over bars. */
function ruleData(x: number, top: number, bars: Bars, columns: Columns, role: 'grid' | 'value'): string {
  const reach = role === 'value' ? 4 : columns.beside ? 8 : 3;
  return segmentsData(
    bars.rows.map((_, k) => {
      const middle = barMiddle(top + k * columns.rowPx, columns);
      return [
        [x, middle - BAR_PX / 2 - reach],
        [x, middle + BAR_PX / 2 + reach],
      ];
    }),
  );
}

function barMiddle(top: number, columns: Columns): number {
  return columns.beside ? top + columns.rowPx / 2 : top + LINE_PX + BAR_PX / 2;
}

function layRow(
  row: Bar,
  top: number,
  columns: Columns,
  scale: (x: number) => number,
  widthPx: number,
  sizePx: number,
): { readonly paths: readonly LaidPath[]; readonly texts: readonly LaidText[] } {
  const textTop = columns.beside ? top + (columns.rowPx - LINE_PX) / 2 : top;
  const text = fitRun(row.text, sizePx, widthPx * 0.45);
  const textWidth = runWidth(text, sizePx);
  const name = fitRun(row.name, sizePx, widthPx - textWidth - GAP_PX);
  const left: Box = { x: 0, y: textTop, width: runWidth(name, sizePx), height: LINE_PX };
  const right: Box = { x: widthPx - textWidth, y: textTop, width: textWidth, height: LINE_PX };
  return {
    paths: barPaths(row, barMiddle(top, columns), scale),
    texts: [textAt(name, left, 'start', sizePx), textAt(text, right, 'end', sizePx)],
  };
}

function barPaths(row: Bar, middle: number, scale: (x: number) => number): readonly LaidPath[] {
  if (!Number.isFinite(row.from) || !Number.isFinite(row.to)) return [];
  const from = scale(Math.min(row.from, row.to));
  const exact = scale(Math.max(row.from, row.to)) - from;
  const width = Math.max(THINNEST_PX, exact);
  const box = { x: from - (width - exact) / 2, y: middle - BAR_PX / 2, width, height: BAR_PX };
  const cell = row.name.cell === undefined ? {} : { cell: row.name.cell };
  return [{ role: row.role, d: boxData(box, 4), ...cell }];
}

/** The texts over the rules, as many as find room. */
function headerTexts(
  bars: Bars,
  scale: (x: number) => number,
  widthPx: number,
  sizePx: number,
): readonly LaidText[] {
  const texts: LaidText[] = [];
  for (const { at, text } of bars.rules) {
    if (text === '') continue;
    const run = fitRun({ text }, sizePx, widthPx);
    const width = runWidth(run, sizePx);
    const x = Math.max(0, Math.min(widthPx - width, scale(at) - width / 2));
    const box = { x, y: 0, width, height: LINE_PX };
    if (!texts.some((other) => overlap(other.box, box))) texts.push(textAt(run, box, 'middle', sizePx));
  }
  return texts;
}
