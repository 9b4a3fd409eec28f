/** The app's parts, as its pages are given them. */
import type { Accessor } from 'solid-js';
import type { Notebook } from '../notebook/index.ts';
import type { Session } from '../session/index.ts';
import type { Shelf } from '../storage/index.ts';
import type { NotebookSignals, Panel } from '../views/index.ts';
import type { Guide } from './guide.ts';
import type { Incoming } from './incoming.ts';
import type { Keeping } from './keeping.ts';
import type { Library } from './library.ts';
import type { Notices } from './notices.ts';
import type { Place } from './place.ts';
import type { ShelfDeeds } from './shelf-deeds.ts';

export interface AppParts {
  readonly shelf: Shelf;
  readonly library: Library;
  readonly notices: Notices;
  readonly place: Place;
  readonly keeping: Keeping;
  readonly deeds: ShelfDeeds;
  readonly incoming: Incoming;
  readonly guide: Guide;
  /** Begins a notebook of one's own, from the prebuilt one of that name or from nothing, and opens it. */
  beginWith(name: string | undefined): void;
  /** Opens a notebook that is coming, as one's own. */
  beginAs(coming: Promise<Notebook>): void;
  /** The panel that leads on from a notebook to another; undefined where none does. */
  onward(session: Session, signals: NotebookSignals): Panel | undefined;
  /** Whether she is here for the first time, and has not chosen another notebook yet. */
  readonly isFirstVisit: Accessor<boolean>;
  setFirstVisit(is: boolean): void;
}
