import { For, Show } from 'solid-js';

/** One way on from a notebook that is only looked at. */
export interface WayOn {
  readonly label: string;
  readonly strong?: boolean;
  readonly choose: () => void;
}

export interface VisitorBarProps {
  /** "Shown, not kept". */
  readonly heading: string;
  /** What is to be known of it, a sentence each. */
  readonly lines: readonly string[];
  readonly ways: readonly WayOn[];
}

/** Above a notebook that is looked at and not kept: what it is, and what can be done with it. */
export function VisitorBar(props: VisitorBarProps) {
  return (
    <section class="visitor" aria-label="a notebook that is not kept">
      <h2>{props.heading}</h2>
      <For each={props.lines.filter((line) => line !== '')}>{(line) => <p>{line}</p>}</For>
      <Show when={props.ways.length > 0}>
        <div class="page-buttons">
          <For each={props.ways}>
            {(way) => (
              <button
                type="button"
                class={way.strong ? 'strong-button' : 'quiet-button'}
                onClick={() => way.choose()}
              >
                {way.label}
              </button>
            )}
          </For>
        </div>
      </Show>
    </section>
  );
}
