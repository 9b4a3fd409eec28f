/** Files out and in: saving, choosing, dropping, and the system's share sheet where there is one. */
import { limits, type Read, type Refused, readNotebook, refuse } from '../notebook/index.ts';
import { carriedInFile } from './tool.ts';
import { isShelfFile, readShelf, type ShelfFile } from './whole-shelf.ts';

/** What a file that was opened held. */
export type OpenedFile = { readonly name: string } & (
  | { readonly notebook: Read }
  | { readonly shelf: ShelfFile }
  | { readonly refused: Refused['refused'] }
);

/** A name for a notebook's file: its title without what file systems refuse. */
export function fileName(title: string, ending = '.ellwand.json'): string {
  const plain = title
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}<>:"/\\|?*]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .slice(0, 80)
    .replace(/^[. ]+|[. ]+$/g, '');
  return (plain || 'notebook') + ending;
}

/** Saves a text as a file, the way the browser saves downloads. */
export function saveFile(name: string, text: string, type = 'application/json'): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has begun; a minute is for browsers that begin late.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Lets the knitter choose files; none when she thinks better of it. Call it from a press. */
export function chooseFiles(accept = '.json,application/json,.html,text/html'): Promise<readonly File[]> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.multiple = true;
    input.addEventListener('change', () => resolve([...(input.files ?? [])]));
    input.addEventListener('cancel', () => resolve([]));
    input.click();
  });
}

/**
 * Reads a file: a notebook, a whole shelf, the tool with a notebook in it, or why it is none of these. One that is too
 * big is not even loaded.
 */
export async function readFile(file: Blob & { readonly name?: string }): Promise<OpenedFile> {
  const name = file.name ?? '';
  const start = await file
    .slice(0, 200)
    .text()
    .catch(() => undefined);
  if (start === undefined) return { name, ...refuse('unreadable_file') };
  const carried = await carriedInFile(file, start);
  if (carried !== undefined) return named(name, 'notebook', readNotebook(carried));
  const isShelf = isShelfFile(start);
  if (!isShelf && file.size > limits.bytes)
    return { name, ...refuse('too_big', { size: file.size, limit: limits.bytes }) };
  const bytes = await file.arrayBuffer().catch(() => undefined);
  if (bytes === undefined) return { name, ...refuse('unreadable_file') };
  if (!isShelf) return named(name, 'notebook', readNotebook(new Uint8Array(bytes)));
  return named(name, 'shelf', readShelf(new Uint8Array(bytes)));
}

function named<K extends 'notebook' | 'shelf'>(name: string, key: K, read: object): OpenedFile {
  return (Object.hasOwn(read, 'refused') ? { name, ...read } : { name, [key]: read }) as OpenedFile;
}

/** Offers a file to the system's share sheet. `cannot` where there is none that takes files: save it instead. */
export async function shareFile(
  name: string,
  text: string,
  title: string,
): Promise<'shared' | 'cancelled' | 'cannot'> {
  const file = new File([text], name, { type: 'application/json' });
  const sharing = { files: [file], title };
  if (typeof navigator.canShare !== 'function' || !navigator.canShare(sharing)) return 'cannot';
  try {
    await navigator.share(sharing);
    return 'shared';
  } catch (error) {
    return error instanceof Error && error.name === 'AbortError' ? 'cancelled' : 'cannot';
  }
}

/** Whether this browser would share a file at all, so that the page offers it. */
export function canShareFiles(): boolean {
  if (typeof navigator.canShare !== 'function') return false;
  return navigator.canShare({ files: [new File(['{}'], 'a.json', { type: 'application/json' })] });
}
