import { createSignal, Index, type JSX, Show } from 'solid-js';
import { InlineText } from './inline-text.tsx';
import { MenuButton } from './menu/menu-button.tsx';
import { type NotebookActions, notebookMenu } from './shelf/notebook-menu.ts';

/** A line in the list at the left. */
export interface NavItem {
  readonly id: string;
  readonly title: string;
  /** A few words under it: "trying a change". */
  readonly about?: string;
  readonly current?: boolean;
  /** What its menu offers, for one of her notebooks. */
  readonly actions?: NotebookActions;
  readonly choose: () => void;
}

/** A part of the list with its heading: "your notebooks", "start a new one from". */
export interface NavGroup {
  readonly heading: string;
  readonly items: readonly NavItem[];
}

export interface NotebooksNavProps {
  readonly groups: readonly NavGroup[];
  /** Something was chosen: a list lying over the page goes away. */
  readonly onChosen: () => void;
  /** What the head has no room for on a phone. */
  readonly children?: JSX.Element;
}

/** Her notebooks and what a new one can begin from. */
export function NotebooksNav(props: NotebooksNavProps) {
  const [renaming, setRenaming] = createSignal('');
  return (
    <nav class="nav" aria-label="notebooks">
      <Index each={props.groups}>
        {(group) => (
          <section>
            <h2>{group().heading}</h2>
            <ul>
              <Index each={group().items}>
                {(item) => (
                  <li class="nav-line">
                    <Show
                      when={renaming() !== item().id}
                      fallback={<Rename item={item()} onEnd={setRenaming} />}
                    >
                      <button
                        type="button"
                        class="nav-item"
                        aria-current={item().current ? 'page' : undefined}
                        onClick={() => {
                          item().choose();
                          props.onChosen();
                        }}
                      >
                        {item().title}
                        <Show when={item().about}>
                          <small>{item().about}</small>
                        </Show>
                      </button>
                      <Show when={item().actions}>
                        {(actions) => (
                          <MenuButton
                            of={item().title}
                            items={() => notebookMenu(actions(), () => setRenaming(item().id))}
                          />
                        )}
                      </Show>
                    </Show>
                  </li>
                )}
              </Index>
            </ul>
          </section>
        )}
      </Index>
      <div class="nav-tools">{props.children}</div>
    </nav>
  );
}

function Rename(props: { readonly item: NavItem; readonly onEnd: (id: string) => void }) {
  return (
    <InlineText
      label={`another title for ${props.item.title}`}
      text={props.item.title}
      onCommit={(text) => {
        const title = text.trim();
        if (title !== '' && title !== props.item.title) props.item.actions?.rename(title);
        props.onEnd('');
        return true;
      }}
      onCancel={() => props.onEnd('')}
    />
  );
}
