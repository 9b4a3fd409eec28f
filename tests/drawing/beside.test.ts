// A measure stands beside its own line. Beneath or above it, it would read as the measure of what is there: the leg's
// length beside the heel. And beside a slanting sleeve a line keeps close to what it measures. Common practice of drawing.
import { describe, expect, test } from 'vitest';
import { draw, drawingKind, type Laid, layOut } from '../../src/drawing/index.ts';
import { createSession } from '../../src/session/index.ts';
import { openNotebook, type Sets, TEST_DAY, withSets } from '../support/notebook.ts';

/** A drawing of a notebook, laid out as wide as the panel is, with some cells set. */
function laid(name: string, kind: string, sets: Sets, widthPx: number, units: 'in' | 'cm'): Laid {
  const notebook = { ...withSets(openNotebook(name), sets), units };
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const view = session.drawings().find((one) => one.kind === kind);
  if (!view || !drawingKind(kind)) throw new Error(`no ${kind} in ${name}`);
  return layOut(draw(kind, view.parts), widthPx);
}

const numbersIn = (d: string): readonly number[] => (d.match(/-?[\d.]+/g) ?? []).map(Number);

/** From where to where the lines of a label go down the page, and where its text stands. */
function placesOf({ paths, texts }: Laid, before: string) {
  const text = texts.find((one) => one.before === before && one.role === 'label');
  const line = paths.find((path) => path.role === 'dimension' && path.cell === text?.cell);
  if (!text || !line) throw new Error(`no measure of the ${before}`);
  const ys = numbersIn(line.d).filter((_, k) => k % 2 === 1);
  return { at: text.box.y + text.box.height / 2, from: Math.min(...ys), to: Math.max(...ys), d: line.d };
}

/** Where the key begins: beneath all lines. */
const floorOf = ({ paths }: Laid): number =>
  Math.max(
    ...paths.filter(({ role }) => role === 'piece').flatMap(({ d }) => numbersIn(d).filter((_, k) => k % 2)),
  );

const TALL: Sets = {
  ...{ foot_girth: '23 cm', foot_length: '24.5 cm', calf_girth: '37 cm', ankle_girth: '', heel_girth: '' },
  ...{ calf_height: '31 cm', leg_length: '22 cm', girth_at_cuff: '36 cm' },
  ...{ stitch_gauge: '30 st / 10 cm', row_gauge: '42 rnd / 10 cm' },
};

describe('the length of a leg', () => {
  test.each([335, 350, 680])('stands beside the leg, or in the key: %i px wide', (widthPx) => {
    for (const sets of [TALL, { ...TALL, calf_stitches: '88 st' }]) {
      const sock = laid('fit-sock', 'sock', sets, widthPx, 'cm');
      const { at, from, to } = placesOf(sock, 'leg');
      const isBeside = at >= from && at <= to;
      expect(isBeside || at > floorOf(sock), `${at} for ${from} to ${to}`).toBe(true);
    }
  });

  test('a leg that ends short of the calf has no calf', () => {
    // By hand: 22 cm of leg and 6.7 of flap are 28.7 cm up; the fullest calf is at 31.
    const { texts } = laid('fit-sock', 'sock', TALL, 335, 'cm');
    expect(texts.map(({ before }) => before)).not.toContain('calf');
  });
});

describe('the width of a cuff', () => {
  const WIDE: Sets = {
    ...{ pattern_stitch_gauge: '22 st / 10 cm', pattern_row_gauge: '30 row / 10 cm' },
    ...{ stitch_gauge: '20.5 st / 10 cm', row_gauge: '27 row / 10 cm', chest: '104 cm', ease_wanted: '8 cm' },
    ...{ body_length: '36.5 cm', sleeve_length: '40.5 cm' },
  };
  test.each([335, 350])('is measured close to the sleeve: %i px wide', (widthPx) => {
    const sweater = laid('resize-sweater', 'pullover', WIDE, widthPx, 'cm');
    const { from } = placesOf(sweater, 'cuff');
    const lowest = Math.max(
      ...sweater.paths
        .filter(({ role, d }) => role === 'piece' && numbersIn(d).length === 8)
        .flatMap(({ d }) => numbersIn(d).filter((_, k) => k % 2)),
    );
    expect(from - lowest).toBeLessThan(30);
  });
});
