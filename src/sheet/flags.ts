/*
 * What is known of a node, a bit each. Read as `FLAG.STALE`: by themselves the words say too little, and as numbers of
 * their own, rather than fields of an object, they cost nothing.
 */

/** To be read again. */
export const STALE = 1;
/** One value for each column. */
export const EACH = 2;
/** Without names or functions: its values are in its text. */
export const TYPED = 4;
/** Which of its cells matter depends on values. */
export const BRANCHES = 8;
/** Something is wrong with its formula. */
export const OWN = 16;
/** On the needles. */
export const PINNED = 32;
/** The chosen column or the day. */
export const SPECIAL = 64;

/** Any of what is not the plain case, in which a node holds what its code gives. */
export const SLOW = STALE | TYPED | OWN | PINNED | SPECIAL;
