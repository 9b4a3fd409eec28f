/*
 * The tool as one file, with a notebook in it. A page that is the one file writes itself; a hosted page fetches the one
 * file that stands beside it. What it carries is taken in once: whoever opens the same file again finds her own
 * notebook as she left it.
 */

import { type Read, type Refused, readNotebook } from '../notebook/index.ts';
import { CARRIED, markOf, withCarried } from '../storage/index.ts';
import { recall, remember } from '../views/index.ts';

/** Where the one file stands beside a hosted page. */
const BESIDE = './ellwand.html';

const element: HTMLElement | null = document.getElementById(CARRIED);

/** Whether this page is the one file. */
export const isOneFile: boolean = element !== null;

/** What the page carries. */
export interface Carried {
  readonly read: Read | Refused;
  /** Whether this very notebook has been taken in from this file before. */
  readonly isKnown: boolean;
  /** Remembers that it has been. */
  readonly remember: () => void;
}

/** The notebook in this page; undefined where there is none. */
export function carried(): Carried | undefined {
  const file = element?.textContent?.trim() ?? '';
  if (file === '') return undefined;
  const read = readNotebook(file);
  const key = `ellwand carried ${'notebook' in read ? read.notebook.id : ''}`;
  const mark = markOf(file);
  return { read, isKnown: recall(key) === mark, remember: () => remember(key, mark) };
}

/** The tool with a notebook's file in it; undefined where there is no one file to be had. */
export async function toolWith(file: string): Promise<string | undefined> {
  const page = isOneFile ? ownPage() : await fetchTool();
  return page === undefined ? undefined : withCarried(page, file);
}

/** This page as it came: without what has been shown since, and without what extensions of the browser put in. */
function ownPage(): string {
  const page = document.documentElement.cloneNode(true) as HTMLElement;
  for (const name of page.getAttributeNames()) if (name !== 'lang') page.removeAttribute(name);
  for (const one of page.querySelectorAll('head > *'))
    if (!one.matches(`meta, title, link[rel="icon"], #${CARRIED}, [data-ellwand]`)) one.remove();
  for (const one of page.querySelectorAll('body > *')) {
    if (one.id === 'app') one.replaceChildren();
    else if (!one.matches('[data-ellwand]')) one.remove();
  }
  const title = page.querySelector('title');
  if (title) title.textContent = 'Ellwand';
  return `<!doctype html>\n${page.outerHTML}\n`;
}

async function fetchTool(): Promise<string | undefined> {
  try {
    const answer = await fetch(BESIDE);
    return answer.ok ? await answer.text() : undefined;
  } catch {
    return undefined;
  }
}
