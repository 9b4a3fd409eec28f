import { Show } from 'solid-js';
import { useDesk } from './desk.ts';

/** A sentence about what was just done or could not be, with undo where that helps. It goes when the next thing is done. */
export function NoticeBar() {
  const desk = useDesk();
  const { page, view } = desk.notebook;
  return (
    <Show when={desk.notice()}>
      {(notice) => (
        <div class="notice">
          <p>{notice().sentence}</p>
          <Show when={notice().canUndo && view().undo !== ''}>
            <button
              type="button"
              class="quiet-button"
              onClick={() => {
                desk.tell(undefined);
                page.undo();
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
