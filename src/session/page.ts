/*
 * What the views see of an open notebook: plain data, ready to show, and the few things one can do to it.
 * Views ask for a row or a panel, show it, and ask again when the session's news names it; they compute nothing.
 * Texts are as printed on the page ("42¾", "sts / 4 in"); `spoken` is the same for a screen reader.
 */

import type { AskedPage } from './asked-page.ts';
import type { PaperView } from './paper.ts';

/** How a value is to be looked at; colour never carries this alone, the words say it too. */
export type Tone = 'plain' | 'yes' | 'no' | 'problem' | 'waiting';

export interface ValueView {
  readonly kind: 'quantity' | 'truth' | 'label' | 'date' | 'plan' | 'empty' | 'waiting' | 'problem';
  /** The value as printed, without its unit: "42¾", "M", "yes"; "" when empty; "—" when waiting or a problem. */
  readonly text: string;
  /** Its unit as printed after it: "in", "sts", "sts / 4 in"; "" where it has none. */
  readonly unit: string;
  /** "± ½" where it was typed with a tolerance, else "". */
  readonly tolerance: string;
  /** A whole count that will be knit: carries the stitch mark ("stitches to knit"). */
  readonly decided: boolean;
  /** Kept as knitted: marked "on the needles". */
  readonly pinned: boolean;
  /** While a change is tried: what it was, and the signed difference ("+2¾"; "" for labels and plans). */
  readonly old?: { readonly text: string; readonly difference: string } | undefined;
  /** The sentence beside it: what the cell says, what it waits for, or what is wrong; "" for none. */
  readonly says: string;
  readonly tone: Tone;
  /** The value aloud: "forty-two and three quarter inches" is left to the reader; this is "42¾ inches". */
  readonly spoken: string;
}

/** What stands in the cells of a row of plain numbers, by column: the same as in its `values`, for a fraction of the work. */
export interface PlainValues {
  /** The value as printed, without its unit. */
  text(column: number): string;
  /** While a change is tried: true where the value was another one. */
  isMoved(column: number): boolean;
  /** The signed difference that makes; "" where none is told. */
  difference(column: number): string;
  /** The value as it was printed before. */
  was(column: number): string;
  /** Whole counts that will be knit. */
  readonly decided: boolean;
}

/** One cell as a row of the sheet. */
export interface RowView {
  readonly id: string;
  /** The name with spaces: "finished chest". */
  readonly name: string;
  /** The name in formulas: "finished_chest". */
  readonly formulaName: string;
  /** Typed by the knitter (ink blue), or worked out. */
  readonly typed: boolean;
  /** One value for each column, in the columns' order; else one value. */
  readonly each: boolean;
  /** The unit once beside the name when there are many columns: "in"; else "". */
  readonly unit: string;
  /** Made when they are first read; what they say is of the moment in which the row was asked for. */
  readonly values: readonly ValueView[];
  /** Where each value is a number, worked out, of which nothing is said; else undefined. */
  readonly plain?: PlainValues | undefined;
  /** How it's worked out, in short: "pattern body stitches ÷ stitch gauge"; "" for a typed cell. */
  readonly how: string;
  readonly note: string;
  /** Cautions that stand beside this cell. */
  readonly cautions: readonly string[];
  /** True while this cell's text is part of the change being tried. */
  readonly tried: boolean;
  /** True where − and + do something to it. */
  readonly nudges: boolean;
  /** For a typed label: what it can be; empty otherwise. */
  readonly choices: readonly string[];
}

export interface ColumnView {
  readonly id: string;
  readonly label: string;
  readonly chosen: boolean;
}

export interface SectionView {
  readonly id: string;
  readonly title: string;
  readonly about: string;
  readonly cautions: readonly string[];
  /** The ids of its cells, in order. */
  readonly cells: readonly string[];
}

/** A change being tried, told in one line. */
export interface TrialView {
  readonly title: string;
  /** "size to follow: M → S; yarn: 1 skein more". */
  readonly outcome: string;
  /** The cells whose texts it overlays, with what they were and what is tried. */
  readonly cells: readonly {
    readonly id: string;
    readonly name: string;
    readonly was: string;
    readonly tried: string;
  }[];
  /** The label of the column that is chosen without it; "" where none is. */
  readonly chosen: string;
}

