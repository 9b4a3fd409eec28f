// The big law: after any edits the sheet holds what a sheet made from nothing holds, and what a naive engine works out;
// and every cell that shows something else than before was named as changed. Engines that are wrong on purpose must
// be found out by the same law.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { Sheet, type SheetOptions } from '../../src/sheet/index.ts';
import { checkSheet, type Snapshot, snapshotOf } from '../support/check-sheet.ts';
import { NaiveSheet } from '../support/naive-sheet.ts';
import { patience, runs } from '../support/runs.ts';
import { apply, type Draft, type Edit, edit, emptyDraft, wholeOf } from './edits.ts';
import { FOUND } from './found.ts';

const language = createLanguage(standard);

function optionsOf({ columns, choice, today, money }: Draft): SheetOptions {
  return { language, columns, heading: 'size', choice, today, money };
}

/** The sheet made from nothing. */
function fromNothing(draft: Draft): Sheet {
  const sheet = new Sheet(optionsOf(draft));
  for (const { id, name, text } of draft.cells) sheet.add(id, name, text);
  sheet.setPins(draft.pins);
  sheet.settle();
  return sheet;
}

/** What the naive engine shows, as snapshots. */
function naively(draft: Draft): Map<string, unknown> {
  const naive = new NaiveSheet(language, wholeOf(draft));
  return new Map(
    draft.cells.map(({ id, name }) => {
      const { type, each, typed } = naive.info(name);
      const lanes = Array.from({ length: each ? draft.columns.length : 1 }, (_, c) => naive.value(name, c));
      return [id, { name, typed, each, type, values: lanes }];
    }),
  );
}

/** Settles, and checks that whatever shows something else was said to have changed. */
function settleAndCheck(sheet: Sheet, before: Map<string, Snapshot>): void {
  const { changed, ran } = sheet.settle();
  for (const [id, now] of snapshotOf(sheet)) {
    const same =
      JSON.stringify({ ...now, name: '', typed: false }) ===
      JSON.stringify({ ...before.get(id), name: '', typed: false });
    if (!same) expect(changed, `${id} shows something else`).toContain(id);
  }
  expect(new Set(ran).size).toBe(ran.length);
}

function checkAlike(shown: Map<string, unknown>, other: Map<string, unknown>, how: string): void {
  expect([...shown.keys()].sort()).toEqual([...other.keys()].sort());
  for (const [id, one] of shown)
    if (JSON.stringify(one) !== JSON.stringify(other.get(id)))
      expect.fail(`${id}: ${JSON.stringify(one)}\n${how}: ${JSON.stringify(other.get(id))}`);
}

/** Runs a sequence of edits, checking at every settling. */
function play(edits: readonly Edit[], make: (options: SheetOptions) => Sheet): void {
  const draft = emptyDraft();
  const sheet = make(optionsOf(draft));
  for (const change of [...edits, { do: 'settle' } as const]) {
    if (change.do !== 'settle') {
      apply(change, draft, sheet);
      continue;
    }
    settleAndCheck(sheet, shown);
    checkSheet(sheet);
    shown = snapshotOf(sheet);
    checkAlike(shown, naively(draft), 'worked out naively');
    checkAlike(shown, snapshotOf(fromNothing(draft)), 'made from nothing');
  }
}
let shown = new Map<string, Snapshot>();

function lawFor(make: (options: SheetOptions) => Sheet, numRuns: number, endOnFailure = false) {
  const sequences = fc.array(edit, { maxLength: 60, size: 'max' });
  return fc.check(
    fc.property(sequences, (edits) => {
      shown = new Map();
      play(edits, make);
    }),
    { numRuns, endOnFailure },
  );
}

/** Sheets with a fault put in, to see that the law finds it. */
const FAULTS: Readonly<Record<string, (sheet: Sheet) => void>> = {
  'a change that does not reach what hangs on it': (sheet) => {
    const graph = sheet['graph'];
    const sweep = graph.sweep.bind(graph);
    graph.sweep = (recompute) => sweep((node) => recompute(node) && node % 3 !== 0);
  },
  'a new name that nobody is told of': (sheet) => {
    sheet['take'] = (name, node) => void sheet['names'].take(name, node);
  },
  'a use that is forgotten': (sheet) => {
    const graph = sheet['graph'];
    const setUses = graph.setUses.bind(graph);
    graph.setUses = (node, uses) => setUses(node, uses.slice(0, 1));
  },
  'a choice that is not looked at again': (sheet) => {
    sheet.setChoice = () => {};
  },
  'an offer that stays as it was': (sheet) => {
    sheet['offerAgain'] = () => {};
  },
  'columns that keep their values': (sheet) => {
    const mark = sheet['makeStale'].bind(sheet);
    sheet.setColumns = function (labels, from) {
      sheet['makeStale'] = () => {};
      Sheet.prototype.setColumns.call(this, labels, from);
      sheet['makeStale'] = mark;
    };
  },
};

describe('after any edits', () => {
  test(
    'the sheet is the one made from nothing, and the one worked out naively',
    () => {
      const details = lawFor((options) => new Sheet(options), runs(150, 6000).numRuns);
      if (details.failed) throw new Error(`${fc.defaultReportMessage(details)}\n${details.errorInstance}`);
    },
    patience,
  );

  test.each(FOUND.map((edits, i) => [i + 1, edits] as const))(
    'also after those that once broke it (%i)',
    (_, edits) => {
      shown = new Map();
      play(edits, (options) => new Sheet(options));
    },
  );

  test.each(Object.entries(FAULTS))(
    'a wrong engine is found out: %s',
    (_, fault) => {
      const make = (options: SheetOptions) => {
        const sheet = new Sheet(options);
        fault(sheet);
        return sheet;
      };
      expect(lawFor(make, 5000, true).failed).toBe(true);
    },
    patience,
  );
});
