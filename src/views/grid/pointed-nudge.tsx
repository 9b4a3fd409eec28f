/*
 * − and + around the typed value that the mouse points at, so that one sees at once that it can be moved. One pair for
 * the whole sheet; where she stands already, the row has its own.
 */
import { createSignal, Show } from 'solid-js';
import { Portal } from 'solid-js/web';
import { type Desk, useDesk } from '../desk.ts';
import { Nudge } from './nudge.tsx';
import { rowOf } from './row-of.ts';
import { markTight } from './tight.ts';

/** The value that is pointed at. */
export interface Pointed {
  readonly id: string;
  readonly part: number;
  readonly cell: HTMLElement;
  /** Since when, in milliseconds of the page. */
  readonly since: number;
}

/** A press sooner than this after the pair has appeared was meant for the value. */
const SOON_MS = 300;

/** What the mouse points at, heard from the grid's own events. */
export function createPointed(desk: Desk) {
  const [pointed, setPointed] = createSignal<Pointed>();
  const point = (next: Pointed | undefined) => {
    const old = pointed();
    if (old?.cell === next?.cell) return;
    if (old) delete old.cell.dataset['pointed'];
    if (next) markTight(next.cell);
    if (next) next.cell.dataset['pointed'] = '';
    setPointed(next);
  };
  return {
    pointed,
    leave: () => point(undefined),
    move: (event: PointerEvent) => {
      if (event.pointerType === 'mouse' && !desk.phone()) point(pointedAt(event.target, desk));
    },
  };
}

function pointedAt(target: EventTarget | null, desk: Desk): Pointed | undefined {
  const cell = target instanceof Element ? target.closest<HTMLElement>('.typed .v[data-part]') : null;
  const key = rowOf(cell);
  if (!cell || !key?.startsWith('k:') || cell.dataset['tools'] !== undefined) return undefined;
  const id = key.slice(2);
  const canNudge = desk.notebook.face(id).nudges && !desk.notebook.view().readOnly;
  return canNudge ? { id, part: Number(cell.dataset['part']), cell, since: performance.now() } : undefined;
}

/** The pair at what is pointed at. */
export function PointedNudge(props: { readonly pointed: Pointed | undefined; readonly onTaken: () => void }) {
  const desk = useDesk();
  return (
    <Show when={props.pointed} keyed>
      {({ id, part, cell, since }) => (
        <Portal mount={cell.querySelector('.pill') ?? cell} ref={(div) => div.classList.add('tools')}>
          <Nudge
            row={desk.notebook.row(id)}
            onPress={() => {
              props.onTaken();
              desk.standAt({ row: `k:${id}`, part }, true);
              return performance.now() - since > SOON_MS;
            }}
          />
        </Portal>
      )}
    </Show>
  );
}
