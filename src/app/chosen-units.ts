/* Inches or centimetres, as they were chosen last at the switch: what is begun after that is shown in them, too. */

import type { Change, Notebook } from '../notebook/index.ts';
import { recall, remember } from '../views/index.ts';

const UNITS = 'ellwand units';

/** The units chosen last; undefined where none were. */
export function chosenUnits(): Notebook['units'] | undefined {
  const units = recall(UNITS);
  return units === 'in' || units === 'cm' ? units : undefined;
}

/** Remembers the units of a change, where it is one of the switch. */
export function rememberUnits(change: Change): void {
  const units = change.kind === 'set_notebook' ? change.fields.units : undefined;
  if (units === 'in' || units === 'cm') remember(UNITS, units);
}
