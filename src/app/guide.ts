/* The ten steps being followed at the foot of the sheet: kept by the app, as they lead from one notebook to another. */
import { type Accessor, createSignal } from 'solid-js';

export interface Guide {
  /** Which step is shown, from 0; undefined while none is followed. */
  readonly step: Accessor<number | undefined>;
  goTo(step: number | undefined): void;
}

/** A guide that is not open yet. */
export function createGuide(): Guide {
  const [step, goTo] = createSignal<number>();
  return { step, goTo: (next) => void goTo(next) };
}
