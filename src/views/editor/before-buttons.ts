/*
 * What is being written, kept before something takes the page away from it.
 *
 * A button that is pressed while a text is being written. Leaving the text can make its row taller, and the button would
 * go from under the pointer before the click is done. So the press does not leave the text; the click keeps it first,
 * and then does what the button is for.
 *
 * A page out of sight may be closed without another word. So what can be read is kept as it goes out of sight, and taken
 * back as it comes in sight again, where the writing goes on as if nothing had been.
 */

import type { TextEditor, Writing } from './text-editor.ts';

/** What a click does something with, other than standing there. */
const BUTTONS = 'button, summary, [role=tab]';

/**
 * Keeps what is written before a button elsewhere does its part, and while the page is out of sight; `given` is what stood
 * there as the writing began. Gives what ends it.
 */
export function makeKeepBefore(
  host: HTMLElement,
  keep: () => void,
  writing: Pick<Writing, 'page' | 'place'>,
  editor: Pick<TextEditor, 'text'>,
  given: string,
): () => void {
  const ends = [beforeButtons(host, keep), whileOutOfSight(writing, editor, given)];
  return () => {
    for (const end of ends) end();
  };
}

function beforeButtons(editor: HTMLElement, keep: () => void): () => void {
  const buttonOf = ({ target }: Event) => {
    const button = target instanceof Element ? target.closest<HTMLElement>(BUTTONS) : null;
    return button && !editor.contains(button) ? button : undefined;
  };
  const press = (event: MouseEvent) => {
    if (event.button === 0 && buttonOf(event)) event.preventDefault();
  };
  const click = (event: MouseEvent) => {
    const button = buttonOf(event);
    if (!button) return;
    keep();
    button.focus({ preventScroll: true });
  };
  document.addEventListener('mousedown', press, true);
  document.addEventListener('click', click, true);
  return () => {
    document.removeEventListener('mousedown', press, true);
    document.removeEventListener('click', click, true);
  };
}

/** Keeps what can be read while the page is out of sight, with the editor left open. */
function whileOutOfSight(
  { page, place }: Pick<Writing, 'page' | 'place'>,
  editor: Pick<TextEditor, 'text'>,
  given: string,
) {
  let takeBack: (() => void) | undefined;
  /** Gives what takes it back; undefined where nothing new is written that can be read. */
  const keep = () => {
    const text = editor.text();
    page.preview(place, null);
    const isNew = text !== given && text !== page.text(place) && text.trim() !== '';
    const isKept = isNew && page.type(place, text).done;
    const writeOn = () => {
      if (isKept) page.undo();
      page.preview(place, text);
    };
    if (isKept) return writeOn;
    writeOn();
    return undefined;
  };
  const hear = ({ type }: Event) => {
    const isLeft = type === 'pagehide' || document.visibilityState === 'hidden';
    if (isLeft) takeBack ??= keep();
    else {
      takeBack?.();
      takeBack = undefined;
    }
  };
  // Before anybody else, so that what is kept goes to the disk with what else waits.
  for (const type of LEAVING) addEventListener(type, hear, true);
  return () => {
    for (const type of LEAVING) removeEventListener(type, hear, true);
  };
}

const LEAVING = ['pagehide', 'pageshow', 'visibilitychange'] as const;
