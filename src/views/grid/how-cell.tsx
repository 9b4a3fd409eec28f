import { createMemo, Show, Suspense } from 'solid-js';
import type { RowView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { InlineText } from '../inline-text.tsx';
import { StepField } from '../later.ts';
import { openRowMenu } from './open-menu.ts';
import { toggleWorkings } from './row-actions.ts';
import { useSheet } from './sheet-context.ts';

/** How a cell is worked out, in short, or its note; while it is being tried, the ways out. */
export function HowCell(props: { readonly row: RowView }) {
  const desk = useDesk();
  const key = () => `k:${props.row.id}`;
  return (
    <div role="gridcell" tabindex="-1" data-part="how" class="how">
      <Show
        when={!desk.isEditing('note', props.row.id) && !desk.isEditing('step', props.row.id)}
        fallback={
          <Show when={desk.isEditing('step', props.row.id)} fallback={<NoteField row={props.row} />}>
            <Suspense>
              <StepField row={props.row} />
            </Suspense>
          </Show>
        }
      >
        <Show when={props.row.tried}>
          <Offers id={props.row.id} />
        </Show>
        <Show when={props.row.how}>
          <HowLink row={props.row} />
        </Show>
        <Show when={props.row.note && !(props.row.tried && desk.phone())}>
          <span class="note">{props.row.note}</span>
        </Show>
      </Show>
      <Show when={desk.isStandingIn(key())}>
        <button
          type="button"
          tabindex="-1"
          class="more"
          aria-label={`more for ${props.row.name}`}
          aria-haspopup="menu"
          onClick={(event) => openRowMenu(desk, props.row.id, event.currentTarget)}
        >
          …
        </button>
      </Show>
    </div>
  );
}

function HowLink(props: { readonly row: RowView }) {
  const desk = useDesk();
  return (
    <button
      type="button"
      tabindex="-1"
      class="how-link"
      title={`how it’s worked out: ${props.row.how}`}
      aria-expanded={desk.open.has(props.row.id)}
      onClick={() => toggleWorkings(desk, props.row.id)}
    >
      <span class="hidden">how it’s worked out: </span>
      {props.row.how}
    </button>
  );
}

function NoteField(props: { readonly row: RowView }) {
  const desk = useDesk();
  return (
    <InlineText
      label={`a note for ${props.row.name}`}
      text={desk.editing()?.start ?? props.row.note}
      atEnd={true}
      onCommit={(note) => {
        desk.leave();
        return note === props.row.note || desk.heed(desk.notebook.page.setNote(props.row.id, note));
      }}
      onCancel={() => desk.leave()}
    />
  );
}

/** Keep what is tried here, or go back to what was; several that are tried together are kept at once at the sheet's foot. */
function Offers(props: { readonly id: string }) {
  const desk = useDesk();
  const sheet = useSheet();
  const tried = createMemo(() => sheet.trial()?.cells.find((cell) => cell.id === props.id));
  return (
    <Show when={tried()}>
      {(cell) => (
        <span class="offers">
          <span class="trying">trying a change</span>
          <button
            type="button"
            tabindex="-1"
            class="link keep"
            onClick={() => desk.notebook.page.keepFromTrial(props.id)}
          >
            keep {cell().tried}
          </button>
          <button
            type="button"
            tabindex="-1"
            class="link back"
            onClick={() => desk.notebook.page.dropFromTrial(props.id)}
          >
            back to {cell().was}
          </button>
        </span>
      )}
    </Show>
  );
}
