/* How a notebook is worked out: in plain words, with where its numbers come from, what to mind, and what was mended. */
import './pages.css';
import { createMemo, For, type JSX, Show } from 'solid-js';
import { PageHead } from './page-head.tsx';

/** A sentence about something: `about` is the name of the cell or section it stands beside, or "". */
export interface Said {
  readonly about: string;
  readonly text: string;
}

export interface HowPageProps {
  readonly title: string;
  readonly how: string;
  readonly sources: readonly Said[];
  readonly cautions: readonly Said[];
  /** What was mended when it was opened. */
  readonly remarks: readonly string[];
  /** "grown from “Resize a sweater”"; "" where it is not. */
  readonly from: string;
  readonly onClose: () => void;
}

/** The page. */
export function HowPage(props: HowPageProps) {
  const paragraphs = createMemo(() => props.how.split(/\n+/).filter((text) => text.trim() !== ''));
  return (
    <section class="page reading" aria-labelledby="how-title">
      <PageHead id="how-title" title={`How ${props.title || 'this'} is worked out`} onClose={props.onClose} />
      <For
        each={paragraphs()}
        fallback={<p class="soft">Nobody has written down yet how this is worked out.</p>}
      >
        {(text) => <p>{text}</p>}
      </For>
      <List title="What to mind" list={props.cautions} />
      <List title="Where the numbers come from" list={props.sources} />
      <Show when={props.remarks.length > 0}>
        <h3>What was mended when it was opened</h3>
        <ul>
          <For each={props.remarks}>{(text) => <li>{text}</li>}</For>
        </ul>
      </Show>
      <Show when={props.from}>
        <p class="soft">{props.from}</p>
      </Show>
    </section>
  );
}

function List(props: { readonly title: string; readonly list: readonly Said[] }): JSX.Element {
  return (
    <Show when={props.list.length > 0}>
      <h3>{props.title}</h3>
      <ul>
        <For each={props.list}>
          {(one) => (
            <li>
              <Show when={one.about}>
                <b>{one.about}: </b>
              </Show>
              {one.text}
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}
