// Working back: an answer reproduces what was wanted when it is put in, and "cannot be reached" is never told of what can.

import { describe, expect, test } from 'vitest';
import {
  type Answer,
  type Domain,
  domainOf,
  type Lane,
  laneOf,
  lanesTo,
  type Stated,
  type Wanted,
  workBack,
} from '../../src/doubt/index.ts';
import { same } from '../../src/quantity/index.ts';
import type { Live } from '../../src/session/index.ts';
import { explore, type Sheet } from '../../src/sheet/index.ts';
import { sheetOf } from '../support/cells.ts';
import { liveNotebook, notebookNames } from '../support/notebook.ts';
import { LONG } from '../support/runs.ts';
import { randomFrom } from './sampled.ts';

const INCH = 2540;
const lane = (id: string): Lane => ({ id, column: 0 });

function back(sheet: Sheet, wantedId: string, givingId: string, value: number, stated: Stated = {}): Answer {
  const giving = lane(givingId);
  const domain = domainOf(sheet, giving, stated) as Domain;
  return workBack(sheet, lane(wantedId), giving, domain, { kind: 'number', value });
}

/** What a lane comes to with one value put in. */
function outcome(sheet: Sheet, wanted: Lane, giving: Lane, value: number): number {
  return explore(sheet, [[{ ...giving, value }]], false).number(wanted.id, wanted.column, 1);
}

describe('where the outcome moves smoothly', () => {
  const sheet = sheetOf({
    body: '198 st',
    gauge: '19 st / 4 in',
    chest: '40 in',
    width: 'body / gauge',
    ease: 'width - chest',
  });

  test('the answer is the number itself', () => {
    // Source: arithmetic. 198 st ÷ 44 in = 4.5 st to the inch, 18 to 4 in.
    const { found, evaluations } = back(sheet, 'width', 'gauge', 44 * INCH);
    expect((found?.at ?? 0) * 4 * INCH).toBeCloseTo(18, 9);
    expect(found?.from).toBe(found?.to);
    expect(evaluations).toBeLessThan(600);
  });

  test('a difference, through nothing', () => {
    const { found } = back(sheet, 'ease', 'chest', 0);
    expect((found?.at ?? 0) / INCH).toBeCloseTo((198 / 19) * 4, 7);
  });

  test('outside its own range it cannot be reached, and the end that comes nearest is told', () => {
    const answer = back(sheet, 'width', 'gauge', 60 * INCH, { range: [17 / (4 * INCH), 22 / (4 * INCH)] });
    expect(answer.found).toBeUndefined();
    expect(answer.cannot).toBe(true);
    expect(answer.above).toBeUndefined();
    expect((answer.below?.outcome ?? 0) / INCH).toBeCloseTo((198 / 17) * 4, 9);
  });

  test('there and back again: what turns round is found on the near side', () => {
    const turning = sheetOf({ x: '3 in', y: 'x * (10 in - x)' });
    const { found } = back(turning, 'y', 'x', 24 * INCH * INCH);
    expect((found?.at ?? 0) / INCH).toBeCloseTo(4, 6);
    const top = back(turning, 'y', 'x', 26 * INCH * INCH);
    expect([top.found, top.cannot]).toEqual([undefined, true]);
    expect((top.below?.outcome ?? 0) / INCH ** 2).toBeCloseTo(25, 4);
  });
});

