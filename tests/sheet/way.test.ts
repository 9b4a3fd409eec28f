// A way that is remembered is gone as a wave that finds its own: beside a sheet that remembers none, after any edits with
// one cell nudged again and again between them, the same cells are worked out in the same order and hold the same.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { explore, Sheet } from '../../src/sheet/index.ts';
import { apply, type Draft, type Edit, edit, emptyDraft, NAMES } from '../laws/edits.ts';
import { checkSheet, snapshotOf } from '../support/check-sheet.ts';
import { patience, runs } from '../support/runs.ts';

const language = createLanguage(standard);

/** Numbers that a cell is nudged to: some hardly another, so that counts stay; some that nothing can be divided by. */
const NUDGES: Readonly<Record<string, readonly string[]>> = {
  chest: ['42 in', '42.001 in', '41 in', '0 in', '40 in', '42.5 in'],
  ease: ['2 in', '2.001 in', '0 in', '3 in', '', '2 in ± 1 in'],
  gauge: ['18 st / 4 in', '18.001 st / 4 in', '0 st / 4 in', '20 st / 4 in', '18 st'],
  edge: ['4 st', '0 st', '5 st', '4.25 st'],
};
const START: Readonly<Record<string, string>> = {
  chest: '42 in',
  ease: '2 in',
  gauge: '18 st / 4 in',
  edge: '4 st',
  finished_chest: 'chest + ease',
  stitches: 'finished_chest * gauge - edge * (2 - chest / finished_chest)',
  cast_on: 'multiple(stitches, 4)',
  größe: 'cast_on / gauge',
  fits: 'größe > chest ? ease : edge / gauge',
  n: 'whole(max(cast_on, edge) / edge)',
  tight_gauge: 'edge / -ease',
};

/** An edit of any kind, or one cell written again and again, each time settled. */
type Move = Edit | { readonly do: 'nudge'; readonly name: string; readonly texts: readonly string[] };

const nudge: fc.Arbitrary<Move> = fc.constantFrom(...Object.entries(NUDGES)).chain(([name, all]) =>
  fc.record({
    do: fc.constant('nudge' as const),
    name: fc.constant(name),
    texts: fc.array(fc.constantFrom(...all), { minLength: 3, maxLength: 8 }),
  }),
);
const moves = fc.array(fc.oneof({ weight: 2, arbitrary: nudge }, { weight: 1, arbitrary: edit }), {
  maxLength: 25,
  size: 'max',
});

/** How often ways were gone, through cells with a value for each column, not to their end, past a cell without a value. */
interface Tally {
  gone: number;
  each: number;
  cut: number;
  broken: number;
}

const nothing = (): Tally => ({ gone: 0, each: 0, cut: 0, broken: 0 });

/** A sheet of the start, settled, with its draft. */
function begun(columns: boolean): { readonly sheet: Sheet; readonly draft: Draft } {
  const draft = emptyDraft();
  const sheet = new Sheet({ language, columns: draft.columns, heading: 'size', money: '€', today: 20_500 });
  for (const [name, text] of Object.entries(START))
    apply({ do: 'add', name: NAMES.indexOf(name), text }, draft, sheet);
  if (columns) apply({ do: 'list', cell: 0, texts: ['42 in', '41 in', '0 in'] }, draft, sheet);
  sheet.settle();
  return { sheet, draft };
}

/** Settles both sheets and compares what they did and what they hold. */
function settleAlike(sheet: Sheet, other: Sheet, tally: Tally): void {
  const trodden = sheet['settling']['trodden'];
  const way = trodden.from(sheet['graph'].alone);
  const [now, then] = [sheet.settle(), other.settle()];
  expect(now.ran).toEqual(then.ran);
  expect(now.changed).toEqual(then.changed);
  const shown = snapshotOf(sheet);
  expect(JSON.stringify([...shown])).toBe(JSON.stringify([...snapshotOf(other)]));
  if (!way) return;
  tally.gone += 1;
  if (way.turns.length > 1) tally.each += 1;
  if (now.ran.length <= way.nodes.length) tally.cut += 1;
  if (sheet.cells.some((id) => now.ran.includes(id) && sheet.value(id).kind === 'problem')) tally.broken += 1;
}

/** Makes moves in two sheets side by side, of which one remembers no way. */
function play(all: readonly Move[], columns: boolean, tally: Tally, fault: (sheet: Sheet) => void): void {
  const [{ sheet, draft }, other] = [begun(columns), begun(columns)];
  other.sheet['settling']['trodden'].gone = () => {};
  fault(sheet);
  for (const move of all) {
    if (move.do !== 'nudge') {
      apply(move, draft, sheet);
      apply(move, other.draft, other.sheet);
      continue;
    }
    const cell = draft.cells.findIndex(({ name }) => name === move.name);
    for (const text of cell < 0 ? [] : move.texts) {
      apply({ do: 'set', cell, text }, draft, sheet);
      apply({ do: 'set', cell, text }, other.draft, other.sheet);
      settleAlike(sheet, other.sheet, tally);
      explore(sheet, [[{ id: draft.cells[cell]!.id, column: 0, value: 7 }]], true);
    }
  }
  settleAlike(sheet, other.sheet, tally);
  checkSheet(sheet);
}

const FAULTS: Readonly<Record<string, (sheet: Sheet) => void>> = {
  'a way that is kept when a formula or a kind is another': (sheet) => {
    sheet['settling']['trodden'].forget = () => {};
  },
  'a way that is kept when uses come and go': (sheet) => {
    Object.defineProperty(sheet['graph'], 'version', { value: 1 });
  },
  'what is left after a count that stayed is forgotten': (sheet) => {
    sheet['graph'].markBeyond = () => {};
  },
};

describe('a way that is remembered', () => {
  test(
    'is gone as a wave that finds its own',
    () => {
      const tally = nothing();
      const { numRuns } = runs(150, 5000);
      fc.assert(
        fc.property(moves, fc.boolean(), (all, columns) => play(all, columns, tally, () => {})),
        { numRuns },
      );
      for (const count of Object.values(tally)) expect(count).toBeGreaterThan(numRuns);
    },
    patience,
  );

  test.each(Object.entries(FAULTS))(
    'is found out where it is wrong: %s',
    (_, fault) => {
      const tally = nothing();
      const law = fc.property(moves, fc.boolean(), (all, columns) => play(all, columns, tally, fault));
      expect(fc.check(law, { numRuns: 2000, endOnFailure: true }).failed).toBe(true);
    },
    patience,
  );

  test('is none where a cell on it is not plain, and is not looked for again', () => {
    const { sheet } = begun(false);
    sheet.setPins(new Map([['k6', new Map([[0, '88 st']])]]));
    const below = sheet['graph'].below.bind(sheet['graph']);
    let asked = 0;
    sheet['graph'].below = (from) => {
      asked += 1;
      return below(from);
    };
    for (const text of ['41 in', '40 in', '41 in', '40 in']) {
      sheet.setText('k0', text);
      sheet.settle();
    }
    expect(asked).toBe(1);
    expect(sheet['settling']['trodden'].from(sheet['nodeOf']('k0'))).toBeUndefined();
  });
});
