import { createEffect, createSignal, Show } from 'solid-js';
import type { NotebookSignals } from './notebook-signals.ts';

/**
 * On a first visit, one line at the sheet's foot that says what to change first. It goes for good when a change is
 * tried or made, and leaves its place to what that change does.
 */
export function HintBar(props: { readonly hint: string; readonly notebook: NotebookSignals }) {
  const [isOver, setOver] = createSignal(false);
  createEffect(() => {
    const { trial, undo } = props.notebook.view();
    if (trial || undo !== '') setOver(true);
  });
  return (
    <Show when={props.hint !== '' && !isOver()}>
      <p class="hint">{props.hint}</p>
    </Show>
  );
}
