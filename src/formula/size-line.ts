/*
 * A pattern prints its sizes as one line: 176 (198, 220, 242, 264, 286) sts. Typed, `;` or a comma and a space
 * separate; a bare comma only where no other separator is there (it may be a decimal comma). A lone dash is an empty
 * column. Pasted, slashes and dashes separate too.
 */

const LINE = /^\s*([^()[\]]*?)\s*[([]([^()[\]]*)[)\]]\s*([^()[\]]*)$/u;
/** A unit, as "st / 4 in": no sum, and nothing left open at its end. */
const UNIT = String.raw`[%\p{L}\p{Sc}](?:[\p{L}\p{Sc}\d\s.,/%^²³±½¼¾⅓⅔⅛⅜⅝⅞]*[\p{L}\p{Sc}\d%²³½¼¾⅓⅔⅛⅜⅝⅞.])?`;
const VALUE = new RegExp(
  String.raw`^[−-]?\s*[\d.,½¼¾⅓⅔⅛⅜⅝⅞/ ′″'"]*\d[\d.,½¼¾⅓⅔⅛⅜⅝⅞/ ′″'"]*\s*(?:${UNIT})?$|^[−-]?[½¼¾⅓⅔⅛⅜⅝⅞]\s*(?:${UNIT})?$`,
  'u',
);
const WORD = /^(?:\d{4}-\d{2}-\d{2}|yes|no|["“][^"“”]*["”])$/u;
const ONLY_NUMBER = /[\d½¼¾⅓⅔⅛⅜⅝⅞″"′'.,]$/u;
const DASH = /^[-–—−]$/u;
/** A dash between two values; the slashes beside it are fractions. */
const DASHED = /[\d½¼¾⅓⅔⅛⅜⅝⅞"″](?:\s*[–—]\s*|\s+-\s+|-)\d/u;
/** Without brackets, fewer values than this between dashes or slashes are a sum or a fraction: 1/2 in, 42 - 4 in. */
const FEWEST = 3;
const DAY = /^\s*\d{4}-\d{2}-\d{2}\s*$/u;

function separated(list: string, pasted: boolean): string[] {
  if (list.includes(';')) return list.split(';');
  if (/,\s/u.test(list)) return list.split(/,\s+/u);
  if (pasted && !list.includes(',')) {
    if (DASHED.test(list)) return list.split(/\s*[–—]\s*|\s+-\s+|(?<=\d)-(?=\d)/u);
    if (/\s\/\s/u.test(list)) return list.split(/\s+\/\s+/u);
    if (/\d\/\d/u.test(list)) return list.split('/');
  }
  return list.split(',');
}

function readItem(item: string, tail: string): string | undefined {
  const text = item.trim();
  if (text === '' || DASH.test(text)) return '';
  if (WORD.test(text)) return text;
  if (!VALUE.test(text)) return undefined;
  return ONLY_NUMBER.test(text) && tail !== '' ? `${text} ${tail}` : text;
}

function splitLine(
  text: string,
  pasted: boolean,
): { readonly items: readonly string[]; readonly tail: string } | undefined {
  const line = LINE.exec(text);
  if (line) {
    const [, first = '', list = '', tail = ''] = line;
    return first === '' ? undefined : { items: [first, ...separated(list, pasted)], tail: tail.trim() };
  }
  if (/[()[\]]/u.test(text) || DAY.test(text)) return undefined;
  const split = separated(text, pasted);
  const listed = /;|,\s/u.test(text);
  if (split.length < 2 || (!listed && (!pasted || split.length < FEWEST))) return undefined;
  const last = split.at(-1) ?? '';
  const tail = /^[\s\d.,½¼¾⅓⅔⅛⅜⅝⅞/]*\d\s*(\D*)$/u.exec(last)?.[1]?.trim() ?? '';
  return { items: [...split.slice(0, -1), tail ? last.slice(0, last.lastIndexOf(tail)) : last], tail };
}

/** The texts of a size line, one a column, each with its unit; undefined where the text is no size line. */
export function readSizeLine(text: string, pasted = false): readonly string[] | undefined {
  if (text.length > 2000) return undefined;
  const line = splitLine(text.normalize('NFC'), pasted);
  if (!line) return undefined;
  const items = line.items.map((item) => readItem(item, line.tail));
  const filled = items.filter((item) => item !== undefined && item !== '');
  return items.includes(undefined) || filled.length === 0 || items.length < 2
    ? undefined
    : (items as string[]);
}
