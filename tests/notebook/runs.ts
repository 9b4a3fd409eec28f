export * from '../support/runs.ts';
