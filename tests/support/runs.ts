/** How often a law is tried: a few hundred times on every save, thousands with LONG=1. */
export const LONG = Boolean(process.env['LONG']);
export const runs = (few: number, many: number): { readonly numRuns: number } => ({
  numRuns: LONG ? many : few,
});
/** Time allowed for one law, in milliseconds. */
export const patience = LONG ? 600_000 : 60_000;
