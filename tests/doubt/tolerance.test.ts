// How far off can it be: a case worked out by hand, the rule that decided counts are held, and every prebuilt notebook
// (as it stands, and with the usual tolerances put in) against random samples.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Doubt,
  doubtOf,
  keyOf,
  type Lane,
  laneOf,
  MOST_CORNERS,
  uncertainLanes,
  usualTolerances,
  worthRepeating,
} from '../../src/doubt/index.ts';
import { isDecided } from '../../src/formula/index.ts';
import { explore, type Sheet } from '../../src/sheet/index.ts';
import { sheetOf } from '../support/cells.ts';
import { liveNotebook, notebookNames } from '../support/notebook.ts';
import { LONG, patience, runs } from '../support/runs.ts';
import { lanesOf, sheetFrom, sheets } from './generated.ts';
import { deviation, randomFrom, sampled } from './sampled.ts';

const INCH = 2540;
const inches = (value: number) => value / INCH;
const allTyped = (sheet: Sheet): readonly Lane[] =>
  sheet.cells.filter((id) => sheet.info(id).typed).flatMap((id) => lanesOf(sheet, id));

describe('by hand', () => {
  // Source: arithmetic. 18 ± ½ st to 4 in, 24 ± ½ rows to 4 in, a chest of 42 ± 1 in, 2 in of ease.
  // (42 + 2) × 18 ÷ 4 = 198 st, to a multiple of 4: 200 st. 200 ÷ 4.5 = 44.4444 in; ÷ 4.625 = 43.2432; ÷ 4.375 = 45.7143.
  const sheet = sheetOf({
    gauge: '18 ± 0.5 st / 4 in',
    row_gauge: '24 ± 0.5 row / 4 in',
    chest: '42 ± 1 in',
    ease: '2 in',
    cast_on: 'multiple((chest + ease) * gauge, 4)',
    width: 'cast_on / gauge',
    actual_ease: 'width - chest',
    rows: 'whole(15 in * row_gauge)',
    length: 'rows / row_gauge',
    area: 'width * length',
    plain: 'ease * 2',
  });
  const of = (id: string) => doubtOf(sheet, laneOf(sheet, id, 0));

  test('what is cast on stays cast on', () => {
    const doubt = of('cast_on');
    expect(doubt.value).toBe(200);
    expect(doubt.effects.map(({ id, nothing }) => [id, nothing])).toEqual([
      ['gauge', true],
      ['chest', true],
    ]);
    expect([doubt.rootSumSquare, doubt.least, doubt.most]).toEqual([0, 200, 200]);
  });

  test('a misread gauge changes the inches', () => {
    const { effects, least, most, about } = of('width');
    expect(effects.filter(({ nothing }) => !nothing).map(({ id }) => id)).toEqual(['gauge']);
    expect(inches(effects[0]?.atLess ?? 0)).toBeCloseTo(45.7143, 4);
    expect(inches(effects[0]?.atMore ?? 0)).toBeCloseTo(43.2432, 4);
    expect([inches(least), inches(most)]).toEqual([expect.closeTo(43.2432, 4), expect.closeTo(45.7143, 4)]);
    expect(about).toBe(false);
  });

  test('two effects: root of squares, and both at once', () => {
    const doubt = of('actual_ease');
    // ½ × (45.7143 − 43.2432) = 1.23552 in by the gauge, 1 in by the chest; √(1.23552² + 1²) = 1.58949 in.
    expect(inches(doubt.rootSumSquare)).toBeCloseTo(1.58949, 4);
    // 44.4444 − 42 = 2.4444; at worst 43.2432 − 43 = 0.2432 and 45.7143 − 41 = 4.7143.
    expect([inches(doubt.least), inches(doubt.most)]).toEqual([
      expect.closeTo(0.2432, 4),
      expect.closeTo(4.7143, 4),
    ]);
    expect(doubt.effects.map(({ id }) => id)).toEqual(['gauge', 'chest']);
  });

  test('the measurement most worth repeating, and what halving its doubt would do', () => {
    const best = worthRepeating(of('actual_ease'));
    expect(best?.effect.id).toBe('gauge');
    // √((1.23552 ÷ 2)² + 1²) = 1.17541 in.
    expect(inches(best?.after ?? 0)).toBeCloseTo(1.17541, 4);
  });

  test('what nothing uncertain leads to has no effects', () => {
    expect(of('plain').effects).toEqual([]);
    expect(worthRepeating(of('plain'))).toBeUndefined();
  });
});

