/*
 * Finding room for one label. Its places are tried in order, from the one a draughtsman would choose to the merely
 * possible; the first that is free is taken. First all places are tried that also keep off dashed lines, then all
 * that do not. A label that finds none is keyed: a letter stands for it, and its text goes beneath the drawing.
 */

import type { Form } from './labels.ts';
import { fitRun, formsOf, stacked, textsOf } from './labels.ts';
import type { Callout, Caption, Dimension, Label, Run, Side } from './picture.ts';
import type { Box, Field, Px, Segment } from './place.ts';
import { boxAround, crosses, glyphs, inset } from './place.ts';
import type { Project } from './trace.ts';

/** The ground a letter of the key takes up in the drawing. */
export const LETTER = { width: 16, height: 18 } as const;

/** Where a dimension line may run beside what it measures, in pixels. */
const LANES = [13, 40, 68, 96] as const;
/** Nothing is stacked beside a slanting line, and further off it would float. */
const LANES_ASLANT = [13, 22] as const;
const TICK_PX = 4;
const DIRECTIONS: Readonly<Record<Side, Px>> = {
  above: [0, -1],
  below: [0, 1],
  left: [-1, 0],
  right: [1, 0],
};

/** A label put down: its lines and its texts, and whether it went into the key. */
export interface Placed {
  readonly lines: readonly Segment[];
  readonly role: 'dimension' | 'leader';
  readonly dot?: Px;
  readonly form?: Form;
  readonly box?: Box;
  readonly align: 'start' | 'middle' | 'end';
  readonly letterAt?: Box;
  readonly keyed: boolean;
  /** Put where it may stand, not where it would best. */
  readonly detour?: boolean;
  /** Put above or below its line at the side, where it reads as if it measured what is there. */
  readonly astray?: boolean;
  readonly cell: string | undefined;
}

/** What a label is put into. */
export interface Surroundings {
  readonly field: Field;
  readonly project: Project;
  readonly widthPx: number;
  readonly sizePx: number;
}

/** Puts a label down where there is room, and keeps others off it. */
export function placeLabel(label: Label, around: Surroundings): Placed {
  const found =
    label.kind === 'dimension'
      ? placeDimension(label, around)
      : label.kind === 'callout'
        ? placeCallout(label, around)
        : placeCaption(label, around);
  for (const line of found.lines) around.field.putLine(line);
  if (found.box && found.form) {
    for (const text of boxesOf(found, around.sizePx)) around.field.putText(text);
  }
  if (found.letterAt) around.field.putText(found.letterAt);
  return found;
}

/** The ground of each of its texts. */
export function boxesOf(placed: Placed, sizePx: number): readonly Box[] {
  if (!placed.box || !placed.form) return [];
  return textsOf(placed.form, placed.box.x, placed.box.y, placed.align, sizePx).map((text) => text.box);
}

const cellOf = (runs: readonly Run[]) => runs.find((run) => run.cell !== undefined)?.cell;

// ---------------------------------------------------------------------------------------------- dimension lines

function placeDimension(label: Dimension, around: Surroundings): Placed {
  const { field, project, sizePx } = around;
  const from = project(label.from);
  const to = project(label.to);
  const forms = formsOf(label.runs, sizePx, around.widthPx);
  const lanes = lanesOf(label.side, [from, to]);
  for (const strict of [true, false]) {
    for (const lane of lanes) {
      const line = moved([from, to], label.side, lane);
      if (
        !field.clear(line) ||
        !isOnPage(line, around.widthPx) ||
        (strict && label.side !== 'on' && field.cutsOutline(line))
      )
        continue;
      for (const form of forms) {
        const spot = spotBeside(line, label, form, around, strict);
        if (spot)
          return {
            ...spot,
            form,
            lines: ticked(line),
            role: 'dimension',
            keyed: false,
            cell: cellOf(label.runs),
          };
      }
    }
  }
  const pointing =
    label.orAt &&
    placeCallout({ kind: 'callout', at: label.orAt, prefer: ['left', 'right'], runs: label.runs }, around);
  return pointing && !pointing.keyed
    ? { ...pointing, detour: true }
    : keyedDimension(label, [from, to], around);
}

