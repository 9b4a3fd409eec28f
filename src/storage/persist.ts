/** Whether the browser promises to keep what is stored, and when a file is due because it does not. */
import type { Listed } from './shelf.ts';

/** `kept`: promised. `not_kept`: may be cleared when space is short or the site is not visited. `unknown`: cannot be asked. */
export type Persistence = 'kept' | 'not_kept' | 'unknown';

/** The browser's means, or none. */
type Means = Pick<StorageManager, 'persist' | 'persisted'> | undefined;

const means = (): Means => (typeof navigator === 'undefined' ? undefined : navigator.storage);

/** What the browser has promised so far. */
export const persistence = (storage: Means = means()): Promise<Persistence> =>
  answer(storage === undefined ? undefined : () => storage.persisted());

/** Asks the browser to promise; call it when there is something to keep. It may ask the knitter, or decide by itself. */
export const askToPersist = (storage: Means = means()): Promise<Persistence> =>
  answer(storage === undefined ? undefined : () => storage.persist());

async function answer(ask: (() => Promise<boolean>) | undefined): Promise<Persistence> {
  try {
    if (ask === undefined) return 'unknown';
    return (await ask()) ? 'kept' : 'not_kept';
  } catch {
    return 'unknown';
  }
}

const DAY = 24 * 3_600_000;

/** Whether to offer a file: changed, and no file of it for a day, while the browser promises nothing. */
export function fileIsDue(listed: Listed, kept: Persistence, now: number): boolean {
  const { number, changedAt, madeAt, fileAt = madeAt } = listed;
  return kept !== 'kept' && number > 0 && changedAt > fileAt && now - fileAt >= DAY;
}
