/*
 * One open notebook, kept. Every tab that has it open has a keeper; one of them owns it (a Web Lock) and numbers the changes.
 *
 *   confirmed   the notebook after the last numbered change
 *   pending     this tab's changes that have no number yet (always empty in the owner, but for moments)
 *   current     confirmed, and pending applied to it: what the tab shows
 *
 * A tab does its change at once and proposes it to the owner. The owner applies it to `confirmed`, numbers it, tells all tabs and
 * writes it. The others apply numbered changes in order; their own pending ones are applied again after a foreign one. So all
 * tabs end equal, and of two edits of one thing the later number wins: whoever made the earlier without the other having seen it
 * is told (`overtaken`), with what gives it back. A proposal that no longer fits is refused, and its maker is told.
 *
 * When the owner goes, however it goes, a waiting tab gets the lock: it reads what reached the disk, writes what it had only
 * heard, and asks for the proposals again; marks keep any from being numbered twice. An owner that does not answer (a tab put
 * to sleep) is replaced after a moment without its lock. So two owners may meet: the one of the later term goes on, and in the
 * meantime the number that both give can be added to the log only once; who comes second reads again and renumbers.
 */
import {
  applyChange,
  type Change,
  emptyHistory,
  type History,
  invertChange,
  isRecord,
  isRefused,
  meet,
  type Notebook,
  newId,
  perform,
  type Refusal,
  type Refused,
  type Remark,
  refuse,
  writeNotebook,
} from '../notebook/index.ts';
import type { Batch, DiskTrouble } from './disk.ts';
import {
  aboutKey,
  aboutOf,
  historiesOf,
  lastTab,
  logKey,
  logPrefix,
  metaKey,
  type Proposal,
  pageKey,
  proposalFromJSON,
  proposalToJSON,
  type Row,
  rowFromJSON,
  rowToJSON,
  textKey,
  trialsKey,
} from './log.ts';
import { loadState, type State } from './state.ts';
import type { Channel } from './tabs.ts';
import { isDue, outgrown, type Version, versionFromJSON } from './versions.ts';
import type { Done, News, World } from './world.ts';
import { Writer } from './writer.ts';

/** A notebook as opening gives it. */
export interface Opened {
  readonly keeper: Keeper;
  readonly notebook: Notebook;
  /** What this tab may undo and redo, and the same for ticks and counts. */
  readonly history: History;
  readonly progressHistory: History;
  /** What `saveTrials` kept last; undefined when nothing. */
  readonly trials: unknown;
  readonly readOnly: boolean;
  readonly remarks: readonly Remark[];
}

/** Changes between two whole pages; and rows kept for the history. */
const PAGE_EVERY = 100;
const ROWS_KEPT = 400;
/** Milliseconds that a proposal waits for its number before this tab takes the notebook over. */
const PATIENCE = 700;

/** Opens a notebook that is on the disk. Rejects only with a `DiskError`. */
export async function openKeeper(world: World, id: string): Promise<Opened | Refused> {
  const lock = await world.tabs.claim(lockName(id));
  try {
    const [state, trials, metas] = await Promise.all([
      loadState(world.disk, id),
      world.disk.get(trialsKey(id)),
      world.disk.list(metaKey(id, '')),
    ]);
    if (!isRefused(state)) return await opened(world, id, state, trials, metas, lock);
    lock?.();
    return state;
  } catch (error) {
    lock?.();
    throw error;
  }
}

async function opened(
  world: World,
  id: string,
  state: State,
  trials: unknown,
  metas: readonly (readonly [string, unknown])[],
  lock: (() => void) | undefined,
): Promise<Opened> {
  const tab = await whoWeAre(world, state.rows, lock !== undefined);
  const versions = metas
    .map(([, value]) => versionFromJSON(value))
    .filter((version) => version !== undefined);
  const keeper = new Keeper({ ...world, tab }, id, state, versions, lock);
  const { edits, progress } = historiesOf(state.rows, tab);
  const { notebook, readOnly, remarks } = state;
  return { keeper, notebook, history: edits, progressHistory: progress, trials, readOnly, remarks };
}

