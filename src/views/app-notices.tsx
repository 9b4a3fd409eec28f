import { For } from 'solid-js';

/** A sentence from the app itself, that stands until it is answered. */
export interface AppNotice {
  readonly key: string;
  readonly sentence: string;
  /** Nothing may be lost unheard: told at once to those who listen. */
  readonly urgent?: boolean;
  readonly ways: readonly { readonly label: string; readonly choose: () => void }[];
}

/** What the app has to say: storage, other tabs, a new version, what was just deleted. It lies at the page's foot. */
export function AppNotices(props: { readonly notices: readonly AppNotice[] }) {
  return (
    <For each={props.notices}>
      {(notice) => (
        <div
          class="notice app-notice"
          classList={{ urgent: notice.urgent ?? false }}
          role={notice.urgent ? 'alert' : 'status'}
        >
          <p>{notice.sentence}</p>
          <For each={notice.ways}>
            {(way) => (
              <button type="button" class="quiet-button" onClick={() => way.choose()}>
                {way.label}
              </button>
            )}
          </For>
        </div>
      )}
    </For>
  );
}
