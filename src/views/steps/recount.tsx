import { createMemo, createSignal, createUniqueId, For, Show } from 'solid-js';
import type { RecountView, StepView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { StepLines } from './step-lines.tsx';

/** Types what is on the needles, and says how to go on from there. */
export function Recount(props: { readonly step: StepView; readonly onDone: () => void }) {
  const desk = useDesk();
  const page = desk.notebook.page;
  const id = createUniqueId();
  const [count, setCount] = createSignal('');
  const row = () => props.step.counter?.done ?? 0;
  const told = createMemo(() => {
    desk.notebook.view();
    const number = wholeNumber(count());
    return number === undefined ? undefined : page.recount(props.step.id, row(), number);
  });
  const goOn = () => {
    const number = wholeNumber(count());
    if (number !== undefined && desk.heed(page.goOn(props.step.id, row(), number))) {
      setCount('');
      props.onDone();
    }
  };
  return (
    <details class="recount">
      <summary>Another count on the needles?</summary>
      <label for={id}>stitches there now</label>
      <input
        id={id}
        inputmode="numeric"
        autocomplete="off"
        value={count()}
        onInput={(event) => setCount(event.currentTarget.value)}
      />
      <div role="status">
        <Show when={count().trim() !== '' && wholeNumber(count()) === undefined}>
          <p>Count whole stitches, as 52.</p>
        </Show>
        <Show when={told()}>{(one) => <Told told={one()} onGoOn={goOn} />}</Show>
      </div>
    </details>
  );
}

/** What is said of a count; of one that is far off first what to look for, and how to go on only when she is sure. */
function Told(props: { readonly told: RecountView; readonly onGoOn: () => void }) {
  const isSure = () => props.told.asks.length === 0;
  const sentences = () =>
    [props.told.sentence, props.told.hint, ...props.told.asks].filter((one) => one !== '');
  return (
    <>
      <For each={sentences()}>{(sentence) => <p>{sentence}</p>}</For>
      <Show when={isSure()} fallback={<WhenSure told={props.told} onGoOn={props.onGoOn} />}>
        <Mend told={props.told} onGoOn={props.onGoOn} />
      </Show>
    </>
  );
}

function WhenSure(props: { readonly told: RecountView; readonly onGoOn: () => void }) {
  return (
    <details class="recount-sure">
      <summary>I have counted again, and it is right</summary>
      <Mend told={props.told} onGoOn={props.onGoOn} />
    </details>
  );
}

function Mend(props: { readonly told: RecountView; readonly onGoOn: () => void }) {
  return (
    <>
      <p>{props.told.mend}</p>
      <StepLines lines={props.told.lines} />
      <Show when={props.told.sum}>
        <p class="step-sum">{props.told.sum}</p>
      </Show>
      <Show when={props.told.canGoOn}>
        <button type="button" class="quiet-button" onClick={() => props.onGoOn()}>
          Go on from here
        </button>
      </Show>
    </>
  );
}

/** The whole number that a text is, not below 0; undefined where it is none. */
function wholeNumber(text: string): number | undefined {
  return /^\s*\d{1,6}\s*$/.test(text) ? Number(text) : undefined;
}