const lockName = (id: string): string => `ellwand ${id}`;

/** The id under which our changes go: ours, or that of a tab that is gone, when its history is all there is to take over. */
async function whoWeAre({ tab, mayBe }: World, rows: readonly Row[], owner: boolean): Promise<string> {
  const last = lastTab(rows);
  if (!owner || last === undefined || rows.some((row) => row.tab === tab)) return tab;
  return (await mayBe(last)) ? last : tab;
}

type Message = Readonly<Record<string, unknown>>;

export class Keeper {
  readonly id: string;
  readonly #world: World;
  readonly #channel: Channel;
  readonly #writer: Writer;
  readonly #hearers = new Set<(news: News) => void>();
  readonly #leaveQueue: () => void;
  #doer: ((change: Change) => boolean) | undefined;
  #owner = false;
  /** Counts owners; the higher goes on where two meet. */
  #term = 0;
  #impatience: ReturnType<typeof setTimeout> | undefined;
  #closed = false;
  #readOnly: boolean;
  #confirmed: Notebook;
  #current: Notebook;
  #number: number;
  #page: number;
  /** The oldest row that is still on the disk. */
  #oldest: number;
  readonly #madeAt: number;
  #rows: Row[];
  #marks: Set<string>;
  #pending: Proposal[] = [];
  #versions: Version[];

