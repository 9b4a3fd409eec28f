/*
 * What is to be said about keeping: whether the notebook is saved, what other tabs did, when a file is due because the
 * browser promises nothing. Everything is told once, in one sentence, with the way out beside it.
 */

import { type Accessor, createSignal, onCleanup } from 'solid-js';
import {
  askToPersist,
  fileIsDue,
  type Keeper,
  type Persistence,
  persistence,
  type Shelf,
} from '../storage/index.ts';
import { recall, remember } from '../views/index.ts';
import type { Library } from './library.ts';
import type { Notices } from './notices.ts';
import type { Overtaken, Told } from './opened.ts';

export interface Keeping {
  /** "saved on this device", or what else is to be known. */
  readonly saved: Accessor<string>;
  /** What the browser does not promise, with what to do about it; "" where it promises, or there is nothing to keep yet. */
  readonly promise: Accessor<string>;
  readonly told: Told;
  /** A notebook has been opened: whether another tab has it too, and whether its file is due, is told. */
  watch(keeper: Keeper | undefined): void;
}

const WORDS = {
  saved: 'saved on this device',
  unpromised: 'saved on this device, for now',
  shared: 'saved on this device; open in another tab too',
  none: 'not kept: this browser keeps nothing here',
  full: 'not saved: no room on this device',
  other: 'not saved yet: trying again',
} as const;

/** When a line about files was put off, so that it comes back the next day and not at once. */
const PUT_OFF = 'ellwand file put off';
const DAY = 24 * 3_600_000;
/** Milliseconds between two looks at whether a file is due. */
const LOOK_EVERY = 600_000;
/** Milliseconds that the head tells what another tab did. */
const PASSES_AFTER = 3_000;

export function createKeeping(
  shelf: Shelf,
  library: Library,
  notices: Notices,
  saveFile: () => void,
): Keeping {
  /** What is wrong with keeping, if anything is. */
  const [words, setWords] = createSignal<string>();
  /** What another tab has just done. */
  const [passing, setPassing] = createSignal<string>();
  /** What the browser has promised, once there is something to keep. */
  const [promised, setPromised] = createSignal<Persistence>();
  const [isShared, setShared] = createSignal(false);
  let open: Keeper | undefined;
  let isAsked = false;
  let lookedAt = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(timer));
  const way = { label: 'Save a file', choose: saveFile };

  const savedWords = () => {
    if (isShared()) return WORDS.shared;
    return promised() === 'not_kept' ? WORDS.unpromised : WORDS.saved;
  };
  /** The tab that came first owns a notebook; this one hears so as it opens it too. */
  const nothingElse = () => {
    setShared(open !== undefined && !open.owner);
    setWords(undefined);
  };
  const pass = () => {
    setPassing(undefined);
    library.refresh();
  };
  const troubled = (kind: 'full' | 'none' | 'other') => {
    setPassing(undefined);
    setWords(WORDS[kind]);
    notices.tell({ key: 'keeping', urgent: true, sentence: TROUBLE[kind], ways: [way, OK] });
  };
  if (shelf.trouble) troubled(shelf.trouble === 'full' ? 'full' : 'none');
  if (shelf.putBack.length > 0) notices.say('put back', PUT_BACK);

  const told: Told = {
    saved: () => {
      if (shelf.trouble) return;
      nothingElse();
      notices.drop('keeping');
      library.refresh();
      if (open && Date.now() - lookedAt > LOOK_EVERY) void look(open.id);
    },
    changed: () => {
      if (isAsked || shelf.trouble) return;
      isAsked = true;
      void askToPersist().then(setPromised);
    },
    trouble: (kind) => troubled(kind),
    takenBack: (title) => notices.say('taken back', `“${title}” could not be kept, and was taken back.`),
    elsewhere: (title) => {
      library.refresh();
      if (title === '' || words() !== undefined) return;
      setPassing(`in another tab: ${title}`);
      clearTimeout(timer);
      timer = setTimeout(pass, PASSES_AFTER);
    },
    overtaken: (mine, theirs, again) =>
      notices.tell({
        key: `overtaken: ${mine.title}`,
        sentence: overtakenWords(mine, theirs),
        ways: [{ label: 'Put mine back', choose: again }, OK],
      }),
  };
  const look = async (id: string) => {
    lookedAt = Date.now();
    const listed = (await library.read()).find((one) => one.id === id);
    if (!listed || shelf.trouble) return;
    const kept = await persistence();
    if (listed.number > 0) setPromised(kept);
    if (isPutOff() || !fileIsDue(listed, kept, Date.now())) return;
    notices.tell({ key: 'file due', sentence: DUE, ways: [way, { label: 'Not today', choose: putOff }] });
  };
  return {
    saved: () => passing() ?? words() ?? savedWords(),
    promise: () => (promised() === 'not_kept' && !shelf.trouble ? UNPROMISED : ''),
    told,
    watch: (keeper) => {
      open = keeper;
      setPassing(undefined);
      if (!shelf.trouble) nothingElse();
      if (keeper) void look(keeper.id);
    },
  };
}

/** What both wrote, where each is one text; else what the two changes are called. */
function overtakenWords(mine: Overtaken, theirs: Overtaken): string {
  const both = 'Another tab changed the same thing a moment later';
  if (mine.text === undefined || theirs.text === undefined || mine.title !== theirs.title)
    return `${both}: “${theirs.title}” stands, in place of your “${mine.title}”.`;
  const said = (text: string) => (text === '' ? 'nothing' : `“${text}”`);
  return `${both} (${mine.title}): ${said(theirs.text)} stands; yours was ${said(mine.text)}.`;
}

const OK = { label: 'OK', choose: () => undefined };

const TROUBLE = {
  none: 'This browser keeps nothing here: what you write is gone when the page closes. Save a file before you go.',
  full: 'This device has no room left: the last changes are not saved. Save a file now.',
  other: 'The last changes could not be saved yet; it is being tried again. To be safe, save a file.',
} as const;

const DUE =
  'This browser may clear what a page keeps, and there has been no file of this notebook since it was changed.';

const PUT_BACK = 'The browser had lost its store; your notebooks were put back from their second copy.';

const UNPROMISED =
  'This browser has not promised to keep what is written here: some browsers clear a page that has not been visited ' +
  'for a week. Save a file now and then; putting Ellwand on the home screen helps too.';

const isPutOff = (): boolean => Date.now() - Number(recall(PUT_OFF) ?? 0) < DAY;

const putOff = (): void => remember(PUT_OFF, String(Date.now()));
