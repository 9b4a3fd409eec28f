import { createMemo, For, Show } from 'solid-js';
import type { PageView } from '../session/index.ts';
import { StitchKey } from './stitch-mark.tsx';

/** Under the sheet: how the notebook is worked out, in plain words, and where its numbers come from. */
export function NotebookNotes(props: { readonly view: PageView }) {
  const paragraphs = createMemo(() => props.view.how.split(/\n+/).filter((text) => text.trim() !== ''));
  return (
    <Show when={paragraphs().length > 0 || props.view.sources.length > 0}>
      <section class="notes" aria-label="about this notebook">
        <p class="phone-only">
          <StitchKey />
        </p>
        <Show when={paragraphs().length > 0}>
          <h2>How this is worked out</h2>
          <For each={paragraphs()}>{(text) => <p>{text}</p>}</For>
        </Show>
        <Show when={props.view.sources.length > 0}>
          <h3>Where the numbers come from</h3>
          <ul>
            <For each={props.view.sources}>{(source) => <li>{source}</li>}</For>
          </ul>
        </Show>
      </section>
    </Show>
  );
}

/** So many of what was mended stand open. */
const MOST_REMARKS = 3;

/** Above the sheet: what was mended on opening, and whether the notebook can only be read, where that is not said already. */
export function NotebookRemarks(props: { readonly view: PageView; readonly isSaid: boolean }) {
  const isReadOnly = () => props.view.readOnly && !props.isSaid;
  return (
    <Show when={isReadOnly() || props.view.remarks.length > 0}>
      <div class="remarks">
        <Show when={isReadOnly()}>
          <p>This notebook can be read here, but not changed.</p>
        </Show>
        <For each={props.view.remarks.slice(0, MOST_REMARKS)}>{(remark) => <p>{remark}</p>}</For>
        <Show when={props.view.remarks.length > MOST_REMARKS}>
          <details>
            <summary>and {props.view.remarks.length - MOST_REMARKS} more</summary>
            <For each={props.view.remarks.slice(MOST_REMARKS)}>{(remark) => <p>{remark}</p>}</For>
          </details>
        </Show>
      </div>
    </Show>
  );
}
