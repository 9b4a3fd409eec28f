/*
 * The tool as one HTML file, with a notebook in it. The notebook stands near the page's start as a data element: JSON, in
 * which no letter can end the element, and which a browser never runs.
 */
import { limits } from '../notebook/index.ts';
import { crc32 } from './checksum.ts';

/** The id of the element that holds the notebook. */
export const CARRIED = 'ellwand-notebook';

const PLACE = new RegExp(`(<script type="application/json" id="${CARRIED}">)([^<]*)(</script>)`);

/** So many letters of a page can stand before the notebook's end. */
const FIRST = limits.bytes + 16_384;

/** The page with a notebook's file in it, in place of whatever it carried; undefined where the page has no place for one. */
export function withCarried(page: string, file: string): string | undefined {
  if (!PLACE.test(page)) return undefined;
  const data = file.replaceAll('<', '\\u003c');
  return page.replace(PLACE, (_, before: string, __, after: string) => before + data + after);
}

/** The notebook's file that a page carries; undefined where it carries none. */
function carriedIn(page: string): string | undefined {
  return PLACE.exec(page)?.[2]?.trim() || undefined;
}

/** As `carriedIn`, of a file: no more of it is read than it takes. */
export async function carriedInFile(file: Blob, start: string): Promise<string | undefined> {
  if (!/^\ufeff?\s*<!doctype html>/i.test(start)) return undefined;
  const page = await file
    .slice(0, FIRST)
    .text()
    .catch(() => '');
  return carriedIn(page);
}

/** A short mark of what is carried, to know it again. */
export const markOf = (file: string): string => crc32(new TextEncoder().encode(file)).toString(36);
