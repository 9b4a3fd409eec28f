/*
 * A notebook as plain data: what the file holds, and nothing that is worked out from it.
 * Everything that can be pointed at carries an id that never changes, so that renaming, comparing, merging and
 * progress survive. Keys this version does not know are kept in `extra` and written back after the known ones.
 */

/** Keys of the file that this version does not know, kept as they were read. */
export type Extra = Readonly<Record<string, unknown>>;

/** One column: a size, a needle, a wearer. */
export interface Column {
  readonly id: string;
  /** 1 to 24 characters, no `"`, unique ignoring case. */
  readonly label: string;
  readonly extra?: Extra;
}

/** The notebook's one run of columns. */
export interface Columns {
  /** What the columns are: "size", "needle", "wearer". */
  readonly heading: string;
  readonly list: readonly Column[];
  readonly extra?: Extra;
}

/** What a cell says of its value: for a truth `yes` and `no`, for anything else `text`. `{cell}` is filled in. */
export interface Says {
  readonly yes?: string;
  readonly no?: string;
  readonly text?: string;
  readonly extra?: Extra;
}

/** A cell: a name and a text, or (typed cells only) a text for each column. Exactly one of `text` and `each` is there. */
export interface Cell {
  readonly id: string;
  /** NFC; unique in the notebook, ignoring case. */
  readonly name: string;
  /** Its one text; absent when `each` is there. Empty text is an empty cell. */
  readonly text?: string;
  /** Its text in each column, by column id; a column left out is empty, and no text in it is "". */
  readonly each?: Readonly<Record<string, string>>;
  readonly note?: string;
  /** The unit to show it in: "in", "m", "%"; or only where a cell says yes: "rnd when worked_in_the_round". */
  readonly shown?: string;
  /** The step it is shown and nudged by: "1/4 in". */
  readonly step?: string;
  /** The range searched when working back: ["0 in", "60 in"]. */
  readonly range?: readonly [from: string, to: string];
  /** For a typed label: the labels it can be. */
  readonly choices?: readonly string[];
  readonly says?: Says;
  readonly extra?: Extra;
}

/** A named run of cells. */
export interface Section {
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  readonly cells: readonly Cell[];
  readonly extra?: Extra;
}

/** A drawing: its kind, and which cell each of its parts is bound to, by cell name. */
export interface Drawing {
  readonly id: string;
  readonly kind: string;
  readonly title?: string;
  readonly binds: Readonly<Record<string, string>>;
  readonly extra?: Extra;
}

/** A step to knit: pattern English with `{cell}` in it; `when` names a truth cell that must be yes. */
export interface Step {
  readonly id: string;
  readonly text: string;
  readonly when?: string;
  /** "advice": said before the knitting begins, and not knitted itself; any other word is kept and means nothing. */
  readonly kind?: string;
  readonly extra?: Extra;
}

/** Where a number or a rule comes from. */
export interface Source {
  /** The cell or section id it supports, where it is about one. */
  readonly for?: string;
  readonly title: string;
  readonly year?: number;
  /** How it was come by: "read", "from memory", "common practice". */
  readonly seen?: string;
  readonly extra?: Extra;
}

/** What the knitter must still see to herself. */
export interface Caution {
  /** The cell or section id it stands beside. */
  readonly for?: string;
  readonly text: string;
  readonly extra?: Extra;
}

/** What has been knitted: ticked steps with the text they printed, pinned counts by cell id and column id, rows by step. */
export interface Knitted {
  readonly ticked: Readonly<Record<string, string>>;
  /** By cell id, then column id ("" for a single cell): the text of the value that was knitted. */
  readonly pinned: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly rows: Readonly<Record<string, number>>;
  readonly extra?: Extra;
}

/** What has been knitted of one column, or of whichever is chosen, and beside it what has been of others. */
export interface Progress extends Knitted {
  /** The id of the column it is of; absent: of whichever is chosen. */
  readonly of?: string;
  /** What has been knitted of other columns, by column id ("" while none was chosen). */
  readonly others?: Readonly<Record<string, Knitted>>;
}

/** The prebuilt notebook, and its version, that this one was made from. */
export interface From {
  readonly notebook: string;
  readonly version: number;
  readonly extra?: Extra;
}

/** Which column is chosen: the one a cell names, or a fixed one by its id. */
export type Chosen =
  | { readonly follow: string; readonly extra?: Extra }
  | { readonly column: string; readonly extra?: Extra };

/** The whole notebook. */
export interface Notebook {
  /** The version of the format; above `FORMAT` the notebook is only to be read. */
  readonly ellwand: number;
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  readonly from?: From;
  readonly units: 'in' | 'cm';
  readonly money?: string;
  /** The day that `today()` gives, "2026-12-24"; absent: the day it is. */
  readonly today?: string;
  readonly columns?: Columns;
  readonly chosen?: Chosen;
  readonly sections: readonly Section[];
  readonly drawings: readonly Drawing[];
  readonly steps: readonly Step[];
  readonly how?: string;
  readonly sources: readonly Source[];
  readonly cautions: readonly Caution[];
  readonly progress?: Progress;
  readonly extra?: Extra;
}

/** The version of the format that this program writes. */
export const FORMAT = 1;
