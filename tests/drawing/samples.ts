// Fixed values of our own invention for each drawing, and makers of parts as the session hands them in.
import { heelTurn, join, shape, toe } from '../../src/craft/index.ts';
import { draw, type Part, type Parts, type Picture } from '../../src/drawing/index.ts';
import type { Plan, PlanSpec } from '../../src/formula/index.ts';

const IN = 2.54;

/** A part bound to a cell that is named after it. */
export function part(name: string, value: number, text: string): Part {
  return { cell: `cell-${name}`, name: name.replaceAll('_', ' '), value, text };
}

/** Lengths in inches, as `[40, '40']`, counts and gauges in their own measure with the unit in the text. */
function bound(values: Readonly<Record<string, readonly [number, string]>>): Parts {
  const entries = Object.entries(values).map(
    ([name, [value, text]]) => [name, part(name, value, text)] as const,
  );
  return Object.fromEntries(entries);
}

function inches(
  values: Readonly<Record<string, number>>,
): Readonly<Record<string, readonly [number, string]>> {
  const text = (x: number) => `${Math.floor(x)}${['', '¼', '½', '¾'][Math.round((x % 1) * 4)] ?? ''} in`;
  return Object.fromEntries(Object.entries(values).map(([name, x]) => [name, [x * IN, text(x)] as const]));
}

function centimetres(
  values: Readonly<Record<string, number>>,
): Readonly<Record<string, readonly [number, string]>> {
  return Object.fromEntries(Object.entries(values).map(([name, x]) => [name, [x, `${x} cm`] as const]));
}

function counts(
  unit: string,
  values: Readonly<Record<string, number>>,
): Readonly<Record<string, readonly [number, string]>> {
  return Object.fromEntries(Object.entries(values).map(([name, x]) => [name, [x, `${x} ${unit}`] as const]));
}

/** A plan bound to a cell; the arguments must be ones that the function takes. */
export function planned(spec: PlanSpec, ...args: readonly number[]): Part {
  const plan = spec.work(...args);
  if (!('steps' in plan)) throw new Error(`${spec.name}(${args.join(', ')}) is refused: ${plan.code}`);
  return planPart(plan);
}

export function planPart(plan: Plan): Part {
  return { cell: 'cell-plan', name: 'plan', value: Number.NaN, text: plan.text, plan };
}

const fabrics = bound({
  stitch_gauge: [17.5 / 10.16, '17½ sts / 4 in'],
  row_gauge: [25 / 10.16, '25 rows / 4 in'],
  pattern_stitch_gauge: [20 / 10.16, '20 sts / 4 in'],
  pattern_row_gauge: [28 / 10.16, '28 rows / 4 in'],
});

/** A round-yoke pullover for a 38-inch chest, all its parts bound. */
export const pullover: Parts = bound({
  ...inches({
    chest: 41.25,
    body_length: 15.5,
    yoke_depth: 9.5,
    neck: 18,
    upper_arm: 14,
    cuff: 8.25,
    sleeve_length: 17.75,
  }),
  ...inches({ own_chest: 38, own_upper_arm: 12.25, own_wrist: 6.5, hem: 2 }),
  ...counts('sts', {
    body_stitches: 184,
    neck_stitches: 80,
    upper_arm_stitches: 62,
    cuff_stitches: 36,
    yoke_stitches: 288,
  }),
  ...counts('rnds', { body_rows: 102, yoke_rows: 63, sleeve_rows: 117 }),
});

const setIn = bound({
  ...inches({ chest: 39, body_length: 14.25, armhole_depth: 7.75, cross_back: 15, neck: 17.5 }),
  ...inches({
    upper_arm: 13,
    cuff: 8,
    sleeve_length: 17.25,
    cap_height: 5.25,
    own_chest: 36.5,
    own_upper_arm: 11.25,
  }),
  ...counts('sts', { body_stitches: 196, neck_stitches: 88, cross_back_stitches: 76, shoulder_stitches: 19 }),
  ...counts('sts', { upper_arm_stitches: 66, cuff_stitches: 40 }),
  ...counts('rows', { body_rows: 100, armhole_rows: 56, sleeve_rows: 121, cap_rows: 37 }),
});

/** A sock for a foot of 24 cm. */
export const sock: Parts = bound({
  ...centimetres({ girth: 19.8, foot_length: 23.2, leg_length: 14, cuff_length: 3.5, flap_length: 6.4 }),
  ...centimetres({ own_foot_length: 24, own_foot_girth: 22, own_heel_girth: 30.5, own_calf: 24 }),
  row_gauge: [4.2, '42 rnds / 10 cm'],
  ...counts('sts', { cast_on: 60, heel_stitches: 30, turn_stitches: 18, pick_up: 16, gusset_stitches: 80 }),
  ...counts('sts', { foot_stitches: 60, toe_end: 20 }),
  ...counts('rnds', { leg_rounds: 59, gusset_rounds: 20, foot_rounds: 62, toe_rounds: 18 }),
  ...counts('rows', { heel_rows: 30, turn_rows: 12 }),
});

const longSock = bound({
  ...centimetres({
    girth: 21,
    foot_length: 24,
    leg_length: 36,
    cuff_length: 5,
    calf_girth: 31,
    calf_height: 30,
    top_girth: 27,
  }),
  row_gauge: [3.8, '38 rnds / 10 cm'],
  ...counts('sts', {
    cast_on: 92,
    calf_stitches: 104,
    leg_stitches: 68,
    heel_stitches: 34,
    foot_stitches: 68,
  }),
  ...counts('rows', { heel_rows: 32 }),
});

const sleeve: Parts = {
  plan: planned(shape, 40, 62, 90, 2, 2),
  ...bound({
    stitch_gauge: [18 / 10.16, '18 sts / 4 in'],
    row_gauge: [26 / 10.16, '26 rows / 4 in'],
    plain_before: [8, '8 rows'],
    plain_after: [6, '6 rows'],
    row: [41, 'row 41'],
    from: [40, '40 sts'],
    to: [62, '62 sts'],
  }),
};

const yarn = bound({
  ...counts('g', {
    part_body: 162,
    part_sleeves: 118,
    part_yoke: 84,
    part_ribbing: 37,
    spare: 15,
    skein: 100,
    total: 401,
  }),
  ...counts('skeins', { skeins: 4 }),
});

/** One picture of each kind, and some of their other faces. */
export const pictures: Readonly<Record<string, Picture>> = {
  fabrics: draw('fabrics', fabrics),
  pullover: draw('pullover', pullover),
  raglan: draw(
    'raglan',
    bound(
      inches({
        chest: 34,
        body_length: 13,
        yoke_depth: 8.5,
        upper_arm: 12.5,
        sleeve_length: 6,
        own_chest: 36,
      }),
    ),
  ),
  'set-in': draw('set-in', setIn),
  sock: draw('sock', sock),
  'long-sock': draw('sock', longSock),
  edging: draw('edging', {
    plan: planned(join, 212, 7),
    ...bound({ ...counts('sts', { live: 212, live_left: 120 }), repeats: [30, '30'] }),
  }),
  'edging-short': draw('edging', { plan: planned(join, 50, 6, 9), ...bound({ rows_done: [31, '31 rows'] }) }),
  sleeve: draw('shaping', sleeve),
  toe: draw('shaping', { plan: planned(toe, 60, 20, 32) }),
  heel: draw('shaping', { plan: planned(heelTurn, 30, 17) }),
  yarn: draw('yarn', yarn),
  levels: draw('levels', bound(centimetres({ part_neck: 1.5, part_band: 4.6, part_body: 2.5, limit: 2.5 }))),
};