describe('which way is taken', () => {
  test('a turn inside is looked for: abs is least where nothing is off', () => {
    const sheet = sheetOf({
      a: '10 ± 2 in',
      b: '11 ± 0.5 in',
      off: 'abs(a - b)',
      either: 'a > b ? a : 30 in',
    });
    const doubt = doubtOf(sheet, { id: 'off', column: 0 });
    expect([doubt.about, doubt.branches]).toEqual([true, true]);
    expect(inches(doubt.least)).toBeCloseTo(0, 3);
    expect(inches(doubt.most)).toBeCloseTo(3.5, 9);
    const test = doubtOf(sheet, { id: 'either', column: 0 });
    expect(test.branches).toBe(true);
    expect(inches(test.most)).toBeCloseTo(30, 9);
  });

  test('an effect that turns round between its ends is "about"', () => {
    const sheet = sheetOf({ a: '1 ± 3 in', area: 'a * a' });
    const doubt = doubtOf(sheet, { id: 'area', column: 0 });
    expect([doubt.branches, doubt.about]).toEqual([false, true]);
    expect(doubt.least / INCH ** 2).toBeCloseTo(0, 3);
    expect(doubt.most / INCH ** 2).toBeCloseTo(16, 6);
  });

  test('up to six values are put at all their ends together, more are "about"', () => {
    const many = (count: number) => {
      const names = Array.from({ length: count }, (_, i) => `a${i}`);
      const sheet = sheetOf({
        ...Object.fromEntries(names.map((name) => [name, '10 ± 1 in'])),
        sum: names.join(' + '),
      });
      return doubtOf(sheet, { id: 'sum', column: 0 });
    };
    expect(many(MOST_CORNERS).about).toBe(false);
    expect(many(MOST_CORNERS + 1).about).toBe(true);
    expect(inches(many(MOST_CORNERS + 1).most)).toBeCloseTo(77, 6);
  });
});

/** Where a lane's doubt is wrong against samples of it. */
function wrongAgainst(sheet: Sheet, lane: Lane, doubt: Doubt, spread: ReturnType<typeof sampled>): string[] {
  const found = spread.get(keyOf(lane.id, lane.column));
  if (!found || found.count === 0) return [];
  const name = `${sheet.nameOf(lane.id)} ${lane.column}`;
  const size = Math.max(Math.abs(doubt.value), doubt.most - doubt.least);
  const slack = 1e-9 * size + (doubt.about ? 0.005 * (doubt.most - doubt.least) : 0);
  const wrong: string[] = [];
  if (found.least < doubt.least - slack || found.most > doubt.most + slack)
    wrong.push(`${name}: ${found.least} to ${found.most} outside ${doubt.least} to ${doubt.most}`);
  const spreadWide = Math.sqrt(3) * deviation(found);
  if (!doubt.branches && Math.abs(doubt.rootSumSquare - spreadWide) > 0.1 * spreadWide + 1e-9 * size)
    wrong.push(`${name}: root-sum-square ${doubt.rootSumSquare}, √3 of the deviation ${spreadWide}`);
  return wrong;
}

function wrongIn(
  sheet: Sheet,
  samples: number,
  held = true,
): { readonly wrong: string[]; readonly lanes: number } {
  const uncertain = uncertainLanes(sheet, allTyped(sheet));
  const spread = sampled(sheet, uncertain, samples, held);
  const wrong: string[] = [];
  let lanes = 0;
  for (const id of sheet.cells) {
    const { typed, type } = sheet.info(id);
    if (typed || type.kind !== 'quantity') continue;
    for (const lane of lanesOf(sheet, id)) {
      const doubt = doubtOf(sheet, lane);
      if (doubt.effects.length > 0) lanes += 1;
      wrong.push(...wrongAgainst(sheet, lane, doubt, spread));
    }
  }
  return { wrong, lanes };
}

