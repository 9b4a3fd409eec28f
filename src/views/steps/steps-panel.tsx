/*
 * What to knit: the steps for the chosen column, ticked off while knitting. A step keeps its place on the page while
 * its words change, so that the box just ticked and the count being typed keep the keyboard.
 */

import './steps.css';
import { createMemo, For, onCleanup, onMount, Show } from 'solid-js';
import type { StepView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { keepKnitting, wasKnitting } from './left-knitting.ts';
import { createScreenLock } from './screen-lock.ts';
import { Step } from './step.tsx';

/** The steps of the notebook. */
export function StepsPanel() {
  const desk = useDesk();
  const page = desk.notebook.page;
  let panel: HTMLDivElement | undefined;
  const screen = createScreenLock(() => panel);
  const hasSizes = () => desk.notebook.view().columns.length > 1;
  const view = createMemo(() => {
    for (const section of desk.notebook.view().sections)
      for (const cell of section.cells) desk.notebook.row(cell);
    return page.steps({ allSizes: desk.allSizes() && hasSizes(), trial: desk.asTried() });
  });
  const steps = createMemo(
    () => new Map(view().steps.flatMap((one) => (one.applies ? [[one.id, one]] : []))),
  );
  const ids = createMemo(() => [...steps().keys()], undefined, { equals: isSameList });
  const inHand = createMemo(
    () => [...steps().values()].find((step) => !step.advice && !step.forOthers && !step.ticked)?.id,
  );
  const lastDone = createMemo(() => [...steps().values()].findLast((step) => step.ticked)?.id);
  onMount(() => {
    if (!panel) return;
    const { id } = desk.notebook.view();
    if (desk.phone() && wasKnitting(id)) desk.showPanel('knit');
    const watched = whenShownAlone(panel, (isShown) => {
      if (desk.phone()) keepKnitting(id, isShown);
      if (isShown) toStepInHand(panel);
    });
    onCleanup(watched);
  });
  return (
    <div ref={panel}>
      <Show when={desk.notebook.view().trial}>
        <KeptOrTried />
      </Show>
      <Show when={hasSizes()}>
        <label class="steps-sizes">
          <input
            type="checkbox"
            checked={desk.allSizes()}
            onChange={(event) => desk.askAllSizes(event.currentTarget.checked)}
          />
          every {desk.notebook.view().heading} at once
        </label>
      </Show>
      <ol class="steps">
        <For each={ids()}>
          {(id) => (
            <KeptStep
              of={() => steps().get(id)}
              isInHand={id === inHand()}
              isLastDone={id === lastDone()}
              onDone={screen.touch}
            />
          )}
        </For>
      </ol>
      <Show when={view().undo}>
        <button type="button" class="quiet-button" onClick={() => desk.heed(page.undoProgress())}>
          Take back: {view().undo}
        </button>
      </Show>
      <Show when={view().key.length > 0}>
        <details class="steps-key">
          <summary>Abbreviations</summary>
          <dl>
            <For each={view().key}>
              {(entry) => (
                <>
                  <dt>{entry.short}</dt>
                  <dd>{entry.long}</dd>
                </>
              )}
            </For>
          </dl>
        </details>
      </Show>
    </div>
  );
}

/** Tells whenever the steps come up as what a phone shows, or something else does; gives what ends that. */
function whenShownAlone(panel: Element, tell: (isShown: boolean) => void): () => void {
  const isAlone = () => panel.closest<HTMLElement>('.shell')?.dataset['tab'] === 'knit';
  const watcher = new IntersectionObserver((seen) => {
    if (!isAlone()) tell(false);
    else if (seen.at(-1)?.isIntersecting) tell(true);
  });
  watcher.observe(panel);
  return () => watcher.disconnect();
}

/** Brings the first step that is not ticked into sight, unless all is still to be done. */
function toStepInHand(panel: Element | undefined): void {
  if (panel?.querySelector('.ticked')) panel.querySelector('[aria-current="step"]')?.scrollIntoView();
}

/** While a change is tried: whether these are the steps as kept or as tried, and the way to the others. */
function KeptOrTried() {
  const desk = useDesk();
  return (
    <p class="steps-tried">
      {desk.asTried()
        ? 'With the change you are trying; keep it before you tick a step. '
        : 'As kept, without the change you are trying. '}
      <button type="button" class="link" onClick={() => desk.askAsTried(!desk.asTried())}>
        {desk.asTried() ? 'show as kept' : 'show as tried'}
      </button>
    </p>
  );
}

/** A step under one id: its element stays while what it shows is told anew. */
function KeptStep(props: {
  readonly of: () => StepView | undefined;
  readonly isInHand: boolean;
  readonly isLastDone: boolean;
  readonly onDone: () => void;
}) {
  return (
    <Show when={props.of()}>
      {(step) => (
        <Step step={step()} isInHand={props.isInHand} isLastDone={props.isLastDone} onDone={props.onDone} />
      )}
    </Show>
  );
}

function isSameList(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((one, i) => one === b[i]);
}