describe('where the outcome steps', () => {
  const sheet = sheetOf({
    chest: '40 in',
    gauge: '18 st / 4 in',
    cast_on: 'multiple(chest * gauge, 8)',
    width: 'cast_on / gauge',
  });

  test('an answer is a whole stretch', () => {
    // Source: arithmetic. 200 st for 196 to 204 st of width: 43 5/9 to 45 1/3 in (a tie goes to the larger).
    const { found } = back(sheet, 'cast_on', 'chest', 200);
    expect([(found?.from ?? 0) / INCH, (found?.to ?? 0) / INCH]).toEqual([
      expect.closeTo(196 / 4.5, 6),
      expect.closeTo(204 / 4.5, 6),
    ]);
    expect(found?.at).toBe(found?.from);
  });

  test('between two multiples nothing can be reached: both neighbours are told', () => {
    const answer = back(sheet, 'cast_on', 'chest', 203);
    expect([answer.found, answer.cannot]).toEqual([undefined, true]);
    expect([answer.below?.outcome, answer.above?.outcome]).toEqual([200, 208]);
    expect(answer.below?.to).toBeLessThan(answer.above?.from ?? 0);
  });

  test('whole counts stay whole', () => {
    const counts = sheetOf({ n: '12', sts: 'n * 8 st', half: 'sts / 2' });
    expect(back(counts, 'half', 'n', 100)).toMatchObject({
      found: { at: 25, from: 25, to: 25 },
      cannot: false,
    });
    expect(back(counts, 'half', 'n', 102)).toMatchObject({
      below: { at: 25 },
      above: { at: 26 },
      cannot: true,
    });
  });

  test('a label: what chest makes it M', () => {
    const sizes = sheetOf(
      { made: '36 (40, 44) in', chest: '35 in', follow: 'nearest(made, chest + 2 in)' },
      { columns: ['S', 'M', 'L'] },
    );
    const label = sizes.around.store.label('m');
    const domain = domainOf(sizes, lane('chest')) as Domain;
    const { found } = workBack(sizes, lane('follow'), lane('chest'), domain, { kind: 'label', value: label });
    expect([(found?.from ?? 0) / INCH, (found?.to ?? 0) / INCH]).toEqual([
      expect.closeTo(36, 6),
      expect.closeTo(40, 6),
    ]);
    const never = workBack(sizes, lane('follow'), lane('chest'), domain, {
      kind: 'label',
      value: sizes.around.store.label('XXL'),
    });
    expect([never.found, never.cannot]).toEqual([undefined, true]);
  });

  test('a yes or no, and a yes or no that gives way', () => {
    const sheet2 = sheetOf({
      chest: '40 in',
      flat: 'no',
      fits: 'chest <= 42 in',
      edge: 'flat ? 2 st : 0 st',
    });
    expect((back(sheet2, 'fits', 'chest', 0).found?.at ?? 0) / INCH).toBeCloseTo(42, 4);
    expect(back(sheet2, 'edge', 'flat', 2)).toMatchObject({ found: { at: 1 } });
    expect(back(sheet2, 'edge', 'flat', 3).cannot).toBe(true);
  });

  test('a day', () => {
    const days = sheetOf({ start: '2026-05-04', finish: 'start + 30 days' });
    const { found } = back(days, 'finish', 'start', (Date.UTC(2026, 6, 1) / 86_400_000) * 1440);
    expect(found?.at).toBe((Date.UTC(2026, 5, 1) / 86_400_000) * 1440);
  });

  test('an empty cell of no known kind is not looked through', () => {
    const sheet3 = sheetOf({ chest: '', twice: 'chest * 2' });
    expect(domainOf(sheet3, lane('chest'))).toBeUndefined();
  });
});

// ── Every typed and every worked-out cell of every prebuilt notebook ───

interface Tally {
  found: number;
  cannot: number;
  /** What was neither found nor shown to be out of reach. */
  open: string[];
  evaluations: number;
  boundings: number;
  pairs: number;
  wrong: string[];
}

function statedOf(live: Live, { id, column }: Lane): Stated {
  const cell = live.cell(id);
  const ends = cell?.range?.map((text) => {
    const { parsed } = live.sheet.look(text);
    const value = parsed.kind === 'tree' ? live.sheet.workOut(parsed.tree, column) : undefined;
    return value?.kind === 'quantity' ? value.value : Number.NaN;
  });
  return {
    ...(cell?.choices ? { choices: cell.choices } : {}),
    ...(ends?.every((end) => !Number.isNaN(end))
      ? { range: ends as unknown as readonly [number, number] }
      : {}),
  };
}

function anyOf(domain: Domain, random: () => number): number {
  if (domain.kind === 'some') return domain.values[Math.floor(random() * domain.values.length)] ?? Number.NaN;
  const { from, to, step } = domain;
  return step > 0
    ? from + Math.floor((random() * (to - from)) / step + 0.5) * step
    : from + random() * (to - from);
}

