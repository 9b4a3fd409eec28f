/*
 * Where the page is stands in the address after `#`, so that each tab has its own place and the browser's back button
 * goes from notebook to notebook and from page to page. The notebook looked at last is remembered for the next visit.
 *
 *   #at=n7f3k2                 a notebook of this device
 *   #at=n7f3k2&page=versions   a page about it
 *   #page=shelf                a page, of whatever notebook is open: how links inside the app say it
 *   #n=LETTERS                 a notebook that travels in the address itself; storage reads it
 */

import { recall, remember } from '../views/index.ts';

const LAST = 'ellwand last notebook';

/** The pages that stand in place of the sheet. */
const PAGES = [
  'shelf',
  'versions',
  'beside',
  'compare',
  'share',
  'how',
  'file',
  'reference',
  'ten-steps',
] as const;
export type PageName = (typeof PAGES)[number];

/** Where the page is: a notebook, and a page in place of its sheet. */
export interface Address {
  readonly id?: string | undefined;
  readonly page?: PageName | undefined;
}

/** What stands in the address. */
export function readAddress(fragment: string = location.hash): Address {
  const said = new URLSearchParams(fragment.replace(/^#/, ''));
  const id = said.get('at');
  return {
    id: id !== null && /^[\w-]{1,40}$/.test(id) ? id : undefined,
    page: PAGES.find((page) => page === said.get('page')),
  };
}

function written({ id, page }: Address): string {
  const parts = [id === undefined ? '' : `at=${id}`, page === undefined ? '' : `page=${page}`];
  return `#${parts.filter((part) => part !== '').join('&')}`;
}

/** The notebook looked at last on this device. */
export function lastId(): string | undefined {
  return recall(LAST);
}

/** Puts a place into the address; `replace` where there is nothing to go back to. */
export function putInAddress(address: Address, replace: boolean): void {
  const next = written(address);
  if (location.hash !== next) {
    if (replace) history.replaceState(null, '', next);
    else history.pushState(null, '', next);
  }
  if (address.id !== undefined) remember(LAST, address.id);
}
