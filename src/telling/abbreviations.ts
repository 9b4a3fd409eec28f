/*
 * The standard abbreviations of knitting patterns in English, and which of them a text uses. What each stands for is
 * common practice; the right-side and wrong-side words and the two words of an edging are spelled out for beginners.
 */

/** An abbreviation and what it stands for. */
export interface Abbreviation {
  readonly short: string;
  readonly long: string;
}

/** Each with how it is found in a text; numbers that follow (k5, sl1) belong to the count. */
const KNOWN: readonly (Abbreviation & { readonly found: RegExp })[] = [
  { short: 'k', long: 'knit', found: /\bk\d*\b/ },
  { short: 'p', long: 'purl', found: /\bp\d*\b/ },
  { short: 'k2tog', long: 'knit 2 together: 1 st fewer', found: /\bk2tog\b/ },
  { short: 'p2tog', long: 'purl 2 together: 1 st fewer', found: /\bp2tog\b/ },
  { short: 'k3tog', long: 'knit 3 together: 2 sts fewer', found: /\bk3tog\b/ },
  { short: 'p3tog', long: 'purl 3 together: 2 sts fewer', found: /\bp3tog\b/ },
  {
    short: 'ssk',
    long: 'slip 2 as if to knit, one at a time, then knit them together through the back loops: 1 st fewer',
    found: /\bssk\b/,
  },
  { short: 'skp', long: 'slip 1, knit 1, pass the slipped st over: 1 st fewer', found: /\bskp\b/ },
  {
    short: 'm1',
    long: 'make 1: lift the strand between two sts and knit it twisted: 1 st more',
    found: /\bm1\b/,
  },
  { short: 'm1l', long: 'make 1 leaning left', found: /\bm1l\b/i },
  { short: 'm1r', long: 'make 1 leaning right', found: /\bm1r\b/i },
  { short: 'm1p', long: 'make 1 purlwise: 1 st more', found: /\bm1p\b/ },
  { short: 'kfb', long: 'knit into the front and the back of a st: 1 st more', found: /\bkfb\b/ },
  { short: 'yo', long: 'yarn over: 1 st more', found: /\byo\b/ },
  { short: 'sl', long: 'slip', found: /\bsl\d*\b/ },
  { short: 'wyif', long: 'with the yarn in front', found: /\bwyif\b/ },
  { short: 'wyib', long: 'with the yarn at the back', found: /\bwyib\b/ },
  { short: 'tbl', long: 'through the back loop', found: /\btbl\b/ },
  { short: 'pm', long: 'place a marker', found: /\bpm\b/ },
  { short: 'sm', long: 'slip the marker', found: /\bsm\b/ },
  { short: 'st, sts', long: 'stitch, stitches', found: /\bsts?\b/ },
  { short: 'rnd, rnds', long: 'round, rounds', found: /\brnds?\b/i },
  { short: 'rep', long: 'repeat', found: /\brep\b/ },
  { short: 'inc', long: 'increase', found: /\binc\b/ },
  { short: 'dec', long: 'decrease', found: /\bdec\b/ },
  { short: 'RS', long: 'right side', found: /\bRS\b/ },
  { short: 'WS', long: 'wrong side', found: /\bWS\b/ },
  { short: 'take 2', long: 'join with the next two live sts at once (k3tog)', found: /\btake 2\b/ },
  { short: 'no join', long: 'turn without taking a live st', found: /\bno join\b/ },
];

/** The key of a text: every abbreviation it uses, in the order patterns list them. */
export function abbreviationsIn(text: string): readonly Abbreviation[] {
  return KNOWN.filter(({ found }) => found.test(text)).map(({ short, long }) => ({ short, long }));
}
