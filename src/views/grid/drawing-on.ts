import { type Accessor, createSignal, onCleanup, onMount } from 'solid-js';
import { afterFirstPaint } from '../after-paint.ts';

/** In what pieces something long is drawn. */
export interface Pieces {
  /** So many at once: more than can be seen or read at a glance. */
  readonly first: number;
  /** So many are added at a time afterwards, so that no frame waits long for them. */
  readonly atATime: number;
}

export interface DrawingOn {
  /** How many are drawn by now, counted from the top. */
  readonly drawn: Accessor<number>;
  /** Draws all of them at once: she goes to one further down. */
  all(): void;
}

/**
 * Draws a long list in pieces: what is in sight first, the rest while nothing else is to do. In the end all of it is
 * there, for finding, printing and reading aloud. `count` is read anew for each piece.
 */
export function createDrawingOn(count: () => number, { first, atATime }: Pieces): DrawingOn {
  const [drawn, setDrawn] = createSignal(first);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const next = () => {
    if (drawn() >= count()) {
      setDrawn(Number.POSITIVE_INFINITY); // What comes later is drawn as it comes.
      return;
    }
    setDrawn((old) => old + atATime);
    timer = setTimeout(next, 8);
  };
  onMount(() => afterFirstPaint(next));
  onCleanup(() => clearTimeout(timer));
  return { drawn, all: () => setDrawn(Number.POSITIVE_INFINITY) };
}
