export type * from './document.ts';
export { FORMAT } from './document.ts';
