/** The door of the views: the page around a notebook, and the signals it is drawn from. */
import './theme.css';
import './shell.css';
import './grid/grid.css';
import './grid/cards.css';
import './editor/editor.css';
import './menu/menu.css';

export type { FileViewProps } from './editor/file-view.tsx';
export type { HeaderAction } from './header.tsx';
export { DrawingPanel, FileView, ReferenceView, StepsPanel } from './later.ts';
export { createNotebookSignals, type NotebookSignals, type Spoken } from './notebook-signals.ts';
export type { NavGroup, NavItem } from './notebooks-nav.tsx';
export type { Panel } from './panels.tsx';
export { Shell, type ShellProps } from './shell.tsx';