function lanesOf(side: Dimension['side'], [[ax, ay], [bx, by]]: Segment): readonly number[] {
  if (side === 'on') return [0];
  return Math.min(Math.abs(bx - ax), Math.abs(by - ay)) > 1 ? LANES_ASLANT : LANES;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** A text belongs to a line no farther from it than this. */
const NEAR_PX = 12;

/** Where along a line its letter or text is tried. */
const ALONG = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95] as const;

function spotBeside(
  line: Segment,
  label: Dimension,
  form: Size,
  { field, widthPx }: Surroundings,
  strict: boolean,
): { readonly box: Box; readonly align: Placed['align']; readonly astray: boolean } | undefined {
  for (const { box, align } of beside(line, label, form, widthPx)) {
    if (field.free(box, strict) && !crosses(glyphs(box), line) && crosses(inset(box, -NEAR_PX), line))
      return { box, align, astray: isAtAnother(box, line, label) };
  }
  return undefined;
}

/** A text above or below a line at the side stands beside what the next line there measures. */
function isAtAnother(box: Box, [[, ay], [, by]]: Segment, { side }: Dimension): boolean {
  const middle = box.y + box.height / 2;
  return (side === 'left' || side === 'right') && (middle < Math.min(ay, by) || middle > Math.max(ay, by));
}

function* beside(line: Segment, { side, textAt: place }: Dimension, form: Size, widthPx: number) {
  const [a, b] = line;
  const out = outward(line, side);
  const back: Px = [-out[0], -out[1]];
  const along = direction(a, b);
  if (place === 'end') yield standing(b, along, 8, form, widthPx);
  for (const t of ALONG) {
    const point: Px = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    for (const way of [out, back]) yield standing(point, way, 4, form, widthPx);
  }
  yield standing(b, along, 8, form, widthPx);
  yield standing(a, [-along[0], -along[1]], 8, form, widthPx);
}

/** A box of a given size touching a point from the way given, moved in from the edges of the page. */
function standing(point: Px, way: Px, gap: number, form: Size, widthPx: number) {
  const reach = gap + (Math.abs(way[0]) * form.width + Math.abs(way[1]) * form.height) / 2;
  const box = boxAround([point[0] + way[0] * reach, point[1] + way[1] * reach], form.width, form.height);
  const x = Math.max(0, Math.min(widthPx - form.width, box.x));
  const align: Placed['align'] = way[0] > 0.5 ? 'start' : way[0] < -0.5 ? 'end' : 'middle';
  return { box: { ...box, x }, align };
}

