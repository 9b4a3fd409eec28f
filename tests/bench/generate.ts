/*
 * Generated notebooks for the bench: 20 typed cells and N formulas of the eight shapes a knitter writes, in layers so
 * that the longest chain is about 50, each using about three cells. Three in ten hang on `chest`.
 * Values stay near those of a garment however deep the sheet, since sums are averaged.
 */

/** What a formula computes, by shape: lengths in 10 µm, counts in stitches. `a`, `b`, `g` are cells by index. */
export interface Formula {
  readonly shape: number;
  readonly a: number;
  readonly b: number;
  readonly g: number;
}

/** A generated sheet: the first `inputs` cells are typed. */
export interface Generated {
  readonly names: readonly string[];
  readonly texts: readonly string[];
  /** Base values of the typed cells. */
  readonly typed: readonly number[];
  readonly formulas: readonly Formula[];
  readonly inputs: number;
  /** Index of `chest`. */
  readonly chest: number;
}

/** A small generator of numbers, the same everywhere (Park and Miller's). */
export function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

const INCH = 2540;
const GAUGES = ['18 st / 4 in', '20 st / 4 in', '22 st / 10 cm', '26 row / 4 in'];
const LENGTHS = [
  '42 in',
  '4 in',
  '15 in',
  '96.5 cm',
  '23.5 cm',
  '8 in',
  '10 1/4 in',
  '30 cm',
  '17 in',
  '6 in',
];
const COUNTS = ['198 st', '88 st', '12 st', '64 st'];
const RATIOS = ['0.9', '1.25'];
const GAUGE_VALUES = [18 / (4 * INCH), 20 / (4 * INCH), 22 / 10_000, 26 / (4 * INCH)];
const LENGTH_VALUES = [
  42 * INCH,
  4 * INCH,
  15 * INCH,
  96_500,
  23_500,
  8 * INCH,
  10.25 * INCH,
  30_000,
  17 * INCH,
  6 * INCH,
];
const COUNT_VALUES = [198, 88, 12, 64];
const RATIO_VALUES = [0.9, 1.25];

/** Shapes 0–3 give lengths, 4–7 stitches; each is written here once as text and once, in `floor.ts`, as arithmetic. */
const SHAPES: readonly ((a: string, b: string, g: string) => string)[] = [
  (a, b) => `(${a} + ${b}) / 2`,
  (a, b, g) => `${a} * ${g} + ${b} * (1 - ${g})`,
  (a, b) => `max(${a}, ${b}) - 1/4 in`,
  (a, _b, g) => `${a} / ${g} + 1/8 in`,
  (a, _b, g) => `${a} * ${g}`,
  (a, _b, g) => `multiple(${a} * ${g}, 4)`,
  (a, b) => `whole((${a} + ${b}) / 2)`,
  (a, b) => `${a} + whole(${b} * 0.1)`,
];

/** A sheet of so many formulas. */
export function generate(count: number, seed = 11): Generated {
  const random = numbersFrom(seed);
  const names: string[] = [];
  const texts: string[] = [];
  const typed = [...GAUGE_VALUES, ...LENGTH_VALUES, ...COUNT_VALUES, ...RATIO_VALUES];
  const add = (name: string, text: string) => {
    names.push(name);
    texts.push(text);
    return names.length - 1;
  };
  GAUGES.forEach((text, i) => void add(`gauge_${i}`, text));
  LENGTHS.forEach((text, i) => void add(i === 0 ? 'chest' : `length_${i}`, text));
  COUNTS.forEach((text, i) => void add(`count_${i}`, text));
  RATIOS.forEach((text, i) => void add(`ratio_${i}`, text));
  const chest = 4;
  const formulas: Formula[] = [];
  const layers = Math.min(50, Math.ceil(count / 8));
  const perLayer = Math.ceil(count / layers);
  /** Cells of the layer before, by side (0 hangs on chest) and kind (0 lengths, 1 counts). */
  let before = sides(
    [[chest], []],
    [
      [5, 6, 7, 8, 9, 10, 11, 12, 13],
      [14, 15, 16, 17],
    ],
  );
  for (let made = 0; made < count; ) {
    const next = sides([[], []], [[], []]);
    for (let i = 0; i < perLayer && made < count; i += 1, made += 1) {
      const side = random() < 0.3 ? 0 : 1;
      const shape = fitting(shapeFor(random), before[side]);
      const formula = formulaOf(shape, before[side], random, side);
      const at = add(`c${made}`, SHAPES[shape]!(names[formula.a]!, names[formula.b]!, names[formula.g]!));
      formulas.push(formula);
      next[side][shape < 4 ? 0 : 1].push(at);
    }
    for (const side of [0, 1] as const)
      for (const kind of [0, 1] as const)
        if (next[side][kind].length === 0) next[side][kind] = before[side][kind];
    before = next;
  }
  return { names, texts, typed, formulas, inputs: typed.length, chest };
}

type Kinds = [lengths: number[], counts: number[]];
const sides = (dirty: Kinds, clean: Kinds): [Kinds, Kinds] => [dirty, clean];

const WEIGHTS = [0.2, 0.12, 0.1, 0.12, 0.14, 0.14, 0.1, 0.08];

function shapeFor(random: () => number): number {
  let at = random();
  for (let shape = 0; shape < WEIGHTS.length; shape += 1) {
    at -= WEIGHTS[shape]!;
    if (at <= 0) return shape;
  }
  return 0;
}

/** The shape, or a like one where there is nothing yet of the kind it needs. */
function fitting(shape: number, [lengths, counts]: Kinds): number {
  if (counts.length === 0 && (shape === 3 || shape > 5)) return shape === 3 ? 0 : 5;
  return lengths.length === 0 && shape !== 3 && shape < 6 ? 6 : shape;
}

function formulaOf(shape: number, [lengths, counts]: Kinds, random: () => number, side: number): Formula {
  const pick = (list: readonly number[]) => list[Math.floor(random() * list.length)]!;
  const gauge = Math.floor(random() * 3);
  const clean = side === 1;
  switch (shape) {
    case 0:
    case 2:
      return { shape, a: pick(lengths), b: clean ? pick(lengths) : pick(lengths), g: 0 };
    case 1:
      return { shape, a: pick(lengths), b: pick(lengths), g: 18 };
    case 3:
      return { shape, a: pick(counts), b: 0, g: gauge };
    case 4:
    case 5:
      return { shape, a: pick(lengths), b: 0, g: gauge };
    default:
      return { shape, a: pick(counts), b: pick(counts), g: 0 };
  }
}
