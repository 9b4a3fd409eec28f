/* Parts of the page that come when they are first asked for, so that the sheet does not wait for them. */

import { lazy } from 'solid-js';

/** A drawing of the notebook, kept up to date. */
export const DrawingPanel = lazy(() =>
  import('./drawings/drawing-panel.tsx').then((module) => ({ default: module.DrawingPanel })),
);

/** The notebook's own file, in an editor. */
export const FileView = lazy(() =>
  import('./editor/file-view.tsx').then((module) => ({ default: module.FileView })),
);

/** Units and functions. */
export const ReferenceView = lazy(() =>
  import('./reference/reference-view.tsx').then((module) => ({ default: module.ReferenceView })),
);

/** What to knit. */
export const StepsPanel = lazy(() =>
  import('./steps/steps-panel.tsx').then((module) => ({ default: module.StepsPanel })),
);
