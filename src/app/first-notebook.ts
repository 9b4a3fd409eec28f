/*
 * The notebook a first visit begins with. The build of the page puts the notebook itself here, read and checked, so that
 * the first sheet waits neither for its file nor for what reads files.
 */

import type { Notebook } from '../notebook/index.ts';
import { beginFrom } from './begin.ts';
import { FIRST } from './prebuilt.ts';

/** The notebook as it is begun. Rejects where it cannot be fetched. */
export const beginFirst = (): Promise<Notebook> => beginFrom(FIRST);
