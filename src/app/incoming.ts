/*
 * What comes from outside: files, links, and a notebook that this page carries in itself. A notebook is shown first and
 * kept when asked; one that is on the shelf already can be compared with it. What cannot be read is one sentence, and
 * the open notebook is left alone.
 */

import {
  allCells,
  compareNotebooks,
  isRefused,
  limits,
  type Notebook,
  type Read,
  same,
} from '../notebook/index.ts';
import { language, type Session, summaryOf } from '../session/index.ts';
import { bareTitle, chooseFiles, readFile, type Shelf, type ShelfFile, takeIn } from '../storage/index.ts';
import { refusalSentence } from '../telling/index.ts';
import type { WayOn } from '../views/index.ts';
import { type Notices, UNREAD } from './notices.ts';
import { lookAt, withoutProgress } from './opened.ts';
import type { Place } from './place.ts';

export interface Incoming {
  /** Asks for files, and takes them. */
  choose(): Promise<void>;
  /** Takes files, one after the other. */
  files(files: readonly File[]): Promise<void>;
  /** Shows a notebook that came from somewhere: "a link", "Ada.ellwand.json". `onChoice` is called when a way on is chosen. */
  show(read: Read, from: string, onChoice?: () => void): Promise<void>;
}

interface Waiting {
  readonly read: Read;
  readonly from: string;
}

/** `onLeft` is called when a notebook that was looked at has been left, and no other waits. */
export function createIncoming(shelf: Shelf, place: Place, notices: Notices, onLeft: () => void): Incoming {
  let waiting: readonly Waiting[] = [];

  const next = async () => {
    const [first, ...rest] = waiting;
    waiting = rest;
    if (first) await show(first.read, first.from);
    return first !== undefined;
  };
  const leave = async () => {
    place.visit(undefined);
    if (!(await next())) onLeft();
  };
  const keep = async (notebook: Notebook) => {
    if (await place.begin(notebook, { sameId: true })) await next();
  };
  const show: Incoming['show'] = (read, from, onChoice = () => undefined) => {
    if (!isMuchWork(read.notebook)) return showNow(read, from, onChoice);
    notices.tell({
      key: 'much work',
      sentence: `${heading(from)}: ${read.notebook.title || 'a notebook'}. ${muchWords(read.notebook)}`,
      ways: [
        { label: 'Show it all the same', choose: () => void showNow(read, from, onChoice) },
        { label: 'Leave it', choose: () => void leave() },
      ],
    });
    return Promise.resolve();
  };
  const showNow = async (read: Read, from: string, onChoice: () => void) => {
    const session = await lookAt(read);
    const here = await shelf.peek(read.notebook.id).catch(() => undefined);
    const mine = here === undefined || isRefused(here) ? undefined : here;
    /** One's own; out of the deleted ones, if it was there. */
    const open = async () => {
      const { id } = read.notebook;
      const listed = (await shelf.list(true).catch(() => [])).find((one) => one.id === id);
      if (listed?.deletedAt !== undefined) await shelf.restore(id).catch(() => undefined);
      return place.open(id);
    };
    const compare = async () => {
      if (await open()) place.compareWith({ session, name: `from ${from}` });
    };
    const found: Found = {
      isMine: mine !== undefined,
      differing: mine === undefined ? 0 : differingOf(mine, read.notebook),
      isKnitted: read.notebook.progress !== undefined && !same(mine?.progress, read.notebook.progress),
    };
    const ways = waysOn(read, found, {
      keep: () => void keep(read.notebook),
      keepBare: () => void keep(withoutProgress(read.notebook)),
      open: () => void open(),
      compare: () => void compare(),
      leave: () => void leave(),
    }).map((way) => ({
      ...way,
      choose: () => {
        onChoice();
        way.choose();
      },
    }));
    const lines = [standing(read, found), told(session)];
    place.visit({ session, bar: { heading: `${heading(from)}: shown, not kept`, lines, ways } });
  };
  const takeShelf = (file: ShelfFile, name: string) => {
    notices.tell({
      key: 'shelf',
      sentence: shelfWords(file, name),
      ways: [
        { label: 'Take them in', choose: () => void take(file, name) },
        { label: 'Leave it', choose: () => undefined },
      ],
    });
  };
  const take = async (file: ShelfFile, name: string) => {
    const taken = await takeIn(shelf, file, `from ${name}`.slice(0, 100)).catch(() => undefined);
    notices.say(
      'shelf',
      taken ? takenWords(taken) : 'The browser could not keep them all: it may have no room left.',
    );
  };
  const files = async (chosen: readonly File[]) => {
    for (const file of chosen) {
      const read = await readFile(file);
      const name = shortened(read.name);
      if ('refused' in read) notices.say(`${UNREAD}${name}`, `${name}: ${refusalSentence(read.refused)}`);
      else if ('shelf' in read) takeShelf(read.shelf, name);
      else waiting = [...waiting, { read: read.notebook, from: name }];
    }
    await next();
  };
  return { show, files, choose: async () => files(await chooseFiles()) };
}

/** The most letters of a file's name that are told. */
const MOST_OF_NAME = 60;

const shortened = (name: string): string =>
  name.length > MOST_OF_NAME ? `${name.slice(0, MOST_OF_NAME - 15)}…${name.slice(-14)}` : name;

/** "From a link", "From Ada.ellwand.json". */
const heading = (from: string): string => `From ${from}`;

/** A plan takes as long as so many plain values. */
const PLAN = 40;