/** What is wanted of a lane: what it comes to somewhere in the domain, or something beside what it holds now. */
function wishes(
  sheet: Sheet,
  wanted: Lane,
  giving: Lane,
  domain: Domain,
  random: () => number,
): readonly (Wanted & { readonly isReached: boolean })[] {
  const { type } = sheet.info(wanted.id);
  const now = explore(sheet, [], false).number(wanted.id, wanted.column, 0);
  const somewhere = outcome(sheet, wanted, giving, anyOf(domain, random));
  const kind = type.kind === 'label' ? 'label' : 'number';
  const beside =
    type.kind === 'label'
      ? sheet.around.store.label(sheet.columnLabels[Math.floor(random() * 3)] ?? 'nowhere')
      : type.kind === 'truth'
        ? 1 - now
        : now * (0.5 + random() * 1.5) + random();
  return [
    { kind, value: somewhere, isReached: true } as const,
    { kind, value: beside, isReached: false } as const,
  ].filter(({ value }) => !Number.isNaN(value));
}

function isReached(sheet: Sheet, wanted: Wanted, number: number): boolean {
  return wanted.kind === 'label'
    ? sheet.around.store.sameLabel(wanted.value, number)
    : same(wanted.value, number);
}

function checkPair(live: Live, wanted: Lane, giving: Lane, random: () => number, tally: Tally): void {
  const { sheet } = live;
  const domain = domainOf(sheet, giving, statedOf(live, giving));
  if (!domain) return;
  for (const wish of wishes(sheet, wanted, giving, domain, random)) {
    const answer = workBack(sheet, wanted, giving, domain, wish);
    const where = `${sheet.nameOf(wanted.id)} ${wanted.column} by ${sheet.nameOf(giving.id)} ${giving.column}: ${wish.value}`;
    tally.pairs += 1;
    tally.evaluations += answer.evaluations;
    tally.boundings += answer.boundings;
    if (answer.found) {
      tally.found += 1;
      for (const value of [answer.found.at, answer.found.from, answer.found.to])
        if (!isReached(sheet, wish, outcome(sheet, wanted, giving, value)))
          tally.wrong.push(`${where} not at ${value}`);
    } else if (answer.cannot) {
      tally.cannot += 1;
      if (wish.isReached) tally.wrong.push(`${where} is told to be out of reach, and was reached`);
      for (let i = 0; i < 10; i += 1) {
        const value = anyOf(domain, random);
        if (isReached(sheet, wish, outcome(sheet, wanted, giving, value)))
          tally.wrong.push(`${where} is reached at ${value}`);
      }
    } else
      tally.open.push(`${where}, after ${answer.evaluations} evaluations and ${answer.boundings} bounds`);
    for (const side of [answer.below, answer.above])
      if (side && !same(outcome(sheet, wanted, giving, side.at), side.outcome))
        tally.wrong.push(`${where} beside`);
  }
}

/** Tries a share of all pairs of a notebook, or all of them. */
function checkNotebook(name: string, shareOfPairs: number): Tally {
  const live = liveNotebook(name);
  const { sheet } = live;
  const random = randomFrom(11);
  const tally: Tally = {
    found: 0,
    cannot: 0,
    open: [],
    evaluations: 0,
    boundings: 0,
    pairs: 0,
    wrong: [],
  };
  for (const id of sheet.cells) {
    const { typed, type } = sheet.info(id);
    if (typed || !['quantity', 'truth', 'label', 'date'].includes(type.kind)) continue;
    const wanted = laneOf(sheet, id, Math.max(0, sheet.chosenColumn));
    for (const giving of lanesTo(sheet, wanted, false))
      if (sheet.info(giving.id).typed && random() < shareOfPairs)
        checkPair(live, wanted, giving, random, tally);
  }
  return tally;
}

describe('in every prebuilt notebook', () => {
  test.each(notebookNames)(
    '%s: an answer, or shown to be out of reach',
    (name) => {
      const started = performance.now();
      const tally = checkNotebook(name, LONG ? 1 : 0.04);
      const ms = (performance.now() - started) / Math.max(1, tally.pairs);
      if (LONG)
        process.stdout.write(
          `${name}: ${tally.pairs} asked, ${tally.found} found, ${tally.cannot} out of reach, ${tally.open.length} open; ${Math.round(tally.evaluations / tally.pairs)} evaluations and ${Math.round(tally.boundings / tally.pairs)} bounds each, ${ms.toFixed(1)} ms\n`,
        );
      expect(tally.wrong).toEqual([]);
      expect(tally.pairs).toBeGreaterThan(0);
      expect(tally.open).toEqual([]);
    },
    LONG ? 1_800_000 : 60_000,
  );
});
