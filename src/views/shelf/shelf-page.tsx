/* All notebooks of this device: those in use in their order, those put away, those deleted, and what a new one begins from. */
import './pages.css';
import { createSignal, For, type JSX, Show } from 'solid-js';
import { InlineText } from '../inline-text.tsx';
import { Keyed } from '../keyed.tsx';
import { MenuButton } from '../menu/menu-button.tsx';
import { type NotebookActions, notebookMenu } from './notebook-menu.ts';
import { PageHead } from './page-head.tsx';

/** A notebook in the list. */
export interface ShelfEntry {
  readonly id: string;
  readonly title: string;
  readonly about: string;
  /** "changed 2 days ago". */
  readonly changed: string;
  readonly current: boolean;
  readonly open: () => void;
  readonly actions: NotebookActions;
}

/** A deleted notebook, which can be put back for a month. */
export interface DeletedEntry {
  readonly id: string;
  readonly title: string;
  readonly deleted: string;
  readonly restore: () => void;
}

/** What a new notebook can begin from. */
export interface Beginning {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly begin: () => void;
}

export interface ShelfPageProps {
  readonly inUse: readonly ShelfEntry[];
  readonly away: readonly ShelfEntry[];
  readonly deleted: readonly DeletedEntry[];
  readonly beginnings: readonly Beginning[];
  /** What the browser does not promise about all this, in a sentence or two; "" where it does. */
  readonly promise: string;
  readonly onSaveAll: () => void;
  readonly onFiles: () => void;
  readonly onClose: () => void;
}

/** The page of all notebooks. */
export function ShelfPage(props: ShelfPageProps) {
  return (
    <section class="page" aria-labelledby="shelf-title">
      <PageHead id="shelf-title" title="All notebooks" onClose={props.onClose} />
      <ul class="shelf-list">
        <Keyed each={props.inUse} key={idOf}>
          {(entry) => <Entry entry={entry()} isAway={false} />}
        </Keyed>
      </ul>
      <Show when={props.inUse.length === 0}>
        <p class="soft">None is in use: take one out again below, or start a new one.</p>
      </Show>
      <Folded title="Put away" count={props.away.length}>
        <ul class="shelf-list">
          <Keyed each={props.away} key={idOf}>
            {(entry) => <Entry entry={entry()} isAway={true} />}
          </Keyed>
        </ul>
      </Folded>
      <Folded title="Deleted, kept for a month" count={props.deleted.length}>
        <ul class="shelf-list">
          <Keyed each={props.deleted} key={idOf}>
            {(entry) => (
              <li class="shelf-entry">
                <span class="shelf-words">
                  {entry().title || 'untitled'}
                  <small>deleted {entry().deleted}</small>
                </span>
                <button type="button" class="quiet-button" onClick={() => entry().restore()}>
                  Put back<span class="hidden"> {entry().title}</span>
                </button>
              </li>
            )}
          </Keyed>
        </ul>
      </Folded>
      <h3>Start a new one from</h3>
      <ul class="beginnings">
        <For each={props.beginnings}>
          {(one) => (
            <li>
              <button type="button" class="beginning" onClick={one.begin}>
                {one.title}
                <small>{one.about}</small>
              </button>
            </li>
          )}
        </For>
      </ul>
      <h3>All of it as one file</h3>
      <p>
        For another device, or to be safe. Taken in again, nothing is written over: of a notebook that is here
        already the later state stands, and the other is kept as a version of it.
      </p>
      <Show when={props.promise}>
        <p class="promise">{props.promise}</p>
      </Show>
      <div class="page-buttons">
        <button type="button" class="quiet-button" onClick={props.onSaveAll}>
          Save all notebooks as a file
        </button>
        <button type="button" class="quiet-button" onClick={props.onFiles}>
          Open a file
        </button>
      </div>
    </section>
  );
}

const idOf = (one: { readonly id: string }): string => one.id;

function Folded(props: { readonly title: string; readonly count: number; readonly children: JSX.Element }) {
  return (
    <Show when={props.count > 0}>
      <details class="folded">
        <summary>
          {props.title} ({props.count})
        </summary>
        {props.children}
      </details>
    </Show>
  );
}

function Entry(props: { readonly entry: ShelfEntry; readonly isAway: boolean }) {
  const [isRenaming, setRenaming] = createSignal(false);
  let line!: HTMLLIElement;
  const stand = () => line.querySelector<HTMLElement>('button')?.focus();
  const endRenaming = () => {
    const isHere = line.contains(document.activeElement);
    setRenaming(false);
    if (isHere) stand();
  };
  const hearKey = (event: KeyboardEvent) => {
    const { moveUp, moveDown } = props.entry.actions;
    const move = event.key === 'ArrowUp' ? moveUp : event.key === 'ArrowDown' ? moveDown : undefined;
    if (!event.altKey || !move) return;
    event.preventDefault();
    void move().then(stand); // A line that is moved on the page loses the keyboard.
  };
  return (
    <li ref={line} class="shelf-entry" data-id={props.entry.id} onKeyDown={hearKey}>
      <Show
        when={!isRenaming()}
        fallback={
          <InlineText
            label={`another title for ${props.entry.title}`}
            text={props.entry.title}
            onCommit={(text) => {
              const title = text.trim();
              if (title !== '' && title !== props.entry.title) props.entry.actions.rename(title);
              endRenaming();
              return true;
            }}
            onCancel={endRenaming}
          />
        }
      >
        <button
          type="button"
          class="shelf-words"
          aria-current={props.entry.current ? 'page' : undefined}
          onClick={() => props.entry.open()}
        >
          {props.entry.title || 'untitled'}
          <small>{props.entry.about}</small>
        </button>
        <span class="shelf-when">{props.entry.changed}</span>
        <MenuButton
          of={props.entry.title || 'untitled'}
          items={() => notebookMenu(props.entry.actions, () => setRenaming(true), props.isAway)}
        />
      </Show>
    </li>
  );
}
