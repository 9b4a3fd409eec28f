/* The versions of a notebook: naming one, looking at one, comparing, bringing back. */
import './pages.css';
import { Show } from 'solid-js';
import { Keyed } from '../keyed.tsx';
import { PageHead } from './page-head.tsx';

/** A version in the list. */
export interface VersionEntry {
  readonly id: string;
  /** As she called it; "" for one that was kept by itself. */
  readonly name: string;
  /** "2 hours ago", and the moment itself. */
  readonly age: string;
  readonly moment: string;
  readonly look: () => void;
  readonly compare: () => void;
  readonly bringBack: () => void;
  readonly remove: () => void;
}

export interface VersionsPageProps {
  readonly title: string;
  readonly versions: readonly VersionEntry[];
  readonly canChange: boolean;
  readonly onName: (name: string) => void;
  readonly onClose: () => void;
}

/** The page of versions. */
export function VersionsPage(props: VersionsPageProps) {
  let field!: HTMLInputElement;
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    props.onName(field.value.trim() || 'a version');
    field.value = '';
  };
  return (
    <section class="page" aria-labelledby="versions-title">
      <PageHead id="versions-title" title={`Versions of ${props.title}`} onClose={props.onClose} />
      <form class="name-version" onSubmit={keep}>
        <label>
          Keep it as it is now, as
          <input
            ref={field}
            type="text"
            maxlength={100}
            placeholder="before I ripped back"
            autocomplete="off"
          />
        </label>
        <button type="submit" class="strong-button">
          Keep a version
        </button>
      </form>
      <Show
        when={props.versions.length > 0}
        fallback={
          <p class="soft">
            There are none yet. One is kept by itself every ten minutes or so while you change things; a
            version you name stays until you delete it.
          </p>
        }
      >
        <ul class="shelf-list">
          <Keyed each={props.versions} key={(version) => version.id}>
            {(version) => <Line version={version()} canChange={props.canChange} />}
          </Keyed>
        </ul>
        <p class="soft">
          Those kept by themselves grow fewer with age: all of the last hour, then one an hour, one a day, one
          a month.
        </p>
      </Show>
    </section>
  );
}

function Line(props: { readonly version: VersionEntry; readonly canChange: boolean }) {
  const of = () => props.version.name || props.version.age;
  return (
    <li class="shelf-entry version">
      <span class="shelf-words" classList={{ named: props.version.name !== '' }}>
        {props.version.name || 'kept by itself'}
        <small>
          {props.version.age}, {props.version.moment}
        </small>
      </span>
      <span class="page-buttons">
        <Act word="Look at it" of={of()} choose={props.version.look} />
        <Act word="Compare" of={of()} choose={props.version.compare} />
        <Show when={props.canChange}>
          <Act word="Bring it back" of={of()} choose={props.version.bringBack} />
        </Show>
        <Act word="Delete" of={of()} choose={props.version.remove} />
      </span>
    </li>
  );
}

function Act(props: { readonly word: string; readonly of: string; readonly choose: () => void }) {
  return (
    <button type="button" class="link" onClick={() => props.choose()}>
      {props.word}
      <span class="hidden"> ({props.of})</span>
    </button>
  );
}
