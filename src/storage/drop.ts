/** Hears files that are dropped on an element; gives what stops it. */
export function onDrop(target: HTMLElement | Document, hear: (files: readonly File[]) => void): () => void {
  const over = (event: Event): void => {
    if ((event as DragEvent).dataTransfer?.types.includes('Files')) event.preventDefault();
  };
  const drop = (event: Event): void => {
    const files = [...((event as DragEvent).dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    hear(files);
  };
  target.addEventListener('dragover', over);
  target.addEventListener('drop', drop);
  return () => {
    target.removeEventListener('dragover', over);
    target.removeEventListener('drop', drop);
  };
}
