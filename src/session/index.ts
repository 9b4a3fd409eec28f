export { type Asked, type Asking, ask, type Stop } from './ask.ts';
export { Live, language } from './live.ts';
export type * from './page.ts';
