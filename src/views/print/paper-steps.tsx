import { For, Show } from 'solid-js';
import type { ShapingTable, StepsView, StepView } from '../../session/index.ts';

/** A step of more lines than this may go over to the next page. */
const LONG = 40;

/** The steps on paper: a box to tick for each, its lines, and for a shaping one box for each row it falls on. */
export function PaperSteps(props: { readonly steps: StepsView; readonly shapings: readonly ShapingTable[] }) {
  const steps = () => props.steps.steps.filter((step) => step.applies);
  return (
    <section class="paper-steps">
      <h2>What to knit</h2>
      <ol>
        <For each={steps()}>
          {(step) => <PaperStep step={step} shaping={props.shapings.find((one) => one.step === step.id)} />}
        </For>
      </ol>
      <Show when={props.steps.key.length > 0}>
        <p class="paper-key">
          <For each={props.steps.key}>
            {(entry, i) => (
              <>
                {i() > 0 ? '; ' : ''}
                <b>{entry.short}</b> {entry.long}
              </>
            )}
          </For>
        </p>
      </Show>
    </section>
  );
}

function PaperStep(props: { readonly step: StepView; readonly shaping: ShapingTable | undefined }) {
  const step = () => props.step;
  const words = () =>
    step()
      .runs.map((run) => run.text)
      .join('');
  return (
    <li classList={{ long: step().lines.length > LONG }}>
      <p>
        <Show when={!step().advice}>
          <Box ticked={step().ticked} />
          <b>{step().number}.</b>{' '}
        </Show>
        {words()}
      </p>
      <Show when={step().lines.length > 0}>
        <ul>
          <For each={step().lines}>
            {(line) => (
              <li>
                <Show when={line.label}>
                  <b>{line.label}</b>{' '}
                </Show>
                {line.text}
                {line.after && ` (${line.after})`}
              </li>
            )}
          </For>
        </ul>
      </Show>
      <For each={step().sums}>{(sum) => <p class="paper-small">{sum}</p>}</For>
      <For each={step().remarks}>{(remark) => <p class="paper-small">{remark}</p>}</For>
      <For each={step().problems}>{(problem) => <p class="paper-small">{problem}</p>}</For>
      <Show when={props.shaping?.rows.length ? props.shaping : undefined}>
        {(shaping) => (
          <p class="paper-small paper-shaping">
            {shaping().title}{' '}
            <For each={shaping().rows}>
              {(one) => (
                <span>
                  <Box ticked={false} />
                  {one.row} ({one.after})
                </span>
              )}
            </For>
            {shaping().more && '…'}
          </p>
        )}
      </Show>
    </li>
  );
}

function Box(props: { readonly ticked: boolean }) {
  return (
    <span class="paper-box" aria-hidden="true">
      <Show when={props.ticked}>
        <svg viewBox="0 0 12 12" aria-hidden="true">
          <path d="M1.5 6.5 4.7 10 10.5 2" />
        </svg>
      </Show>
    </span>
  );
}
