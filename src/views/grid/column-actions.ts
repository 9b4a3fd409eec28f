import type { Desk } from '../desk.ts';

/** What the chosen column is called: "your size", "this pair". */
export function yourColumn(heading: string): string {
  return heading === 'size' || heading === '' ? 'your size' : `this ${heading}`;
}

/** "a size", "an age". */
export function withArticle(word: string): string {
  return `${/^([aeio]|hour|u(?!ni|s))/i.test(word) ? 'an' : 'a'} ${word}`;
}

/** Adds a column after another one, or last when `after` is null, and asks for its label. */
export function addColumn(desk: Desk, after: string | null): void {
  const { columns, heading } = desk.notebook.view();
  const word = heading || 'size';
  const taken = new Set(columns.map((column) => column.label.toLowerCase()));
  let number = columns.length + 1;
  while (taken.has(`${word} ${number}`)) number += 1;
  const outcome = desk.notebook.page.addColumn(`${word} ${number}`, after ?? columns.at(-1)?.id ?? null);
  if (!desk.heed(outcome) || outcome.id === undefined) return;
  const index = desk.notebook.view().columns.findIndex((column) => column.id === outcome.id);
  desk.standAt({ row: 'head', part: index + 1 }, true);
  desk.edit({ what: 'column', id: outcome.id, column: null });
}
