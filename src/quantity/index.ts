export * from './dimension.ts';
export * from './snap.ts';
