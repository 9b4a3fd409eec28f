export * from './arrival.ts';
export * from './dimension.ts';
export * from './memo.ts';
export * from './print.ts';
export { type PrintedValue, type Printer, printerFor } from './printer.ts';
export * from './snap.ts';
export * from './units.ts';
