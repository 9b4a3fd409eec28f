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

/** The coarsest step a length is told to where it must not be rounded far, in the unit shown; undefined for other units. */
export const fineStep = (shown: Shown): number | undefined => lengthSteps(shown)?.[0];

function lengthSteps({ dimension, label }: Shown): readonly number[] | undefined {
  if (dimension !== LENGTH) return undefined;
  return label === 'in' ? OF_INCHES : label === 'cm' ? OF_CENTIMETRES : undefined;
}

function stepsFor(shown: Shown, off: number): readonly number[] {
  const steps = isGauge(shown.dimension) ? OF_GAUGES : lengthSteps(shown);
  if (steps) return steps;
  const place = Math.floor(Math.log10(off / shown.factor));
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
