import { createEffect, createSignal, Show } from 'solid-js';
import { useDesk } from './desk.ts';
import type { NotebookSignals } from './notebook-signals.ts';

/** Under so many cells, a notebook is only being begun. */
const BEGUN = 3;

/**
 * One line at the sheet's foot that says what to do next. On a first visit it says what to change first; it goes for
 * good when a change is tried or made, and leaves its place to what that change does. On a page that is only begun it
 * says how the next cell is made.
 */
export function HintBar(props: { readonly hint: string; readonly notebook: NotebookSignals }) {
  const desk = useDesk();
  const [isOver, setOver] = createSignal(false);
  createEffect(() => {
    const { trial, undo } = props.notebook.view();
    if (trial || undo !== '') setOver(true);
  });
  const next = () => {
    const { sections, readOnly, trial } = props.notebook.view();
    const count = sections.reduce((sum, { cells }) => sum + cells.length, 0);
    if (readOnly || trial || count === 0 || count >= BEGUN) return '';
    return desk.phone()
      ? 'For the next one touch “add a cell”: its name first, then its value.'
      : 'For the next one press the down arrow and Enter, or “add a cell”: its name, Enter, its value.';
  };
  const said = () => (props.hint !== '' && !isOver() ? props.hint : next());
  return (
    <Show when={said()}>
      <p class="hint">{said()}</p>
    </Show>
  );
}
