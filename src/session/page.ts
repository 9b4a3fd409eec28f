/*
 * What the views see of an open notebook: plain data, ready to show, and the few things one can do to it.
 * Views ask for a row or a panel, show it, and ask again when the session's news names it; they compute nothing.
 * Texts are as printed on the page ("42¾", "sts / 4 in"); `spoken` is the same for a screen reader.
 */

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
  readonly old?: { readonly text: string; readonly difference: string };
  /** The sentence beside it: what the cell says, what it waits for, or what is wrong; "" for none. */
  readonly says: string;
  readonly tone: Tone;
  /** The value aloud: "forty-two and three quarter inches" is left to the reader; this is "42¾ inches". */
  readonly spoken: string;
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
  readonly values: readonly ValueView[];
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

/** The outcome of asking for something: done, or one sentence that says why not. */
export type Outcome =
  | { readonly done: true }
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
  /** What rounding did and cost: "198.9 → 200 sts, multiple of 8; +1.1 sts, +¼ in"; "" where nothing was rounded. */
  readonly rounding: string;
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

/** Where a cell is addressed: its id and a column id; the column is null for a cell with one value. */
export interface Place {
  readonly cell: string;
  readonly column: string | null;
}

/** An open notebook, as the views use it. Nothing here throws for what a knitter does. */
export interface Page {
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
  type(place: Place, text: string): Outcome;
  /** Shows what a text being typed would do, without committing; null ends the preview. */
  preview(place: Place, text: string | null): readonly Mistake[];
  /** Moves a typed value by so many of its steps; starts or joins a trial. */
  nudge(place: Place, steps: number): Outcome;
  keepTrial(): void;
  dropTrial(): void;
  dropFromTrial(id: string): void;

  /** Adds an empty cell after `after` (or first in the section); gives its id. */
  addCell(
    section: string,
    after: string | null,
    name?: string,
    text?: string,
  ): Outcome & { readonly id?: string };
  renameCell(id: string, name: string): Outcome;
  deleteCell(id: string): Outcome;
  moveCell(id: string, section: string, index: number): Outcome;
  duplicateCell(id: string): Outcome & { readonly id?: string };
  setNote(id: string, note: string): Outcome;
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
  redo(): Outcome;

  /** Cells as a table to paste into a spreadsheet, and a pasted table taken in at a place. */
  copy(cells: readonly string[]): string;
  paste(place: Place, table: string): Outcome;

  tokens(text: string): readonly TextToken[];
  complete(
    place: Place,
    text: string,
    cursor: number,
  ): { readonly from: number; readonly options: readonly Completion[] };
  callHelp(text: string, cursor: number): CallHelp | undefined;

  /** The notebook's own file as text, and taking back an edited one as one change. */
  file(): string;
  checkFile(text: string): readonly Mistake[];
  setFile(text: string): Outcome;

  listen(hear: (news: News) => void): () => void;
}
