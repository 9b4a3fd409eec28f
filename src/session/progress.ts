/*
 * Knitting on: steps ticked, rows counted, plans gone on with from another count. All of it is progress, which is kept
 * with the notebook but is no edit: it has an undo of its own, which reaches back through reloads as that of edits does.
 */

import type { Plan } from '../formula/index.ts';
import {
  type HistoryStep,
  limits,
  type Notebook,
  own,
  type SetProgress,
  type Step,
} from '../notebook/index.ts';
import { problemSentence, tellStep } from '../telling/index.ts';
import { isAdvice } from './advice.ts';
import { Arranging } from './arranging.ts';
import { trialTitle } from './aside.ts';
import { atKey, countKey, isBegun, rowsDone } from './begun.ts';
import { beginsAfter, countedOf, planIn, resumed } from './counter.ts';
import { fillStep } from './fill-step.ts';
import { type Made, MOST_TAKEN } from './open-sheet.ts';
import { DONE, not, READ_ONLY } from './outcomes.ts';
import type { Outcome, RecountView, StepsOptions, StepsView } from './page.ts';
import { type PaperView, paperView } from './paper.ts';
import { recountView } from './recount.ts';
import { appliesNow } from './step-text.ts';
import { type StepValues, stepValues } from './step-values.ts';
import { filledNow, type Pin, type Pinned, pinsOf, stepsView, withoutPins } from './steps.ts';

const STEP_GONE = not('That step is gone: it was deleted.');

/** An open notebook one can knit from. */
export class Knitting extends Arranging {
  steps({ allSizes = false, trial = false }: StepsOptions = {}): StepsView {
    const values = trial ? stepValues(this.live, undefined) : this.keptValues();
    const undo = this.taken.at(-1)?.title ?? '';
    return stepsView({ values, allSizes, offers: this.base === undefined, undo });
  }

  /** The notebook as it goes on paper. */
  paper({ allSizes: areAsked = false, trial = false }: StepsOptions = {}): PaperView {
    const allSizes = areAsked && this.live.columns.length > 1;
    const tried = trial && this.base !== undefined ? this.trial?.now : undefined;
    const values = tried ? stepValues(this.live, undefined) : this.keptValues();
    return paperView({
      values,
      steps: this.steps({ allSizes, trial: tried !== undefined }),
      tried: tried ? trialTitle(this.live, tried) : '',
      allSizes,
    });
  }

  /** The values of the notebook as it stands, without the change that is tried. */
  private keptValues(): StepValues {
    return stepValues(this.live, this.base);
  }

  private stepOf(id: string): Step | undefined {
    return this.notebook.steps.find((step) => step.id === id);
  }

  tick(id: string): Outcome {
    const step = this.stepOf(id);
    if (!step) return STEP_GONE;
    const values = this.keptValues();
    if (isAdvice(step) || appliesNow(values, step) === false) return not('This step does not apply now.');
    const filled = filledNow(values, step);
    const [problem] = filled.problems;
    if (problem !== undefined) return not(problem);
    const text = tellStep(filled.parts).text.slice(0, limits.sentence);
    return this.progress({ ticked: { [id]: text }, pinned: this.withPins(pinsOf(values, step)) });
  }

  untick(id: string): Outcome {
    if (own(this.notebook.progress?.ticked ?? {}, id) === undefined) return DONE;
    const stays = rowsDone(this.notebook.progress, id) > 0;
    return this.progress({ ticked: { [id]: null }, ...(stays ? {} : { pinned: this.freed(id) }) });
  }

  /** Frees what a step pinned, lets the sheet follow, and pins what comes out then: one thing to take back. */
  takeOffer(id: string): Outcome {
    const step = this.stepOf(id);
    if (!step) return STEP_GONE;
    if (!isBegun(this.notebook.progress, id)) return not('Nothing of this step is knitted yet.');
    const wasTicked = own(this.notebook.progress?.ticked ?? {}, id) !== undefined;
    const before = this.taken;
    const freeing = this.progress({
      pinned: withoutPins(this.notebook.progress, pinsOf(this.keptValues(), step)),
    });
    if (!freeing.done) return freeing;
    const outcome = wasTicked
      ? this.tick(id)
      : this.progress({ pinned: this.withPins(pinsOf(this.keptValues(), step)) });
    const inverses = this.taken.slice(before.length).flatMap((one) => one.inverses);
    this.taken = [...before, { title: 'take what it would be now', inverses }].slice(-MOST_TAKEN);
    return outcome;
  }

  rowOn(id: string): Outcome {
    const step = this.stepOf(id);
    if (!step) return STEP_GONE;
    const values = this.keptValues();
    const counted = countedOf(this.live, filledNow(values, step));
    if (!counted) return not('This step has no rows to count.');
    const { progress } = this.notebook;
    const begun = rowsDone(progress, id);
    const done = Math.max(begun, beginsAfter(progress, id, counted.plan));
    if (done >= counted.of) return not(`All ${counted.of} ${counted.noun}s are done: tick the step.`);
    const pins = begun === 0 ? { pinned: this.withPins(pinsOf(values, step)) } : {};
    return this.counting(id, { rows: { [id]: done + 1 }, ...pins });
  }

