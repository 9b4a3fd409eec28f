export type * from './page.ts';
