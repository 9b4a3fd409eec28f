/* Sharing a notebook: as a link, a file, a table, or with the whole tool around it. Nothing goes to a server. */
import './pages.css';
import { createSignal, Show, type Signal } from 'solid-js';
import { PageHead } from './page-head.tsx';
import { PictureCode } from './picture-code.tsx';

/** The link, or why there is none. */
export type ShareLink =
  | { readonly address: string; readonly fitsPicture: boolean }
  | { readonly sentence: string };

export interface SharePageProps {
  readonly title: string;
  /** The link; undefined while it is being made. */
  readonly link: ShareLink | undefined;
  readonly hasProgress: boolean;
  /** Whether what is knitted so far goes along, and what sets that. */
  readonly knitted: Readonly<Record<'link' | 'file' | 'tool', Signal<boolean>>>;
  /** Whether this system can hand a file on. */
  readonly canSend: boolean;
  readonly onSend: () => Promise<string>;
  readonly onSaveFile: () => void;
  /** The table as spreadsheets take it when it is pasted. */
  readonly tabs: () => string;
  readonly markdown: () => string;
  readonly onSaveTable: () => void;
  readonly onSaveText: () => void;
  /** Saves the tool with the notebook in it; gives a sentence where that cannot be done, else "". */
  readonly onSaveTool: () => Promise<string>;
  readonly onClose: () => void;
}

/** The page that shares. */
export function SharePage(props: SharePageProps) {
  const [said, setSaid] = createSignal('');
  const [isPictured, setPictured] = createSignal(false);
  const copy = (text: string, what: string) => {
    navigator.clipboard.writeText(text).then(
      () => setSaid(`${what} is copied.`),
      () => setSaid('This browser does not let a page copy: take hold of the text and copy it yourself.'),
    );
  };
  const tell = (work: Promise<string>) => void work.then(setSaid);
  const along = (what: keyof typeof ALONG) => (
    <Show when={props.hasProgress}>
      <label class="tick-line">
        <input
          type="checkbox"
          checked={props.knitted[what][0]()}
          onChange={(event) => props.knitted[what][1](event.currentTarget.checked)}
        />
        {ALONG[what]} what is knitted so far: ticks, rows, counts on the needles
      </label>
    </Show>
  );
  return (
    <section class="page" aria-labelledby="share-title">
      <PageHead id="share-title" title={`Share ${props.title || 'this notebook'}`} onClose={props.onClose} />
      <p class="said" role="status">
        {said()}
      </p>

      <h3>As a link</h3>
      <p>
        The notebook itself stands in the link: it reaches no server, and whoever has the link has the
        notebook.
      </p>
      {along('link')}
      <Show when={props.link} keyed fallback={<p class="soft">The link is being made…</p>}>
        {(link) => (
          <Link
            link={link}
            isPictured={isPictured()}
            onPicture={() => setPictured(!isPictured())}
            onCopy={(address) => copy(address, 'The link')}
            onSaveFile={props.onSaveFile}
          />
        )}
      </Show>

      <h3>As a file</h3>
      <p>
        Any Ellwand opens it: choose it there, or drop it on the page. It is shown first, and kept only when
        asked.
      </p>
      {along('file')}
      <div class="page-buttons">
        <button type="button" class="quiet-button" onClick={props.onSaveFile}>
          Save a file
        </button>
        <Show when={props.canSend}>
          <button type="button" class="quiet-button" onClick={() => tell(props.onSend())}>
            Send it on…
          </button>
        </Show>
      </div>

      <h3>As a table</h3>
      <p>The values as they stand now, with their units, for a spreadsheet or a text.</p>
      <div class="page-buttons">
        <button type="button" class="quiet-button" onClick={props.onSaveTable}>
          Save a table (CSV)
        </button>
        <button type="button" class="quiet-button" onClick={() => copy(props.tabs(), 'The table')}>
          Copy the table
        </button>
        <button type="button" class="quiet-button" onClick={props.onSaveText}>
          Save as text (Markdown)
        </button>
        <button type="button" class="quiet-button" onClick={() => copy(props.markdown(), 'The text')}>
          Copy as text (Markdown)
        </button>
      </div>

      <h3>With the tool around it</h3>
      <p>
        One file that opens by a double click, in any browser, with nothing installed and no network: this
        notebook in it, ready to change.
      </p>
      {along('tool')}
      <div class="page-buttons">
        <button type="button" class="quiet-button" onClick={() => tell(props.onSaveTool())}>
          Save the tool with this notebook in it
        </button>
      </div>
    </section>
  );
}

const ALONG = {
  link: 'the link takes along',
  file: 'the file keeps',
  tool: 'the tool takes along',
} as const;

interface LinkProps {
  readonly link: ShareLink;
  readonly isPictured: boolean;
  readonly onPicture: () => void;
  readonly onCopy: (address: string) => void;
  readonly onSaveFile: () => void;
}

function Link(props: LinkProps) {
  const address = () => ('address' in props.link ? props.link.address : '');
  const sentence = () => ('sentence' in props.link ? props.link.sentence : '');
  const fits = () => 'address' in props.link && props.link.fitsPicture;
  return (
    <Show
      when={sentence() === ''}
      fallback={
        <p class="refusal">
          {sentence()}{' '}
          <button type="button" class="link" onClick={props.onSaveFile}>
            Save a file instead
          </button>
        </p>
      }
    >
      <input
        class="address"
        type="text"
        readonly
        aria-label="the link"
        value={address()}
        onFocus={(event) => event.currentTarget.select()}
      />
      <div class="page-buttons">
        <button type="button" class="strong-button" onClick={() => props.onCopy(address())}>
          Copy the link
        </button>
        <Show when={fits()}>
          <button
            type="button"
            class="quiet-button"
            aria-expanded={props.isPictured}
            onClick={props.onPicture}
          >
            Show it to another phone
          </button>
        </Show>
      </div>
      <Show when={fits() && props.isPictured}>
        <PictureCode address={address()} />
      </Show>
    </Show>
  );
}
