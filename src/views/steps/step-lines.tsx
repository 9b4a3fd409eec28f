import { For, Show } from 'solid-js';
import type { StepLineView } from '../../session/index.ts';

/** The lines of a plan, with the count after each; what is done is crossed out, the row in hand is marked in words. */
export function StepLines(props: { readonly lines: readonly StepLineView[] }) {
  return (
    <Show when={props.lines.length > 0}>
      <ul class="step-lines">
        <For each={props.lines}>
          {(line) => (
            <li classList={{ here: line.here, done: line.done }}>
              <Show when={line.label}>
                <span class="step-rows">{line.label}</span>
              </Show>
              <span class="step-does">{line.text}</span>
              <Show when={line.after}>
                <span class="step-after">{line.after}</span>
              </Show>
              <Show when={line.here || line.done}>
                <span class="hidden">{line.here ? 'here now' : 'done'}</span>
              </Show>
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}