export interface PageView {
  readonly id: string;
  readonly title: string;
  readonly about: string;
  readonly units: 'in' | 'cm';
  readonly heading: string;
  readonly columns: readonly ColumnView[];
  /** The spaced name of the cell the chosen column follows, "" where it is fixed. */
  readonly follows: string;
  /** The spaced name of the cell it could go back to following; "" when it follows already or there is none. */
  readonly couldFollow: string;
  readonly sections: readonly SectionView[];
  readonly trial: TrialView | undefined;
  /** What undo and redo would do, in words; "" where there is nothing. */
  readonly undo: string;
  readonly redo: string;
  readonly readOnly: boolean;
  /** How this is worked out, in plain words; sources; what was rescued on opening. */
  readonly how: string;
  readonly sources: readonly string[];
  readonly remarks: readonly string[];
}

/** Where a problem stands in a text being typed, with its sentence. */
export interface Mistake {
  readonly from: number;
  readonly to: number;
  readonly sentence: string;
}

/** The outcome of asking for something: done, perhaps with a sentence about it, or one sentence that says why not. */
export type Outcome =
  | { readonly done: true; readonly note?: string }
  | { readonly done: false; readonly sentence: string; readonly at?: readonly [number, number] };

/** One piece of a text, for colouring. */
export interface TextToken {
  readonly from: number;
  readonly to: number;
  readonly kind:
    | 'number'
    | 'unit'
    | 'cell'
    | 'unknown'
    | 'function'
    | 'operator'
    | 'label'
    | 'bracket'
    | 'word';
}

/** One completion: what it inserts and one line of help. */
export interface Completion {
  readonly label: string;
  readonly insert: string;
  readonly kind: 'cell' | 'function' | 'unit' | 'word';
  /** One line: what it is, its present value or its arguments. */
  readonly help: string;
}

/** The function whose brackets the cursor stands in, with the argument it is at. */
export interface CallHelp {
  readonly name: string;
  readonly help: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly help: string;
    readonly optional: boolean;
  }[];
  readonly at: number;
}

/** How a worked-out value came to be, line by line. */
export interface WorkingsView {
  readonly id: string;
  /** "chest + ease wanted" with the names, then with the numbers, then the result; each a line. */
  readonly lines: readonly { readonly label: string; readonly text: string }[];
  /** What rounding did and cost, each a line: "198.9 → 200 sts, multiple of 8; +1.1 sts, +¼ in". */
  readonly roundings: readonly string[];
  /** The cells it uses and the cells that use it, by id. */
  readonly uses: readonly string[];
  readonly feeds: readonly string[];
  /** For a plan: its lines as a pattern prints them, and its remarks. */
  readonly plan: readonly string[];
  readonly remarks: readonly string[];
}

/** What changed: views ask again for what is named. */
export interface News {
  /** Rows whose view changed. */
  readonly rows: ReadonlySet<string>;
  /** Sections, columns, order, title, history or trial changed: ask for `page()` again. */
  readonly page: boolean;
  /** One sentence for the live region; "" for none. */
  readonly aloud: string;
}

/** A run of a step's text; `cell` is the id of the cell whose value it shows, "" for words. */
export interface StepRun {
  readonly text: string;
  readonly cell: string;
}

/** One printed line of a plan below a step. */
export interface StepLineView {
  /** "Rnds 1–36", "Row 3 (RS)"; "" for a plan along one row. */
  readonly label: string;
  readonly text: string;
  /** The count after it: "53 sts". */
  readonly after: string;
  /** All its rows are done, or it holds the row that comes next; both false where nothing is counted. */
  readonly done: boolean;
  readonly here: boolean;
}

/** The row counter of a step. */
export interface CounterView {
  readonly done: number;
  readonly of: number;
  readonly noun: 'row' | 'rnd';
  /** "37 of 90 rows done, next decrease on row 40"; "2nd time: 90 rows, first decrease on row 4". */
  readonly words: string;
  /** What the next row asks for: "next is row 38: plain"; "" when all are done. */
  readonly next: string;
  /** The count there should be on the needles now: "52 sts"; "" where no plan says. */
  readonly count: string;
  /** "worked out again from row 37 with 50 sts"; "" while the plan stands as it was. */
  readonly mended: string;
  /** How often all rows were done before: 1 while a second sleeve is counted. */
  readonly times: number;
}

