/** Shapes of formulas with how each is grouped. None here: the build of the page puts in those of its notebooks. */
export const shapes: Readonly<Record<string, string>> = {};
