/*
 * Old files made new. Migration number n takes the file as version n wrote it to what version n + 1 would have written;
 * it stands in `NNN-what-changed.ts`, works on plain JSON before anything is checked, and must never throw: what it does
 * not recognise it leaves alone. One list, contiguous from 1, so that a file of any past version takes every step.
 */

/** A file as it was read: keys and values, unchecked. */
export type Raw = Readonly<Record<string, unknown>>;

/** One step from a version to the next. */
export interface Migration {
  /** The version it takes; it gives the next. */
  readonly from: number;
  /** What changed, in a few words. */
  readonly title: string;
  readonly migrate: (file: Raw) => Raw;
}

/** The list as it was given, checked to run from version 1 without a gap to `format`; throws where it does not. */
export function chain(migrations: readonly Migration[], format: number): readonly Migration[] {
  migrations.forEach(({ from, title }, index) => {
    if (from !== index + 1)
      throw new Error(`migration "${title}" takes version ${from}, expected ${index + 1}`);
  });
  if (migrations.length + 1 !== format) {
    throw new Error(
      `${migrations.length} migrations lead to version ${migrations.length + 1}, not ${format}`,
    );
  }
  return migrations;
}

/** The file brought from its version to the newest, and the versions passed through; a newer one is left as it is. */
export function migrate(
  file: Raw,
  version: number,
  migrations: readonly Migration[],
): { readonly file: Raw; readonly ran: readonly number[] } {
  const due = migrations.filter(({ from }) => from >= version);
  const migrated = due.reduce(
    (old, migration) => ({ ...migration.migrate(old), ellwand: migration.from + 1 }),
    file,
  );
  return { file: migrated, ran: due.map(({ from }) => from) };
}
