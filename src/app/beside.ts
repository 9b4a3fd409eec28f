/* What stood side by side the last time, for each notebook of this device. */

import { parseJson } from '../notebook/index.ts';
import { recall, remember } from '../views/index.ts';

const keyOf = (id: string): string => `ellwand side by side ${id}`;

/** The keys of what stood side by side; undefined where nothing was chosen, or nothing can be kept. */
export function readBeside(id: string): readonly string[] | undefined {
  const { value } = parseJson(recall(keyOf(id)) ?? '');
  return Array.isArray(value) && value.every((key) => typeof key === 'string') ? value : undefined;
}

/** Keeps what stands side by side. */
export function keepBeside(id: string, keys: readonly string[]): void {
  remember(keyOf(id), JSON.stringify(keys));
}