/** Puts the usual tolerance on some typed measurements that have none. */
function withUsual(sheet: Sheet, most: number): void {
  let put = 0;
  for (const { id, column } of allTyped(sheet)) {
    const [usual] = usualTolerances(sheet, { id, column });
    const text = sheet.textOf(id);
    if (!usual || typeof text !== 'string' || sheet.tolerance(id) > 0 || put >= most) continue;
    const tree = sheet.tree(id);
    if (tree?.kind !== 'binary') continue; // Gauges: what most hangs on.
    const unit = /(st|row|rnd).*$/.exec(text)?.[0];
    if (!unit) continue;
    sheet.setText(id, `${text.slice(0, text.length - unit.length)}± 0.5 ${unit}`);
    put += 1;
  }
  sheet.settle();
}

describe('against random samples', () => {
  const withDoubt = notebookNames.filter((name) => {
    const { sheet } = liveNotebook(name);
    return uncertainLanes(sheet, allTyped(sheet)).length > 0;
  });

  test('some prebuilt notebooks carry tolerances', () => {
    expect(withDoubt.length).toBeGreaterThanOrEqual(2);
  });

  test.each(withDoubt)(
    '%s, as it stands, 100 000 samples',
    (name) => {
      const { wrong, lanes } = wrongIn(liveNotebook(name).sheet, 100_000);
      expect(wrong).toEqual([]);
      expect(lanes).toBeGreaterThan(0);
    },
    patience,
  );

  test.each(notebookNames)(
    '%s, its gauges miscounted by half a stitch',
    (name) => {
      const { sheet } = liveNotebook(name);
      withUsual(sheet, 3);
      const { wrong } = wrongIn(sheet, LONG ? 100_000 : 2_000);
      expect(wrong).toEqual([]);
    },
    patience,
  );

  test(
    'random sheets',
    () => {
      const law = fc.property(sheets, (data) => {
        const sheet = sheetFrom(data);
        const uncertain = uncertainLanes(sheet, allTyped(sheet));
        const spread = sampled(sheet, uncertain, 400);
        for (const id of sheet.cells) {
          const { typed, type } = sheet.info(id);
          if (typed || type.kind !== 'quantity') continue;
          for (const lane of lanesOf(sheet, id)) {
            const doubt = doubtOf(sheet, lane);
            const found = spread.get(keyOf(id, lane.column));
            if (!found || found.count === 0 || doubt.about) continue;
            const slack = 1e-9 * Math.max(Math.abs(doubt.value), doubt.most - doubt.least);
            expect(found.least, `${id} ${lane.column} ${sheet.textOf(id)}`).toBeGreaterThanOrEqual(
              doubt.least - slack,
            );
            expect(found.most, `${id} ${lane.column} ${sheet.textOf(id)}`).toBeLessThanOrEqual(
              doubt.most + slack,
            );
          }
        }
      });
      fc.assert(law, runs(40, 2_000));
    },
    patience,
  );
});

describe('the rule that counts are held', () => {
  test('is found out when it is broken: recomputed counts leave the bars, and the chest no longer follows the gauge', () => {
    const { sheet } = liveNotebook('resize-sweater');
    expect(wrongIn(sheet, 2_000, false).wrong.length).toBeGreaterThan(10);
    const counted = sheet.cells.filter((id) => !sheet.info(id).typed && isDecided(sheet.info(id).type));
    for (const id of counted)
      for (const lane of lanesOf(sheet, id)) {
        const doubt = doubtOf(sheet, lane);
        if (!doubt.branches) expect([doubt.least, doubt.most], id).toEqual([doubt.value, doubt.value]);
      }
  });

  test('keeps the girth of a count of one’s own as uncertain as the gauge; recomputed it would hardly move', () => {
    const sheet = sheetOf({
      gauge: '18 ± 0.5 st / 4 in',
      chest: '42 in',
      n: 'whole(chest * gauge)',
      girth: 'n / gauge',
    });
    const doubt = doubtOf(sheet, { id: 'girth', column: 0 });
    expect(inches(doubt.most - doubt.least)).toBeGreaterThan(2);
    const random = randomFrom(3);
    const points = Array.from({ length: 50 }, () => [
      { id: 'gauge', column: 0, value: (18 + (random() - 0.5)) / (4 * INCH) },
    ]);
    const recomputed = explore(sheet, points, false);
    for (let v = 1; v <= 50; v += 1)
      expect(Math.abs(inches(recomputed.number('girth', 0, v)) - 42)).toBeLessThan(0.13);
  });
});
