// What holds for any values: texts apart at every width, nothing thrown, every bound value shown as its cell says it.
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { join, shape, toe } from '../../src/craft/index.ts';
import {
  type DrawingKind,
  drawings,
  layOut,
  type Part,
  type PartSpec,
  type Parts,
  toSvg,
} from '../../src/drawing/index.ts';
import type { PlanSpec } from '../../src/formula/index.ts';
import { faultsOf } from './check.ts';
import { part, pictures, planPart } from './samples.ts';

/** Long enough for a machine that is busy with other things. */
vi.setConfig({ testTimeout: 30_000 });

const widths = fc.integer({ min: 320, max: 1000 });
const runs = { numRuns: 40 };

const RANGES = {
  length: fc.double({ min: 2, max: 160, noNaN: true }),
  gauge: fc.double({ min: 0.6, max: 8, noNaN: true }),
  count: fc.integer({ min: 1, max: 900 }),
  number: fc.integer({ min: 0, max: 300 }),
  weight: fc.integer({ min: 1, max: 900 }),
} as const;

const UNITS = { length: ' cm', gauge: ' / 10 cm', count: ' sts', number: ' rows', weight: ' g' } as const;

/** A plan of a kind that the drawing draws, or none where the arguments are refused. */
function plans(kind: string): fc.Arbitrary<Part | string> {
  const of = (spec: PlanSpec, ...args: readonly fc.Arbitrary<number>[]) =>
    fc.tuple(...args).map((values): Part | string => {
      const plan = spec.work(...values);
      return 'steps' in plan ? planPart(plan) : 'The plan is waiting.';
    });
  const n = (min: number, max: number) => fc.integer({ min, max });
  if (kind === 'edging') return of(join, n(2, 1500), n(1, 12));
  return fc.oneof(
    of(shape, n(2, 300), n(2, 300), n(1, 300), n(1, 4), n(1, 2)),
    of(toe, n(30, 90), n(4, 30), n(20, 60)),
  );
}

function value(kind: string, spec: PartSpec): fc.Arbitrary<Part | string> {
  const { measures, name } = spec;
  if (measures === 'plan') return plans(kind);
  const print = (x: number) => `${Math.round(x * 10) / 10}${UNITS[measures]}`;
  return (RANGES[measures] as fc.Arbitrary<number>).map((x) => part(name, x, print(x)));
}

/** Plausible parts of a kind: the needed ones always, any of the others. */
function plausible(known: DrawingKind): fc.Arbitrary<Parts> {
  const many = (known.many ?? []).flatMap((spec) =>
    ['body', 'sleeves', 'yoke'].map((name): PartSpec => ({ ...spec, name: spec.name + name })),
  );
  const specs = [...known.parts, ...many];
  const entries = Object.fromEntries(specs.map((spec) => [spec.name, value(known.kind, spec)]));
  const needed = specs.filter((spec) => spec.needed).map((spec) => spec.name);
  return fc.record(entries, { requiredKeys: needed }) as fc.Arbitrary<Parts>;
}

describe.each(drawings.map((known) => [known.kind, known] as const))('%s', (_, known) => {
  test('no text lies on another or leaves the page, at any width', () => {
    fc.assert(
      fc.property(plausible(known), widths, (parts, widthPx) => {
        expect(faultsOf(layOut(known.draw(parts), widthPx))).toEqual([]);
      }),
      runs,
    );
  });

  test('a text that names a cell says what the cell says, and the words have it too', () => {
    fc.assert(
      fc.property(plausible(known), widths, (parts, widthPx) => {
        const picture = known.draw(parts);
        const said = picture.describe.join(' ');
        for (const text of layOut(picture, widthPx).texts) {
          if (text.cell === undefined || text.cell === 'cell-plan') continue;
          const bound = Object.values(parts).find((one) => typeof one === 'object' && one.cell === text.cell);
          const own = typeof bound === 'object' ? [bound.text, bound.name, 'held back', 'in all'] : [];
          expect(own).toContain(text.text);
          if (typeof bound === 'object' && text.text === bound.text) expect(said).toContain(bound.text);
        }
      }),
      runs,
    );
  });

  test('whatever it is given it draws what it can, and says what it left out', () => {
    const strange = fc.oneof(
      fc
        .constantFrom(Number.NaN, Infinity, -Infinity, 0, -1, 1e-9, 1e300, 5e-324)
        .map((x) => (name: string) => part(name, x, String(x))),
      fc.double().map((x) => (name: string) => part(name, x, `${x}`)),
      fc.string({ unit: 'binary', maxLength: 300 }).map((text) => (name: string) => part(name, 30, text)),
      fc.string().map((sentence) => () => sentence),
      fc.constant((name: string) =>
        planPart({
          kind: name,
          args: { joins: Number.NaN },
          steps: [{ rows: [5, 1], times: 0, do: 'x', says: '', after: -3 }],
          text: '',
          remarks: [],
          totals: { rows: 9, start: 1, stitches_after: Number.NaN },
        }),
      ),
    );
    const names = [...known.parts.map((spec) => spec.name), 'part_body', 'constructor', '__proto__'];
    const hostile = fc
      .array(fc.tuple(fc.constantFrom(...names), strange), { maxLength: 20 })
      .map((pairs) => Object.fromEntries(pairs.map(([name, make]) => [name, make(name)])));
    fc.assert(
      fc.property(hostile, fc.double(), (parts, widthPx) => {
        const picture = known.draw(parts);
        expect(faultsOf(layOut(picture, widthPx))).toEqual([]);
        expect(toSvg(picture, widthPx)).not.toMatch(/ (d|x|y|width|viewBox)="[^"]*(NaN|Infinity|undefined)/);
        if (!picture.block) expect(picture.leftOut).not.toEqual([]);
        for (const sentence of Object.values(parts)) {
          if (typeof sentence === 'string' && known.parts.some((spec) => parts[spec.name] === sentence))
            expect(picture.leftOut).toContain(sentence);
        }
      }),
      { numRuns: 150 },
    );
  });
});

test('the check sees a text that is moved onto another', () => {
  const picture = pictures['pullover'];
  if (!picture) throw new Error('no pullover');
  const laid = layOut(picture, 400);
  const [first, second, ...others] = laid.texts;
  if (!first || !second) throw new Error('no texts');
  const planted = {
    ...laid,
    texts: [first, { ...second, box: { ...first.box, x: first.box.x + 3 } }, ...others],
  };
  expect(faultsOf(laid)).toEqual([]);
  expect(faultsOf(planted).join()).toContain('lies on');
});
