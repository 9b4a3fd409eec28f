/*
 * The notebook's own file as text, for those who like it: read over the whole width, checked as one types, and taken
 * back as one change. The editor comes only when this page is opened.
 */
import './file-view.css';
import { createSignal, For, onCleanup, onMount, Show } from 'solid-js';
import type { Mistake, Page } from '../../session/index.ts';
import type { FileEditor } from './file-editor.ts';

export interface FileViewProps {
  readonly page: Page;
  /** She is done, one way or the other. */
  readonly onClose: () => void;
  /** She wants another file opened, or this one saved. */
  readonly onOpen: () => void;
  readonly onSave: () => void;
}

/** So many mistakes are listed at once. */
const mostListed = 6;

/** The notebook's file in an editor of the page. */
export function FileView(props: FileViewProps) {
  const stored = props.page.file();
  const [mistakes, setMistakes] = createSignal<readonly Mistake[]>([]);
  const [isChanged, setChanged] = createSignal(false);
  let host!: HTMLDivElement;
  let editor: FileEditor | undefined;
  let isGone = false;

  onMount(() => {
    void import('./file-editor.ts').then(({ makeFileEditor }) => {
      if (isGone) return;
      editor = makeFileEditor(host, stored, {
        check: (text) => props.page.checkFile(text),
        onChecked: setMistakes,
        onText: (text) => setChanged(text !== stored),
        onSave: keep,
      });
      editor.focus();
    });
  });
  onCleanup(() => {
    isGone = true;
    editor?.destroy();
  });
  const keep = () => {
    if (!editor) return;
    const outcome = props.page.setFile(editor.text());
    if (outcome.done) props.onClose();
    else {
      const [from, to] = outcome.at ?? [0, 0];
      setMistakes([{ from, to, sentence: outcome.sentence }]);
    }
  };
  return (
    <section class="file-view" aria-labelledby="file-view-title">
      <div class="file-head">
        <h2 id="file-view-title">This notebook’s file</h2>
        <span class="header-space" />
        <Show when={!isChanged()}>
          <button type="button" class="quiet-button" onClick={props.onOpen}>
            Open a file
          </button>
          <button type="button" class="quiet-button" onClick={props.onSave}>
            Save a file
          </button>
        </Show>
        <button type="button" class="quiet-button" onClick={props.onClose}>
          {isChanged() ? 'Leave it as it was' : 'Back to the sheet'}
        </button>
        <button
          type="button"
          class="strong-button"
          disabled={!isChanged() || mistakes().length > 0}
          onClick={keep}
        >
          Keep the change
        </button>
      </div>
      <Show when={mistakes().length > 0}>
        <ul class="file-mistakes">
          <For each={mistakes().slice(0, mostListed)}>
            {(mistake) => (
              <li>
                <button type="button" class="link" onClick={() => editor?.show(mistake)}>
                  {mistake.sentence}
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <div ref={host} class="file-host" />
    </section>
  );
}
