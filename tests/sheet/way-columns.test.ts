// A way through cells with a value for each column gives the very numbers that working all out anew gives, with few
// columns and with many, for every operation and wherever its operands have one value or one for each.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createLanguage, standard } from '../../src/formula/index.ts';
import { nearMultiple, wholeNear } from '../../src/quantity/index.ts';
import { Sheet } from '../../src/sheet/index.ts';
import { patience, runs } from '../support/runs.ts';

const language = createLanguage(standard);

/** Two cells with a value for each column and two with one value; the first of either are nudged. */
const LEAVES = ['a', 'b', 'one', 'other', '2', '0.5'] as const;
const numbers = fc.constantFrom(0, 1, 2, 2.5, 3, 7, -1, -4.5, 0.1, 1e9, 12.004, 0.5 - 1e-11, 6.5 + 1e-11);

/** Formulas of every operation a way knows, and one (the power) that it leaves. */
const { formula } = fc.letrec<{ formula: string }>((tie) => ({
  formula: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    fc.constantFrom(...LEAVES),
    ...['+', '-', '*', '/'].map((op) =>
      fc.tuple(tie('formula'), tie('formula')).map(([a, b]) => `(${a} ${op} ${b})`),
    ),
    ...['max', 'min', 'multiple'].map((name) =>
      fc.tuple(tie('formula'), tie('formula')).map(([a, b]) => `${name}(${a}, ${b})`),
    ),
    fc.tuple(tie('formula'), tie('formula'), tie('formula')).map(([a, b, c]) => `max(${a}, ${b}, ${c})`),
    ...['whole', 'abs', '-'].map((name) => tie('formula').map((a) => `${name}(${a})`)),
    tie('formula').map((a) => `(${a})^2`),
  ),
}));

/** What all cells hold, to the last bit; zeros of either sign are one. */
function heldBy(sheet: Sheet, columns: number): string {
  const held = sheet.cells.flatMap((id) =>
    Array.from({ length: columns }, (_, column) => {
      const value = sheet.value(id, column);
      return value.kind === 'quantity' ? `${value.value + 0}` : value.kind;
    }),
  );
  return held.join(' ');
}

interface Case {
  readonly columns: number;
  readonly a: readonly number[];
  readonly others: readonly number[];
  readonly formulas: readonly string[];
  readonly nudges: readonly (readonly number[])[];
  /** Whether the cell with one value is nudged, to the first of each. */
  readonly single: boolean;
}

const textsOf = (row: readonly number[], columns: number) =>
  Array.from({ length: columns }, (_, i) => `${row[i % row.length] ?? 1}`);

function sheetOf({ columns, others, formulas }: Case, a: readonly number[], one = 3): Sheet {
  const labels = Array.from({ length: columns }, (_, i) => `size ${i + 1}`);
  const sheet = new Sheet({ language, columns: labels });
  sheet.add('a', 'a', textsOf(a, columns));
  sheet.add('b', 'b', textsOf(others, columns));
  sheet.add('one', 'one', `${one}`);
  sheet.add('other', 'other', '-4');
  // Each hangs on what is nudged and on the one before it.
  for (const [i, formula] of formulas.entries())
    sheet.add(`f${i}`, `f${i}`, `${i === 0 ? 'a * one' : `f${i - 1}`} * 0.5 + ${formula}`);
  sheet.settle();
  return sheet;
}

const row = fc.array(numbers, { minLength: 1, maxLength: 12 });
const cases: fc.Arbitrary<Case> = fc.record({
  columns: fc.integer({ min: 1, max: 12 }),
  a: row,
  others: row,
  formulas: fc.array(formula, { minLength: 1, maxLength: 6 }),
  nudges: fc.array(row, { minLength: 4, maxLength: 6 }),
  single: fc.boolean(),
});

test(
  'going a way through columns gives what working all out anew gives',
  () => {
    let gone = 0;
    const { numRuns } = runs(300, 20_000);
    fc.assert(
      fc.property(cases, (one) => {
        const sheet = sheetOf(one, one.a);
        for (const nudge of one.nudges) {
          const [first = 1] = nudge;
          if (one.single) sheet.setText('one', `${first}`);
          else sheet.setText('a', textsOf(nudge, one.columns));
          if (sheet['settling']['trodden'].from(sheet['graph'].alone)) gone += 1;
          sheet.settle();
          expect(heldBy(sheet, one.columns)).toBe(
            heldBy(one.single ? sheetOf(one, one.a, first) : sheetOf(one, nudge), one.columns),
          );
        }
      }),
      { numRuns },
    );
    expect(gone).toBeGreaterThan(numRuns);
  },
  patience,
);

/** Counts at a tie, near one and nowhere near, small and large. */
const near = fc
  .tuple(
    fc.integer({ min: 1, max: 9 }),
    fc.constantFrom(0, 0.5, 0.25),
    fc.constantFrom(0, 1e-11, -1e-11, 1e-6),
    fc.constantFrom(1, -1),
  )
  .map(([whole, part, off, sign]) => sign * (whole + part + off));
const counts = fc.oneof(near, fc.constantFrom(1e9 + 0.3, 4e8 + 0.45, 3e15 + 0.5, 2 ** 52 + 1, -1e12 - 0.5));
const rows = fc.array(fc.array(counts, { minLength: 12, maxLength: 12 }), { minLength: 4, maxLength: 4 });

test(
  'in each column for itself a count is rounded, at a tie, near one and however large',
  () => {
    const { numRuns } = runs(300, 20_000);
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 12 }), rows, (columns, nudges) => {
        const sheet = new Sheet({
          language,
          columns: Array.from({ length: columns }, (_, i) => `size ${i + 1}`),
        });
        sheet.add('a', 'a', textsOf([1], columns));
        ['whole(a)', 'multiple(a, 2)', 'multiple(a, 1/4)'].map((text, i) =>
          sheet.add(`f${i}`, `f${i}`, text),
        );
        for (const nudge of nudges) {
          sheet.setText('a', textsOf(nudge, columns));
          sheet.settle();
          for (let column = 0; column < columns; column += 1) {
            const [a, ...found] = ['a', 'f0', 'f1', 'f2'].map(
              (id) => sheet['lanes'].values[sheet['lanes'].lane(sheet['nodeOf'](id), column)] ?? Number.NaN,
            );
            const expected = [wholeNear(a ?? 0), nearMultiple(a ?? 0, 2), nearMultiple(a ?? 0, 0.25)];
            expect(found.map((one) => one + 0)).toEqual(expected);
          }
        }
      }),
      { numRuns },
    );
  },
  patience,
);
