/*
 * How a knitter makes a notebook of her own, in ten steps. The words stand here once: the page and the bar beside the
 * sheet show them, the developers' guide prints them, and a test in the browser follows them to the letter.
 *
 * In a sentence **bold** is something to touch, `this` is to be written, <kbd>Enter</kbd> is a key, and _this_ is what
 * is to be seen then: "name: values" of a row, or words anywhere on the page.
 */

/** One step: what it is about, and what to do, a sentence or a few. */
export interface TenStep {
  readonly title: string;
  readonly text: string;
}

/** The ten steps, in order. */
export const tenSteps: readonly TenStep[] = [
  {
    title: 'Begin with one number',
    text: 'In the list of notebooks (on a phone it is behind the ruler at the top) choose **A blank page**. Write `stitch gauge` and press <kbd>Enter</kbd>, then `21 st / 10 cm` and <kbd>Enter</kbd>. A name and a number with its unit are a cell: _stitch gauge: 21_.',
  },
  {
    title: 'A number for each size',
    text: 'Choose **add a cell**, write `head` and press <kbd>Enter</kbd>, then `50 (56) cm`, the way patterns print their sizes, and <kbd>Enter</kbd>. Now there is a column for each: _head: 50 56_.',
  },
  {
    title: 'Name the columns',
    text: 'Touch the head of the column, **1**, then **…** beside it and **rename**; write `child` and press <kbd>Enter</kbd>. Do the same with the other: **2**, **…**, **rename**, `grown-up`, <kbd>Enter</kbd>. The tinted column is yours; touch another one to choose it.',
  },
  {
    title: 'A share of something',
    text: 'A band that is to hold is knitted smaller than the head. Choose **add a cell**, write `smaller by` and press <kbd>Enter</kbd>, then `8%` and <kbd>Enter</kbd>: _smaller by: 8_.',
  },
  {
    title: 'One number from another',
    text: 'Choose **add a cell**, write `around` and press <kbd>Enter</kbd>, then `head * (1 - smaller_by)` and <kbd>Enter</kbd>. Names are offered while you write, with an underscore for the space. One formula does for every column: _around: 46 51.5_.',
  },
  {
    title: 'A count that can be knit',
    text: 'A width times the gauge is stitches, and the rib wants a multiple of 4. Choose **add a cell**, write `cast on` and press <kbd>Enter</kbd>, then `multiple(around * stitch_gauge, 4)` and <kbd>Enter</kbd>. The small stitch says that so many will be knit: _cast on: 96 108_.',
  },
  {
    title: 'A check',
    text: 'What did the rounding cost? Choose **add a cell**, write `fits` and press <kbd>Enter</kbd>, then `abs(cast_on / stitch_gauge - around) <= 1 cm` and <kbd>Enter</kbd>. It says yes while the band is within a centimetre of what you want: _fits: yes yes_.',
  },
  {
    title: 'Try a change',
    text: 'Touch the number of **stitch gauge**, then **+** beside it. Everything that follows from it moves, with the difference in small print: _cast on: 100 112_. Choose **keep 21.5**, or go back to 21.',
  },
  {
    title: 'Say what to knit',
    text: 'Touch the number of **cast on**, then **…** at the end of its row and **write a step with it**. Write `Cast on {cast on} and join in the round.` and press <kbd>Enter</kbd>. What stands in braces is filled in, for your column, under What to knit: _Cast on 112 sts and join in the round._',
  },
  {
    title: 'Give it a title and share it',
    text: 'Touch the title, **A new notebook**, write `Headbands` and press <kbd>Enter</kbd>. Choose **Share** (on a phone it is in the list of notebooks), then **Save a file**. Send it as you send a picture: any Ellwand opens it and has the whole notebook, formulas, steps and all. Where this page is on the web, a link does the same.',
  },
];

/** A piece of a step's text, by what is to be done with it. */
export interface StepPiece {
  readonly kind: 'words' | 'touch' | 'write' | 'press' | 'see';
  readonly text: string;
}

const MARKS: readonly (readonly [StepPiece['kind'], RegExp])[] = [
  ['touch', /^\*\*(.+)\*\*$/su],
  ['write', /^`(.+)`$/su],
  ['press', /^<kbd>(.+)<\/kbd>$/su],
  ['see', /^_(.+)_$/su],
];

/** A step's text in pieces. */
export function piecesOf(text: string): readonly StepPiece[] {
  return text
    .split(/(\*\*[^*]+\*\*|`[^`]+`|<kbd>[^<]+<\/kbd>|(?<![\w`])_[^`]+?_(?![\w`]))/u)
    .filter((piece) => piece !== '')
    .map(pieceOf);
}

function pieceOf(piece: string): StepPiece {
  for (const [kind, mark] of MARKS) {
    const text = mark.exec(piece)?.[1];
    if (text !== undefined) return { kind, text };
  }
  return { kind: 'words', text: piece };
}

/** The ten steps as the developers' guide prints them. */
export function tenStepsAsMarkdown(): string {
  return tenSteps.map(({ title, text }, i) => `${i + 1}. ${title}. ${text}`).join('\n');
}
