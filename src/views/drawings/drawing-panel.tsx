/*
 * A drawing beside the sheet: drawn again when a cell it shows has changed. A text chosen on it takes one to its cell;
 * the cell one stands at is marked on it.
 */

import { createMemo } from 'solid-js';
import { draw } from '../../drawing/index.ts';
import type { DrawingView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { Drawing } from './drawing.tsx';

export interface DrawingPanelProps {
  /** The drawing as it is now; read anew whenever the page or one of its cells has changed. */
  readonly view: () => DrawingView | undefined;
}

/** A drawing of the notebook, kept up to date. */
export function DrawingPanel(props: DrawingPanelProps) {
  const desk = useDesk();
  const view = createMemo(() => {
    desk.notebook.view();
    const drawing = props.view();
    for (const cell of drawing?.cells ?? []) desk.notebook.row(cell);
    return drawing;
  });
  const picture = createMemo(() => draw(view()?.kind ?? '', view()?.parts ?? {}));
  const stood = () => /^k:(.+)$/.exec(desk.stand().row)?.[1];
  return (
    <Drawing
      picture={picture()}
      laidAside={view()?.laidAside ?? false}
      selected={stood()}
      onSelect={desk.goTo}
    />
  );
}
