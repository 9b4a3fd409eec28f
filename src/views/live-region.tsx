import { createEffect, createSignal, onCleanup } from 'solid-js';
import type { Spoken } from './notebook-signals.ts';

/** So long a sentence waits, so that of quick steps only the last is said; rows out of sight follow in the same frame. */
const settleMs = 300;

/** The one place that speaks: what changed, in a sentence, politely. */
export function LiveRegion(props: { readonly spoken: Spoken }) {
  const [words, setWords] = createSignal('');
  createEffect(() => {
    const { words: next, turn } = props.spoken;
    if (next === '') return;
    const timer = setTimeout(() => setWords(turn % 2 === 0 ? next : `${next}\u00a0`), settleMs);
    onCleanup(() => clearTimeout(timer));
  });
  return (
    <div role="status" aria-live="polite" class="hidden live-region">
      {words()}
    </div>
  );
}
