import type { NotebookSignals } from './notebook-signals.ts';

/** Undoes or redoes, where a key asks for it. */
export function hearHistoryKey(event: KeyboardEvent, notebook: NotebookSignals): void {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  if (key === 'z' && !event.shiftKey) notebook.page.undo();
  else if (key === 'y' || (key === 'z' && event.shiftKey)) notebook.page.redo();
  else return;
  event.preventDefault();
}
