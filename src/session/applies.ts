/* Whether a step is to be told now. */

import type { Step } from '../notebook/index.ts';
import { isAdvice } from './advice.ts';
import { isBegun, knittedNow } from './begun.ts';
import { isCalledFor } from './step-text.ts';
import { inColumn, type StepValues } from './step-values.ts';

/** Whether a step applies; undefined while that is not known. Advice does not any more once a step is begun. */
export function appliesNow(values: StepValues, step: Step): boolean | undefined {
  return isAdvice(step) && isKnitting(values) ? false : isCalledFor(values, step);
}

/** The indices of the columns a step is told for when all are told at once, whichever is chosen. */
export function columnsTold(values: StepValues, step: Step): readonly number[] {
  const all = values.live.columns.map((_, column) => column);
  return all.filter((column) => appliesNow(inColumn(values, column), step) ?? true);
}

/** Whether a step of what the steps are told for is begun. */
function isKnitting(values: StepValues): boolean {
  const knitted = knittedNow(values);
  return values.live.notebook.steps.some((step) => !isAdvice(step) && isBegun(knitted, step.id));
}