  constructor(
    world: World,
    id: string,
    state: State,
    versions: readonly Version[],
    lock: (() => void) | undefined,
  ) {
    this.id = id;
    this.#world = world;
    this.#readOnly = state.readOnly;
    this.#confirmed = state.notebook;
    this.#current = state.notebook;
    this.#number = state.number;
    this.#page = state.page;
    this.#oldest = state.rows[0]?.number ?? state.number + 1;
    this.#madeAt = state.madeAt;
    this.#rows = [...state.rows];
    this.#marks = new Set(state.rows.map(({ mark }) => mark));
    this.#versions = [...versions];
    this.#writer = new Writer(world.disk, {
      saved: () => this.#tell({ kind: 'saved', at: world.now() }),
      trouble: (trouble, batch) => void this.#onTrouble(trouble, batch),
    });
    this.#channel = world.tabs.join(lockName(id), (message) => this.#hear(message));
    this.#leaveQueue = lock ?? world.tabs.own(lockName(id), () => void this.#becomeOwner());
    if (lock) this.#own();
    // What was numbered while we were reading.
    else this.#post({ type: 'missing', from: this.#number + 1 });
  }

  /** What is to be shown. */
  get notebook(): Notebook {
    return this.#current;
  }

  /** Whether this tab numbers and writes. */
  get owner(): boolean {
    return this.#owner;
  }

  /** Whether every change of this tab has its number and is on the disk. */
  get saved(): boolean {
    return this.#pending.length === 0 && !this.#writer.waiting;
  }

  /** Hears the news from now on; gives what stops it. */
  onNews(hear: (news: News) => void): () => void {
    this.#hearers.add(hear);
    return () => void this.#hearers.delete(hear);
  }

  /** Keeps a change that the session has done: it is on its way to the disk when this returns. */
  save(done: Done): void {
    const { change, title, role, join, before, after, trials } = done;
    if (trials !== undefined) this.saveTrials(trials);
    const known = after !== undefined && before === this.#current;
    const next = this.#readOnly ? refuse('read_only') : known ? after : applyChange(this.#current, change);
    if (isRefused(next)) return this.#tellRefused(title, change, next.refused);
    const { tab, now, random } = this.#world;
    const mark = newId(random, 'r') + newId(random, 'r');
    const made = { mark, tab, seen: this.#number, at: now(), role, title, change };
    const proposal: Proposal = join === undefined ? made : { ...made, join };
    const alone = this.#pending.length === 0;
    this.#current = next;
    this.#pending.push(proposal);
    if (this.#owner) this.#accept(proposal, alone ? next : undefined);
    else this.#propose();
  }

  /**
   * Does a change that was asked for elsewhere than on the notebook's own page: a rename by the list, a shelf taken in. Who
   * shows the notebook does it, so that it stands in their history; where nobody does, it is done here.
   */
  edit(change: Change): Refused | undefined {
    const before = this.#current;
    const step = perform(before, emptyHistory, change);
    if (isRefused(step)) return step;
    if (this.#doer) return this.#doer(change) ? undefined : refuse('read_only');
    this.save({ change, title: step.title, role: 'do', before, after: step.notebook });
    return undefined;
  }

  /** From now on changes that are asked for elsewhere go through `doer`, which gives false where it cannot do one. */
  doThrough(doer: (change: Change) => boolean): void {
    this.#doer = doer;
  }

  /** Keeps what is being tried, beside the notebook; any value that can be cloned. */
  saveTrials(trials: unknown): void {
    this.#writer.writeSoon(trialsKey(this.id), trials);
  }

  /** Keeps the notebook as it is now under a name. Rejects with a `DiskError`. */
  async nameVersion(name: string): Promise<Version> {
    const { disk, now, random } = this.#world;
    const text = writeNotebook(this.#current);
    const version = { id: newId(random, 'v'), at: now(), name, number: this.#number, size: text.length };
    await disk.write({ put: versionEntries(this.id, version, text) });
    this.#versions.push(version);
    return version;
  }

  /** Hands all that waits to the disk in this turn: for a page that is being left. */
  flush(): void {
    this.#writer.flush();
  }

  /** When nothing is being written any more, whether it went well or not. */
  settled(): Promise<void> {
    return this.#writer.settled();
  }

  /** Writes what waits, and lets the notebook go. */
  async close(): Promise<void> {
    this.flush();
    await this.#writer.settled();
    this.#closed = true;
    clearTimeout(this.#impatience);
    this.#writer.stop();
    this.#leaveQueue();
    this.#channel.close();
    this.#hearers.clear();
  }

  #tell(news: News): void {
    for (const hear of this.#hearers) hear(news);
  }

  #tellRefused(title: string, change: Change, refusal: Refusal): void {
    this.#tell({ kind: 'refused', notebook: this.#current, title, change, refusal });
  }

  #post(message: Message): void {
    this.#channel.post(message);
  }

  // Owning.

  #own(): void {
    clearTimeout(this.#impatience);
    if (!this.#owner) this.#term++;
    this.#owner = true;
    this.#post({ type: 'owner', number: this.#number, term: this.#term, tab: this.#world.tab });
    for (const proposal of [...this.#pending]) this.#accept(proposal);
  }

  /** Sends what has no number to the owner, and waits for it only so long. */
  #propose(proposals: readonly Proposal[] = this.#pending.slice(-1)): void {
    for (const proposal of proposals) this.#post({ type: 'propose', proposal: proposalToJSON(proposal) });
    clearTimeout(this.#impatience);
    this.#impatience = setTimeout(() => {
      if (this.#pending.length > 0 && !this.#owner && !this.#closed) void this.#becomeOwner();
    }, PATIENCE);
  }

  /** The lock has come to us, another tab having gone, or the owner does not answer. What is on the disk may be older or newer than what we heard. */
  async #becomeOwner(): Promise<void> {
    try {
      const { disk } = this.#world;
      const [entries, about] = await Promise.all([
        disk.list(logPrefix(this.id), logKey(this.id, this.#number)),
        disk.get(aboutKey(this.id)),
      ]);
      for (const [, value] of entries) this.#hearNumbered(rowFromJSON(value));
      const onDisk = isRecord(about) && typeof about['number'] === 'number' ? about['number'] : this.#number;
      this.#writeRows(this.#rows.filter(({ number }) => number > onDisk));
    } catch {
      // The disk cannot be read now. What we write cannot overwrite: rows are only ever added.
    }
    if (!this.#closed) this.#own();
  }

  /** Gives a proposal its number, tells the other tabs and writes it. `next` where it is already known. */
  #accept(proposal: Proposal, next?: Notebook): void {
    if (this.#marks.has(proposal.mark)) return this.#dropPending(proposal.mark);
    const after = next ?? applyChange(this.#confirmed, proposal.change);
    if (isRefused(after)) return this.#refuse(proposal, after.refused);
    this.#keepVersion();
    const inverse = invertChange(this.#confirmed, proposal.change);
    const row: Row = { ...proposal, number: this.#number + 1, inverse };
    this.#integrate(row, after);
    this.#post({ type: 'numbered', row: rowToJSON(row) });
    this.#writeRows([row]);
  }

  #refuse({ mark, tab, title, change }: Proposal, refusal: Refusal): void {
    if (tab !== this.#world.tab) return this.#post({ type: 'refused', mark, refusal });
    this.#dropPending(mark);
    this.#rebase();
    this.#tellRefused(title, change, refusal);
  }

  // Hearing.

  #hear(message: unknown): void {
    if (!isRecord(message) || this.#closed) return;
    const { type, from, mark, refusal } = message;
    if (type === 'numbered') this.#hearNumbered(rowFromJSON(message['row']));
    if (type === 'refused' && typeof mark === 'string') this.#hearRefused(mark, refusal);
    if (type === 'owner') this.#hearOwner(message);
    if (type === 'propose' && this.#owner) this.#hearProposal(message['proposal']);
    if (type === 'missing' && this.#owner && typeof from === 'number') this.#sendFrom(from);
  }

  #hearNumbered(row: Row | undefined): void {
    // A row that this version cannot read was made by a later one: from here on we only look.
    if (row === undefined) this.#readOnly = true;
    if (row === undefined) return;
    if (row.number <= this.#number) return this.#compareWithOurs(row);
    if (row.number > this.#number + 1) return this.#post({ type: 'missing', from: this.#number + 1 });
    const after = applyChange(this.#confirmed, row.change);
    if (isRefused(after)) return void this.#readAgain([]);
    this.#integrate(row, after);
  }

  /** Of two owners' rows with one number only one reached the disk. */
  #compareWithOurs({ number, mark }: Row): void {
    const ours = this.#rows.find((row) => row.number === number);
    if (ours !== undefined && ours.mark !== mark) void this.#readAgain([]);
  }

  #hearProposal(json: unknown): void {
    const proposal = proposalFromJSON(json);
    if (proposal !== undefined) this.#accept(proposal);
  }

  #hearRefused(mark: string, refusal: unknown): void {
    const proposal = this.#pending.find((one) => one.mark === mark);
    if (proposal === undefined) return;
    this.#dropPending(mark);
    this.#rebase();
    const { code, parts } = isRecord(refusal) ? refusal : {};
    const known = {
      code: typeof code === 'string' ? code : 'refused',
      parts: (isRecord(parts) ? parts : {}) as Refusal['parts'],
    };
    this.#tellRefused(proposal.title, proposal.change, known);
  }

  #hearOwner({ number, term, tab }: Message): void {
    if (typeof number !== 'number' || typeof term !== 'number' || typeof tab !== 'string') return;
    const above = term > this.#term || (term === this.#term && tab > this.#world.tab);
    if (this.#owner && !above) return this.#own();
    this.#owner = false;
    this.#term = Math.max(term, this.#term);
    if (number > this.#number) this.#post({ type: 'missing', from: this.#number + 1 });
    if (this.#pending.length > 0) this.#propose(this.#pending);
  }

  #sendFrom(from: number): void {
    for (const row of this.#rows)
      if (row.number >= from) this.#post({ type: 'numbered', row: rowToJSON(row) });
  }

  // Keeping confirmed, pending and current in step.

  #integrate(row: Row, after: Notebook): void {
    const foreign = row.tab !== this.#world.tab;
    const overtaken = foreign ? this.#rows.filter((mine) => this.#isOvertaken(mine, row)) : [];
    const inTurn = this.#pending[0]?.mark === row.mark;
    this.#confirmed = after;
    this.#number = row.number;
    this.#rows = [...this.#rows.slice(-ROWS_KEPT), row];
    this.#marks.add(row.mark);
    this.#dropPending(row.mark);
    if (!inTurn) this.#rebase();
    const { title, change } = row;
    if (!inTurn) this.#tell({ kind: 'foreign', notebook: this.#current, change, title });
    for (const mine of overtaken) {
      this.#tell({
        kind: 'overtaken',
        mine: { title: mine.title, change: mine.change },
        theirs: { title, change },
      });
    }
  }

  #isOvertaken(mine: Row, theirs: Row): boolean {
    return mine.tab === this.#world.tab && mine.number > theirs.seen && meet(mine.change, theirs.change);
  }

  #dropPending(mark: string): void {
    this.#pending = this.#pending.filter((proposal) => proposal.mark !== mark);
  }

  #rebase(): void {
    this.#current = this.#pending.reduce((now, { change }) => {
      const next = applyChange(now, change);
      return isRefused(next) ? now : next;
    }, this.#confirmed);
  }

  // Writing.

  #writeRows(rows: readonly Row[]): void {
    const last = rows.at(-1);
    if (last === undefined) return;
    const about = aboutOf(this.#confirmed, last.number, this.#madeAt, last.at);
    this.#writer.write({
      add: rows.map((row) => [logKey(this.id, row.number), rowToJSON(row)] as const),
      put: [[aboutKey(this.id), about], ...this.#newPage()],
      delete: this.#oldRows(),
    });
  }

  /** Now and then, the whole notebook; the rows before it are then only history. */
  #newPage(): readonly (readonly [string, unknown])[] {
    if (this.#number - this.#page < PAGE_EVERY) return [];
    this.#page = this.#number;
    return [[pageKey(this.id), { number: this.#number, text: writeNotebook(this.#confirmed) }]];
  }

  #oldRows(): readonly string[] {
    const gone: string[] = [];
    const keepFrom = Math.min(this.#page, this.#number - ROWS_KEPT);
    for (; this.#oldest < keepFrom && gone.length < PAGE_EVERY; this.#oldest++)
      gone.push(logKey(this.id, this.#oldest));
    return gone;
  }

  #keepVersion(): void {
    const { now, random } = this.#world;
    if (!isDue(this.#versions, this.#number, now())) return;
    const text = writeNotebook(this.#confirmed);
    const version: Version = { id: newId(random, 'v'), at: now(), number: this.#number, size: text.length };
    const old = outgrown([...this.#versions, version], now());
    this.#versions = [...this.#versions, version].filter((one) => !old.includes(one));
    this.#writer.write({
      put: versionEntries(this.id, version, text),
      delete: old.flatMap((one) => [metaKey(this.id, one.id), textKey(this.id, one.id)]),
    });
  }

  async #onTrouble(trouble: DiskTrouble, batch: Batch): Promise<void> {
    if (trouble !== 'taken') return this.#tell({ kind: 'trouble', trouble });
    await this.#readAgain(
      (batch.add ?? []).map(([, value]) => rowFromJSON(value)).filter((row) => row !== undefined),
    );
  }

  /** Somebody else has written: the disk is right. Our rows that it does not have become proposals again. */
  async #readAgain(lost: readonly Row[]): Promise<void> {
    const state = await loadState(this.#world.disk, this.id).catch(() => undefined);
    if (state === undefined || isRefused(state)) return this.#tell({ kind: 'trouble', trouble: 'failed' });
    this.#confirmed = state.notebook;
    this.#number = state.number;
    this.#page = state.page;
    this.#rows = [...state.rows];
    this.#marks = new Set(state.rows.map(({ mark }) => mark));
    const again = lost
      .filter(({ mark }) => !this.#marks.has(mark))
      .map(({ number: _number, inverse: _inverse, ...rest }) => rest);
    this.#pending = [...again, ...this.#pending].filter(({ mark }) => !this.#marks.has(mark));
    this.#rebase();
    const last = state.rows.at(-1);
    if (last)
      this.#tell({ kind: 'foreign', notebook: this.#current, change: last.change, title: last.title });
    if (this.#owner) return this.#own();
    this.#post({ type: 'missing', from: this.#number + 1 });
    if (this.#pending.length > 0) this.#propose(this.#pending);
  }
}

/** A version as it is kept. */
function versionEntries(id: string, version: Version, text: string): readonly (readonly [string, unknown])[] {
  return [
    [metaKey(id, version.id), version],
    [textKey(id, version.id), text],
  ];
}
