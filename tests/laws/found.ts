import type { Edit } from './edits.ts';

/** Sequences of edits after which the sheet once was not what it should have been, as short as they could be made. */
export const FOUND: readonly (readonly Edit[])[] = [];
