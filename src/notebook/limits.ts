/** All limits of notebooks, files and links stand here. A text at its limit is allowed; lengths are UTF-16 units, counts are counts. */
export const limits = {
  /** Bytes of a file, and characters of its text. */
  bytes: 4 * 1024 * 1024,
  /** Brackets inside brackets, anywhere in the file. */
  depth: 40,
  cells: 20_000,
  sections: 2_000,
  columns: 60,
  drawings: 200,
  steps: 2_000,
  sources: 1_000,
  cautions: 1_000,
  choices: 200,
  binds: 200,
  /** Cells, or steps, that progress speaks of. */
  progress: 5_000,
  id: 40,
  name: 100,
  label: 24,
  /** The text of a cell, or of one column of it. */
  text: 4_000,
  /** Units, steps, kinds, money signs, days, headings and the like. */
  word: 100,
  title: 300,
  /** Notes, says, cautions and steps. */
  sentence: 4_000,
  /** A money sign. */
  money: 8,
  /** Rows of one step. */
  rows: 10_000_000,
  /** "about" and "how". */
  page: 100_000,
  /** What is said of one file: further remarks are counted, not listed. */
  remarks: 200,
  /** A notebook from outside with more to work out than this (values, ten for each cell, forty for a plan) is worked out when asked. */
  work: 60_000,
  /** Bytes of the file of a whole shelf. */
  shelf: 64 * 1024 * 1024,
  /** Letters of a link: longer ones are broken by some mail and chat programs. */
  link: 6_000,
  /** Letters of a link that a camera reads from another phone's screen. */
  picture: 1_200,
  /** Bytes that the letters of a link may unfold to: a few can hold megabytes of one. */
  unfolded: 2 * 1024 * 1024,
} as const;
