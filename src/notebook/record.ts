/*
 * Records by a key that somebody else chose. Keys such as `__proto__` and `constructor` are only keys here: records are
 * made without a prototype, and read through `own`.
 */

/** A record with these entries and no prototype. */
export function record<V>(entries: Iterable<readonly [string, V]>): Record<string, V> {
  const made = Object.create(null) as Record<string, V>;
  for (const [key, value] of entries) made[key] = value;
  return made;
}

/** The value under a key of its own, or undefined: never what the prototype holds. */
export function own<V>(from: Readonly<Record<string, V>> | undefined, key: string): V | undefined {
  return from !== undefined && Object.hasOwn(from, key) ? from[key] : undefined;
}

/** The record with one entry set, or taken out where the value is null. */
export function withEntry<V>(
  from: Readonly<Record<string, V>> | undefined,
  key: string,
  value: V | null,
): Record<string, V> {
  const made = record(Object.entries(from ?? {}));
  if (value === null) delete made[key];
  else made[key] = value;
  return made;
}

/** Whether a value is an object with keys: not null, not a list. */
export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
