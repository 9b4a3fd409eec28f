/*
 * Versions: the notebook as it was, whole. Named ones stay until they are deleted. Automatic ones are made at most every ten
 * minutes, before a change, and thinned with age: all of the last hour, then one an hour for a day, one a day for a month,
 * one a month after that.
 */
import { isRecord } from '../notebook/index.ts';

/** What is known of a version without reading it. */
export interface Version {
  readonly id: string;
  /** In milliseconds since 1970. */
  readonly at: number;
  /** As the knitter called it; absent for an automatic one. */
  readonly name?: string;
  /** The number of the last change in it. */
  readonly number: number;
  /** Characters of its file. */
  readonly size: number;
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const MONTH = 30 * DAY;

/** The most characters that the automatic versions of one notebook may take. */
const MOST_CHARACTERS = 8_000_000;

/** Whether an automatic version is due before a change that is about to be made. */
export function isDue(versions: readonly Version[], number: number, now: number): boolean {
  const last = newestFirst(versions)[0];
  return number > 0 && (last === undefined || (now - last.at >= 10 * MINUTE && last.number < number));
}

/** The versions that may go. */
export function outgrown(versions: readonly Version[], now: number): readonly Version[] {
  const kept = new Set<string>();
  let characters = 0;
  return newestFirst(versions).filter(({ at, name, size }) => {
    if (name !== undefined) return false;
    const slot = slotOf(at, now);
    if (kept.has(slot) || characters + size > MOST_CHARACTERS) return true;
    kept.add(slot);
    characters += size;
    return false;
  });
}

/** The stretch of time of which one version is kept. */
function slotOf(at: number, now: number): string {
  const age = now - at;
  if (age < HOUR) return `at ${at}`;
  if (age < DAY) return `hour ${Math.floor(at / HOUR)}`;
  if (age < MONTH) return `day ${Math.floor(at / DAY)}`;
  return `month ${Math.floor(at / MONTH)}`;
}

/** The versions, the newest first. */
export function newestFirst(versions: readonly Version[]): readonly Version[] {
  return [...versions].sort((a, b) => b.at - a.at);
}

/** A version from what was kept. */
export function versionFromJSON(json: unknown): Version | undefined {
  if (!isRecord(json)) return undefined;
  const { id, at, name, number, size } = json;
  if (typeof id !== 'string' || typeof at !== 'number' || typeof number !== 'number') return undefined;
  const known = { id, at, number, size: typeof size === 'number' ? size : 0 };
  return typeof name === 'string' ? { ...known, name } : known;
}
