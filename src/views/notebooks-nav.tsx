import { For, type JSX, Show } from 'solid-js';

/** A line in the list at the left. */
export interface NavItem {
  readonly id: string;
  readonly title: string;
  /** A few words under it: "trying a change". */
  readonly about?: string;
  readonly current?: boolean;
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
  return (
    <nav class="nav" aria-label="notebooks">
      <For each={props.groups}>
        {(group) => (
          <section>
            <h2>{group.heading}</h2>
            <ul>
              <For each={group.items}>
                {(item) => (
                  <li>
                    <button
                      type="button"
                      class="nav-item"
                      aria-current={item.current ? 'page' : undefined}
                      onClick={() => {
                        item.choose();
                        props.onChosen();
                      }}
                    >
                      {item.title}
                      <Show when={item.about}>
                        <small>{item.about}</small>
                      </Show>
                    </button>
                  </li>
                )}
              </For>
            </ul>
          </section>
        )}
      </For>
      <div class="nav-tools">{props.children}</div>
    </nav>
  );
}
