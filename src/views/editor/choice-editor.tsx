import { For, onMount } from 'solid-js';
import type { Place, RowView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';

/** For a typed label: a list of what it can be. The letter it is opened with takes the first that begins with it. */
export function ChoiceEditor(props: { readonly row: RowView }) {
  const desk = useDesk();
  const { page } = desk.notebook;
  const place: Place = { cell: props.row.id, column: desk.editing()?.column ?? null };
  const stored = page.text(place).replaceAll('"', '');
  let field!: HTMLSelectElement;
  const keep = () => {
    if (field.value !== stored) desk.heed(page.type(place, `"${field.value}"`));
  };
  onMount(() => {
    const start = desk.editing()?.start?.toLowerCase();
    const meant = start && props.row.choices.find((choice) => choice.toLowerCase().startsWith(start));
    if (meant) {
      field.value = meant;
      keep();
    }
    field.focus();
  });
  return (
    <select
      ref={field}
      class="choice"
      aria-label={props.row.name}
      onChange={keep}
      onBlur={() => desk.leave(false)}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key === 'Enter' || event.key === 'Escape') desk.leave();
      }}
    >
      <For each={props.row.choices}>
        {(choice) => (
          <option value={choice} selected={choice === stored}>
            {choice}
          </option>
        )}
      </For>
    </select>
  );
}
