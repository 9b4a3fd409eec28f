import { createMemo, Show } from 'solid-js';
import type { RowView } from '../../session/index.ts';
import { useSheet } from './sheet-context.ts';

/** On a card, the chosen column's value in large letters; the same value stands among the others for a reader. */
export function ChosenValue(props: { readonly row: RowView }) {
  const sheet = useSheet();
  const value = createMemo(() => props.row.values[sheet.chosenIndex()]);
  return (
    <Show when={value()}>
      {(shown) => (
        <div class="chosen-value" aria-hidden="true">
          <span class="n">{shown().text}</span>{' '}
          <span class="u">{shown().kind === 'empty' ? '' : props.row.unit}</span>
          <Show when={shown().old?.difference}>
            {' '}
            <span class="d">{shown().old?.difference}</span>
          </Show>
        </div>
      )}
    </Show>
  );
}
