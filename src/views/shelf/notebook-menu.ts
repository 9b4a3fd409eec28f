/** What can be done with one notebook of the shelf, as a menu: the same in the list at the left and on its own page. */
import type { MenuItem } from '../desk.ts';

export interface NotebookActions {
  readonly rename: (title: string) => void;
  readonly duplicate: () => void;
  readonly saveFile: () => void;
  /** Puts it away, or takes it out again. */
  readonly putAway: () => void;
  readonly remove: () => void;
  /** Absent where it cannot go further. */
  readonly moveUp?: (() => Promise<void>) | undefined;
  readonly moveDown?: (() => Promise<void>) | undefined;
}

/** The menu; `write` begins writing another title in place. */
export function notebookMenu(
  actions: NotebookActions,
  write: () => void,
  isAway = false,
): readonly MenuItem[] {
  const moves = [
    { label: 'move up', keys: 'Alt up', choose: actions.moveUp },
    { label: 'move down', keys: 'Alt down', choose: actions.moveDown },
  ].flatMap(({ choose, ...item }, at) =>
    choose ? [{ ...item, apart: at === 0, choose: () => void choose() }] : [],
  );
  return [
    { label: 'rename', choose: write },
    { label: 'make a copy', choose: actions.duplicate },
    { label: 'save a file', choose: actions.saveFile },
    ...moves,
    { label: isAway ? 'take it out again' : 'put it away', apart: true, choose: actions.putAway },
    { label: 'delete', choose: actions.remove },
  ];
}
