// Garments whose numbers are published and balance, worked out as sheets; and what is common practice among knitters.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkFormula } from '../formula/check-formula.ts';
import { brief, type Given, sheetOf } from '../support/cells.ts';

const { garments } = JSON.parse(
  readFileSync(join(import.meta.dirname, '../data/garments-1918.json'), 'utf8'),
) as {
  garments: { source: string; cells: Given; values: Given }[];
};

describe('published garments', () => {
  test.each(garments)('$source', ({ cells, values }) => {
    for (const [name, value] of Object.entries(values)) checkFormula(name, value, cells);
  });
});

describe('another gauge (common practice)', () => {
  test('a count that makes 40.5 in at 24 st / 4 in makes 54 in at 18, four thirds as wide', () => {
    const cells = { pattern: '24 st / 4 in', own: '18 st / 4 in', cast_on: '40.5 in * pattern' };
    checkFormula('cast_on', '243 st', cells);
    checkFormula('cast_on / own', '54 in', cells);
    checkFormula('(cast_on / own) / (cast_on / pattern)', '4 / 3', cells);
  });

  test('200 stitches at 20 st / 10 cm are 220 at 22, or 90.909 cm with the same count', () => {
    const cells = { pattern: '20 st / 10 cm', own: '22 st / 10 cm', body: '200 st' };
    checkFormula('whole(body / pattern * own)', '220 st', cells);
    checkFormula('body / own', '1000/11 cm', cells);
  });

  test('4 in is not 10 cm: 200 stitches at 20 are 40 in or 39.370 in', () => {
    checkFormula('200 st / (20 st / 4 in)', '40 in');
    checkFormula('200 st / (20 st / 10 cm)', '100 cm');
    checkFormula('to_nearest(200 st / (20 st / 10 cm), 0.001 in)', '39.37 in');
  });

  test('every size moves with the gauge at once', () => {
    const sheet = sheetOf({ body: '176 (198, 220, 242) st', gauge: '22 st / 4 in', chest: 'body / gauge' });
    const widths = () => [0, 1, 2, 3].map((c) => brief(sheet.value('chest', c)));
    expect(widths()).toEqual(
      ['32 in', '36 in', '40 in', '44 in'].map((text) => brief(sheetOf({ x: text }).value('x'))),
    );
    sheet.setText('gauge', '20 st / 4 in');
    sheet.settle();
    expect(widths()).toEqual(
      ['35.2 in', '39.6 in', '44 in', '48.4 in'].map((text) => brief(sheetOf({ x: text }).value('x'))),
    );
  });
});

// Percentages of E. Zimmermann's yoke sweaters (Knitting Without Tears, 1971; Knitting Around, 1989), as summarised on
// public pages: 200 stitches of body, sleeves a third, underarms 8 %, neck 40 %.
describe('a yoke by percentages', () => {
  const YOKE = {
    body: '200 st',
    sleeve: 'whole(33% * body)',
    underarm: 'whole(8% * body)',
    yoke: 'body + 2 * sleeve - 4 * underarm',
    neck: 'whole(40% * body)',
    lost: 'yoke - neck',
    rounds_of_eight: 'lost / 8',
  };

  test.each([
    ['sleeve', '66 st'],
    ['underarm', '16 st'],
    ['yoke', '268 st'],
    ['neck', '80 st'],
    ['rounds_of_eight', '23.5 st'],
    ['yoke - 8 * whole_down(rounds_of_eight)', '84 st'],
    ['yoke - 8 * whole_up(rounds_of_eight)', '76 st'],
    ['whole(whole(whole(yoke * 2 / 3) * 2 / 3) * 2 / 3)', '79 st'],
    ['210 st - 10%', '189 st'],
  ])('%s is %s', (text, is) => {
    checkFormula(text, is, YOKE);
  });
});

// Ease: "classic fit" and "standard fit" of the Craft Yarn Council's standards, as worked on public pages: a bust of 38 in
// with 2 in of ease is 40 in finished; a chest of 40 in is 42 to 44 in; the wider classes are 4 to 6 in and from 6 in up.
describe('ease', () => {
  const classOf =
    'ease < 0 in ? "very close" : (ease < 2 in ? "close" : (ease <= 4 in ? "standard" : (ease <= 6 in ? "loose" : "oversized")))';

  test.each([
    ['38 in', '40 in', '2 in', '"standard"'],
    ['62 in', '64 in', '2 in', '"standard"'],
    ['40 in', '42 in', '2 in', '"standard"'],
    ['40 in', '44 in', '4 in', '"standard"'],
    ['40 in', '45 in', '5 in', '"loose"'],
    ['40 in', '47 in', '7 in', '"oversized"'],
    ['40 in', '40 in', '0 in', '"close"'],
    ['40 in', '37 in', '-3 in', '"very close"'],
    ['96.52 cm', '101.6 cm', '2 in', '"standard"'],
  ])('a chest of %s in a garment of %s has %s of ease: %s', (chest, finished, ease, fit) => {
    const cells = { chest, finished, ease: 'finished - chest' };
    checkFormula('to_nearest(ease, 0.0001 in)', ease, cells);
    checkFormula(classOf, fit, cells);
  });

  test('42 in at 20 st / 4 in is 210 stitches; taken for 10 cm it would be 213.36', () => {
    checkFormula('42 in * 20 st / 4 in', '210 st');
    checkFormula('42 in * (20 st / 4 in)', '210 st');
    checkFormula('44 in * (20 st / 4 in)', '220 st');
    checkFormula('42 in * (20 st / 10 cm)', '213.36 st');
  });
});
