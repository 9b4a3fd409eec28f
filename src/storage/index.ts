/*
 * Keeping notebooks: in the browser, in files, in links. Knows notebooks as data, no formulas and no screen. Whatever can fail
 * says so with a value (`Refused`) where a person or a file is the cause, and rejects with a `DiskError` where the browser is.
 *
 * A session is kept like this:
 *
 *   const shelf = await openShelf();                          // shelf.trouble: 'none' when nothing outlives the page;
 *                                                             // shelf.putBack: notebooks saved from a lost database
 *   watchLeaving(shelf);                                      // writes what waits as the page goes
 *   const opened = await shelf.open(id);                      // Refused | Opened
 *   const { keeper, notebook, history, progressHistory, trials, readOnly, remarks } = opened;
 *
 *   // The session does a change on its own notebook with `perform`, `undo` or `redo`, then:
 *   keeper.save({ change, title, role: 'do', before, after });   // role: do, undo, redo; progress, progress_undo, progress_redo
 *                                                             // and `trials` with it, where the change ends or alters one
 *   keeper.saveTrials(trials);                                // any value that can be cloned; later puts replace earlier
 *   keeper.onNews((news) => …);                               // foreign, overtaken, refused, saved, trouble: see `News`
 *   await keeper.nameVersion('before I ripped back');
 *   await shelf.close(keeper);
 *
 * `news.notebook` is what is to be shown from then on. History is the session's to hold while the notebook is open; the next
 * opening gives it back, folded from the changes that were kept. Nothing has to be called "save": a change is on its way
 * to the disk when `keeper.save` returns, and `saved` tells when it is there.
 *
 * The shelf: `list`, `create`, `duplicate`, `rename`, `edit`, `reorder`, `archive`, `delete`, `restore`, `purge`, `versions`,
 * `readVersion`, `deleteVersion`, `peek`, `onChange`. All of it out and in: `writeShelf`, `readShelf`, `takeIn`.
 *
 * Files: `saveFile(fileName(title), writeNotebook(notebook))`, `chooseFiles`, `onDrop`, `readFile`, `shareFile`.
 * The tool as one file with a notebook in it: `withCarried(page, file)`; `readFile` reads such a file too.
 * Links: `linkTo(notebook, {page, findPrebuilt})`, `isLink(location.hash)`, `readLink(location.hash, findPrebuilt)`.
 * What the browser promises: `persistence`, `askToPersist`, `fileIsDue`.
 */
export { browserCopies, type Copies, memoryCopies } from './copies.ts';
export { openDatabase } from './database.ts';
export { type Disk, DiskError, type DiskTrouble, memoryDisk } from './disk.ts';
export { onDrop } from './drop.ts';
export {
  canShareFiles,
  chooseFiles,
  fileName,
  type OpenedFile,
  readFile,
  saveFile,
  shareFile,
} from './file.ts';
export type { Keeper, Opened } from './keeper.ts';
export { type FindPrebuilt, isLink, type Link, linkTo, readLink, type Sharing } from './link.ts';
export type { Role } from './log.ts';
export { type Means, openShelf, watchLeaving } from './open-shelf.ts';
export { askToPersist, fileIsDue, type Persistence, persistence } from './persist.ts';
export { type Listed, Shelf } from './shelf.ts';
export { browserTabs, type MemoryTab, memoryTabs, type Tabs } from './tabs.ts';
export { bareTitle } from './title.ts';
export { CARRIED, markOf, withCarried } from './tool.ts';
export type { Version } from './versions.ts';
export {
  type FromShelf,
  isShelfFile,
  readShelf,
  type ShelfFile,
  type TakenIn,
  takeIn,
  writeShelf,
} from './whole-shelf.ts';
export type { Done, News, World } from './world.ts';
