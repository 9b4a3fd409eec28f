/*
 * Knitting on: steps ticked, rows counted, plans gone on with from another count. All of it is progress, which is kept
 * with the notebook but is no edit: it has an undo of its own, which reaches back through reloads as that of edits does.
 */

import type { Plan } from '../formula/index.ts';
import {
  type Change,
  changeTitle,
  type HistoryStep,
  isByColumn,
  knittedOf,
  limits,
  type Notebook,
  own,
  type SetProgress,
  type Step,
} from '../notebook/index.ts';
import { problemSentence, tellStep } from '../telling/index.ts';
import { isAdvice } from './advice.ts';
import { appliesNow } from './applies.ts';
import { Arranging } from './arranging.ts';
import { trialTitle } from './aside.ts';
import { atKey, countKey, isBegun, knittedNow, rowsDone, timesDone, timesKey } from './begun.ts';
import { beginsAfter, countedOf, planIn, resumed } from './counter.ts';
import { type FilledStep, fillStep } from './fill-step.ts';
import { type Made, MOST_TAKEN } from './open-sheet.ts';
import { DONE, not, READ_ONLY } from './outcomes.ts';
import type { Outcome, RecountView, StepsOptions, StepsView } from './page.ts';
import { type PaperView, paperView } from './paper.ts';
import { recountView } from './recount.ts';
import { type StepValues, stepValues } from './step-values.ts';
import {
  filledNow,
  freedValues,
  goingOn,
  type Pinned,
  pinsOf,
  stepsView,
  withoutPins,
  withPins,
} from './steps.ts';
import { columnKnitted, knitOn, whose } from './whose.ts';

const BEGUN_ITSELF = 'What it would be now is begun for itself: choose its column to go on with that.';
const STEP_GONE = not('That step is gone: it was deleted.');

/** An open notebook one can knit from. */
export class Knitting extends Arranging {
  steps({ allSizes = false, trial = false }: StepsOptions = {}): StepsView {
    const values = trial ? stepValues(this.live, undefined) : this.keptValues();
    const undo = this.taken[this.lastTaken()]?.title ?? '';
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
    const pinned = withPins(knittedNow(values)?.pinned, pinsOf(values, step));
    return this.progress({ ticked: { [id]: printedOf(filled) }, pinned });
  }

  untick(id: string): Outcome {
    const knitted = knittedNow(this.keptValues());
    if (own(knitted?.ticked, id) === undefined) return DONE;
    const stays = rowsDone(knitted, id) > 0 || timesDone(knitted, id) > 0;
    return this.progress({ ticked: { [id]: null }, ...(stays ? {} : { pinned: this.freed(id) }) });
  }

  takeOffer(id: string): Outcome {
    const step = this.stepOf(id);
    if (!step) return STEP_GONE;
    const values = this.keptValues();
    const old = knittedNow(values);
    if (!isBegun(old, id)) return not('Nothing of this step is knitted yet.');
    const now = freedValues(values, step);
    const filled = filledNow(now, step);
    const [problem] = filled.problems;
    const wasTicked = own(old?.ticked, id) !== undefined;
    if (wasTicked && problem !== undefined) return not(problem);
    const { rows, cannot } = goingOn(values, now, step);
    if (cannot !== '') return not(cannot);
    const stays = now.column === values.column;
    if (!stays && knittedNow(now) !== undefined) return not(BEGUN_ITSELF);
    const freed = withoutPins(old, pinsOf(values, step));
    const left = knittedOf(now.live.notebook.progress, columnKnitted(values));
    const pinned = { ...freed, ...withPins(left?.pinned, pinsOf(now, step)) };
    const ticked = wasTicked ? { [id]: printedOf(filled) } : {};
    const changes = stays
      ? [knitOn(values, { pinned, ticked, rows })]
      : carried(values, now, { pinned, ticked, rows });
    return this.do({ kind: 'together', title: 'take what it would be now', changes });
  }

  rowOn(id: string): Outcome {
    const step = this.stepOf(id);
    if (!step) return STEP_GONE;
    const values = this.keptValues();
    const counted = countedOf(this.live, filledNow(values, step));
    if (!counted) return not('This step has no rows to count.');
    const knitted = knittedNow(values);
    const begun = rowsDone(knitted, id);
    const done = Math.max(begun, beginsAfter(knitted, id, counted.plan));
    if (done >= counted.of) return not(`All ${counted.of} ${counted.noun}s are done: tick the step.`);
    const pins = begun === 0 ? { pinned: withPins(knitted?.pinned, pinsOf(values, step)) } : {};
    return this.counting(id, { rows: { [id]: done + 1 }, ...pins });
  }