/** What a ticked or begun step was knitted with, where it would come out otherwise now: an offer, never done unasked. */
export interface StepOffer {
  /** "Knitted with 88 sts cast on; it would now be 92 sts." One sentence. */
  readonly sentence: string;
  /** The step as it would be printed now. */
  readonly now: string;
  /** Whether it can be taken: not where more rows are done than there would be. */
  readonly canTake: boolean;
}

/** One step to knit. */
export interface StepView {
  readonly id: string;
  /** Its number among the steps that apply, from 1; 0 for one that does not, and for advice. */
  readonly number: number;
  /** Said before the knitting begins: there is nothing to tick or to count. */
  readonly advice: boolean;
  readonly applies: boolean;
  /** Told for other columns than the chosen one, where all are told at once: there is nothing to tick or to count. */
  readonly forOthers: boolean;
  readonly runs: readonly StepRun[];
  readonly lines: readonly StepLineView[];
  /** The sums of its plans: "35 + 72 = 107 rows"; and what is remarked about them. */
  readonly sums: readonly string[];
  readonly remarks: readonly string[];
  /** The step as one text; for a ticked one as it was when it was ticked. */
  readonly text: string;
  readonly ticked: boolean;
  /** Why it cannot be knit yet, each one sentence: an undecided count, a problem, what it waits for. */
  readonly problems: readonly string[];
  /** The whole counts it prints: these are pinned when it is ticked. */
  readonly counts: readonly { readonly cell: string; readonly name: string; readonly text: string }[];
  readonly counter: CounterView | undefined;
  /** Whether one can say what is on the needles and be told how to go on. */
  readonly recounts: boolean;
  readonly offer: StepOffer | undefined;
}

/** The steps of the notebook. */
export interface StepsView {
  readonly steps: readonly StepView[];
  /** The abbreviations they use, with what each stands for. */
  readonly key: readonly { readonly short: string; readonly long: string }[];
  /** What taking back would do: "untick a step"; "" where there is nothing. */
  readonly undo: string;
}

/** How to go on when the count on the needles is not the plan's. */
export interface RecountView {
  /** "The plan has 52 sts after row 37 and there are 50: 2 too few." */
  readonly sentence: string;
  /** Where that count would be right: "50 sts is the count before the increase on row 35: …"; "" for none. */
  readonly hint: string;
  /** What is asked first of a count that is far off, a sentence each; the mend is for when she is sure. Else empty. */
  readonly asks: readonly string[];
  /** The nearest way to mend it, in words. */
  readonly mend: string;
  /** The rest of the plan from here, and its sum. */
  readonly lines: readonly StepLineView[];
  readonly sum: string;
  /** Whether the step can go on by this. */
  readonly canGoOn: boolean;
}

/** How steps are to be told. */
export interface StepsOptions {
  /** All columns at once, as patterns print them: "176 (198, 220) sts". */
  readonly allSizes?: boolean;
  /** With the change that is being tried; otherwise as the notebook stands. */
  readonly trial?: boolean;
}

/** Where a cell is addressed: its id and a column id; the column is null for a cell with one value. */
export interface Place {
  readonly cell: string;
  readonly column: string | null;
}

/** A place for new cells: in a section, under its heading or at its end. */
export interface PasteBelow {
  readonly section: string;
  readonly atEnd: boolean;
}

/** Where a table can be pasted. */
export type PastePlace = Place | PasteBelow;

/** How a text is committed. */
export interface TypeOptions {
  /** Keep it even where it cannot be read, as when the cell is left: nothing that was written is lost. */
  readonly unread?: boolean;
}

/** An open notebook, as the views use it. Nothing here throws for what a knitter does. */
export interface Page extends AskedPage {
  page(): PageView;
  row(id: string): RowView;
  /** The text one edits at a place: the stored text, or the tried one. */
  text(place: Place): string;
  workings(id: string, column: string | null): WorkingsView;
  /** Ids of every cell that changes when this one does, nearest first. */
  feeds(id: string): readonly string[];
  /** Ids of the cells its text names. */
  uses(id: string): readonly string[];

