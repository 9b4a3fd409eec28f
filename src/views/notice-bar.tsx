import { createEffect, createMemo, Show } from 'solid-js';
import { useDesk } from './desk.ts';

/** A sentence about what was just done or could not be, with undo where that helps. It goes when the next thing is done or taken back. */
export function NoticeBar() {
  const desk = useDesk();
  const { page, view } = desk.notebook;
  // What it tells of, where that is what undo takes back.
  const undoes = createMemo(() => (desk.notice()?.canUndo ? page.lastDone() : undefined));
  createEffect(() => {
    view();
    if (undoes() && undoes() !== page.lastDone()) desk.tell(undefined);
  });
  return (
    <Show when={desk.notice()}>
      {(notice) => (
        <div class="notice">
          <p>{notice().sentence}</p>
          <Show when={undoes()}>
            <button
              type="button"
              class="quiet-button"
              onClick={() => {
                if (undoes()) page.undo();
                desk.tell(undefined);
              }}
            >
              Undo
            </button>
          </Show>
          <button type="button" class="quiet-button" onClick={() => desk.tell(undefined)}>
            OK
          </button>
        </div>
      )}
    </Show>
  );
}
