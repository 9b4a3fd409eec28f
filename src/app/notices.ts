/** What the app itself has to say, until it is answered: one notice a key, the newest last. */

import { type Accessor, createSignal } from 'solid-js';
import type { AppNotice } from '../views/index.ts';

/** A notice to be told; without ways on, an OK takes it away. */
export type Telling = Omit<AppNotice, 'ways'> & { readonly ways?: AppNotice['ways'] };

export interface Notices {
  readonly list: Accessor<readonly AppNotice[]>;
  /** Tells it, in place of one of the same key. Whatever is chosen, the notice goes first. */
  tell(notice: Telling): void;
  /** One sentence with an OK. */
  say(key: string, sentence: string): void;
  drop(key: string): void;
}

/** What keys begin with of files that could not be read: once another notebook is open, that is no longer of interest. */
export const UNREAD = 'unread ';

/** So many stand at once; the oldest goes. */
const MOST = 4;

export function createNotices(): Notices {
  const [list, setList] = createSignal<readonly AppNotice[]>([]);
  const drop = (key: string) => setList((all) => all.filter((one) => one.key !== key));
  const tell = ({ ways = [], ...notice }: Telling) => {
    const going = [...ways, ...(ways.length === 0 ? [{ label: 'OK', choose: () => undefined }] : [])];
    const told = {
      ...notice,
      ways: going.map(({ label, choose }) => ({
        label,
        choose: () => {
          drop(notice.key);
          choose();
        },
      })),
    };
    setList((all) => [...all.filter((one) => one.key !== notice.key), told].slice(-MOST));
  };
  return { list, tell, say: (key, sentence) => tell({ key, sentence }), drop };
}
