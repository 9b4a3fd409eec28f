import { createEffect, createMemo, createSignal, onCleanup, Show } from 'solid-js';
import type { TrialView } from '../session/index.ts';
import { useDesk } from './desk.ts';
import { Words } from './words.tsx';

/** What the heads cover of the sheet. */
const HEADS = 44;

export interface TrialBarProps {
  /** Something lies over the sheet, so that no row of it counts as seen. */
  readonly isCovered: boolean;
}

/**
 * While a change is tried: in one line what it does to the outcome. Keeping and going back stand in the row of the one
 * value tried; here only while that row is out of sight, or where several values are tried together.
 */
export function TrialBar(props: TrialBarProps) {
  const desk = useDesk();
  const { view, page } = desk.notebook;
  const count = () => view().trial?.cells.length ?? 0;
  const isInSight = createInSight(() =>
    count() === 1 && !props.isCovered ? view().trial?.cells[0]?.id : undefined,
  );
  const putAside = () => {
    if (!desk.heed(page.putAside())) return;
    desk.announce('It is put aside: “Side by side” in the list at the left has it.', false);
  };
  return (
    <Show when={view().trial}>
      {(trial) => (
        <section class="trial-bar" aria-label="the change you are trying">
          <p>
            <span class="trying">{titleOf(trial())}</span>
            <Show when={trial().outcome}>
              {' '}
              <span class="outcome">
                <Words text={trial().outcome} />
              </span>
            </Show>
          </p>
          <button type="button" class="quiet-button put-aside" onClick={putAside}>
            Put aside to compare
          </button>
          <Show when={!isInSight()}>
            <button type="button" class="quiet-button" onClick={() => page.dropTrial()}>
              {count() > 1 ? 'Go back on all' : 'Go back'}
            </button>
            <button type="button" class="strong-button" onClick={() => page.keepTrial()}>
              {count() > 1 ? `Keep all ${count()}` : 'Keep it'}
            </button>
          </Show>
        </section>
      )}
    </Show>
  );
}

const MOST_NAMED = 3;

/** "trying stitch gauge 18½, was 19", "trying stitch gauge and chest". */
function titleOf({ title, cells }: TrialView): string {
  const [only] = cells;
  if (!only) return title || 'trying a change';
  if (cells.length === 1)
    return `trying ${only.name} ${only.tried || 'left empty'}, was ${only.was || 'empty'}`;
  const names = cells.slice(0, MOST_NAMED).map(({ name }) => name);
  const more = cells.length - names.length;
  const last = more > 0 ? `${more} more` : (names.pop() ?? '');
  return `trying ${names.join(', ')} and ${last}`;
}

/** Whether keeping and going back are to be seen in the row of a cell; never for no cell. */
function createInSight(cell: () => string | undefined): () => boolean {
  const desk = useDesk();
  const id = createMemo(cell);
  const [isSeen, setSeen] = createSignal(false);
  createEffect(() => {
    const row = id();
    const element = row === undefined ? undefined : desk.elementOf(`k:${row}`);
    setSeen(element !== undefined);
    if (!element) return;
    let watch: IntersectionObserver | undefined;
    // What is offered comes into the row, and what was at the foot goes, as this does.
    const frame = requestAnimationFrame(() => {
      const root = element.closest('#sheet');
      const foot = Math.max(56, root?.querySelector('.foot')?.clientHeight ?? 0);
      watch = new IntersectionObserver((entries) => setSeen((entries.at(-1)?.intersectionRatio ?? 0) > 0.9), {
        root,
        rootMargin: `-${HEADS}px 0px -${foot}px 0px`,
        threshold: [0, 0.91],
      });
      watch.observe(element.querySelector('.offers') ?? element);
    });
    onCleanup(() => {
      cancelAnimationFrame(frame);
      watch?.disconnect();
    });
  });
  return isSeen;
}
