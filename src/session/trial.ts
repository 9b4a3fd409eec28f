/*
 * Trying a change: texts that lie over typed cells of the notebook, kept beside it. A trial has its own steps back
 * and forward, since undo inside a trial takes back its nudges.
 */

import type { Cell } from '../notebook/index.ts';
import type { Overlay } from './live.ts';

export type TriedText = Pick<Cell, 'text' | 'each'>;

/** A change being tried, as data that can be kept. */
export interface Trial {
  readonly title: string;
  /** What the knitter calls it, once it was put aside with a name. */
  readonly name?: string;
  /** By cell id: its text, or its texts by column id. */
  readonly texts: Readonly<Record<string, TriedText>>;
}

/** A trial with the states it has been through. */
export interface TrialState {
  readonly now: Trial;
  readonly past: readonly Trial[];
  readonly future: readonly Trial[];
}

const MOST_STEPS = 200;

/** A trial taken up again after it was kept. */
export function resumed(trial: Trial): TrialState {
  return { now: trial, past: [], future: [] };
}

/** The trial with one cell's text tried; begins one where there is none. */
export function tried(state: TrialState | undefined, id: string, text: TriedText, title: string): TrialState {
  const now: Trial = state?.now ?? { title, texts: {} };
  const past = state ? [...state.past, state.now].slice(-MOST_STEPS) : [];
  return { now: { ...now, texts: { ...now.texts, [id]: text } }, past, future: [] };
}

/** The trial without one cell; undefined when it was the last. */
export function without(state: TrialState, id: string): TrialState | undefined {
  const { [id]: _gone, ...texts } = state.now.texts;
  if (Object.keys(texts).length === 0) return undefined;
  return { now: { ...state.now, texts }, past: [...state.past, state.now], future: [] };
}

/** One step back; undefined ends the trial. */
export function stepBack(state: TrialState): TrialState | undefined {
  const now = state.past.at(-1);
  return now && { now, past: state.past.slice(0, -1), future: [state.now, ...state.future] };
}

/** One step forward again. */
export function stepOn(state: TrialState): TrialState | undefined {
  const [now, ...future] = state.future;
  return now && { now, past: [...state.past, state.now], future };
}

/** The trial's texts as they lie over the notebook's. */
export function overlayOf(state: TrialState | undefined): Overlay {
  return new Map(Object.entries(state?.now.texts ?? {}));
}
