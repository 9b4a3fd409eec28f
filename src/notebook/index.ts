/** The document as plain data: its format, reading, writing, changing, undoing, comparing. Knows no formulas and no screen. */
export type * from './document.ts';
export { FORMAT } from './document.ts';
export { firstFreeId, type IdLetter, newId } from './ids.ts';
export { limits } from './limits.ts';
export { freeName, isId, isLabel, isName, labelFrom, nameFrom, nameKey, normalName } from './names.ts';
export { type Read, readNotebook, readNotebookValue } from './read.ts';
export { isRecord, own, record, withEntry } from './record.ts';
export { isRefused, type Parts, type Refusal, type Refused, type Remark, refuse } from './remark.ts';
export { isDay } from './validate.ts';
export { writeNotebook } from './write.ts';