  /** Commits a text (Enter). A size line typed into a cell fills its columns. */
  type(place: Place, text: string, options?: TypeOptions): Outcome;
  /** Shows what a text being typed would do, without committing; null ends the preview. */
  preview(place: Place, text: string | null): readonly Mistake[];
  /** Moves a typed value by so many of its steps; starts or joins a trial. */
  nudge(place: Place, steps: number): Outcome;
  keepTrial(): void;
  /** Keeps one of the values tried; the others go on being tried. */
  keepFromTrial(id: string): void;
  dropTrial(): void;
  dropFromTrial(id: string): void;

  /** Adds an empty cell after `after` (or first in the section); gives its id. */
  addCell(
    section: string,
    after: string | null,
    name?: string,
    text?: string,
  ): Outcome & { readonly id?: string };
  /** Takes a cell away again that was only just added, and neither named nor filled. True when it was. */
  unadd(id: string): boolean;
  renameCell(id: string, name: string): Outcome;
  deleteCell(id: string): Outcome;
  moveCell(id: string, section: string, index: number): Outcome;
  duplicateCell(id: string): Outcome & { readonly id?: string };
  setNote(id: string, note: string): Outcome;
  /** Adds a last step to what to knit; cells stand in it in braces, by either spelling of their names. */
  addStep(text: string): Outcome & { readonly id?: string };
  /** One value for each column, or one for all. */
  setEach(id: string, each: boolean): Outcome;

  addSection(after: string | null, title: string): Outcome & { readonly id?: string };
  renameSection(id: string, title: string): Outcome;
  setSectionAbout(id: string, about: string): Outcome;
  deleteSection(id: string): Outcome;
  moveSection(id: string, index: number): Outcome;

  addColumn(label: string, after: string | null): Outcome & { readonly id?: string };
  renameColumn(id: string, label: string): Outcome;
  deleteColumn(id: string): Outcome;
  moveColumn(id: string, index: number): Outcome;
  setHeading(heading: string): Outcome;
  choose(column: string | 'follow'): Outcome;

  setTitle(title: string): Outcome;
  setAbout(about: string): Outcome;
  setUnits(units: 'in' | 'cm'): Outcome;
  undo(): Outcome;
  /** The last thing done, for undo to take back: one object as long as it is that; none while a change is tried. */
  lastDone(): object | undefined;
  redo(): Outcome;

  /** Cells as a table to paste into a spreadsheet, and a pasted table taken in at a place. */
  copy(cells: readonly string[]): string;
  paste(place: PastePlace, table: string): Outcome;

  tokens(text: string): readonly TextToken[];
  complete(
    place: Place,
    text: string,
    cursor: number,
  ): { readonly from: number; readonly options: readonly Completion[] };
  callHelp(text: string, cursor: number): CallHelp | undefined;

  /** The steps to knit, for the chosen column. */
  steps(options?: StepsOptions): StepsView;
  /** What is printed, for the chosen column. */
  paper(options?: StepsOptions): PaperView;
  /** Ticks a step and pins the counts it prints; unticking frees them. */
  tick(step: string): Outcome;
  untick(step: string): Outcome;
  /** Takes a step's offer: it is knitted with what it would print now. */
  takeOffer(step: string): Outcome;
  /** One more row of a step is done, or one fewer. */
  rowOn(step: string): Outcome;
  rowBack(step: string): Outcome;
  /** All rows of a step are done, and are counted again from 0: for a second sleeve. */
  countAgain(step: string): Outcome;
  /** What to do when there are `count` stitches after `row`; nothing is changed. */
  recount(step: string, row: number, count: number): RecountView | undefined;
  /** Goes on from there by the plan worked out again. */
  goOn(step: string, row: number, count: number): Outcome;
  /** Takes back the last tick or count; edits have their own undo. */
  undoProgress(): Outcome;

  /** The notebook's own file as text, and taking back an edited one as one change. */
  file(): string;
  checkFile(text: string): readonly Mistake[];
  setFile(text: string): Outcome;

  listen(hear: (news: News) => void): () => void;
}
