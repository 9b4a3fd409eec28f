import { createSignal, createUniqueId, For, Show } from 'solid-js';
import type { CounterView, Outcome, StepView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { Recount } from './recount.tsx';
import { StepLines } from './step-lines.tsx';
import { typedCount } from './typed-count.ts';

export interface StepProps {
  readonly step: StepView;
  /** The first step that is not ticked: its rows are counted. */
  readonly isInHand: boolean;
  /** The last step that is ticked: its stitches may still be counted. */
  readonly isLastDone: boolean;
  /** Called whenever something of it was done. */
  readonly onDone: () => void;
}

const OTHER_COUNT = 'Another count on the needles?';

/** A step with its box to tick; the one in hand, and every one that is begun, has its counter. */
export function Step(props: StepProps) {
  const desk = useDesk();
  const page = desk.notebook.page;
  const does = (outcome: Outcome) => {
    desk.heed(outcome);
    props.onDone();
  };
  const recountId = createUniqueId();
  const [isRecounting, setRecounting] = createSignal(
    typedCount(desk.notebook.view().id, props.step.id) !== '',
  );
  let isAsked = false;
  let opener: HTMLButtonElement | undefined;
  const open = () => {
    isAsked = true;
    setRecounting(true);
  };
  const close = () => {
    setRecounting(false);
    opener?.focus();
  };
  const mayRecount = () =>
    !desk.asTried() &&
    props.step.recounts &&
    props.step.problems.length === 0 &&
    (!props.step.ticked || props.isLastDone);
  const Opener = (own: { readonly words: string }) => (
    <button
      ref={opener}
      type="button"
      class="recount-opener"
      title={props.isInHand ? undefined : OTHER_COUNT}
      aria-label={`${props.isInHand ? '' : 'sts? '}${OTHER_COUNT} Step ${props.step.number}`}
      aria-expanded={isRecounting()}
      aria-controls={isRecounting() ? recountId : undefined}
      onClick={() => (isRecounting() ? close() : open())}
    >
      {own.words}
    </button>
  );
  const isOpen = () =>
    !desk.asTried() &&
    !props.step.ticked &&
    (props.isInHand || (props.step.counter?.done || props.step.counter?.times || 0) > 0);
  return (
    <li
      classList={{ ticked: props.step.ticked, advice: props.step.advice }}
      aria-current={props.isInHand ? 'step' : undefined}
    >
      <div class="step-head">
        <Show when={!props.step.advice}>
          <label class="step-tick">
            <input
              type="checkbox"
              checked={props.step.ticked}
              disabled={
                desk.asTried() ||
                props.step.forOthers ||
                (props.step.problems.length > 0 && !props.step.ticked)
              }
              aria-label={`step ${props.step.number} done`}
              onChange={(event) => {
                does(props.step.ticked ? page.untick(props.step.id) : page.tick(props.step.id));
                event.currentTarget.checked = props.step.ticked;
              }}
            />
            <span aria-hidden="true">{props.step.number}</span>
          </label>
        </Show>
        <p class="step-text">
          <Runs step={props.step} />
        </p>
        <Show when={mayRecount() && !props.isInHand}>
          <Opener words="sts?" />
        </Show>
      </div>
      <div class="step-body">
        <StepLines lines={props.step.lines} />
        <For each={props.step.sums}>{(sum) => <p class="step-sum">{sum}</p>}</For>
        <For each={props.step.remarks}>{(remark) => <p>{remark}</p>}</For>
        <For each={props.step.problems}>{(problem) => <p class="step-problem">{problem}</p>}</For>
        <Show when={props.step.offer}>
          {(offer) => (
            <div class="step-offer">
              <p>{offer().sentence}</p>
              <p>{offer().now}</p>
              <Show when={offer().canTake && props.step.ticked}>
                <p>The step is done and stays as it was knitted, unless you did knit it as said now.</p>
              </Show>
              <Show when={offer().canTake}>
                <button
                  type="button"
                  class="quiet-button"
                  onClick={() => does(page.takeOffer(props.step.id))}
                >
                  {props.step.ticked ? 'I did knit it so' : 'Knit it so'}
                </button>
              </Show>
            </div>
          )}
        </Show>
        <Show when={isOpen() && props.step.counter}>
          {(counter) => <Counter step={props.step} counter={counter()} does={does} />}
        </Show>
        <Show when={mayRecount() && props.isInHand}>
          <Opener words={OTHER_COUNT} />
        </Show>
        <Show when={mayRecount() && isRecounting()}>
          <Recount id={recountId} step={props.step} isAsked={isAsked} onDone={props.onDone} onClose={close} />
        </Show>
      </div>
    </li>
  );
}

/** The words of a step; a value takes one to its cell. It flows with the words, as no button element would. */
function Runs(props: { readonly step: StepView }) {
  const desk = useDesk();
  return (
    <For each={props.step.runs}>
      {(run) => (
        <Show when={run.cell} fallback={run.text}>
          <span
            class="step-value"
            role="button"
            tabindex="0"
            onClick={() => desk.goTo(run.cell)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' && event.key !== ' ') return;
              event.preventDefault();
              desk.goTo(run.cell);
            }}
          >
            {run.text}
          </span>
        </Show>
      )}
    </For>
  );
}

function Counter(props: {
  readonly step: StepView;
  readonly counter: CounterView;
  readonly does: (outcome: Outcome) => void;
}) {
  const page = useDesk().notebook.page;
  const noun = () => (props.counter.noun === 'rnd' ? 'round' : 'row');
  return (
    <>
      <div class="step-count">
        <button
          type="button"
          aria-label={`one ${noun()} back`}
          disabled={props.counter.done === 0 && props.counter.mended === '' && props.counter.times === 0}
          onClick={() => props.does(page.rowBack(props.step.id))}
        >
          −
        </button>
        <span>{props.counter.words}</span>
        <button
          type="button"
          aria-label={`one ${noun()} done`}
          disabled={props.counter.done >= props.counter.of}
          onClick={() => props.does(page.rowOn(props.step.id))}
        >
          +
        </button>
      </div>
      <p class="step-next">
        {[
          props.counter.next,
          props.counter.count && `${props.counter.count} on the needles`,
          props.counter.mended,
        ]
          .filter((part) => part !== '')
          .join('; ')}
        <Show when={props.counter.done >= props.counter.of}>
          {' '}
          <button type="button" class="link" onClick={() => props.does(page.countAgain(props.step.id))}>
            again from 0
          </button>
        </Show>
      </p>
    </>
  );
}
