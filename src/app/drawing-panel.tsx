/* A drawing beside the sheet: drawn again when a cell it shows has changed. */

import { createMemo } from 'solid-js';
import { draw } from '../drawing/index.ts';
import type { Session } from '../session/index.ts';
import { Drawing } from '../views/drawings/drawing.tsx';
import type { NotebookSignals } from '../views/index.ts';

/** A drawing of the notebook, kept up to date. */
export default function DrawingPanel(props: {
  readonly signals: NotebookSignals;
  readonly session: Session;
  readonly drawing: string;
}) {
  const view = createMemo(() => {
    props.signals.view();
    const drawing = props.session.drawings().find((one) => one.id === props.drawing);
    for (const cell of drawing?.cells ?? []) props.signals.row(cell);
    return drawing;
  });
  const picture = createMemo(() => {
    const drawing = view();
    return draw(drawing?.kind ?? '', drawing?.parts ?? {});
  });
  return <Drawing picture={picture()} />;
}
