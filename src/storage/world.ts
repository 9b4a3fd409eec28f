/** What a keeper needs of the world, what it is handed, and what it tells. */
import type { Change, Notebook, Refusal } from '../notebook/index.ts';
import type { Disk, DiskTrouble } from './disk.ts';
import type { Role } from './log.ts';
import type { Tabs } from './tabs.ts';

/** What a keeper needs of the world; all of it can be replaced in tests. */
export interface World {
  readonly disk: Disk;
  readonly tabs: Tabs;
  /** This tab's id, the same after a reload, and no other tab's. */
  readonly tab: string;
  /** Whether this tab may go on under the id of another: only when that one is gone. */
  readonly mayBe: (tab: string) => Promise<boolean>;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Numbers in [0, 1). */
  readonly random: () => number;
}

/** A change that the session has done, to be kept. */
export interface Done {
  readonly change: Change;
  readonly title: string;
  readonly role: Role;
  /** As in the history: changes in a row with the same word are one entry. */
  readonly join?: string;
  /** The notebook before and after, where the session has them: spares applying the change again. */
  readonly before?: Notebook;
  readonly after?: Notebook;
  /** What is being tried from then on, as `saveTrials` takes it: it reaches the disk with the change, or neither does. */
  readonly trials?: unknown;
}

/** What a keeper tells. `notebook` is always what is to be shown from now on. */
export type News =
  /** Another tab's change has come in. */
  | { readonly kind: 'foreign'; readonly notebook: Notebook; readonly change: Change; readonly title: string }
  /** A change of this tab was overwritten by another that had not seen it; doing `mine` again gives it back. */
  | {
      readonly kind: 'overtaken';
      readonly mine: { readonly title: string; readonly change: Change };
      readonly theirs: { readonly title: string; readonly change: Change };
    }
  /** A change of this tab could not be kept, and is taken back. */
  | {
      readonly kind: 'refused';
      readonly notebook: Notebook;
      readonly title: string;
      readonly change: Change;
      readonly refusal: Refusal;
    }
  | { readonly kind: 'saved'; readonly at: number }
  /** Not written; it is kept in memory and tried again. */
  | { readonly kind: 'trouble'; readonly trouble: DiskTrouble };
