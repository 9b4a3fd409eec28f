/* Parts of the page that come when they are first asked for, so that the sheet does not wait for them. */

import { lazy } from 'solid-js';

/** A drawing of the notebook, kept up to date. */
export const DrawingPanel = lazy(() =>
  import('./drawings/drawing-panel.tsx').then((module) => ({ default: module.DrawingPanel })),
);

/** How far off the cell looked at can be. */
export const DoubtPanel = lazy(() =>
  import('./doubt/doubt-panel.tsx').then((module) => ({ default: module.DoubtPanel })),
);

/** Fetches the place where a blank page begins: once the sheet has been painted, so that it is there at a press. */
export const fetchFirstCell = () =>
  import('./grid/first-cell.tsx').then((module) => ({ default: module.FirstCell }));

/** The first cell of a blank page. */
export const FirstCell = lazy(fetchFirstCell);

/** Fetches what unfolds workings: once the sheet has been painted, so that they open at a press. */
export const fetchWorkings = () =>
  import('./grid/workings.tsx').then((module) => ({ default: module.Workings }));

/** What the change being tried does, at the foot of the sheet: once the sheet has been painted. */
export const TrialBar = lazy(() =>
  import('./trial-bar.tsx').then((module) => ({ default: module.TrialBar })),
);

/** What was just done, at the foot of the sheet: once the sheet has been painted. */
export const NoticeBar = lazy(() =>
  import('./notice-bar.tsx').then((module) => ({ default: module.NoticeBar })),
);

/** How a value came to be, unfolded under its row. */
export const Workings = lazy(fetchWorkings);

/** Fetches the field in which a step is written: when the menu that asks for it opens. */
export const fetchStepField = () =>
  import('./grid/step-field.tsx').then((module) => ({ default: module.StepField }));

/** A new step, being written. */
export const StepField = lazy(fetchStepField);

/** What would have to change, asked under a row. */
export const WorkBack = lazy(() =>
  import('./doubt/work-back.tsx').then((module) => ({ default: module.WorkBack })),
);

/** Trials and sizes side by side. */
export const BesidePage = lazy(() =>
  import('./doubt/beside-page.tsx').then((module) => ({ default: module.BesidePage })),
);

/** The notebook's own file, in an editor. */
export const FileView = lazy(() =>
  import('./editor/file-view.tsx').then((module) => ({ default: module.FileView })),
);

/** Units, functions and keys. */
export const ReferenceView = lazy(() =>
  import('./reference/reference-view.tsx').then((module) => ({ default: module.ReferenceView })),
);

/** What to knit. */
export const StepsPanel = lazy(() =>
  import('./steps/steps-panel.tsx').then((module) => ({ default: module.StepsPanel })),
);

/** What is printed. */
export const Paper = lazy(() => import('./print/paper.tsx').then((module) => ({ default: module.Paper })));

/** All notebooks of this device. */
export const ShelfPage = lazy(() =>
  import('./shelf/shelf-page.tsx').then((module) => ({ default: module.ShelfPage })),
);

/** The versions of a notebook. */
export const VersionsPage = lazy(() =>
  import('./shelf/versions-page.tsx').then((module) => ({ default: module.VersionsPage })),
);

/** Two states of a notebook, compared. */
export const ComparePage = lazy(() =>
  import('./shelf/compare-page.tsx').then((module) => ({ default: module.ComparePage })),
);

/** Sharing a notebook. */
export const SharePage = lazy(() =>
  import('./shelf/share-page.tsx').then((module) => ({ default: module.SharePage })),
);

/** How a notebook is worked out. */
export const HowPage = lazy(() =>
  import('./shelf/how-page.tsx').then((module) => ({ default: module.HowPage })),
);

/** Above a notebook that is looked at and not kept. */
export const VisitorBar = lazy(() =>
  import('./shelf/visitor-bar.tsx').then((module) => ({ default: module.VisitorBar })),
);

/** One of the ten steps, at the foot of the sheet. */
export const GuideBar = lazy(() =>
  import('./reference/ten-steps.tsx').then((module) => ({ default: module.GuideBar })),
);

/** A notebook of one's own in ten steps. */
export const TenSteps = lazy(() =>
  import('./reference/ten-steps.tsx').then((module) => ({ default: module.TenSteps })),
);
