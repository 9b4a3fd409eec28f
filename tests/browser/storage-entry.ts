/** What the storage test puts on its page: the notebook and storage folders, as one script. */
export * from '../../src/notebook/index.ts';
export * from '../../src/storage/index.ts';
