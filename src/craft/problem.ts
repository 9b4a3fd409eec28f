import type { Problem } from '../formula/index.ts';

/** A problem of a plan: its code and what its sentence names. Where it stands is known only to the formula. */
export const problem = (code: string, parts: Problem['parts'] = {}): Problem => ({ code, parts });
