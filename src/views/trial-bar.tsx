import { Show } from 'solid-js';
import { useDesk } from './desk.ts';
import { Words } from './words.tsx';

/** While a change is tried: in one line what it does to the outcome, and the ways on. It lies over the sheet's foot. */
export function TrialBar() {
  const desk = useDesk();
  const { view, page } = desk.notebook;
  const putAside = () => {
    if (!desk.heed(page.putAside())) return;
    desk.announce('It is put aside: “Side by side” in the list at the left has it.', false);
  };
  return (
    <Show when={view().trial}>
      {(trial) => (
        <section class="trial-bar" aria-label="the change you are trying">
          <p>
            <span class="trying">{trial().title || 'trying a change'}</span>
            <Show when={trial().outcome}>
              {' '}
              <span class="outcome">
                <Words text={trial().outcome} />
              </span>
            </Show>
          </p>
          <button type="button" class="quiet-button put-aside" onClick={putAside}>
            Put aside
          </button>
          <button type="button" class="quiet-button" onClick={() => page.dropTrial()}>
            Go back
          </button>
          <button type="button" class="strong-button" onClick={() => page.keepTrial()}>
            Keep it
          </button>
        </section>
      )}
    </Show>
  );
}
