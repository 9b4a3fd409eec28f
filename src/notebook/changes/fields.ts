/** Fields set and taken away: null in a change takes the field away. */

/** Fields to set, or to take away with null. */
export type Fields<T> = { readonly [K in keyof T]?: T[K] | null };

/** The group with the fields set, those that are null gone. */
export function withFields<G extends object>(group: G, fields: Fields<G>): G {
  const set = Object.entries({ ...group, ...fields }).filter(
    ([, value]) => value !== null && value !== undefined,
  );
  return Object.fromEntries(set) as G;
}

/** The fields as they were: what sets them back. */
export function oldFields<G extends object, F extends object>(group: G | undefined, fields: F): F {
  const read = (group ?? {}) as Readonly<Record<string, unknown>>;
  return Object.fromEntries(Object.keys(fields).map((key) => [key, read[key] ?? null])) as F;
}
