/*
 * What to knit: the steps for the chosen column, ticked off while knitting, with a row counter for a step that has a
 * plan, and the way to go on when the count on the needles is not the plan's.
 */

import './steps.css';
import { createMemo, createSignal, For, onCleanup, onMount, Show } from 'solid-js';
import type { CounterView, StepView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';

/** The steps of the notebook. */
export function StepsPanel() {
  const desk = useDesk();
  const page = desk.notebook.page;
  const view = createMemo(() => {
    desk.notebook.view();
    for (const section of desk.notebook.view().sections)
      for (const cell of section.cells) desk.notebook.row(cell);
    return page.steps();
  });
  const steps = createMemo(() => view().steps.filter((step) => step.applies));
  /** The first step that is not done: its rows are counted. */
  const inHand = createMemo(() => steps().find((step) => !step.ticked)?.id);
  keepScreenOn();
  return (
    <>
      <ol class="steps">
        <For each={steps()}>{(step) => <Step step={step} inHand={step.id === inHand()} />}</For>
      </ol>
      <Show when={view().undo}>
        <button type="button" class="quiet-button" onClick={() => desk.heed(page.undoProgress())}>
          Take back: {view().undo}
        </button>
      </Show>
      <Show when={view().key.length > 0}>
        <p class="steps-key">
          <For each={view().key}>
            {(entry, i) => (
              <>
                {i() > 0 ? '; ' : ''}
                <b>{entry.short}</b> {entry.long}
              </>
            )}
          </For>
        </p>
      </Show>
    </>
  );
}

function Step(props: { readonly step: StepView; readonly inHand: boolean }) {
  const desk = useDesk();
  const page = desk.notebook.page;
  const step = () => props.step;
  const toggle = () => desk.heed(step().ticked ? page.untick(step().id) : page.tick(step().id));
  return (
    <li classList={{ ticked: step().ticked }}>
      <div class="step-head">
        <label class="step-tick">
          <input
            type="checkbox"
            checked={step().ticked}
            disabled={step().problems.length > 0 && !step().ticked}
            aria-label={`step ${step().number} done`}
            onChange={toggle}
          />
        </label>
        <div class="step-text">
          <Show when={!step().ticked} fallback={step().text}>
            <For each={step().runs}>
              {(run) => (
                <Show when={run.cell} fallback={run.text}>
                  <button type="button" onClick={() => desk.standAt({ row: `k:${run.cell}`, part: 1 }, true)}>
                    {run.text}
                  </button>
                </Show>
              )}
            </For>
          </Show>
        </div>
      </div>
      <div class="step-body">
        <Show when={step().lines.length > 0}>
          <ul>
            <For each={step().lines}>
              {(line) => (
                <li classList={{ here: line.here, done: line.done }}>
                  {line.label && `${line.label}: `}
                  {line.text}
                  {line.after && ` (${line.after})`}
                </li>
              )}
            </For>
          </ul>
        </Show>
        <For each={[...step().sums, ...step().remarks]}>{(sentence) => <p>{sentence}</p>}</For>
        <For each={step().problems}>{(sentence) => <p class="step-problem">{sentence}</p>}</For>
        <Show when={step().offer}>
          {(offer) => (
            <p>
              {offer().sentence}{' '}
              <button type="button" class="link" onClick={() => desk.heed(page.takeOffer(step().id))}>
                knit it so
              </button>
            </p>
          )}
        </Show>
        <Show when={props.inHand && step().counter}>
          {(counter) => <Counter step={step()} counter={counter()} />}
        </Show>
      </div>
    </li>
  );
}

function Counter(props: { readonly step: StepView; readonly counter: CounterView }) {
  const desk = useDesk();
  const page = desk.notebook.page;
  const [count, setCount] = createSignal('');
  const wanted = createMemo(() => {
    const number = Number(count());
    return count().trim() === '' || !Number.isInteger(number)
      ? undefined
      : page.recount(props.step.id, props.counter.done, number);
  });
  const goOn = () => {
    if (desk.heed(page.goOn(props.step.id, props.counter.done, Number(count())))) setCount('');
  };
  return (
    <>
      <div class="step-count">
        <button
          type="button"
          aria-label="one row back"
          onClick={() => desk.heed(page.rowBack(props.step.id))}
        >
          −
        </button>
        <span>{props.counter.words}</span>
        <button type="button" aria-label="one row done" onClick={() => desk.heed(page.rowOn(props.step.id))}>
          +
        </button>
      </div>
      <p>
        {props.counter.next}
        {props.counter.count && `; ${props.counter.count} on the needles`}
        {props.counter.mended && ` (${props.counter.mended})`}
      </p>
      <Show when={props.step.recounts && props.counter.done > 0}>
        <label class="step-count">
          another count on the needles?
          <input
            inputmode="numeric"
            value={count()}
            onInput={(event) => setCount(event.currentTarget.value)}
          />
        </label>
        <Show when={wanted()}>
          {(found) => (
            <div role="status">
              <p>{[found().sentence, found().hint, found().mend].filter((text) => text !== '').join(' ')}</p>
              <ul>
                <For each={found().lines}>
                  {(line) => (
                    <li>
                      {line.label && `${line.label}: `}
                      {line.text}
                      {line.after && ` (${line.after})`}
                    </li>
                  )}
                </For>
              </ul>
              <Show when={found().sum}>
                <p>{found().sum}</p>
              </Show>
              <Show when={found().canGoOn}>
                <button type="button" class="quiet-button" onClick={goOn}>
                  Go on from here
                </button>
              </Show>
            </div>
          )}
        </Show>
      </Show>
    </>
  );
}

/** Keeps the screen on while the steps are open, where the browser can. */
function keepScreenOn(): void {
  let lock: { release(): Promise<void> } | undefined;
  const ask = async () => {
    if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
    lock = await navigator.wakeLock.request('screen').catch(() => undefined);
  };
  onMount(() => {
    void ask();
    document.addEventListener('visibilitychange', ask);
    onCleanup(() => {
      document.removeEventListener('visibilitychange', ask);
      void lock?.release().catch(() => undefined);
    });
  });
}
