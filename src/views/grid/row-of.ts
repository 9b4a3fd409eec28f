/** The key of the row that an element of the grid stands in. */
export function rowOf(target: EventTarget | null): string | undefined {
  const row = target instanceof Element ? target.closest<HTMLElement>('[data-row]') : null;
  return row?.dataset['row'];
}
