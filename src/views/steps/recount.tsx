import { createMemo, createSignal, createUniqueId, For, onMount, Show } from 'solid-js';
import type { RecountView, StepView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { StepLines } from './step-lines.tsx';
import { keepTypedCount, typedCount } from './typed-count.ts';

/** Types what is on the needles, and says how to go on from there. Esc closes it; what was typed stays. */
export function Recount(props: {
  readonly step: StepView;
  readonly id: string;
  /** Whether it was asked for, so that it takes the keyboard; not where it stands open as the notebook was left. */
  readonly isAsked: boolean;
  readonly onDone: () => void;
  readonly onClose: () => void;
}) {
  const desk = useDesk();
  const page = desk.notebook.page;
  const id = createUniqueId();
  let field: HTMLInputElement | undefined;
  onMount(() => props.isAsked && field?.focus());
  const notebook = desk.notebook.view().id;
  const [count, setCount] = createSignal(typedCount(notebook, props.step.id));
  const write = (text: string) => {
    setCount(text);
    keepTypedCount(notebook, props.step.id, text);
  };
  /** Of a step that is ticked every row is done. */
  const row = () => (props.step.ticked ? props.step.counter?.of : props.step.counter?.done) ?? 0;
  const told = createMemo(() => {
    desk.notebook.view();
    const number = wholeNumber(count());
    return number === undefined ? undefined : page.recount(props.step.id, row(), number);
  });
  const goOn = () => {
    const number = wholeNumber(count());
    if (number !== undefined && desk.heed(page.goOn(props.step.id, row(), number))) {
      const step = field?.closest('li');
      write('');
      props.onDone();
      props.onClose();
      step?.scrollIntoView(); // The new plan stands at its top.
    }
  };
  return (
    <div
      class="recount"
      id={props.id}
      role="group"
      aria-label="another count on the needles"
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        props.onClose();
      }}
    >
      <label for={id}>stitches there now</label>
      <input
        ref={field}
        id={id}
        inputmode="numeric"
        autocomplete="off"
        value={count()}
        onInput={(event) => write(event.currentTarget.value)}
      />
      <div role="status">
        <Show when={count().trim() !== '' && wholeNumber(count()) === undefined}>
          <p>Count whole stitches, as 52.</p>
        </Show>
        <Show when={told()}>{(one) => <Told told={one()} onGoOn={goOn} />}</Show>
      </div>
    </div>
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
