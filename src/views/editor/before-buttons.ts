/*
 * A button that is pressed while a text is being written. Leaving the text can make its row taller, and the button would
 * go from under the pointer before the click is done. So the press does not leave the text; the click keeps it first,
 * and then does what the button is for.
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
