import type { History } from './history.ts';

/** Nothing done yet. It stands alone, as the first sheet has it before it has what changes a notebook. */
export const emptyHistory: History = { done: [], undone: [] };
