// The compiled machine against two that are slow and plain: the walk over the tree, and mathjs's own evaluation with
// units. mathjs works nothing out outside this file and the other tests.
import fc from 'fast-check';
import { all, create, type FactoryFunctionMap, type Unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { halvesOf } from '../../src/quantity/index.ts';
import type { Value } from '../../src/sheet/index.ts';
import { brief, sheetOf } from '../support/cells.ts';
import { patience, runs } from '../support/runs.ts';
import { anything, arithmetic, CELLS } from './expressions.ts';

const math = create(all as FactoryFunctionMap);
math.createUnit('st');
const scope = {
  chest: math.unit(42, 'inch'),
  ease: math.unit(2.5, 'inch'),
  edge: math.unit(6, 'st'),
  gauge: math.evaluate('18 st / (4 inch)') as Unit,
  n: 3,
  share: 0.25,
};

/** What mathjs makes of a text, in our base units, or undefined where it is no finite number. */
function inMathjs(text: string, lengthPower: number): number | undefined {
  const made = math.evaluate(text, { ...scope }) as number | { value: number };
  const inMetres = typeof made === 'number' ? made : made.value;
  return Number.isFinite(inMetres) ? inMetres * 100_000 ** lengthPower : undefined;
}

/** A sheet with a text in a cell of its own. */
function sheetWith(text: string, given: Readonly<Record<string, string>> = CELLS) {
  const sheet = sheetOf(given, { choice: { column: 1 } });
  sheet.add('it', 'it', text);
  sheet.settle();
  return sheet;
}

function near(value: Value, wanted: number): boolean {
  if (value.kind !== 'quantity') return false;
  return Math.abs(value.value - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted));
}

/** A value for each column where one is wanted: found before anything is worked out, so there is nothing to compare. */
function isRefused(value: Value): boolean {
  return value.kind === 'problem' && value.problem.code === 'needs-single';
}

describe('the machine', () => {
  test(
    'works out what mathjs does with units',
    () => {
      fc.assert(
        fc.property(arithmetic, (text) => {
          const value = sheetWith(text).value('it');
          if (value.kind === 'problem') {
            expect(['division-by-nothing', 'too-large']).toContain(value.problem.code);
            return;
          }
          if (value.kind !== 'quantity') expect.fail(`${text}: ${brief(value)}`);
          const wanted = inMathjs(text, (halvesOf(value.type.dimension)[0] ?? 0) / 2);
          expect(wanted, text).toBeDefined();
          expect(near(value, wanted as number), `${text}: ${value.value}, mathjs ${wanted}`).toBe(true);
        }),
        runs(400, 20_000),
      );
    },
    patience,
  );

  test(
    'works out what the walk over the tree does, in every column, and has a value just where that has',
    () => {
      fc.assert(
        fc.property(anything, (text) => {
          const sheet = sheetWith(text);
          const { each } = sheet.info('it');
          const tree = sheet.tree('it');
          if (isRefused(sheet.value('it'))) return;
          if (!tree) expect.fail(`${text}: ${brief(sheet.value('it'))}`);
          for (let column = 0; column < (each ? 3 : 1); column += 1) {
            const [got, walked] = [sheet.value('it', column), sheet.workOut(tree, column)];
            const reasons = ['waiting', 'problem'];
            if (reasons.includes(got.kind)) expect(reasons, text).toContain(walked.kind);
            else expect(brief(got), `${text} in column ${column}`).toBe(brief(walked));
          }
        }),
        runs(400, 20_000),
      );
    },
    patience,
  );

  test(
    'works one column out as it works out three',
    () => {
      const narrow = { ...CELLS, body: '198.5 st', widths: '40 in', gauges: '20 st / 4 in' };
      fc.assert(
        fc.property(anything, (text) => {
          if (/total|largest|slope|nearest|chosen|at\(/.test(text)) return; // They look across the columns.
          const [wide, one] = [sheetWith(text), sheetWith(text, narrow)];
          expect(brief(one.value('it'))).toBe(brief(wide.value('it', wide.info('it').each ? 1 : 0)));
        }),
        runs(200, 10_000),
      );
    },
    patience,
  );
});

describe('numbers without end', () => {
  const LARGE = `${'9'.repeat(200)} in`;

  test.each([
    'large * large > 1 in * 1 in',
    '1 in * 1 in < large * large',
    'large / (large * large * large) > 0 / (1 in * 1 in)',
    'min(large * large, 1 in * 1 in)',
    'large * large == large * large',
    'max(1, large / (1 in / (large / (1 in))))',
    'abs(large * large)',
    'large * large * 0',
    '(large * large) ^ -1',
    '(large ^ 20) ^ 0',
    '-large * large + 10%',
  ])('%s is a problem, not a value', (text) => {
    for (const given of [{ large: LARGE }, { large: LARGE, sizes: '1 (2, 3) st' }]) {
      const value = sheetWith(text, given).value('it');
      expect(value).toMatchObject({ kind: 'problem', problem: { code: 'too-large' } });
    }
  });
});
