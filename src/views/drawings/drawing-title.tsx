import { Show } from 'solid-js';
import { useDesk } from '../desk.ts';

/** A drawing's heading, which says so while it draws a change that is only tried. */
export function DrawingTitle(props: { readonly title: string }) {
  const desk = useDesk();
  return (
    <>
      {props.title}
      <Show when={desk.notebook.view().trial}>
        {' '}
        <small class="trying">as tried</small>
      </Show>
    </>
  );
}
