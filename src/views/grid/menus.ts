/* What the menus of the sheet and of Print offer. They come when the sheet has been painted. */
export { askToPrint } from '../print/ask.ts';
export { openColumnMenu } from './column-menu.ts';
export { openRowMenu } from './row-menu.ts';
export { openSectionMenu } from './section-menu.ts';
