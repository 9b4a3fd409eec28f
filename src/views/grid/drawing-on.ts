import { type Accessor, createSignal, onCleanup, onMount } from 'solid-js';
import { afterFirstPaint } from '../after-paint.ts';

/** So many rows are drawn before the first paint: more than a tall screen holds. */
const firstRows = 70;
/** So many are added at a time afterwards, so that no frame waits long for them. */
const rowsAtATime = 60;

export interface DrawingOn {
  /** How many of the sheet's rows are drawn by now, counted from its top. */
  readonly drawn: Accessor<number>;
  /** Draws all of them at once: she goes to a row further down. */
  all(): void;
}

/**
 * Draws a long sheet in pieces: what is in sight first, the rest while nothing else is to do. In the end every row is
 * there, for finding, printing and reading aloud. `count` is read anew for each piece.
 */
export function createDrawingOn(count: () => number): DrawingOn {
  const [drawn, setDrawn] = createSignal(firstRows);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const next = () => {
    if (drawn() >= count()) {
      setDrawn(Number.POSITIVE_INFINITY); // Rows that come later are drawn as they come.
      return;
    }
    setDrawn((old) => old + rowsAtATime);
    timer = setTimeout(next, 8);
  };
  onMount(() => afterFirstPaint(next));
  onCleanup(() => clearTimeout(timer));
  return { drawn, all: () => setDrawn(Number.POSITIVE_INFINITY) };
}
