/*
 * How far off a measurement usually is, where nothing is said: common practice, offered and never put in unasked.
 * Half a stitch is soon miscounted, so a gauge is as good as the width it was counted over: ± ½ st over 4 in is ± ¼ over
 * 8. An unwashed swatch may grow or draw in by about a whole stitch. A tape lies by ¼ in or ½ cm, kitchen scales by a
 * gram.
 */

import { LENGTH, MASS, ROW_GAUGE, STITCH_GAUGE } from '../quantity/index.ts';
import type { Sheet } from '../sheet/index.ts';
import type { Lane, Tree } from './lanes.ts';
import type { Doubt, Effect } from './tolerance.ts';

/** A usual tolerance: how far off, in base units, and why. */
export interface Usual {
  readonly off: number;
  readonly why: 'miscounted' | 'unwashed' | 'tape' | 'scales';
  /** For a gauge: the width it was counted over, in base units. */
  readonly over?: number;
}

const INCH = 2540;
const CM = 1000;
/** Below this a basis is a way of writing ("4.5 st / in"), not the width that was counted. */
const NARROWEST = 1.9 * INCH;

/** The usual tolerances of a typed lane, the first the best guess; none where nothing is measured. */
export function usualTolerances(sheet: Sheet, { id, column }: Lane): readonly Usual[] {
  const value = sheet.value(id, column);
  const tree = sheet.info(id).typed ? sheet.tree(id, column) : undefined;
  if (value.kind !== 'quantity' || !tree || value.value === 0) return [];
  const { dimension } = value.type;
  if (dimension === STITCH_GAUGE || dimension === ROW_GAUGE) return ofGauge(countedOver(tree));
  if (dimension === LENGTH) return ofLength(Math.abs(value.value), unitOf(tree));
  return dimension === MASS ? [{ off: 1, why: 'scales' }] : [];
}

/** The width a gauge was counted over, as it was typed: `18 st / 4 in` over 4 in. */
export function countedOver(tree: Tree): number {
  const below =
    tree.kind === 'binary' && tree.op === '/' && tree.right.kind === 'literal' ? tree.right : undefined;
  const isInches = below ? /in|ft|yd/.test(below.shown.label) : true;
  const usual = isInches ? 4 * INCH : 10 * CM;
  return below && below.value >= NARROWEST ? below.value : usual;
}

function ofGauge(over: number): readonly Usual[] {
  return [
    { off: 0.5 / over, why: 'miscounted', over },
    { off: 1 / over, why: 'unwashed', over },
  ];
}

function ofLength(size: number, unit: string): readonly Usual[] {
  // Millimetres are needles, and metres and yards are of yarn, which is weighed or told on the label.
  if (['mm', 'm', 'yd'].includes(unit)) return [];
  const small = size < 10 * CM;
  if (unit === 'in' || unit === 'ft') return [{ off: INCH / (small ? 8 : 4), why: 'tape' }];
  return [{ off: small ? CM / 5 : CM / 2, why: 'tape' }];
}

function unitOf(tree: Tree): string {
  if (tree.kind === 'literal') return tree.shown.label;
  return tree.kind === 'minus' ? unitOf(tree.of) : '';
}

/** The measurement most worth repeating, and how far off the number would be if that one's doubt were halved. */
export function worthRepeating(
  doubt: Doubt,
): { readonly effect: Effect; readonly after: number } | undefined {
  const [effect] = doubt.effects;
  if (!effect || effect.half === 0) return undefined;
  const rest = doubt.rootSumSquare ** 2 - effect.half ** 2;
  return { effect, after: Math.sqrt(Math.max(0, rest) + (effect.half / 2) ** 2) };
}
