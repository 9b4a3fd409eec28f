/* What the menus of the sheet offer. They come when the sheet has been painted. */
export { openColumnMenu } from './column-menu.ts';
export { openRowMenu } from './row-menu.ts';
export { openSectionMenu } from './section-menu.ts';