/** Where a text calls for a plan, or reads one. */
function planCalls(): RegExp {
  const names = language.specs
    .filter(({ kind }) => kind === 'plan' || kind === 'reading')
    .map(({ name }) => name);
  return new RegExp(`\\b(?:${names.join('|')})\\s*\\(`, 'g');
}

/** A notebook with so much to work out that the page would stand still for some seconds. */
function isMuchWork(notebook: Notebook): boolean {
  const columns = columnsOf(notebook);
  const plans = planCalls();
  let work = 0;
  for (const { text = '' } of allCells(notebook))
    work += 10 + columns * (1 + PLAN * (text.match(plans)?.length ?? 0));
  return work > limits.work;
}

const columnsOf = ({ columns }: Notebook): number => columns?.list.length ?? 1;

function muchWords(notebook: Notebook): string {
  const cells = allCells(notebook).length.toLocaleString('en-GB');
  const across = notebook.columns ? ` in ${columnsOf(notebook)} columns` : '';
  return `It has ${cells} cells${across}: the page may stand still for a while as they are worked out.`;
}

/** How what came stands to what is on the shelf. */
interface Found {
  /** One's own is on the shelf. */
  readonly isMine: boolean;
  /** So many things differ from one's own. */
  readonly differing: number;
  /** It carries what was knitted from it, and not what one's own has of that. */
  readonly isKnitted: boolean;
}

/** How many things differ. The number behind the title of a copy, kept beside one of its title, does not count alone. */
function differingOf(mine: Notebook, theirs: Notebook): number {
  const isNumbered = bareTitle(mine.title) === bareTitle(theirs.title);
  const title = isNumbered ? theirs.title : mine.title;
  const isAlike = compareNotebooks({ ...mine, title }, theirs).length === 0;
  return isAlike ? 0 : compareNotebooks(mine, theirs).length;
}

interface Ways {
  readonly keep: () => void;
  /** Keeps it to be knitted from the start. */
  readonly keepBare: () => void;
  readonly open: () => void;
  readonly compare: () => void;
  readonly leave: () => void;
}

function waysOn(read: Read, { isMine, differing, isKnitted }: Found, ways: Ways): readonly WayOn[] {
  const leave = { label: 'Leave it', choose: ways.leave };
  if (read.readOnly) return [leave];
  const bare = isKnitted ? [{ label: 'Keep it without what is knitted', choose: ways.keepBare }] : [];
  if (!isMine) return [{ label: 'Keep a copy', strong: true, choose: ways.keep }, ...bare, leave];
  const second = { label: 'Keep it as a second notebook', choose: ways.keep };
  if (differing > 0) return [{ label: 'Compare the two', strong: true, choose: ways.compare }, second, leave];
  return [{ label: 'Open yours', strong: true, choose: ways.open }, ...(isKnitted ? [second] : []), leave];
}

function standing(read: Read, { isMine, differing, isKnitted }: Found): string {
  if (read.readOnly) return 'It was made by a newer Ellwand: it can be read here, and not kept.';
  if (!isMine) return '';
  const knitted = 'what is knitted so far';
  if (differing === 0 && isKnitted) return `You have this notebook; only ${knitted} is another here.`;
  if (differing === 0) return 'You have this notebook, and the two are the same.';
  const things = `${differing} ${differing === 1 ? 'thing differs' : 'things differ'} between the two`;
  return `You have this notebook: ${things}${isKnitted ? `, and ${knitted}` : ''}.`;
}

/** So many results are named. */
const MOST_RESULTS = 8;

/** What it works out, and what is wrong in it. */
function told(session: Session): string {
  const { cells, heading: noun, columns, results, problems } = summaryOf(session.live);
  const named = results.slice(0, MOST_RESULTS).join(', ');
  const more = results.length > MOST_RESULTS ? ` and ${results.length - MOST_RESULTS} more` : '';
  const works = results.length > 0 ? ` It works out ${named}${more}.` : '';
  const across = columns > 0 ? `, ${columns} columns (${noun})` : '';
  const wrong = problems === 0 ? '' : ` ${problems} ${problems === 1 ? 'cell has' : 'cells have'} a problem.`;
  return `${cells} ${cells === 1 ? 'cell' : 'cells'}${across}.${works}${wrong}`;
}

function shelfWords({ notebooks, lost, cut }: ShelfFile, name: string): string {
  const titles = notebooks.slice(0, 3).map(({ read }) => `“${read.notebook.title}”`);
  const more = notebooks.length > 3 ? ` and ${notebooks.length - 3} more` : '';
  const holds = notebooks.length === 0 ? 'no notebook that can be read' : `${titles.join(', ')}${more}`;
  const lack = lost > 0 ? ` ${lost} could not be read.` : '';
  return `${name} is a whole shelf with ${holds}.${lack}${cut ? ' Its end is missing.' : ''}`;
}

function takenWords({
  added,
  unchanged,
  updated,
  kept,
  refused,
}: Awaited<ReturnType<typeof takeIn>>): string {
  const parts = [
    [added.length, 'added'],
    [updated.length, 'brought up to date'],
    [kept.length, 'left as they are here, the file’s kept as a version'],
    [unchanged.length, 'the same already'],
    [refused.length, 'could not be taken in'],
  ] as const;
  const said = parts.filter(([count]) => count > 0).map(([count, words]) => `${count} ${words}`);
  return said.length === 0 ? 'There was nothing to take in.' : `Taken in: ${said.join('; ')}.`;
}
