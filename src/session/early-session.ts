/*
 * A notebook that is shown before the whole of the session has come: it is looked at, and changes are tried. All else
 * that is asked of it in that moment is answered with nothing yet, and all else that is to be done is done when the whole
 * has come: then the very same object grows into a `Session` (it gets its prototype), so that whoever holds it holds that.
 * No class between the two has fields of its own: all of them are made in `OpenSheet`.
 */

import { fetchMorePlans } from '../craft/index.ts';
import { createArrival } from '../quantity/index.ts';
import { language } from './live.ts';
import type { SessionOptions } from './open-sheet.ts';
import { DONE } from './outcomes.ts';
import type { Outcome, Page, StepsView } from './page.ts';
import type { Session } from './session.ts';
import { Trying } from './trying.ts';

const whole = createArrival(async () => {
  const [session, plans] = await Promise.all([import('./session.ts'), fetchMorePlans()]);
  language.learn(plans);
  return session;
});

/** Fetches the whole of the session. Rejects where it cannot be fetched; may be called again. */
export const fetchSession = whole.fetch;

/** What is asked or done of a page by what is not here yet. */
type Later = Omit<Page, keyof EarlySession>;

/** As a `Session`: once the whole has come it has that prototype; until then what it has not itself is below. */
const grown = (session: EarlySession): Session => session as unknown as Session;

class EarlySession extends Trying {
  private waits = false;

  constructor(options: SessionOptions) {
    super(options);
    whole.when(() => this.grow());
  }

  override get isWhole(): boolean {
    return false;
  }

  // What can be done at once is done at once, unless something else waits: all is done in the order it was asked for.

  override nudge(...to: Parameters<Page['nudge']>): Outcome {
    return this.waits ? this.later('nudge', to) : super.nudge(...to);
  }

  override dropTrial(aboutCell?: string): void {
    if (this.waits) this.later('dropTrial', [aboutCell]);
    else super.dropTrial(aboutCell);
  }

  override dropFromTrial(id: string, aboutCell?: string): void {
    if (this.waits) this.later('dropFromTrial', [id, aboutCell]);
    else super.dropFromTrial(id, aboutCell);
  }

  undo(): Outcome {
    return this.trial && !this.waits ? this.undoTrial() : this.later('undo', []);
  }

  questions(): ReturnType<Page['questions']> {
    return whole.fetch().then(() => grown(this).questions());
  }

  /** Does something as soon as the whole has come; until then it is kept that it was asked for. */
  later(name: keyof Page, to: readonly unknown[]): Outcome {
    this.waits = true;
    whole.when(() => void Reflect.apply(grown(this)[name], this, to));
    this.keep({ ...this.kept(), asked: [name, to] });
    return DONE;
  }

  private grow(): void {
    Object.setPrototypeOf(this, whole.here()?.Session.prototype ?? null);
    this.refresh([], true);
  }
}

const NO_STEPS: StepsView = { steps: [], key: [], undo: '' };

/** What is asked of the whole: nothing yet. The news that it has come has it asked again. */
const ANSWERS = {
  workings: (id: string) => ({ id, lines: [], roundings: [], uses: [], feeds: [], plan: [], remarks: [] }),
  preview: () => [],
  tokens: () => [],
  complete: (_place: unknown, _text: string, cursor: number) => ({ from: cursor, options: [] }),
  callHelp: () => undefined,
  copy: () => '',
  steps: () => NO_STEPS,
  paper: () => ({
    title: '',
    about: '',
    size: '',
    leavesOut: false,
    withNotes: false,
    tried: '',
    gauge: [],
    sections: [],
    drawings: [],
    steps: NO_STEPS,
    shapings: [],
    findings: [],
    cautions: [],
    notes: [],
  }),
  recount: () => undefined,
  file: () => '',
  checkFile: () => [],
  trialsAside: () => [],
  unadd: () => false,
} satisfies Partial<Later>;

type Deed = Exclude<keyof Later, keyof typeof ANSWERS>;

/** What is done with it: as soon as the whole has come. */
const DEEDS: Readonly<Record<Deed, true>> = {
  type: true,
  keepTrial: true,
  keepFromTrial: true,
  addCell: true,
  renameCell: true,
  deleteCell: true,
  moveCell: true,
  duplicateCell: true,
  setNote: true,
  addStep: true,
  setEach: true,
  addSection: true,
  renameSection: true,
  setSectionAbout: true,
  deleteSection: true,
  moveSection: true,
  addColumn: true,
  renameColumn: true,
  deleteColumn: true,
  moveColumn: true,
  setHeading: true,
  choose: true,
  setTitle: true,
  setAbout: true,
  setUnits: true,
  redo: true,
  paste: true,
  tick: true,
  untick: true,
  takeOffer: true,
  rowOn: true,
  rowBack: true,
  countAgain: true,
  goOn: true,
  undoProgress: true,
  setFile: true,
  nudgeTolerance: true,
  tryOffer: true,
  putAside: true,
  nameAside: true,
  takeUp: true,
  dropAside: true,
};

const deedOf = (name: Deed) =>
  function (this: EarlySession, ...to: unknown[]): Outcome {
    return this.later(name, to);
  };

Object.assign(EarlySession.prototype, ANSWERS);
for (const name of Object.keys(DEEDS) as Deed[])
  Object.assign(EarlySession.prototype, { [name]: deedOf(name) });

/** An open notebook, before the whole of the session has come or after; it grows by itself. */
export function beginSession(options: SessionOptions): Session {
  const here = whole.here();
  return here ? here.createSession(options) : grown(new EarlySession(options));
}
