/** The door of the views: the page around a notebook, and the signals it is drawn from. */
import './theme.css';
import './shell.css';
import './grid/grid.css';
import './grid/cards.css';
import './editor/editor.css';
import './nav.css';

export { afterFirstPaint } from './after-paint.ts';
export { type AppNotice, AppNotices } from './app-notices.tsx';
export { CarryOnPanel } from './carry-on.tsx';
export { DoubtTitle } from './doubt/doubt-title.tsx';
export { DrawingTitle } from './drawings/drawing-title.tsx';
export type { FileViewProps } from './editor/file-view.tsx';
export { openPrintMenu } from './grid/open-menu.ts';
export type { HeaderAction } from './header.tsx';
export {
  BesidePage,
  ComparePage,
  DoubtPanel,
  DrawingPanel,
  FileView,
  GuideBar,
  HowPage,
  ReferenceView,
  SharePage,
  ShelfPage,
  StepsPanel,
  TenSteps,
  VersionsPage,
  VisitorBar,
} from './later.ts';
export { createNotebookSignals, type NotebookSignals, type Spoken } from './notebook-signals.ts';
export type { NavGroup, NavItem } from './notebooks-nav.tsx';
export type { Panel } from './panels.tsx';
export { forget, recall, remember } from './remembered.ts';
export type { HowPageProps, Said } from './shelf/how-page.tsx';
export type { NotebookActions } from './shelf/notebook-menu.ts';
export type { ShareLink } from './shelf/share-page.tsx';
export type { Beginning, DeletedEntry, ShelfEntry } from './shelf/shelf-page.tsx';
export type { VersionEntry } from './shelf/versions-page.tsx';
export type { VisitorBarProps, WayOn } from './shelf/visitor-bar.tsx';
export { Shell, type ShellProps } from './shell.tsx';
export { StepsTitle } from './steps/steps-title.tsx';
