/*
 * The tool as one file, with a notebook in it: the page that was built as one file writes itself; a hosted page fetches
 * the one-file build that stands beside it. The notebook stands in the page as data, which the browser never runs.
 */

import { isRefused, type Read, readNotebook } from '../notebook/index.ts';

/** Where the one-file build stands beside a hosted page. */
const BESIDE = './ellwand.html';

const PLACE = /(<script type="application\/json" id="ellwand-notebook">)[^<]*(<\/script>)/;

/** The page as it was before anything ran, where it is the one-file build. */
const own: string | undefined =
  import.meta.env.MODE === 'single' ? `<!doctype html>\n${document.documentElement.outerHTML}` : undefined;

/** Whether this page is the one-file build. */
export const isOneFile: boolean = own !== undefined;

/** The notebook this page carries, where it carries one. */
export function carried(): Read | undefined {
  const text = document.getElementById('ellwand-notebook')?.textContent?.trim() ?? '';
  if (text === '') return undefined;
  const read = readNotebook(text);
  return isRefused(read) ? undefined : read;
}

/** The tool with a notebook's file in it; undefined where there is no one-file build to be had. */
export async function toolWith(file: string): Promise<string | undefined> {
  const page = own ?? (await fetchTool());
  if (page === undefined || !PLACE.test(page)) return undefined;
  return page.replace(PLACE, (_, before: string, after: string) => before + asData(file) + after);
}

/** JSON in which no letter can end the element that holds it. */
function asData(json: string): string {
  return json.replaceAll('<', '\\u003c');
}

async function fetchTool(): Promise<string | undefined> {
  try {
    const answer = await fetch(BESIDE);
    return answer.ok ? await answer.text() : undefined;
  } catch {
    return undefined;
  }
}
