// The notebook of a first visit, read and checked, for the built page.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { begunFrom, FIRST } from '../src/app/prebuilt.ts';
import { isRefused, type Notebook, readNotebook } from '../src/notebook/index.ts';

/** The notebook as `src/app/first-notebook.ts` begins it. Throws where it cannot be read, or not without a remark. */
export function firstNotebook(folder: string): Notebook {
  const read = readNotebook(readFileSync(join(folder, `${FIRST}.ellwand.json`), 'utf8'));
  if (isRefused(read) || read.remarks.length > 0) throw new Error(`${FIRST} cannot be read`);
  return begunFrom(FIRST, read.notebook);
}
