/** Every migration, in order. Version 1 is the first that was given out, so that there is none yet. */
import { FORMAT } from '../document.ts';
import { chain, type Migration } from './migrate.ts';

/** To add one: `001-what-changed.ts`, a line here, FORMAT + 1, a kept file in `tests/files/versions`. */
export const migrations: readonly Migration[] = chain([], FORMAT);