  rowBack(id: string): Outcome {
    const values = this.keptValues();
    const knitted = knittedNow(values);
    const done = rowsDone(knitted, id);
    const at = own(knitted?.rows, atKey(id));
    const step = this.stepOf(id);
    const times = timesDone(knitted, id);
    if (done === 0 && at === undefined && times > 0) {
      const of = (step && countedOf(this.live, filledNow(values, step))?.of) ?? null;
      return this.counting(id, { rows: { [id]: of, [timesKey(id)]: times === 1 ? null : times - 1 } });
    }
    if (done === 0 && at === undefined) return not('No row of this step is done yet.');
    const plan = step && planIn(filledNow(values, step));
    const back = done - 1 > beginsAfter(knitted, id, plan) ? done - 1 : 0;
    const forgets =
      at !== undefined && (back < at || done === 0) ? { [atKey(id)]: null, [countKey(id)]: null } : {};
    const isFree = back === 0 && times === 0 && own(knitted?.ticked, id) === undefined;
    const frees = isFree ? { pinned: this.freed(id) } : {};
    return this.counting(id, { rows: { [id]: back === 0 ? null : back, ...forgets }, ...frees });
  }

  countAgain(id: string): Outcome {
    const step = this.stepOf(id);
    if (!step) return STEP_GONE;
    const values = this.keptValues();
    const knitted = knittedNow(values);
    const counted = countedOf(this.live, filledNow(values, step));
    if (!counted || rowsDone(knitted, id) < counted.of) return not('Not all rows of this step are done yet.');
    const times = timesDone(knitted, id) + 1;
    return this.counting(id, {
      rows: { [id]: null, [atKey(id)]: null, [countKey(id)]: null, [timesKey(id)]: times },
    });
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
    const pinned = withPins(knittedNow(values)?.pinned, pinsOf(values, step));
    const rows = { [id]: row === 0 ? null : row, [atKey(id)]: row, [countKey(id)]: count };
    return this.progress({ rows, pinned });
  }

  undoProgress(): Outcome {
    const at = this.lastTaken();
    const last = this.taken[at];
    if (!last) return not('There is nothing to take back.');
    this.isTakingBack = true;
    const outcome = this.do(last.inverse);
    this.isTakingBack = false;
    this.taken = this.taken.filter((one) => one !== last);
    return outcome;
  }

  /** Which of the things done was done last to the column that the steps are told for; −1 where there is none. */
  private lastTaken(): number {
    const column = columnKnitted(this.keptValues());
    const { of = column } = this.notebook.progress ?? {};
    return this.taken.findLastIndex(
      ({ inverse }) => column === undefined || (whose(inverse) ?? of) === column,
    );
  }

  /** Progress that is of no column yet is said to be of the one it was knitted for before another is chosen. */
  protected override choosing(change: Change): Change {
    const { progress } = this.notebook;
    const naming = knitOn(this.keptValues(), {});
    if (progress === undefined || isByColumn(progress) || naming.column === undefined) return change;
    return { kind: 'together', title: changeTitle(this.notebook, change), changes: [naming, change] };
  }

  /** The plan of a step as the sheet has it, before any recount. */
  private wholePlan(values: StepValues, step: Step): Plan | undefined {
    return planIn(fillStep(values, step));
  }

  private progress(what: Omit<SetProgress, 'kind'>): Outcome {
    if (this.readOnly) return not(READ_ONLY);
    const { pinned, ...rest } = what;
    const some = pinned && Object.keys(pinned).length > 0 ? { pinned } : {};
    return this.do(knitOn(this.keptValues(), { ...rest, ...some }));
  }

  protected override keepMade(
    before: Notebook,
    stepped: HistoryStep,
    role: Made['role'],
    join?: string,
  ): void {
    if (role === 'progress' && !this.isTakingBack)
      this.taken = [...this.taken, { title: stepped.title, inverse: stepped.inverse }].slice(-MOST_TAKEN);
    const isBack = role === 'progress' && this.isTakingBack;
    super.keepMade(before, stepped, isBack ? 'progress_undo' : role, join);
  }

  // ── Pins ───

  /** What is freed when a step is no longer begun: the pins of all cells that no other begun step is knitted with. */
  private freed(id: string): Pinned {
    const values = this.keptValues();
    const knitted = knittedNow(values);
    const needed = new Set(
      this.notebook.steps
        .filter((step) => step.id !== id && isBegun(knitted, step.id))
        .flatMap((step) => pinsOf(values, step).map(({ cell }) => cell)),
    );
    const free = Object.keys(knitted?.pinned ?? {}).filter((cell) => !needed.has(cell));
    return Object.fromEntries(free.map((cell) => [cell, null]));
  }
}

/** What a ticked step printed, as it is kept. */
const printedOf = ({ parts }: FilledStep): string => tellStep(parts).text.slice(0, limits.sentence);

/** What is knitted, said to be of the column that would be chosen now, with some of it otherwise. */
function carried(
  values: StepValues,
  now: StepValues,
  { pinned, ticked, rows }: Pick<SetProgress, 'pinned' | 'ticked' | 'rows'>,
): readonly SetProgress[] {
  const old = knittedNow(values);
  const gone = (entries: object | undefined) =>
    Object.fromEntries(Object.keys(entries ?? {}).map((key) => [key, null]));
  const away = { ticked: gone(old?.ticked), pinned: gone(old?.pinned), rows: gone(old?.rows) };
  const here = {
    ticked: { ...old?.ticked, ...ticked },
    pinned: { ...old?.pinned, ...pinned },
    rows: { ...old?.rows, ...rows },
  };
  return [knitOn(values, away), knitOn(now, here)];
}