  rowBack(id: string): Outcome {
    const { progress } = this.notebook;
    const done = rowsDone(progress, id);
    const at = own(progress?.rows ?? {}, atKey(id));
    if (done === 0 && at === undefined) return not('No row of this step is done yet.');
    const step = this.stepOf(id);
    const plan = step && planIn(filledNow(this.keptValues(), step));
    const back = done - 1 > beginsAfter(progress, id, plan) ? done - 1 : 0;
    const forgets =
      at !== undefined && (back < at || done === 0) ? { [atKey(id)]: null, [countKey(id)]: null } : {};
    const frees =
      back === 0 && own(progress?.ticked ?? {}, id) === undefined ? { pinned: this.freed(id) } : {};
    return this.counting(id, { rows: { [id]: back === 0 ? null : back, ...forgets }, ...frees });
  }

  /** Moves the counter of a step, and says where it stands. */
  private counting(id: string, what: Omit<SetProgress, 'kind'>): Outcome {
    const outcome = this.progress(what);
    if (outcome.done) this.say(this.steps().steps.find((one) => one.id === id)?.counter?.words ?? '');
    return outcome;
  }

  recount(id: string, row: number, count: number): RecountView | undefined {
    const step = this.stepOf(id);
    if (!step || ![row, count].every((n) => Number.isInteger(n) && n >= 0)) return undefined;
    const values = this.keptValues();
    return recountView(this.live, filledNow(values, step), this.wholePlan(values, step), row, count);
  }

  goOn(id: string, row: number, count: number): Outcome {
    const step = this.stepOf(id);
    if (!step) return STEP_GONE;
    const values = this.keptValues();
    const plan = this.wholePlan(values, step);
    if (!plan) return not('This step has no plan to go on with.');
    const rest = resumed(plan, row, count);
    if ('code' in rest) return not(problemSentence(rest));
    const pinned = this.withPins(pinsOf(values, step));
    const rows = { [id]: row === 0 ? null : row, [atKey(id)]: row, [countKey(id)]: count };
    return this.progress({ rows, pinned });
  }

  undoProgress(): Outcome {
    const last = this.taken.at(-1);
    if (!last) return not('There is nothing to take back.');
    this.isTakingBack = true;
    const outcomes = [...last.inverses].reverse().map((inverse) => this.do(inverse));
    this.isTakingBack = false;
    this.taken = this.taken.slice(0, -1);
    return outcomes.find((outcome) => !outcome.done) ?? DONE;
  }

  /** The plan of a step as the sheet has it, before any recount. */
  private wholePlan(values: StepValues, step: Step): Plan | undefined {
    return planIn(fillStep(values, step));
  }

  private progress(what: Omit<SetProgress, 'kind'>): Outcome {
    if (this.readOnly) return not(READ_ONLY);
    const { pinned, ...rest } = what;
    const some = pinned && Object.keys(pinned).length > 0 ? { pinned } : {};
    return this.do({ kind: 'set_progress', ...rest, ...some });
  }

  protected override keepMade(
    before: Notebook,
    stepped: HistoryStep,
    role: Made['role'],
    join?: string,
  ): void {
    if (role === 'progress' && !this.isTakingBack)
      this.taken = [...this.taken, { title: stepped.title, inverses: [stepped.inverse] }].slice(-MOST_TAKEN);
    const isBack = role === 'progress' && this.isTakingBack;
    super.keepMade(before, stepped, isBack ? 'progress_undo' : role, join);
  }

  // ── Pins ───

  /** The pins of those cells with some more; what is pinned already stays as it was knitted. */
  private withPins(pins: readonly Pin[]): Pinned {
    const old = this.notebook.progress?.pinned ?? {};
    const pinned: Pinned = {};
    for (const { cell, column, text } of pins) {
      const lanes = pinned[cell] ?? own(old, cell) ?? {};
      if (own(lanes, column) === undefined) pinned[cell] = { ...lanes, [column]: text };
    }
    return pinned;
  }

  /** What is freed when a step is no longer begun: the pins of all cells that no other begun step is knitted with. */
  private freed(id: string): Pinned {
    const { progress, steps } = this.notebook;
    const values = this.keptValues();
    const needed = new Set(
      steps
        .filter((step) => step.id !== id && isBegun(progress, step.id))
        .flatMap((step) => pinsOf(values, step).map(({ cell }) => cell)),
    );
    const free = Object.keys(progress?.pinned ?? {}).filter((cell) => !needed.has(cell));
    return Object.fromEntries(free.map((cell) => [cell, null]));
  }
}
