/** One open notebook: document, history, trial and live sheet kept in step, and what views see of it. */
export { type Asked, type Asking, ask, type Stop } from './ask.ts';
export type * from './asked-page.ts';
export { columnTitle } from './column-title.ts';
export {
  type ComparisonView,
  compareWith,
  type DifferenceView,
  type MovedView,
  type PartView,
  takingAll,
  takingOf,
} from './comparing.ts';
export type { DrawingView, DrawnPart } from './drawings.ts';
export { beginSession, fetchSession } from './early-session.ts';
export { dayOf, Live, language } from './live.ts';
export type { Kept, Made, SessionOptions } from './open-sheet.ts';
export type * from './page.ts';
export type { PaperRow, PaperSection, PaperView, ShapingTable } from './paper.ts';
export { type FunctionReference, type Reference, reference, type UnitReference } from './reference.ts';
export { createSession, type Session } from './session.ts';
export { type Summary, summaryOf } from './summary.ts';
export { tableFor } from './table.ts';
export type { Trial, TriedText } from './trial.ts';