function direction(a: Px, b: Px): Px {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

/** The unit vector across a line, to its side. */
function outward([a, b]: Segment, side: Dimension['side']): Px {
  const [x, y] = direction(a, b);
  const wanted = side === 'on' ? DIRECTIONS.right : DIRECTIONS[side];
  return -y * wanted[0] + x * wanted[1] >= 0 ? [-y, x] : [y, -x];
}

function moved(line: Segment, side: Dimension['side'], by: number): Segment {
  const [x, y] = outward(line, side);
  const [a, b] = line;
  return [
    [a[0] + x * by, a[1] + y * by],
    [b[0] + x * by, b[1] + y * by],
  ];
}

/** A line with a tick across both ends. */
function ticked(line: Segment): readonly Segment[] {
  const [a, b] = line;
  const [x, y] = outward(line, 'on');
  const tick = ([px, py]: Px): Segment => [
    [px - x * TICK_PX, py - y * TICK_PX],
    [px + x * TICK_PX, py + y * TICK_PX],
  ];
  return [line, tick(a), tick(b)];
}

function keyedDimension(label: Dimension, ends: Segment, around: Surroundings): Placed {
  const base = { role: 'dimension', align: 'middle', keyed: true, cell: cellOf(label.runs) } as const;
  const lanes = [...lanesOf(label.side, ends), 0];
  for (const strict of [true, false]) {
    for (const lane of lanes) {
      const line = moved(ends, label.side, lane);
      if (!around.field.clear(line) || !isOnPage(line, around.widthPx)) continue;
      const spot = spotBeside(line, label, LETTER, around, strict);
      if (spot) return { ...base, lines: ticked(line), letterAt: spot.box };
    }
  }
  const middle: Px = [(ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2];
  return keyedCallout(middle, ALL_WAYS, base.cell, around);
}

function isOnPage(line: Segment, widthPx: number): boolean {
  return line.every(([x]) => x >= 0 && x <= widthPx);
}

// ---------------------------------------------------------------------------------------------------- callouts

const REACHES = [7, 16, 28, 44, 64, 90, 120] as const;
const ALL_WAYS: readonly Px[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [0.75, -0.66],
  [0.75, 0.66],
  [-0.75, -0.66],
  [-0.75, 0.66],
];

function placeCallout(label: Callout, around: Surroundings): Placed {
  const { field, sizePx, widthPx } = around;
  const at = around.project(label.at);
  const ways = [...label.prefer.map((side) => DIRECTIONS[side]), ...ALL_WAYS];
  const forms = formsOf(label.runs, sizePx, widthPx);
  const cell = cellOf(label.runs);
  // First a place whose leader crosses no other label's line. None stands on a dashed line: a letter reads better.
  for (const apart of [true, false]) {
    for (const reach of REACHES) {
      for (const form of forms) {
        for (const way of ways) {
          const { box, align } = standing(at, way, reach, form, widthPx);
          const leader = leaderTo(at, box);
          if (!field.free(box, true) || !field.clear(leader) || inside(box, at)) continue;
          if (apart && field.cutsLine(leader)) continue;
          return { box, align, form, lines: [leader], role: 'leader', dot: at, keyed: false, cell };
        }
      }
    }
  }
  return keyedCallout(at, ways, cell, around);
}

function keyedCallout(at: Px, ways: readonly Px[], cell: string | undefined, around: Surroundings): Placed {
  const base = { role: 'leader', dot: at, lines: [], align: 'middle', keyed: true, cell } as const;
  for (const strict of [true, false]) {
    for (const reach of [4, 10, 20]) {
      for (const way of ways) {
        const { box } = standing(at, way, reach, LETTER, around.widthPx);
        if (around.field.free(box, strict) && !inside(box, at)) return { ...base, letterAt: box };
      }
    }
  }
  return base;
}

function inside(box: Box, [x, y]: Px): boolean {
  return x > box.x - 2 && x < box.x + box.width + 2 && y > box.y && y < box.y + box.height;
}

/** A line from a point to the nearest place on a box's edge, with air at the box. */
function leaderTo(at: Px, box: Box): Segment {
  const x = Math.max(box.x, Math.min(box.x + box.width, at[0]));
  const y = Math.max(box.y + 5, Math.min(box.y + box.height - 5, at[1]));
  const [dx, dy] = direction(at, [x, y]);
  return [at, [x - dx * 2, y - dy * 2]];
}

function placeCaption(label: Caption, { field, project, sizePx, widthPx }: Surroundings): Placed {
  const [x, y] = project(label.at);
  const form = stacked(
    label.runs.map((run) => fitRun(run, sizePx, widthPx)),
    sizePx,
  );
  const base = { lines: [], role: 'leader', align: 'middle', cell: cellOf(label.runs) } as const;
  const left = Math.max(0, Math.min(widthPx - form.width, x - form.width / 2));
  const box = { x: left, y: y + 4, width: form.width, height: form.height };
  if (field.free(box, false)) return { ...base, box, form, keyed: false };
  return { ...base, keyed: true };
}
