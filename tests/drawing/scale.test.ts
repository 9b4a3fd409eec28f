// Scale is true: in centimetres as drawn, and in pixels as laid out.
import { describe, expect, test } from 'vitest';
import { draw, layOut, type Parts, type Picture } from '../../src/drawing/index.ts';
import { part, pullover, sock } from './samples.ts';

const IN = 2.54;

/** The width and height in cm of a shape of a role in a scene, the first one unless said. */
function sizeOf(
  picture: Picture,
  role: string,
  nth = 0,
): { readonly width: number; readonly height: number } {
  if (picture.block?.kind !== 'scene') throw new Error('not a scene');
  const shape = picture.block.shapes.filter((one) => one.role === role && one.kind === 'path')[nth];
  if (shape?.kind !== 'path') throw new Error(`no ${role}`);
  const points = [shape.from, ...shape.steps.map((step) => step.to)];
  const span = (k: 0 | 1) =>
    Math.max(...points.map((point) => point[k])) - Math.min(...points.map((point) => point[k]));
  return { width: span(0), height: span(1) };
}

/** The length in pixels of each dimension line that belongs to a cell. */
function linePx(parts: Parts, kind: string, cell: string, widthPx: number): number {
  const path = layOut(draw(kind, parts), widthPx).paths.find(
    (one) => one.role === 'dimension' && one.cell === cell,
  );
  const numbers = path?.d.match(/-?\d+(\.\d+)?/g)?.map(Number);
  if (!numbers) throw new Error(`no line for ${cell}`);
  const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = numbers;
  return Math.hypot(x2 - x1, y2 - y1);
}

const body = (chestIn: number): Parts => ({
  chest: part('chest', chestIn * IN, `${chestIn} in`),
  body_length: part('body_length', 15 * IN, '15 in'),
  yoke_depth: part('yoke_depth', 9 * IN, '9 in'),
});

describe('a pullover', () => {
  test('with a 40 in chest is drawn twice as wide as with 20 in', () => {
    const [wide, narrow] = [40, 20].map((chest) => sizeOf(draw('pullover', body(chest)), 'piece').width);
    expect(wide).toBeCloseTo(2 * (narrow ?? 0), 9);
    expect(wide).toBeCloseTo(20 * IN, 9);
  });

  test.each([320, 390, 680, 1000])('has one scale for all lines, %i px wide', (widthPx) => {
    const { pxPerCm } = layOut(draw('pullover', pullover), widthPx);
    expect(linePx(pullover, 'pullover', 'cell-body_length', widthPx) / pxPerCm).toBeCloseTo(
      15.5 * IN - 0.8,
      1,
    );
    expect(linePx(pullover, 'pullover', 'cell-yoke_depth', widthPx) / pxPerCm).toBeCloseTo(9.5 * IN - 0.4, 1);
    expect(linePx(pullover, 'pullover', 'cell-chest', widthPx) / pxPerCm).toBeCloseTo((41.25 * IN) / 2, 1);
  });

  test('has a neck whose drawn edge is as long as its girth', () => {
    const picture = draw('pullover', { ...body(40), neck: part('neck', 19 * IN, '19 in') });
    if (picture.block?.kind !== 'scene') throw new Error('not a scene');
    const edges = picture.block.shapes.flatMap((one) =>
      one.kind === 'path' ? [[one.from, ...one.steps] as const] : [],
    );
    const bends = edges.flatMap(([from, ...steps]) => {
      const first = steps[0];
      return first?.by?.length === 2 && Math.abs(first.to[0] + from[0]) < 1e-9
        ? [cubicLength(from, first.by, first.to)]
        : [];
    });
    expect(bends).toHaveLength(2);
    // The bends stand in for half ellipses: true to 4 %.
    expect(bends.reduce((sum, length) => sum + length, 0) / (19 * IN)).toBeGreaterThan(0.96);
    expect(bends.reduce((sum, length) => sum + length, 0) / (19 * IN)).toBeLessThan(1.04);
  });

  test('shows ease: your own chest lies inside by a quarter of it on each side', () => {
    const picture = draw('pullover', { ...body(44), own_chest: part('own_chest', 40 * IN, '40 in') });
    if (picture.block?.kind !== 'scene') throw new Error('not a scene');
    const dashes = picture.block.shapes.flatMap((one) =>
      one.kind === 'path' && one.role === 'dash' ? [one.from[0]] : [],
    );
    expect(Math.max(...dashes)).toBeCloseTo((44 * IN) / 4 - IN, 9);
  });
});

type XY = readonly [number, number];

function cubicLength(a: XY, [b, c]: readonly [XY, XY], d: XY): number {
  const at = (t: number, k: 0 | 1) =>
    (1 - t) ** 3 * a[k] + 3 * (1 - t) ** 2 * t * b[k] + 3 * (1 - t) * t * t * c[k] + t ** 3 * d[k];
  let length = 0;
  for (let k = 0; k < 1000; k++)
    length += Math.hypot(at((k + 1) / 1000, 0) - at(k / 1000, 0), at((k + 1) / 1000, 1) - at(k / 1000, 1));
  return length;
}

describe('a sock', () => {
  test('is as long as its foot, and its leg and flap hang as long as they are', () => {
    const { width } = sizeOf(draw('sock', sock), 'piece');
    expect(width).toBeCloseTo(23.2, 6);
    const { pxPerCm } = layOut(draw('sock', sock), 900);
    expect(linePx(sock, 'sock', 'cell-leg_length', 900) / pxPerCm).toBeCloseTo(14, 1);
    expect(linePx(sock, 'sock', 'cell-heel_stitches', 900) / pxPerCm).toBeCloseTo(6.4, 1);
    expect(linePx(sock, 'sock', 'cell-girth', 900) / pxPerCm).toBeCloseTo(19.8 / 2, 1);
  });

  test('makes lengths of rounds where only rounds are known', () => {
    const { leg_length: _, ...without } = sock;
    const { pxPerCm } = layOut(draw('sock', without), 900);
    expect(linePx(without, 'sock', 'cell-leg_rounds', 900) / pxPerCm).toBeCloseTo(59 / 4.2, 1);
  });
});

describe('the two fabrics', () => {
  const fabric = (stitches: number, rows: number): Parts => ({
    stitch_gauge: part('stitch_gauge', stitches / 10, `${stitches} sts / 10 cm`),
    row_gauge: part('row_gauge', rows / 10, `${rows} rows / 10 cm`),
  });

  test('have as many stitches across and rows up the square as their gauge says', () => {
    const laid = layOut(draw('fabrics', fabric(20, 28)), 340);
    const legs = laid.paths.find((path) => path.role === 'knit-yours')?.d.split('M').length ?? 0;
    // 5 cm square: 10 stitches of two legs, 14 rows.
    expect(legs - 1).toBe(10 * 2 * 14);
  });

  test('finer is smaller: at twice the gauge a stitch is half as wide', () => {
    const across = (stitches: number) => {
      const { paths, pxPerCm } = layOut(draw('fabrics', fabric(stitches, 30)), 340);
      const { d = '' } = paths.find((path) => path.role === 'knit-yours') ?? {};
      const xs = [...d.matchAll(/M(-?[\d.]+) /g)].map((match) => Number(match[1]));
      return ((xs[2] ?? 0) - (xs[0] ?? 0)) / pxPerCm;
    };
    expect(across(20) / across(40)).toBeCloseTo(2, 1);
  });
});
