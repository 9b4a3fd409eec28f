/*
 * From where on something is decided otherwise, told so that it is true: what is shown, typed as it stands, gives the
 * number that is told, and a step nearer to what is typed now would not. "40 sts from hand 19.9 cm down."
 */

import type { Lane, Otherwise } from '../doubt/index.ts';
import { isGauge, LENGTH, type Printed, printValue, type Shown, snapped } from '../quantity/index.ts';
import { explore } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { unitAt } from './show.ts';

/** Steps in the unit shown, the coarsest first; a finer one is taken where the limit lies too near the end of the doubt. */
const OF_INCHES = [1 / 16, 1 / 100, 1 / 1000];
const OF_CENTIMETRES = [1 / 10, 1 / 100, 1 / 1000];
const OF_GAUGES = [1 / 100, 1 / 1000];

function stepsFor({ dimension, label, factor }: Shown, off: number): readonly number[] {
  if (isGauge(dimension)) return OF_GAUGES;
  if (dimension === LENGTH && label === 'in') return OF_INCHES;
  if (dimension === LENGTH && label === 'cm') return OF_CENTIMETRES;
  const place = Math.floor(Math.log10(off / factor));
  return [1, 2, 3].map((finer) => Number(`1e${place - finer}`));
}

/** The limit as it is told, in the unit its value is shown in; undefined where that is no number. */
export function limitTold(live: Live, decided: Lane, otherwise: Otherwise): Printed | undefined {
  const { by, side, from, value } = otherwise;
  const given = live.sheet.value(by.id, by.column);
  if (given.kind !== 'quantity') return undefined;
  const shown = unitAt(live, by.id, by.column, given);
  const away = side === 'more' ? 1 : -1;
  const candidates = stepsFor(shown, by.off).flatMap((step) => {
    const at = snapped(from / shown.factor / step);
    // The last step before the limit found, which may be the limit itself, and the first one beyond it.
    const [before, beyond] = away > 0 ? [Math.floor(at), Math.ceil(at)] : [Math.ceil(at), Math.floor(at)];
    const next = beyond === before ? before + away : beyond;
    return [before, next].map((steps) => ({
      step: step * shown.factor,
      value: Number((steps * step).toPrecision(12)) * shown.factor,
    }));
  });
  const explored = explore(
    live.sheet,
    candidates.map((one) => [{ ...by, value: one.value }]),
    false,
    decided.id,
  );
  const isTrue = (one: number, variant: number) =>
    Object.is(explored.number(decided.id, decided.column, variant), value) &&
    Math.abs(one - by.value) <= by.off * (1 + 1e-9);
  const told = candidates.find((one, i) => isTrue(one.value, i + 1)) ?? candidates.at(-1);
  return told && printValue(told.value, shown, false, told.step);
}
