/*
 * The app: the shelf of this browser, the notebook that is open, and the list at the left.
 */

import { createMemo, createResource, createSignal, onCleanup, onMount, Show } from 'solid-js';
import { isRefused, type Notebook } from '../notebook/index.ts';
import { chooseFiles, type Listed, onDrop, readFile, type Shelf, watchLeaving } from '../storage/index.ts';
import { refusalSentence } from '../telling/index.ts';
import type { NavGroup } from '../views/index.ts';
import { idInAddress, lastId, putInAddress } from './address.ts';
import { NotebookPage } from './notebook-page.tsx';
import { type OpenedNotebook, openNotebook, type Told } from './opened.ts';
import { beginFrom, blankNotebook, prebuilt } from './prebuilt.ts';

const FIRST = prebuilt[0]?.name ?? '';

/** The whole app on an opened shelf. */
export function App(props: { readonly shelf: Shelf }) {
  const [opened, setOpened] = createSignal<OpenedNotebook>();
  const [isFirstVisit, setFirstVisit] = createSignal(false);
  const [saved, setSaved] = createSignal(savedWords(props.shelf));
  const [failure, setFailure] = createSignal('');
  const [list, { refetch }] = createResource(() => props.shelf.list().catch((): readonly Listed[] => []));
  onCleanup(props.shelf.onChange(() => void refetch()));
  onCleanup(watchLeaving(props.shelf));

  const told: Told = {
    saved: () => setSaved(savedWords(props.shelf)),
    trouble: (words) => setSaved(words),
    overtaken: (words) => setSaved(words),
  };
  let turn = 0;
  const open = async (id: string, replace = false) => {
    const mine = ++turn;
    const next = await openNotebook(props.shelf, id, told);
    if (isRefused(next)) {
      setFailure(refusalSentence(next.refused));
      return;
    }
    if (mine !== turn) return void next.close();
    const old = opened();
    if (old) setFirstVisit(false);
    putInAddress(id, replace);
    setOpened(next);
    await old?.close();
  };
  const begin = async (notebook: Notebook, replace = false) => {
    const made = await props.shelf.create(notebook);
    if (isRefused(made)) setFailure(refusalSentence(made.refused));
    else await open(made.id, replace);
  };

  const openFiles = async (files: readonly File[]) => {
    for (const file of files) {
      const read = await readFile(file);
      if ('notebook' in read) await begin(read.notebook.notebook);
      else
        setFailure(
          'refused' in read
            ? `${read.name}: ${refusalSentence(read.refused)}`
            : `${read.name} holds a whole shelf: open its notebooks one by one.`,
        );
    }
  };
  onCleanup(onDrop(document, (files) => void openFiles(files)));

  onMount(() => {
    void arrive(props.shelf, open, async () => {
      setFirstVisit(true);
      await begin(await beginFrom(FIRST), true);
    });
    const turnTo = () => {
      const id = idInAddress();
      if (id !== undefined && id !== opened()?.session.notebook.id) void open(id, true);
    };
    addEventListener('popstate', turnTo);
    onCleanup(() => removeEventListener('popstate', turnTo));
  });

  const nav = createMemo((): readonly NavGroup[] => [
    {
      heading: 'your notebooks',
      items: (list() ?? []).map(({ id, title, about }) => ({
        id,
        title,
        about,
        current: id === opened()?.session.notebook.id,
        choose: () => void open(id),
      })),
    },
    {
      heading: 'start a new one from',
      items: [
        ...prebuilt.map(({ name, title }) => ({
          id: name,
          title,
          choose: () => void beginFrom(name).then(begin),
        })),
        { id: 'blank', title: 'A blank page', choose: () => void begin(blankNotebook()) },
        { id: 'open', title: 'A file', choose: () => void chooseFiles().then(openFiles) },
      ],
    },
  ]);
  return (
    <>
      <Show when={failure()}>
        <p role="alert" class="hint">
          {failure()}
        </p>
      </Show>
      <Show when={opened()} keyed>
        {(one) => (
          <NotebookPage
            opened={one}
            nav={nav}
            saved={saved}
            hint={isFirstVisit() ? FIRST_HINT : ''}
            startAt={isFirstVisit() ? one.session.live.sheet.idOf('stitch_gauge') : undefined}
          />
        )}
      </Show>
    </>
  );
}

const FIRST_HINT = 'Change the stitch gauge with − and +, and watch every size move.';

function savedWords(shelf: Shelf): string {
  if (shelf.trouble === 'full') return 'no room on this device: save a file';
  return shelf.trouble ? 'not kept: this browser keeps nothing here' : 'saved on this device';
}

/** On arrival: the notebook in the address, the last one, the first of the list, or a first one to begin with. */
async function arrive(
  shelf: Shelf,
  open: (id: string, replace: boolean) => Promise<void>,
  first: () => Promise<void>,
): Promise<void> {
  const list = await shelf.list();
  const there = (id: string | undefined) => list.find((one) => one.id === id)?.id;
  const id = there(idInAddress()) ?? there(lastId()) ?? list[0]?.id;
  await (id === undefined ? first() : open(id, true));
}
