/** Beside numbers of other columns that stand near, − and + are narrow and hug theirs, so that they cover none. */

/** So much room − or + takes beside a number as they usually are, and one digit more. */
const ROOM_PX = 35;

/** Marks a value's cell where its neighbours stand nearer than that. */
export function markTight(cell: HTMLElement): void {
  cell.toggleAttribute('data-tight', isTight(cell));
}

function isTight(cell: HTMLElement): boolean {
  const [before, here, after] = [cell.previousElementSibling, cell, cell.nextElementSibling].map((one) =>
    one?.querySelector('.n')?.getBoundingClientRect(),
  );
  if (!here) return false;
  const left = before ? here.left - before.right : ROOM_PX;
  const right = after ? after.left - here.right : ROOM_PX;
  return Math.min(left, right) < ROOM_PX;
}
