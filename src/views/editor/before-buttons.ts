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

/** What a click does something with, other than standing there. */
const BUTTONS = 'button, summary, [role=tab]';

/** Keeps what is written before a button elsewhere on the page does its part. Gives what ends it. */
export function makeKeepBeforeButtons(editor: HTMLElement, keep: () => void): () => void {
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

/** Keeps what is written while the page is out of sight; `keep` gives what takes that back. Gives what ends it. */
export function makeKeepMeanwhile(keep: () => (() => void) | undefined): () => void {
  let takeBack: (() => void) | undefined;
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
